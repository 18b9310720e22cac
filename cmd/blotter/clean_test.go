package main

import "testing"

func TestCleanForScreen(t *testing.T) {
	cases := []struct{ name, words, want, reason string }{
		{"plain", "Á.Löve × 5°\n\ttab", "Á.Löve × 5°\n\ttab", "label words pass"},
		{"our colour", "\x1b[31merror\x1b[0m", "\x1b[31merror\x1b[0m", "a severity may be coloured"},
		{"clear the screen", "a\x1b[2Jb", "a\uFFFD[2Jb", "a record may not"},
		{"title", "\x1b]0;owned\a", "\uFFFD]0;owned\uFFFD", "nor set the window's title"},
		{"overwrite", "Ranunculus\rTrollius", "Ranunculus\uFFFDTrollius", "nor write over a line"},
		{"right to left", "a\u202egnp.exe", "a\uFFFDgnp.exe", "nor turn the writing"},
		{"C1", "a\u009b2J", "a\uFFFD2J", "nor by the 8-bit form"},
	}
	for _, c := range cases {
		if got := cleanForScreen(c.words); got != c.want {
			t.Errorf("%s (%s): %q, want %q", c.name, c.reason, got, c.want)
		}
	}
}
