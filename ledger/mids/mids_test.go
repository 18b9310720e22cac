package mids

import (
	"encoding/csv"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// standard reads a table of the standard's files (TDWG, tdwg/mids, 2026-04-30).
func standard(t *testing.T, name string) []map[string]string {
	t.Helper()
	dir := filepath.Join("..", "..", "..", "shared", "standards")
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

// termOf is a term of the mapping as this package names it.
func termOf(row map[string]string) string {
	_, term, _ := strings.Cut(row["sssom:object_id"], ":")
	_, class, _ := strings.Cut(row["sssom:object_category"], ":")
	if class == "Occurrence" {
		return term
	}
	return class + ":" + term
}

// Each row of the mapping to Darwin Core (mids_dwc-a_biology_1.sssom.tsv, 65
// rows): a row with its term alone, or with all terms that it wants together,
// gives its element; with a term less or a marker it does not; and no term
// gives anything that no row names.
func TestMappingRowByRow(t *testing.T) {
	rows := standard(t, "mids_dwc-a_biology_1.sssom.tsv")
	sets := map[string][]string{} // element and term: all terms that are wanted together
	for _, row := range rows {
		together := strings.Split(row["sssom:object_match_field"], "|")
		if len(together) < 2 {
			continue
		}
		for _, term := range together {
			_, local, _ := strings.Cut(term, ":")
			for _, x := range together {
				_, l, _ := strings.Cut(x, ":")
				key := row["sssom:subject_id"] + " " + local
				if !slices.Contains(sets[key], l) {
					sets[key] = append(sets[key], l)
				}
			}
		}
	}
	named := map[string]bool{}
	right := 0
	for _, row := range rows {
		name, term := strings.TrimPrefix(row["sssom:subject_id"], "mids:"), termOf(row)
		named[name+" "+term] = true
		at := Place(name)
		if at < 0 {
			t.Errorf("%s is not in the table", name)
			continue
		}
		if want := "mids:MIDS" + strconv.Itoa(Elements[at].Level); row["sssom:subject_category"] != want {
			t.Errorf("%s is of %s, not %s", name, row["sssom:subject_category"], want)
		}
		terms := []string{term}
		if row["sssom:predicate_id"] == "owl:intersectionOf" {
			terms = sets[row["sssom:subject_id"]+" "+term]
		}
		if len(terms) == 0 || !given(at, terms, "x") {
			t.Errorf("%s is not given by %v", name, terms)
			continue
		}
		for i := range terms {
			if len(terms) > 1 && given(at, slices.Delete(slices.Clone(terms), i, i+1), "x") {
				t.Errorf("%s is given without %s", name, terms[i])
			}
		}
		for removed := range strings.SplitSeq(row["semapv:RegexRemoval"], "|") {
			if given(at, terms, removed) {
				t.Errorf("%s is given by %v, which say %q", name, terms, removed)
			}
		}
		right++
	}
	t.Logf("%d of %d rows", right, len(rows))
	if right != 65 {
		t.Errorf("%d rows hold, want 65", right)
	}
	for _, e := range Elements {
		for _, set := range e.Any {
			for _, term := range set {
				if !named[e.Name+" "+term] {
					t.Errorf("%s: no row names %s", e.Name, term)
				}
			}
		}
	}
}

// given reports whether a row that has only these terms gives an element.
func given(at int, terms []string, value string) bool {
	return OfRow(func(term string) []string {
		if slices.Contains(terms, term) {
			return []string{value}
		}
		return nil
	}).Has(at)
}

// Every element that is asked of biology is in the table
// (information_elements.tsv), and no other.
func TestElements(t *testing.T) {
	var want, got []string
	for _, row := range standard(t, "information_elements.tsv") {
		if slices.Contains(strings.Split(row["isRequiredBy"], "|"), "Biology") {
			want = append(want, row["informationElement_localName"])
		}
	}
	level := 0
	for _, e := range Elements {
		got = append(got, e.Name)
		if e.Level < level {
			t.Errorf("%s stands out of order", e.Name)
		}
		level = e.Level
	}
	slices.Sort(want)
	slices.Sort(got)
	if !slices.Equal(want, got) {
		t.Errorf("got %v\nwant %v", got, want)
	}
}

func TestLevel(t *testing.T) {
	all := Set(1<<len(Elements) - 1)
	without := func(names ...string) Set {
		s := all
		for _, n := range names {
			s &^= 1 << Place(n)
		}
		return s
	}
	tests := []struct {
		name  string
		set   Set
		level int
		lacks string
	}{
		{"everything", all, 3, ""},
		{"nothing", 0, -1, "PhysicalSpecimenID Organization"},
		{"no identifiers", without("OrganizationID", "MediaID"), 2, "OrganizationID MediaID"},
		{"no picture, no identifier", without("Media", "MediaID"), 1, "Media"},
		{"a lower level is lacking", without("License"), 0, "License"},
		{"two levels are lacking", without("Name", "Media"), 0, "Name"},
	}
	for _, tt := range tests {
		var lacks []string
		for _, e := range tt.set.Lacks().Elements() {
			lacks = append(lacks, e.Name)
		}
		if l := tt.set.Level(); l != tt.level || strings.Join(lacks, " ") != tt.lacks {
			t.Errorf("%s: level %d, lacks %v; want %d, %s", tt.name, l, lacks, tt.level, tt.lacks)
		}
	}
}
