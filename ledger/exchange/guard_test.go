package exchange

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

func TestGuard(t *testing.T) {
	tests := []struct{ cell, want, reason string }{
		{"", "", "nothing"},
		{"Ranunculus acris", "Ranunculus acris", "words"},
		{"=HYPERLINK(\"x\")", "'=HYPERLINK(\"x\")", "a formula"},
		{"+47 56", "'+47 56", "plus"},
		{"-", "'-", "a dash alone"},
		{"-33.92", "-33.92", "a number is no formula"},
		{"-33.92, 18.4", "'-33.92, 18.4", "a number and more"},
		{"-1+cmd|' /C calc'!A0", "'-1+cmd|' /C calc'!A0", "minus and a formula"},
		{"@SUM(A1)", "'@SUM(A1)", "at"},
		{"\t=1", "'\t=1", "a tab"},
		{"\r=1", "'\r=1", "a carriage return"},
		{"\n=1", "'\n=1", "a line feed"},
		{"＝1", "'＝1", "a wide sign"},
		{"'s-Gravenhage", "'s-Gravenhage", "an apostrophe of its own"},
		{"'=1", "''=1", "an apostrophe before a sign"},
		{"''=1", "'''=1", "two apostrophes"},
		{"'", "'", "an apostrophe alone"},
	}
	for _, tt := range tests {
		got := Guard(tt.cell)
		if got != tt.want {
			t.Errorf("%s: Guard(%q) = %q, want %q", tt.reason, tt.cell, got, tt.want)
		}
		if back := Unguard(got); back != tt.cell {
			t.Errorf("%s: Unguard(%q) = %q, want %q", tt.reason, got, back, tt.cell)
		}
	}
}

func TestGuardIsTakenBack(t *testing.T) {
	cell := rapid.OneOf(rapid.StringMatching(`'{0,3}[=+@\t\r\n-]?.{0,5}`), rapid.String())
	rapid.Check(t, func(t *rapid.T) {
		s := cell.Draw(t, "cell")
		got := Guard(s)
		if Unguard(got) != s {
			t.Fatalf("%q came back as %q", s, Unguard(got))
		}
		if got != "" && strings.ContainsRune("=+@\t\r\n", rune(got[0])) {
			t.Fatalf("%q is not guarded", got)
		}
	})
}
