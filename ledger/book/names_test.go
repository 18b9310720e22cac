package book_test

import (
	"context"
	"testing"

	"blotter/ledger/book"
	"blotter/ledger/ledgertest"
	"blotter/ledger/reading"
)

// TestRenamings holds names/ to record.md, rule 4.
func TestRenamings(t *testing.T) {
	src := ledgertest.MapSource(map[string]string{
		"blotter.yaml": museumFile,
		"names/Ericaceae.yaml": `family: Ericaceae
names:
  - name: Kalmia procumbens (L.) Gift
  - {name: Loiseleuria procumbens (L.) Desv., of: Kalmia procumbens (L.) Gift}
  - {name: Azalea procumbens L., of: Loiseleuria procumbens (L.) Desv.}
  - {name: Erica prima L., of: Erica secunda L.}
  - {name: Erica secunda L., of: Erica tertia L.}
  - {name: Erica tertia L., of: Erica secunda L.}
  - {name: Erica sola L., of: Erica sola L.}
  - {name: Erica vana L., of: Erica nusquam L.}
`})
	b, err := book.Load(context.Background(), src, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	cases := []struct {
		words, accepted string
		steps           int
		reason          string
	}{
		{"Kalmia procumbens", "Kalmia procumbens", 0, "accepted itself"},
		{"Loiseleuria procumbens", "Kalmia procumbens", 1, "a synonym"},
		{"Loiseleuria cf. procumbens (L.) Desv.", "Kalmia procumbens", 1, "doubt and authors do not matter"},
		{"Azalea procumbens", "Kalmia procumbens", 2, "a synonym of a synonym"},
		{"Loiseleuria procumbens or Phyllodoce caerulea", "", 0, "neither is renamed alone"},
		{"Erica prima", "Erica prima", 0, "leads into a ring"},
		{"Erica secunda", "Erica secunda", 0, "is of a ring"},
		{"Erica sola", "Erica sola", 0, "is a synonym of itself"},
		{"Erica vana", "Erica vana", 0, "its accepted name is in no file"},
		{"Erica tetralix", "", 0, "not in the list"},
	}
	for _, c := range cases {
		n := reading.ReadName(c.words)
		if got := len(b.Museum.Renamings(n)); got != c.steps {
			t.Errorf("%s: %d renamings, want %d (%s)", c.words, got, c.steps, c.reason)
		}
		got := ""
		if a := b.Museum.Names.Accepted(n.Key()); a != nil && len(n.Keys) == 1 {
			got = a.Key()
		}
		if got != c.accepted {
			t.Errorf("%s: accepted %q, want %q (%s)", c.words, got, c.accepted, c.reason)
		}
	}
}
