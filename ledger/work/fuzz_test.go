package work_test

import (
	"context"
	"testing"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/ledgertest"
	"blotter/ledger/work"
)

// FuzzLines: whatever a file of work/ says, reading it, checking it and asking
// the state of a sheet on a day do not panic.
func FuzzLines(f *testing.F) {
	for _, s := range []string{
		"work: press-2026-001\nlines:\n  - {date: 2026-03-01, event: in, sheets: [LK7-0000001]}\n",
		"work: press-2026-001\nlines:\n  - {date: 2026-03, event: out, sheets: [LK7-0000001..LK7-0000002], why: seen}\n",
		"work: press-2026-001\nlines:\n  - {date: 2026-03-01 09:40, event: in, gatherings: [Signe Rask 12], others: [BG 12]}\n",
		"work: press-2026-001\nlines:\n  - {event: closed}\n  - {date: never, event: x, mistake: 1}\n",
		"work: loan-2026-001\nlines: 3\n", "",
	} {
		f.Add([]byte(s))
	}
	base := map[string]string{"blotter.yaml": museumFile}
	n := record(base, 1, "date: 2020-06-01")
	record(base, 2)
	ctx := context.Background()
	b, err := book.Load(ctx, ledgertest.MapSource(base), book.Options{})
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		p := ledger.WorkNumber("press-2026-001").Path()
		ledger.DecodeWork(p, text)
		w, err := work.Load(ctx, ledgertest.MapSource(map[string]string{"blotter.yaml": museumFile, p: string(text)}), b)
		if err != nil {
			t.Fatal(err)
		}
		w.Check()
		w.State(n, dates.DayOf(2026, 3, 10))
	})
}
