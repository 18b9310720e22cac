package work_test

import (
	"testing"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/work"
)

// lineSeeds are lines of a work of a kind. All but the broken ones at the end
// are events of their kind: others are dropped before anything is joined.
var lineSeeds = []struct {
	kind, lines string
	events      int // that count
}{
	{"press", "  - {date: 2026-03-01, event: pressed, gatherings: [Signe Rask 12..14]}\n  - {date: 2026-03, event: dried, by: Signe Rask}\n", 2},
	{"freezer", "  - {date: \"2026-03-01 09:40\", event: in, sheets: [LK7-0000001..LK7-0000002]}\n  - {date: 2026-03-04, event: out, result: passed}\n", 2},
	{"mounting", "  - {date: 2026-03-01, event: glued, sheets: [LK7-0000001]}\n  - {date: 2026-03-02, event: mounted, why: seen}\n  - {date: 2026-03-03, event: filed, to: \"cabinet 4\"}\n", 3},
	{"loan", "  - {date: 2026-03-01, event: sent, sheets: [LK7-0000001], others: [FJ3 12]}\n  - {date: 2026-03-09, event: returned, sheets: [LK7-0000001]}\n", 2},
	{"press", "  - {event: closed}\n  - {date: never, event: x, mistake: 1}\n", 0},
	{"press", "3\n", 0},
	{"shelf", "", 0},
}

// withLines loads two specimens and one work of a kind with these lines. The
// book is of the same files: it lists those of work/.
func withLines(t testing.TB, kind, lines string) (*work.Works, ledger.Number) {
	files := map[string]string{}
	n := record(files, 1, "date: 2020-06-01", "collector: Signe Rask", `coll_no: "12"`)
	record(files, 2)
	w := ledger.WorkNumber(kind + "-2026-001")
	files[w.Path()] = "work: " + string(w) + "\nlines:\n" + lines
	return load(t, files), n
}

// TestLineSeeds: the seeds reach the events, or fuzzing would ask nothing.
func TestLineSeeds(t *testing.T) {
	for _, s := range lineSeeds {
		w, _ := withLines(t, s.kind, s.lines)
		if got := len(w.Events()); got != s.events {
			t.Errorf("%s %q: %d events, want %d", s.kind, s.lines, got, s.events)
		}
	}
}

// FuzzLines: whatever the lines of a work of any kind say, reading them,
// checking them and asking the state of a sheet on a day do not panic.
func FuzzLines(f *testing.F) {
	kinds := ledger.WorkKinds()
	for _, s := range lineSeeds {
		for i, k := range kinds {
			if k.Name == s.kind {
				f.Add(uint8(i), s.lines)
			}
		}
	}
	f.Fuzz(func(t *testing.T, kind uint8, lines string) {
		w, n := withLines(t, kinds[int(kind)%len(kinds)].Name, lines)
		w.Check()
		w.State(n, dates.DayOf(2026, 3, 10))
	})
}
