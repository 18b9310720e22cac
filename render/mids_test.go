package render

import (
	"context"
	"strings"
	"testing"

	"blotter/ledger"
	"blotter/ledger/mids"
	"blotter/render/page"
)

// TestMIDSWords: every language has words for every element.
func TestMIDSWords(t *testing.T) {
	for code, l := range page.Languages {
		for _, e := range mids.Elements {
			if l.MIDS[e.Name] == "" {
				t.Errorf("%s has no words for %s", code, e.Name)
			}
		}
	}
}

// TestMIDSLevel reads the level off sheets that give less and less.
func TestMIDSLevel(t *testing.T) {
	in := goldenInput(t)
	s := newShelf(in)
	for _, c := range []struct {
		name  string
		no    ledger.Number
		level int
		lacks string
	}{
		{"all but a picture", "LK7-0000482", 1, "Media"},
		{"no position, no picture", "LK7-0000012", 1, "QuantitativeLocation Media"},
		{"withheld: country and province count, nothing of what is withheld", "LK7-0000465", 1, "QuantitativeLocation DateCollected CollectingNumber Media"},
	} {
		e := s.published(c.no)
		d, why, err := in.Reading(context.Background(), e)
		if err != nil {
			t.Fatal(err)
		}
		st, err := in.Story(context.Background(), e, d.Record)
		if err != nil {
			t.Fatal(err)
		}
		x := s.sheetOf(e, d, why, st)
		set := x.midsOf()
		level := set.Level()
		if got := elementNames(set.Lacks()); level != c.level || got != c.lacks {
			t.Errorf("%s: level %d, lacks %s; want %d, %s", c.name, level, got, c.level, c.lacks)
		}
		x.story.Last = Revision{}
		if set := x.midsOf(); set.Level() != 0 || elementNames(set.Lacks()) != "Modified" {
			t.Errorf("%s, not yet entered: level %d, lacks %s", c.name, set.Level(), elementNames(set.Lacks()))
		}
	}
}

func elementNames(set mids.Set) string {
	var out []string
	for _, e := range set.Elements() {
		out = append(out, e.Name)
	}
	return strings.Join(out, " ")
}
