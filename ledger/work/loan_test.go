package work

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/ledgertest"
)

// TestPeriods: a year after 29 February is 28 February and a loan of twelve
// months ends on the same day of the next year (trade.md 9: due = sent + 12
// calendar months, 29 Feb -> 28 Feb; worked out on a wall calendar).
func TestPeriods(t *testing.T) {
	cases := []struct{ from, period, want, reason string }{
		{"2026-10-01", "12 months", "2027-10-01", "the same day a year on"},
		{"2024-02-29", "one year", "2025-02-28", "there is no 29 February 2025"},
		{"2024-02-29", "4 years", "2028-02-29", "there is one again"},
		{"2026-01-31", "1 month", "2026-02-28", "the last day of a shorter month"},
		{"2026-08-31", "6 months", "2027-02-28", "over the turn of the year"},
		{"2026-12-15", "3 mo", "2027-03-15", "types: Carnegie's three months"},
		{"2026-11-03", "90 days", "2027-02-01", "27 days of November, 31, 31, 1"},
		{"2026-11-03", "6 weeks", "2026-12-15", "42 days"},
		{"2026-11-03", "some time", "", "no period"},
		{"2026-11-03", "0 months", "", "no period"},
	}
	for _, c := range cases {
		p, ok := ReadPeriod(c.period)
		got := ""
		if ok {
			got = p.After(day(t, c.from)).String()
		}
		if got != c.want {
			t.Errorf("%s after %s (%s): %s, want %s", c.period, c.from, c.reason, got, c.want)
		}
	}
}

func day(t testing.TB, words string) dates.Day {
	t.Helper()
	r := dates.Read(words, dates.Ask)
	if !r.Known() {
		t.Fatalf("%q is no day", words)
	}
	return r.Last
}

// record is a record's words beside its number.
type record struct{ number, words string }

// worksOf is a small ledger with these works and records.
func worksOf(t testing.TB, museum string, works map[string]string, records ...record) *Works {
	t.Helper()
	w, _ := worksAnd(t, museum, works, records...)
	return w
}

// worksAnd is the same with the files themselves; the record called names is
// the names of Ranunculaceae.
func worksAnd(t testing.TB, museum string, works map[string]string, records ...record) (*Works, ledger.Source) {
	t.Helper()
	files := map[string]string{"blotter.yaml": "format: \"1\"\nname: Lauvkroken Museum\ncode: LK7\nnumbering: {prefix: LK7-, digits: \"7\"}\n" + museum}
	for _, r := range records {
		if r.number == "names" {
			files["names/Ranunculaceae.yaml"] = "family: Ranunculaceae\nnames:\n" + r.words
			continue
		}
		files[ledger.Number(r.number).Path()] = "specimen: " + r.number + "\nentry: full\n" + r.words
	}
	for n, text := range works {
		files[ledger.WorkNumber(n).Path()] = "work: " + n + "\n" + text
	}
	src := ledgertest.MapSource(files)
	b, err := book.Load(context.Background(), src, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	w, err := Load(context.Background(), src, b)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range w.Findings {
		t.Fatal(f)
	}
	return w, src
}

// sheets are n records from a first number on.
func sheets(first, n int) []record {
	var out []record
	for i := range n {
		out = append(out, record{fmt.Sprintf("LK7-%07d", first+i), "collector: Signe Rask\ndate: 2025-06-01\n"})
	}
	return out
}

// TestLoanLife follows one loan through its life; every figure was counted by
// hand, every day on a wall calendar.
func TestLoanLife(t *testing.T) {
	w := worksOf(t, "", map[string]string{"loan-2025-011": `partner: FJ3 Fjellheim Museum
lines:
  - {date: 2025-08-01, event: requested, sheets: [LK7-0000101..LK7-0000144]}
  - {date: 2025-08-20, event: selected, sheets: [LK7-0000101..LK7-0000140]}
  - {date: 2025-09-28, event: packed, grade: "1"}
  - {date: 2025-10-01, event: sent}
  - {date: 2025-10-09, event: acknowledged, count: 40 sheets}
  - {date: 2026-03-02, event: returned, sheets: [LK7-0000101..LK7-0000120], grade: "2", damage: [detached part]}
  - {date: 2026-05-04, event: returned, count: 6 sheets}
  - {date: 2026-09-20, event: extended, until: 2027-04-01}
  - {date: 2026-10-10, event: returned, sheets: [LK7-0000140], mistake: another loan}
  - {date: 2027-05-01, event: recalled, until: 2027-05-31}
  - {date: 2027-05-20, event: returned}
  - {date: 2027-06-01, event: closed}
`}, sheets(101, 44)...)
	f := w.Find("loan-2025-011")
	cases := []struct {
		on                string
		words             string
		out, back, gone   int
		due, late, reason string
	}{
		{"2025-07-31", "requested", 0, 0, 0, "", "0", "nothing has happened"},
		{"2025-08-01", "requested", 0, 0, 0, "", "0", "44 are asked for"},
		{"2025-08-20", "approved", 0, 0, 0, "", "0", "40 are selected, 4 left out"},
		{"2025-09-30", "packed", 0, 0, 0, "", "0", "not sent yet"},
		{"2025-10-01", "sent", 40, 0, 40, "2026-10-01", "0", "twelve months, the museum's habit"},
		{"2025-10-09", "acknowledged", 40, 0, 40, "2026-10-01", "0", "they have it"},
		{"2026-03-02", "returned in part", 20, 20, 40, "2026-10-01", "0", "twenty are back"},
		{"2026-05-04", "returned in part", 14, 26, 40, "2026-10-01", "0", "six more, counted"},
		{"2026-09-20", "returned in part", 14, 26, 40, "2027-04-01", "0", "extended"},
		{"2026-10-10", "returned in part", 14, 26, 40, "2027-04-01", "0", "a line entered by mistake does not count"},
		{"2027-04-30", "overdue", 14, 26, 40, "2027-04-01", "29", "29 days after 1 April"},
		{"2027-05-01", "recalled", 14, 26, 40, "2027-05-31", "0", "the recall sets a new day"},
		{"2027-05-20", "returned", 0, 40, 40, "", "0", "all are back"},
		{"2027-06-01", "closed", 0, 40, 40, "", "0", "no hand is needed"},
	}
	for _, c := range cases {
		l := w.Loan(f, day(t, c.on))
		due := ""
		if d := l.Due(); d != 0 {
			due = d.String()
		}
		got := fmt.Sprint(l.Words(), " ", l.Outstanding(), l.Returned(), l.Gone(), " ", due, " ", l.Late())
		want := fmt.Sprint(c.words, " ", c.out, c.back, c.gone, " ", c.due, " ", c.late)
		if got != want {
			t.Errorf("%s (%s): %s, want %s", c.on, c.reason, got, want)
		}
	}
	l := w.Loan(f, day(t, "2027-06-01"))
	if first, last := l.Things[0], l.Things[43]; first.Grade != "1" || first.After != "2" || strings.Join(first.Harm, ",") != "detached part" || last.Stage != Left {
		t.Errorf("condition and selection: %+v, %+v", first, last)
	}
}

// TestReminders: 60, 30 and 0 days before, 30, 90 and 180 after (trade.md 9:
// common practice, no source); days counted on a wall calendar.
func TestReminders(t *testing.T) {
	w := worksOf(t, "", map[string]string{"loan-2025-011": "lines:\n  - {date: 2025-10-01, event: sent, sheets: [LK7-0000101]}\n"}, sheets(101, 1)...)
	var got []string
	for _, r := range w.Loan(w.Find("loan-2025-011"), day(t, "2026-05-01")).Reminders(w.Habits.Loans) {
		got = append(got, r.Day.String())
	}
	want := "2026-08-02 2026-09-01 2026-10-01 2026-10-31 2026-12-30 2027-03-30"
	if strings.Join(got, " ") != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// TestDueDays holds the day by which sheets are due to what sets it.
func TestDueDays(t *testing.T) {
	typed := record{"LK7-0000201", "types:\n  - {status: isotype, of: Salix glauca L., basis: verified}\n"}
	cases := []struct{ heading, lines, want, reason string }{
		{"", "{date: 2026-01-15, event: sent, sheets: [LK7-0000101]}", "2027-01-15", "a year, by most loan pages"},
		{"", "{date: 2026-01-15, event: sent, sheets: [LK7-0000101, LK7-0000201]}", "2026-04-15", "a type is due after three months"},
		{"period: 2 years\n", "{date: 2026-01-15, event: sent, sheets: [LK7-0000101, LK7-0000201]}", "2028-01-15", "the loan's own period goes before"},
		{"period: 2 years\n", "{date: 2026-01-15, event: sent, sheets: [LK7-0000101], until: 2026-02-01}", "2026-02-01", "the line's day goes before all"},
		{"", "{date: 2026-01, event: sent, sheets: [LK7-0000101]}", "2027-01-31", "a month counts from its last day"},
		{"", "{date: 2026-01-15, event: sent, sheets: [LK7-0000101]}\n  - {date: 2026-12-01, event: extended}", "2028-01-15", "an extension without a day is a period more"},
		{"", "{date: 2026-01-15, event: sent, sheets: [LK7-0000101]}\n  - {date: 2026-02-01, event: sent, sheets: [LK7-0000102]}\n  - {date: 2026-03-01, event: returned, sheets: [LK7-0000101]}", "2027-02-01", "what is back is not due"},
		{"", "{date: 2026-01-15, event: sent, sheets: [LK7-0000101]}\n  - {date: 2026-02-01, event: recalled}", "2026-02-01", "recalled at once"},
		{"", "{date: 2026-01-15, event: sent, sheets: [LK7-0000101]}\n  - {date: 2026-02-01, event: lost}", "", "nothing is awaited of what is lost"},
		{"", "{date: 2026-01-15, event: sent, count: 12 folds, what: Carex}\n  - {date: 2026-02-01, event: returned, count: 5 folds}", "2027-01-15", "bundles are due as well"},
	}
	for _, c := range cases {
		w := worksOf(t, "", map[string]string{"loan-2026-001": c.heading + "lines:\n  - " + c.lines + "\n"}, append(sheets(101, 2), typed)...)
		got := ""
		if d := w.Loan(w.Find("loan-2026-001"), day(t, "2026-12-31")).Due(); d != 0 {
			got = d.String()
		}
		if got != c.want {
			t.Errorf("%s (%s): %s, want %s", c.lines, c.reason, got, c.want)
		}
	}
}

// TestBundlesBack: what is counted out and in is counted down.
func TestBundlesBack(t *testing.T) {
	w := worksOf(t, "", map[string]string{"loan-2026-001": "lines:\n  - {date: 2026-01-15, event: sent, count: 12 folds, what: Carex}\n  - {date: 2026-02-01, event: returned, count: 5 folds}\n"})
	l := w.Loan(w.Find("loan-2026-001"), day(t, "2026-06-01"))
	if l.Outstanding() != 7 || l.Returned() != 5 || l.Gone() != 12 {
		t.Errorf("out %d, back %d, gone %d; want 7, 5, 12", l.Outstanding(), l.Returned(), l.Gone())
	}
}
