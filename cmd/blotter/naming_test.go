package main

import (
	"testing"

	"blotter/ledger/names"
)

// TestWithAuthors: authors come from names/ only where the words are a whole
// name without them.
func TestWithAuthors(t *testing.T) {
	known := map[string]knownName{}
	for _, k := range []struct{ key, authors string }{{"Sphagnum", "L."}, {"Alchemilla vulgaris", "L."}} {
		known[nameKey(t, k.key)] = knownName{authors: k.authors}
	}
	d := &desk{names: known}
	for _, c := range []struct{ words, want, reason string }{
		{"Alchemilla vulgaris", "Alchemilla vulgaris L.", "a name of names/"},
		{"Alchemilla vulgaris Lam.", "Alchemilla vulgaris Lam.", "has authors"},
		{"Alchemilla cf. vulgaris", "Alchemilla cf. vulgaris L.", "a doubted name is still that name"},
		{"Alchemilla vulgaris agg.", "Alchemilla vulgaris agg.", "an aggregate is not the species of that author"},
		{"Sphagnum sp.", "Sphagnum sp.", "no species is named, so nobody described it"},
		{"Alchemilla alpina", "Alchemilla alpina", "not in names/"},
	} {
		if got := d.withAuthors(c.words); got != c.want {
			t.Errorf("%s (%s): %q, want %q", c.words, c.reason, got, c.want)
		}
	}
}

func nameKey(t *testing.T, words string) string {
	t.Helper()
	n, err := names.Read(words)
	if err != nil {
		t.Fatal(err)
	}
	return n.Key()
}
