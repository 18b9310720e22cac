package work_test

import (
	"testing"

	"blotter/ledger"
	"blotter/ledger/work"
)

// TestTreated holds what counts as treated: a run whose log kept the profile,
// and one of which only the times are known; not one that was judged and did
// not.
func TestTreated(t *testing.T) {
	for _, x := range []struct {
		result  string
		counts  bool
		finding bool
	}{{"passed", true, false}, {"times-only", true, false}, {"", true, false}, {"failed", false, true}} {
		files := map[string]string{}
		n := record(files, 1)
		result := ""
		if x.result != "" {
			result = ", result: " + x.result
		}
		put(files, "accession-2026-001", "", "date: 2026-01-01, event: received, sheets: ["+string(n)+"]")
		put(files, "freezer-2026-001", "", "date: 2026-01-02, event: in, sheets: ["+string(n)+"]", "date: 2026-01-06, event: out"+result, "date: 2026-01-07, event: unpacked",
			"date: 2026-01-08, event: filed, sheets: ["+string(n)+"]")
		w := load(t, files)
		if d, ok := w.State(n, day(t, "2026-02-01")).Has("treated"); ok != x.counts || ok && d.Result != x.result {
			t.Errorf("result %q: treated is %v (%+v), want %v", x.result, ok, d, x.counts)
		}
		if got := untreated(w); got != x.finding {
			t.Errorf("result %q: work-untreated is found: %v, want %v", x.result, got, x.finding)
		}
	}
}

// TestNeverTreated holds that a museum may say that it does not treat what it
// files: then neither new sheets nor returned loans are found fault with.
func TestNeverTreated(t *testing.T) {
	for _, x := range []struct {
		settings string
		want     bool
	}{{"", true}, {"habits:\n  treatment: {needed: \"yes\"}\n", true}, {"habits:\n  treatment: {needed: \"no\"}\n", false}} {
		files := map[string]string{"blotter.yaml": museumFile + x.settings}
		a, b := record(files, 1), record(files, 2)
		put(files, "accession-2026-001", "", "date: 2026-01-01, event: received, sheets: ["+string(a)+"]", "date: 2026-01-02, event: filed, sheets: ["+string(a)+"]")
		put(files, "loan-2026-001", "", "date: 2026-01-01, event: sent, number: parcel 1, sheets: ["+string(b)+"]", "date: 2026-01-02, event: returned", "date: 2026-01-03, event: filed")
		got := 0
		for _, f := range load(t, files).Check() {
			if f.Code == "work-untreated" || f.Code == "work-returned" {
				got++
			}
		}
		if (got == 2) != x.want || got != 2 && got != 0 {
			t.Errorf("%q: %d findings", x.settings, got)
		}
	}
}

func untreated(w *work.Works) bool {
	for _, f := range w.Check() {
		if f.Code == "work-untreated" && f.Severity == ledger.Warning {
			return true
		}
	}
	return false
}
