package main

import (
	"io"
	"strings"
	"unicode/utf8"
)

// cleanWriter keeps words of the ledger from steering the terminal: control
// characters, and characters that turn the direction of writing, come out as
// the replacement character. Line ends, tabs and our own colours pass.
type cleanWriter struct{ to io.Writer }

func (w cleanWriter) Write(p []byte) (int, error) {
	if clean := cleanForScreen(string(p)); clean != string(p) {
		_, err := io.WriteString(w.to, clean)
		return len(p), err
	}
	return w.to.Write(p)
}

// ourColours are the only sequences that may reach the terminal.
var ourColours = []string{"\x1b[31m", "\x1b[33m", "\x1b[0m"}

func cleanForScreen(s string) string {
	if strings.IndexFunc(s, steers) < 0 {
		return s
	}
	var b strings.Builder
	for i := 0; i < len(s); {
		if n := colourAt(s[i:]); n > 0 {
			b.WriteString(s[i : i+n])
			i += n
			continue
		}
		r, size := utf8.DecodeRuneInString(s[i:])
		if steers(r) {
			r = utf8.RuneError
		}
		b.WriteRune(r)
		i += size
	}
	return b.String()
}

func colourAt(s string) int {
	for _, c := range ourColours {
		if strings.HasPrefix(s, c) {
			return len(c)
		}
	}
	return 0
}

// steers reports whether a character acts on the terminal instead of being
// shown: C0 and C1 controls but line end and tab, and Unicode's bidirectional
// controls (Unicode Standard Annex 9, table of directional formatting
// characters).
func steers(r rune) bool {
	switch {
	case r == '\n' || r == '\t':
		return false
	case r < 0x20, r >= 0x7f && r <= 0x9f:
		return true
	case r == 0x061c, r == 0x200e, r == 0x200f, r >= 0x202a && r <= 0x202e, r >= 0x2066 && r <= 0x2069:
		return true
	}
	return false
}
