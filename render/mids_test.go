package render

import (
	"context"
	"encoding/csv"
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"blotter/ledger"
)

// TestMIDSElements holds the list to the tables of the standard's draft: the
// elements asked of biology (information_elements.tsv), each at its level (the
// mapping to Darwin Core of 2023-09, mids_dwc-a_biology_1.sssom.tsv).
func TestMIDSElements(t *testing.T) {
	asked := map[string]bool{}
	for _, row := range midsTable(t, "information_elements.tsv") {
		if slices.Contains(strings.Split(row["isRequiredBy"], "|"), "Biology") {
			asked[row["informationElement_localName"]] = true
		}
	}
	level := map[string]string{}
	for _, row := range midsTable(t, "mids_dwc-a_biology_1.sssom.tsv") {
		level[strings.TrimPrefix(row["sssom:subject_id"], "mids:")] = strings.TrimPrefix(row["sssom:subject_category"], "mids:MIDS")
	}
	last := 0
	for _, e := range midsElements {
		if !asked[e.name] || level[e.name] != itoa(e.level) {
			t.Errorf("%s at level %d: the standard asks for it: %t, at level %q", e.name, e.level, asked[e.name], level[e.name])
		}
		if e.level < last {
			t.Errorf("%s stands out of order", e.name)
		}
		last = e.level
		delete(asked, e.name)
	}
	for _, n := range slices.Sorted(maps.Keys(asked)) {
		t.Errorf("%s is left out", n)
	}
}

func midsTable(t *testing.T, name string) []map[string]string {
	t.Helper()
	dir := filepath.Join("..", "..", "shared", "standards")
	if o := os.Getenv("BLOTTER_ORACLES"); o != "" {
		dir = filepath.Join(o, "..", "standards")
	}
	h, err := os.Open(filepath.Join(dir, "mids", name))
	if errors.Is(err, fs.ErrNotExist) {
		t.Skip("the standard's tables are not here")
	} else if err != nil {
		t.Fatal(err)
	}
	defer h.Close()
	r := csv.NewReader(h)
	r.Comma, r.LazyQuotes, r.FieldsPerRecord = '\t', true, -1
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, v := range row {
			m[rows[0][i]] = v
		}
		out = append(out, m)
	}
	return out
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
		level, lacks := x.mids()
		if got := strings.Join(lacks, " "); level != c.level || got != c.lacks {
			t.Errorf("%s: level %d, lacks %s; want %d, %s", c.name, level, got, c.level, c.lacks)
		}
		x.story.Last = Revision{}
		if level, lacks := x.mids(); level != 0 || strings.Join(lacks, " ") != "Modified" {
			t.Errorf("%s, not yet entered: level %d, lacks %v", c.name, level, lacks)
		}
	}
}
