package work_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/ledgertest"
	"blotter/ledger/work"
)

const museumFile = "format: \"1\"\nname: Lauvkroken Museum\ncode: LK7\nnumbering:\n  prefix: LK7-\n  digits: 7\n"

// record is the file of a specimen of Signe Rask.
func record(files map[string]string, n int, more ...string) ledger.Number {
	no := ledger.Number(fmt.Sprintf("LK7-%07d", n))
	text := "specimen: " + string(no) + "\nentry: draft\n" + strings.Join(more, "\n") + "\n"
	files[no.Path()] = text
	return no
}

// put is the file of a work: its heading, then its lines as flow entries.
func put(files map[string]string, n ledger.WorkNumber, heading string, lines ...string) {
	text := "work: " + string(n) + "\n"
	if heading != "" {
		text += heading + "\n"
	}
	text += "lines:\n"
	for _, l := range lines {
		text += "  - {" + l + "}\n"
	}
	files[n.Path()] = text
}

func load(t testing.TB, files map[string]string) *work.Works {
	t.Helper()
	if files["blotter.yaml"] == "" {
		files["blotter.yaml"] = museumFile
	}
	ctx, src := context.Background(), ledgertest.MapSource(files)
	b, err := book.Load(ctx, src, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	w, err := work.Load(ctx, src, b)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func day(t testing.TB, words string) dates.Day {
	t.Helper()
	r := dates.Read(words, dates.Ask)
	if !r.Known() {
		t.Fatalf("no day: %s", words)
	}
	return r.Last
}

// TestLife: one gathering from the press to the cabinet, out on loan and back.
func TestLife(t *testing.T) {
	files := map[string]string{"people.yaml": "people:\n  - name: Signe Rask\n    spellings: [S. Rask, Signe Rask Lund]\n"}
	n := record(files, 482, "collector: S. Rask", `coll_no: "1311"`, "date: 2026-06-01")
	other := record(files, 500, "collector: Ove Bannister", `coll_no: "88"`)
	put(files, "press-2026-001", "place: press 2", "date: 2026-06-01, event: pressed, gatherings: [Signe Rask 1311..1313], by: Signe Rask", "date: 2026-06-08, event: dried, by: Signe Rask")
	put(files, "accession-2026-001", "source: collected", "date: 2026-06-20, event: received, gatherings: [Signe Rask Lund 1311]", "date: 2026-06-21, event: accessioned, sheets: [LK7-0000482]")
	put(files, "freezer-2026-003", "place: freezer 1", `date: "2026-07-01 09:40", event: in, sheets: [LK7-0000400..LK7-0000490]`, "date: 2026-07-04, event: out, result: passed", "date: 2026-07-05, event: unpacked")
	put(files, "mounting-2026-001", "", "date: 2026-07-10, event: glued, sheets: [LK7-0000482]", "date: 2026-07-11, event: lifted", "date: 2026-07-11, event: mounted", "date: 2026-07-12, event: labelled", `date: 2026-07-13, event: filed, to: "cabinet 4, folder 12"`)
	put(files, "loan-2026-004", "partner: FJ3 Fjellheim Museum", "date: 2026-09-01, event: selected, sheets: [LK7-0000482]", "date: 2026-09-02, event: packed", "date: 2026-09-03, event: sent", "date: 2026-12, event: returned")
	w := load(t, files)
	for _, c := range []struct {
		on    string
		where work.Place
		at    string
	}{
		{"2026-05-31", work.Coming, ""},
		{"2026-06-01", work.InPress, "press 2"},
		{"2026-06-08", work.InTray, ""},
		{"2026-06-20", work.InTray, ""},
		{"2026-07-01", work.Freezer, "freezer 1"},
		{"2026-07-04", work.InBag, ""},
		{"2026-07-05", work.InTray, ""},
		{"2026-07-10", work.Weights, ""},
		{"2026-07-12", work.InTray, ""},
		{"2026-07-13", work.Cabinet, "cabinet 4, folder 12"},
		{"2026-09-02", work.Packed, "FJ3 Fjellheim Museum"},
		{"2026-09-03", work.OnLoan, "FJ3 Fjellheim Museum"},
		{"2026-12-30", work.OnLoan, "FJ3 Fjellheim Museum"},
		{"2026-12-31", work.Returned, ""},
	} {
		s := w.State(n, day(t, c.on))
		if s.Where != c.where || s.At != c.at {
			t.Errorf("%s: %s %q, want %s %q", c.on, s.Where, s.At, c.where, c.at)
		}
	}
	var done []string
	for _, d := range w.State(n, day(t, "2027-01-01")).Done {
		done = append(done, d.What)
	}
	if got, want := strings.Join(done, " "), "dried received accessioned treated mounted labelled filed lent returned"; got != want {
		t.Errorf("done %s, want %s", got, want)
	}
	if s := w.State(other, day(t, "2027-01-01")); s.Where != work.Cabinet || s.By != nil || len(s.Done) > 0 {
		t.Errorf("a sheet named in no work: %+v", s)
	}
	if s := w.State("LK7-0000490", day(t, "2026-07-01")); s.Where != work.Cabinet {
		t.Errorf("a number of a span that is not there: %+v", s)
	}
	f := w.Find("press-2026-001")
	held := w.Holds(f, day(t, "2026-06-02"))
	if len(held) != 3 || held[0].Sheet != n || held[1].Item.No != "1312" || held[1].Sheet != "" || held[2].String() != "Signe Rask 1313" {
		t.Errorf("held %v", held)
	}
	if !w.Open(f, day(t, "2026-06-02")) || w.Open(f, day(t, "2026-06-08")) || w.Open(f, day(t, "2026-05-02")) {
		t.Error("the press is open from the day of pressing to that of the last plant dry")
	}
	if s := w.StateOf(held[1], day(t, "2026-06-09")); s.Where != work.InTray {
		t.Errorf("a gathering without a record: %+v", s)
	}
	if got := len(w.HistoryOf(n)); got != 16 {
		t.Errorf("%d events", got)
	}
	seen := 0
	w.Each(day(t, "2026-07-01"), func(e *book.Entry, s work.State) bool { seen++; return e.Number != n || s.Where == work.Freezer })
	if seen != 2 {
		t.Errorf("each gave %d", seen)
	}
}
