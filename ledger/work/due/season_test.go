package due_test

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/ledgertest"
	"blotter/ledger/work"
	"blotter/ledger/work/due"

	"github.com/google/go-cmp/cmp"
)

// museum is a small ledger: sheets 1 to 60, all of one collector, and works.
func museum(t testing.TB, settings string, works map[string]string, records map[string]string) (*work.Works, func(context.Context, *book.Entry) (*ledger.Record, error)) {
	t.Helper()
	files := map[string]string{"blotter.yaml": "format: \"1\"\nname: Lauvkroken Museum\ncode: LK7\nnumbering: {prefix: LK7-, digits: \"7\"}\n" + settings}
	for i := 1; i <= 60; i++ {
		n := ledger.Number(fmt.Sprintf("LK7-%07d", i))
		files[n.Path()] = fmt.Sprintf("specimen: %s\nentry: full\ncollector: Signe Rask\nnumber: %q\ndate: 2026-06-01\n%s", n, fmt.Sprint(1300+i), records[string(n)])
	}
	for n, text := range works {
		files[ledger.WorkNumber(n).Path()] = "work: " + n + "\n" + text
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
	for _, f := range w.Findings {
		t.Fatal(f)
	}
	return w, b.Loader(src, nil).Record
}

func day(t testing.TB, iso string) dates.Day {
	t.Helper()
	r := dates.Read(iso, dates.Ask)
	if !r.Known() {
		t.Fatalf("%q is no day", iso)
	}
	return r.Last
}

// on is the list of one day as "2026-07-01 WORK what", with * before what is
// late and + before what comes after another step of the same batch.
func on(t testing.TB, w *work.Works, record func(context.Context, *book.Entry) (*ledger.Record, error), iso string, within int) []string {
	t.Helper()
	oslo, err := time.LoadLocation("Europe/Oslo")
	if err != nil {
		t.Fatal(err)
	}
	things, err := due.List(context.Background(), w, due.On{Day: day(t, iso), Within: within, Zone: oslo, Record: record})
	if err != nil {
		t.Fatal(err)
	}
	out := []string{}
	for _, x := range things {
		mark := ""
		if x.Late {
			mark = "*"
		}
		if x.Later {
			mark += "+"
		}
		about := string(x.Work)
		if about == "" {
			about = strings.Join(x.Sheets, " ")
		}
		out = append(out, mark+x.Day.String()+" "+about+" "+x.What)
	}
	return out
}

// TestPressDayByDay lives with one load of thin herbs without heat from the day
// of pressing. The calendar was written by hand: papers on days 1 to 4 (Trans.
// NZ Inst. 27, 1894: at least every 24 h for the first 4 days), then every
// other day (Mycota, preservation); first test on day 2 (common practice, no
// source: the first day to test, never the day of being dry); usually ready on
// days 6 to 8 (about a week: Univ. Arizona Sciconn lesson).
func TestPressDayByDay(t *testing.T) {
	lines := []string{
		"  - {date: 2026-07-01, event: pressed, gatherings: [Signe Rask 2001..2009]}\n",
		"  - {date: 2026-07-02, event: papers}\n",
		"  - {date: 2026-07-03, event: papers}\n  - {date: 2026-07-03, event: tested, result: not-dry}\n",
		"", // nobody came on the fourth of July
		"  - {date: 2026-07-05, event: papers}\n  - {date: 2026-07-05, event: tested, result: not-dry}\n",
		"",
		"  - {date: 2026-07-07, event: papers}\n  - {date: 2026-07-07, event: tested, result: not-dry}\n",
		"",
		"  - {date: 2026-07-09, event: papers}\n  - {date: 2026-07-09, event: dried, result: dry}\n",
	}
	want := []struct {
		day  string
		list []string
	}{
		{"2026-07-01", nil},
		{"2026-07-02", []string{"2026-07-02 press-2026-001 change the papers (day 1); 9 plants"}},
		{"2026-07-03", []string{"2026-07-03 press-2026-001 change the papers (day 2); 9 plants", "2026-07-03 press-2026-001 first test by hand (day 2); 9 plants"}},
		{"2026-07-04", []string{"2026-07-04 press-2026-001 change the papers (day 3); 9 plants"}},
		// A change that was missed is told once: one change today makes up for both.
		{"2026-07-05", []string{"*2026-07-04 press-2026-001 change the papers (day 3); 9 plants", "2026-07-05 press-2026-001 may be ready from now on (day 4); test by hand; 9 plants"}},
		{"2026-07-06", nil},
		{"2026-07-07", []string{"2026-07-07 press-2026-001 change the papers (day 6); 9 plants", "2026-07-07 press-2026-001 usually ready, days 6 to 8; test by hand; 9 plants"}},
		{"2026-07-08", nil},
		{"2026-07-09", []string{"2026-07-09 press-2026-001 change the papers (day 8); 9 plants", "2026-07-09 press-2026-001 test by hand again (day 8); 9 plants"}},
		{"2026-07-10", nil},
	}
	for i, x := range want {
		// In the morning of a day the ledger has the lines of the days before.
		text := "plants: thin herb\nlines:\n" + lines[0] + strings.Join(lines[min(1, i):min(max(i, 1), len(lines))], "")
		w, record := museum(t, "", map[string]string{"press-2026-001": text}, nil)
		if d := cmp.Diff(append([]string{}, x.list...), on(t, w, record, x.day, 0)); d != "" {
			t.Errorf("%s:\n%s", x.day, d)
		}
	}
}

// TestSeason is one season of a museum, asked on days of it; every line was
// worked out on a wall calendar from the figures of standard.yaml: 72 h at
// -30 °C (Naturalis, NHCOLL-L April 2018), a day in the closed bag (from
// memory), 24 h under weight (Univ. Vermont PBIO 109), loans of 12 months
// (Duke and others), reminders at 60 and 30 days and overdue at 30, 90 and 180
// (common practice, no source), traps monthly (museumpests.net), the climate
// weekly, sheets left out overnight frozen again (UC/Jepson pest rules).
func TestSeason(t *testing.T) {
	works := map[string]string{
		"freezer-2026-001":   "profile: beetles, colder\nlines:\n  - {date: 2026-03-02 09:00, event: in, sheets: [LK7-0000001..LK7-0000004]}\n",
		"freezer-2026-002":   "lines:\n  - {date: 2026-03-27 18:00, event: in, sheets: [LK7-0000005]}\n",
		"mounting-2026-001":  "lines:\n  - {date: 2026-03-02 16:00, event: glued, sheets: [LK7-0000010, LK7-0000011]}\n  - {date: 2026-03-03, event: glued, sheets: [LK7-0000012]}\n",
		"loan-2025-001":      "partner: FJ3 Fjellheim Museum\nlines:\n  - {date: 2025-05-01, event: sent, sheets: [LK7-0000020..LK7-0000029]}\n  - {date: 2025-05-10, event: acknowledged}\n  - {date: 2026-03-01, event: returned, sheets: [LK7-0000020]}\n",
		"loan-2026-001":      "partner: FJ3 Fjellheim Museum\nlines:\n  - {date: 2026-02-25, event: requested, sheets: [LK7-0000030..LK7-0000032]}\n",
		"gift-2026-001":      "partner: FJ3 Fjellheim Museum\nlines:\n  - {date: 2026-02-10, event: sent, sheets: [LK7-0000033]}\n",
		"borrowing-2026-001": "partner: FJ3 Fjellheim Museum\nperiod: 2 months\nlines:\n  - {date: 2026-02-01, event: received, others: [FJ3 100, FJ3 101]}\n  - {date: 2026-02-02, event: acknowledged}\n",
		"permit-2026-001":    "permit: {number: 2026/318, issuer: County Governor of Vestland, to: 2026-05-31, report: 2026-03-31}\nlines:\n  - {date: 2026-01-10, event: granted}\n",
		"traps-2026-001":     "place: cabinet hall\nlines:\n  - {date: 2026-02-05, event: set, trap: T1}\n  - {date: 2026-02-05, event: set, trap: T2}\n  - {date: 2026-02-20, event: read, trap: T2}\n",
		"climate-2026-001":   "place: cabinet hall\nlines:\n  - {date: 2026-02-20, event: measured, temperature: 19 °C, humidity: 48 %}\n",
		"incident-2026-001":  "place: cabinet 4\nlines:\n  - {date: 2026-02-15, event: found-pest, insect: Anthrenus, stage: larva}\n",
		"inventory-2026-001": "lines:\n  - {date: 2026-02-01, event: drawn, sheets: [LK7-0000040..LK7-0000042]}\n  - {date: 2026-02-01, event: missing, sheets: [LK7-0000041, LK7-0000042]}\n  - {date: 2026-02-20, event: found, sheets: [LK7-0000042]}\n",
		"shelf-2026-001":     "lines:\n  - {date: 2026-02-26, event: taken, sheets: [LK7-0000050], to: Signe Rask}\n  - {date: 2026-02-20, event: taken, sheets: [LK7-0000051], to: Signe Rask}\n  - {date: 2026-02-28, event: back, sheets: [LK7-0000051]}\n",
	}
	records := map[string]string{
		"LK7-0000055": "annotations:\n  - {kind: question, what: looks like Ranunculus repens; runners, by: Signe Rask, date: 2026-02-27}\n",
		"LK7-0000056": "annotations:\n  - {kind: question, what: is it acris?, by: Signe Rask, date: 2026-02-27}\ndeterminations:\n  - {name: Ranunculus acris L., by: M. Ostrander, date: 2026-03-01}\n",
		"LK7-0000057": "sensitive: {why: rare, category: \"2\", review: 2026-03-05, by: Tiril Aune, date: 2021-01-01}\n",
	}
	w, record := museum(t, "", works, records)
	want := []string{
		"*2026-02-27 climate-2026-001 no reading, cabinet hall since 20 February",
		"*2026-02-27 shelf-2026-001 taken 26 February with Signe Rask: put back, through the freezer first; 1 sheet",
		"2026-03-03 mounting-2026-001 glue dry, lift the weights; 2 sheets",                      // 2 March 16:00 and 24 h
		"2026-03-03 inventory-2026-001 go on with the round: 2 of 3 sheets looked for",           // sheet 40 was not; told on every day until it is closed
		"2026-03-03 inventory-2026-001 look again for what is missing since 1 February; 1 sheet", // 1 February and 30 days
		"2026-03-04 mounting-2026-001 glue dry, lift the weights; 1 sheet",
		"2026-03-05 freezer-2026-001 out after 09:00, cycle 1 of 2, then a day warm in its closed bag; 4 sheets",
		"2026-03-05 LK7-0000057 look again at why it is withheld; 1 sheet",
		"2026-03-05 traps-2026-001 read the trap T1, cabinet hall",
		"+2026-03-06 freezer-2026-001 into the freezer again after 09:00, cycle 2 of 2; 4 sheets",
		"2026-03-07 shelf-2026-001 treat again, outside the cabinet until 28 February; 1 sheet",
		"2026-03-08 loan-2025-001 treat before filing, back from Fjellheim Museum since 1 March; 1 sheet",
		"+2026-03-09 freezer-2026-001 out after 09:00, then a day in its closed bag; 4 sheets",
		"+2026-03-10 freezer-2026-001 the bag may be opened after 09:00, when it is at room temperature; 4 sheets",
		"2026-03-11 loan-2026-001 answer the request of Fjellheim Museum of 25 February; 3 sheets", // and 14 days
		"2026-03-12 gift-2026-001 no word yet from Fjellheim Museum that 1 sheet came, sent 10 February",
		"2026-03-15 incident-2026-001 look again, cabinet 4: Anthrenus found 15 February", // and 28 days
		"2026-03-17 permit-2026-001 report on permit 2026/318 to County Governor of Vestland on 31 March, in 14 days",
		"2026-03-20 traps-2026-001 read the trap T2, cabinet hall",
		"2026-02-27 LK7-0000055 looks like Ranunculus repens; runners (Signe Rask, 27 February)",
	}
	if d := cmp.Diff(want, on(t, w, record, "2026-03-03", 18)); d != "" {
		t.Error(d)
	}
	later := on(t, w, record, "2026-06-02", 30)
	for _, line := range []string{
		"*2026-04-01 borrowing-2026-001 send back 2 sheets to Fjellheim Museum, due 1 April", // 1 February and 2 months
		"*2026-03-31 permit-2026-001 report on permit 2026/318 to County Governor of Vestland",
		"*2026-03-31 loan-2025-001 no opinion of Fjellheim Museum yet on 1 sheet back since 1 March",
		"*2026-05-01 loan-2025-001 9 of 10 sheets still at Fjellheim Museum, due 1 May",
		"*2026-06-01 permit-2026-001 permit 2026/318 lapsed on 31 May",
	} {
		if !strings.Contains(strings.Join(later, "\n"), line) {
			t.Errorf("on 2 June not told: %s\n%s", line, strings.Join(later, "\n"))
		}
	}
	// Summer time begins on 29 March: 72 hours after 27 March 18:00 is 19:00.
	if got := strings.Join(on(t, w, record, "2026-03-28", 3), "\n"); !strings.Contains(got, "2026-03-30 freezer-2026-002 out after 19:00, then a day in its closed bag; 1 sheet") {
		t.Errorf("over the change to summer time:\n%s", got)
	}
}

// TestReminderDays: 60 and 30 days before 1 May are 2 March and 1 April, 30
// days after it is 31 May.
func TestReminderDays(t *testing.T) {
	w, record := museum(t, "", map[string]string{"loan-2025-001": "partner: FJ3 Fjellheim Museum\nlines:\n  - {date: 2025-05-01, event: sent, sheets: [LK7-0000020..LK7-0000029]}\n  - {date: 2025-05-10, event: acknowledged}\n"}, nil)
	want := []string{
		"2026-03-02 loan-2025-001 remind Fjellheim Museum: 10 sheets due 1 May, in 60 days",
		"+2026-04-01 loan-2025-001 remind Fjellheim Museum: 10 sheets due 1 May, in 30 days",
		"+2026-05-01 loan-2025-001 10 sheets still at Fjellheim Museum, due 1 May",
		"+2026-05-31 loan-2025-001 write to Fjellheim Museum: 10 sheets overdue by 30 days, due 1 May",
	}
	if d := cmp.Diff(want, on(t, w, record, "2026-03-02", 90)); d != "" {
		t.Error(d)
	}
	// An extension takes the place of it all.
	w, record = museum(t, "", map[string]string{"loan-2025-001": "partner: FJ3 Fjellheim Museum\nlines:\n  - {date: 2025-05-01, event: sent, sheets: [LK7-0000020..LK7-0000029]}\n  - {date: 2025-05-10, event: acknowledged}\n  - {date: 2026-04-02, event: extended, until: 2027-05-01}\n"}, nil)
	if d := cmp.Diff([]string{}, on(t, w, record, "2026-05-02", 90)); d != "" {
		t.Error(d)
	}
}
