package clash_test

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/clash"
	"blotter/ledger/ledgertest"
	"blotter/ledger/work"
)

func sheet(n ledger.Number, more string) string {
	return "specimen: " + string(n) + "\nentry: full\n" + more
}

const (
	rask      = "collector: Signe Rask\ncoll_no: \"1311\"\ndate: 3.iv.2026\n"
	bannister = "collector: Ove Bannister\ncoll_no: \"88\"\ndate: 2.vi.2026\n"
)

// side is a copy with what it has otherwise than base.
func side(base, files map[string]string) clash.Side {
	s := clash.Side{Source: ledgertest.MapSource(files)}
	blob := func(m map[string]string, p string) ledger.BlobID {
		if text, ok := m[p]; ok {
			return ledger.BlobOf([]byte(text))
		}
		return ""
	}
	all := maps.Clone(files)
	maps.Copy(all, base)
	for _, p := range slices.Sorted(maps.Keys(all)) {
		if a, b := blob(base, p), blob(files, p); a != b {
			s.Changes = append(s.Changes, ledger.Change{Path: p, Old: a, New: b})
		}
	}
	return s
}

// TestFind: which numbers count as given twice.
func TestFind(t *testing.T) {
	const n, m = ledger.Number("LK7-0000519"), ledger.Number("LK7-0000518")
	batch, other := ledger.WorkNumber("freezer-2026-001").Path(), "work: freezer-2026-001\nlines:\n  - {date: 2026-11-03 10:40, event: in, sheets: [LK7-0000001], by: Tiril Aune}\n"
	for _, c := range []struct {
		name, reason       string
		base, mine, theirs map[string]string
		want               string // numbers, with the field by which they differ
	}{
		{"two plants", "another collector", nil, map[string]string{n.Path(): sheet(n, rask)}, map[string]string{n.Path(): sheet(n, bannister)}, "LK7-0000519 collector"},
		{"the same words", "one and the same file", nil, map[string]string{n.Path(): sheet(n, rask)}, map[string]string{n.Path(): sheet(n, rask)}, ""},
		{"one sheet typed twice", "two people typed one label; that is merged, not renumbered", nil,
			map[string]string{n.Path(): sheet(n, rask)}, map[string]string{n.Path(): sheet(n, rask+"habitat: meadow\n")}, ""},
		{"different numbers", "", nil, map[string]string{n.Path(): sheet(n, rask)}, map[string]string{m.Path(): sheet(m, bannister)}, ""},
		{"one folder or another", "a number is one, wherever its file lies", nil,
			map[string]string{n.Path(): sheet(n, rask)}, map[string]string{"specimens/voss/" + string(n) + ".yaml": sheet(n, bannister)}, "LK7-0000519 collector"},
		{"both had it", "it was changed, not given", map[string]string{n.Path(): sheet(n, "")},
			map[string]string{n.Path(): sheet(n, rask)}, map[string]string{n.Path(): sheet(n, bannister)}, ""},
		{"taken away again", "only one gave it", nil, map[string]string{}, map[string]string{n.Path(): sheet(n, bannister)}, ""},
		{"works", "two batches that began otherwise", nil, map[string]string{batch: other}, map[string]string{batch: strings.Replace(other, "Tiril Aune", "Ove Bannister", 1)},
			"freezer-2026-001 the first line"},
		{"several, in order", "by path: sheets, then works", nil,
			map[string]string{batch: other, n.Path(): sheet(n, rask), m.Path(): sheet(m, rask)},
			map[string]string{batch: strings.Replace(other, "Tiril Aune", "Ove Bannister", 1), n.Path(): sheet(n, bannister), m.Path(): sheet(m, bannister)},
			"LK7-0000518 collector, LK7-0000519 collector, freezer-2026-001 the first line"},
		{"other files", "people.yaml is merged line by line", nil, map[string]string{"people.yaml": "a"}, map[string]string{"people.yaml": "b"}, ""},
	} {
		mine, theirs := map[string]string{}, map[string]string{}
		maps.Copy(mine, c.base)
		maps.Copy(theirs, c.base)
		maps.Copy(mine, c.mine)
		maps.Copy(theirs, c.theirs)
		for turn := range 2 {
			found, err := clash.Find(context.Background(), side(c.base, mine), side(c.base, theirs))
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, x := range found {
				got = append(got, x.Name()+" "+x.Field)
				if string(x.Mine) == string(x.Theirs) || len(x.Mine) == 0 || len(x.Theirs) == 0 {
					t.Errorf("%s: the two files of %s are not told", c.name, x.Name())
				}
			}
			if s := strings.Join(got, ", "); s != c.want {
				t.Errorf("%s (%s), turn %d: %q, want %q", c.name, c.reason, turn, s, c.want)
			}
			mine, theirs = theirs, mine // whoever shares second, the same numbers clash
		}
	}
}

// TestPapers: what was printed with a number, newest first, whatever paper it
// is, and of numbers that no sheet had then.
func TestPapers(t *testing.T) {
	files := map[string]string{"blotter.yaml": "format: \"1\"\nname: Lauvkroken Museum\ncode: LK7\n", ledger.Number("LK7-0000519").Path(): sheet("LK7-0000519", rask)}
	for i, line := range []string{
		"{date: 2026-11-03, event: printed, sheets: [LK7-0000519], paper: labels, revision: 3f2a91c0aa11}",
		"{date: 2026-11-05, event: printed, sheets: [LK7-0000501..LK7-0000520], paper: strips, revision: 3f2a91c0aa11}",
		"{date: 2026-11-01, event: printed, sheets: [LK7-0000500..LK7-0000599], paper: numbers}",
		"{date: 2026-11-04, event: printed, sheets: [LK7-0000518], paper: slips, revision: 3f2a91c0aa11}",
	} {
		n := ledger.WorkNumber(fmt.Sprintf("printing-2026-%03d", i+1))
		files[n.Path()] = "work: " + string(n) + "\nlines:\n  - " + line + "\n"
	}
	src := ledgertest.MapSource(files)
	b, err := book.Load(context.Background(), src, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	w, err := work.Load(context.Background(), src, b)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		n            ledger.Number
		want, reason string
	}{
		{"LK7-0000519", "strips printing-2026-002, labels printing-2026-001, numbers printing-2026-003", "a label is about, and what was printed ahead"},
		{"LK7-0000521", "", "printed ahead, and no sheet has it yet"},
		{"LK7-0000600", "", "nothing"},
	} {
		var got []string
		for _, p := range clash.Papers(w, c.n) {
			got = append(got, p.Paper+" "+string(p.Work))
		}
		if s := strings.Join(got, ", "); s != c.want {
			t.Errorf("%s (%s): %q, want %q", c.n, c.reason, s, c.want)
		}
	}
}
