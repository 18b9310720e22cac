package work_test

import (
	"context"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/ledgertest"
	"blotter/ledger/work"
)

// TestLaterLines: the state of a sheet on a day does not depend on lines of
// later days, whatever they say.
func TestLaterLines(t *testing.T) {
	files := map[string]string{"blotter.yaml": museumFile}
	for i := range 4 {
		record(files, i+1, "date: 2020-06-01")
	}
	ctx := context.Background()
	b, err := book.Load(ctx, ledgertest.MapSource(files), book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(r *rapid.T) {
		all, early := map[string]string{"blotter.yaml": museumFile}, map[string]string{"blotter.yaml": museumFile}
		until := rapid.IntRange(1, 20).Draw(r, "until")
		for _, kind := range []string{"press", "freezer", "loan", "shelf"} {
			k, _ := ledger.WorkKindOf(kind)
			var lines, before []string
			for range rapid.IntRange(1, 6).Draw(r, "lines") {
				d := rapid.IntRange(1, 20).Draw(r, "day")
				line := fmt.Sprintf("date: 2026-03-%02d, event: %s", d, rapid.SampledFrom(k.Events).Draw(r, "event"))
				if rapid.Bool().Draw(r, "named") {
					line += fmt.Sprintf(", sheets: [LK7-%07d]", rapid.IntRange(1, 4).Draw(r, "sheet"))
				}
				if lines = append(lines, line); d <= until {
					before = append(before, line)
				}
			}
			put(all, ledger.WorkNumber(kind+"-2026-001"), "", lines...)
			put(early, ledger.WorkNumber(kind+"-2026-001"), "", before...)
		}
		for p, text := range files {
			all[p], early[p] = text, text
		}
		on := dates.DayOf(2026, 3, until)
		x, y := load(t, all), load(t, early)
		for e := range b.All() {
			if a, b := x.State(e.Number, on), y.State(e.Number, on); words(a) != words(b) {
				r.Fatalf("%s on %s: %s, without later lines %s", e.Number, on, words(a), words(b))
			}
		}
	})
}

func words(s work.State) string {
	out := s.Words()
	for _, d := range s.Done {
		out += fmt.Sprintf("; %s %s", d.What, d.Day)
	}
	return out
}
