package work_test

import (
	"context"
	"fmt"
	"path/filepath"
	"testing"

	"pgregory.net/rapid"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/disk"
	"blotter/ledger/ledgertest"
	"blotter/ledger/work"
)

// drawn is the lines of one work of a kind, each on a day of its own.
func drawn(r *rapid.T, kind string) []string {
	k, _ := ledger.WorkKindOf(kind)
	var lines []string
	for i := range rapid.IntRange(1, 6).Draw(r, "lines") {
		line := fmt.Sprintf("date: 2026-03-%02d, event: %s", 2+3*i+rapid.IntRange(0, 2).Draw(r, "day"), rapid.SampledFrom(k.Events).Draw(r, "event"))
		if rapid.Bool().Draw(r, "named") {
			line += fmt.Sprintf(", sheets: [LK7-%07d..LK7-%07d]", rapid.IntRange(1, 3).Draw(r, "sheet"), rapid.IntRange(3, 5).Draw(r, "last"))
		}
		lines = append(lines, line)
	}
	return lines
}

var drawnKinds = []string{"press", "freezer", "loan", "shelf", "accession"}

// same compares every sheet's state on some days, and the findings.
func same(r *rapid.T, what string, x, y *work.Works) {
	for n := 1; n <= 5; n++ {
		no := ledger.Number(fmt.Sprintf("LK7-%07d", n))
		for _, d := range []int{1, 8, 15, 31} {
			on := dates.DayOf(2026, 3, d)
			if a, b := words(x.State(no, on)), words(y.State(no, on)); a != b {
				r.Fatalf("%s on %s: %s; %s: %s", no, on, a, what, b)
			}
		}
	}
	if a, b := fmt.Sprint(x.Check()), fmt.Sprint(y.Check()); a != b {
		r.Fatalf("findings %s; %s: %s", a, what, b)
	}
}

// TestKeptIsScratch: works that come one after another, each time with the
// cache of the time before, are those read from scratch.
func TestKeptIsScratch(t *testing.T) {
	dir, runs := t.TempDir(), 0
	rapid.Check(t, func(r *rapid.T) {
		runs++
		cache := disk.NewCache(filepath.Join(dir, fmt.Sprint(runs)))
		files := map[string]string{"blotter.yaml": museumFile}
		for i := range 5 {
			record(files, i+1, "date: 2020-06-01")
		}
		var kept *work.Works
		for _, kind := range drawnKinds {
			lines := drawn(r, kind)
			for upTo := range lines { // line by line
				put(files, ledger.WorkNumber(kind+"-2026-001"), "", lines[:upTo+1]...)
				src := ledgertest.MapSource(files)
				b, err := book.Load(context.Background(), src, book.Options{})
				if err != nil {
					r.Fatal(err)
				}
				if kept, err = work.LoadKept(context.Background(), src, b, cache); err != nil {
					r.Fatal(err)
				}
			}
		}
		same(r, "from scratch", kept, load(t, files))
	})
}

// TestOrderOfLines: lines of different days count by their days, whatever
// their order in the file; a sheet that no line is about is in the cabinet.
func TestOrderOfLines(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		one, other := map[string]string{"blotter.yaml": museumFile}, map[string]string{"blotter.yaml": museumFile}
		for i := range 6 {
			record(one, i+1, "date: 2020-06-01")
			record(other, i+1, "date: 2020-06-01")
		}
		for _, kind := range drawnKinds {
			lines := drawn(r, kind)
			put(one, ledger.WorkNumber(kind+"-2026-001"), "", lines...)
			put(other, ledger.WorkNumber(kind+"-2026-001"), "", rapid.Permutation(lines).Draw(r, "order")...)
		}
		x, y := load(t, one), load(t, other)
		for n := 1; n <= 6; n++ {
			no, on := ledger.Number(fmt.Sprintf("LK7-%07d", n)), dates.DayOf(2026, 3, 31)
			if a, b := words(x.State(no, on)), words(y.State(no, on)); a != b {
				r.Fatalf("%s: %s; in another order: %s", no, a, b)
			}
		}
		if s := x.State("LK7-0000006", dates.DayOf(2026, 3, 31)); s.Where != work.Cabinet || len(x.HistoryOf("LK7-0000006")) > 0 {
			r.Fatalf("a sheet in no work is %s", s.Words())
		}
	})
}
