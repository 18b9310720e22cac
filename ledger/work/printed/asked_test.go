package printed

import (
	"fmt"
	"testing"

	"blotter/ledger"
	"blotter/ledger/dates"
)

// TestAsked: which sheets a list for the wall tells of, once labels are
// printed here.
func TestAsked(t *testing.T) {
	files := map[string]string{}
	sheet(files, 1, "date: 2026-07-14\n")
	sheet(files, 2, "date: 2025-11-03\n")
	sheet(files, 3, "date: 2009-07-14\n")
	sheet(files, 4, "date: 1931\n")
	sheet(files, 5, "")
	works(files, "accession-2026-001", "  - {date: 2026-01-02, event: received, sheets: [LK7-0000004]}\n")
	works(files, "printing-2026-001", "  - {date: 2026-11-03, event: printed, sheets: [LK7-0000001], paper: labels, revision: 3f2a91c0aa11}\n"+
		"  - {date: 2026-11-04, event: printed, sheets: [LK7-0000001], paper: types, revision: 8c1d0fe}\n"+
		"  - {date: 2026-11-05, event: printed, sheets: [LK7-0000001], paper: labels}\n")
	w := load(t, files)
	first, ok := First(w, Labels)
	if !ok || first.Revision != "3f2a91c0aa11" {
		t.Fatalf("first %+v", first)
	}
	if _, ok := First(w, Slips); ok {
		t.Error("slips were never printed")
	}
	for _, c := range []struct {
		n      int
		want   bool
		reason string
	}{
		{1, true, "of this season"}, {2, true, "a year before the first printing"}, {3, false, "labelled by other means in its time"},
		{4, true, "old, and it came into the house by a work"}, {5, false, "nobody knows when it was gathered"},
	} {
		e := w.Book().Find(ledger.Number(fmt.Sprintf("LK7-%07d", c.n)))
		if got := Asked(w, e, first.Day); got != c.want {
			t.Errorf("sheet %d (%s): %v", c.n, c.reason, got)
		}
	}
	for _, c := range []struct {
		on   dates.Day
		want []string
	}{
		{dates.DayOf(2026, 11, 2), nil},
		{dates.DayOf(2026, 11, 3), []string{"label printed 3 November 2026, revision 3f2a91c"}},
		{dates.DayOf(2026, 11, 9), []string{"label printed 5 November 2026", "type label printed 4 November 2026, revision 8c1d0fe"}},
	} {
		var got []string
		for _, p := range Papers(w, "LK7-0000001", c.on) {
			got = append(got, p.Words())
		}
		if fmt.Sprint(got) != fmt.Sprint(c.want) {
			t.Errorf("on %s: %q, want %q", c.on, got, c.want)
		}
	}
}
