package ledger_test

import (
	"strings"
	"testing"

	"blotter/ledger"
)

// TestCompareKey: the same as comparing the keys, of any two texts.
func TestCompareKey(t *testing.T) {
	all := []ledger.Number{"", "L", "l", "LK7", "lk7-0000482", "LK7-0000482", "LK7-0000483", "LK7-00004821", "Ål-1", "ål-1", "Å", "LK7-ı", "LK7-İ", "LK7-\u212a", "LK7-k", "Z", "[", "\xff", "\xffA"}
	for _, a := range all {
		for _, b := range all {
			if got, want := a.CompareKey(b.Key()), strings.Compare(a.Key(), b.Key()); got != want {
				t.Errorf("%q against the key of %q: %d, not %d", a, b, got, want)
			}
		}
	}
}
