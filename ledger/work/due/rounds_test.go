package due_test

import (
	"context"
	"strings"
	"testing"

	"blotter/ledger/book"
	"blotter/ledger/ledgertest"
	"blotter/ledger/work"

	"github.com/google/go-cmp/cmp"
)

// TestRounds tells of rounds and surveys that are not finished, on every day
// until they are closed.
func TestRounds(t *testing.T) {
	w, record := museum(t, "", map[string]string{
		"inventory-2026-001": "percent: \"5\"\nlines:\n  - {date: 2026-02-02, event: drawn}\n  - {date: 2026-02-03, event: seen, sheets: [LK7-0000001..LK7-0000007]}\n" +
			"  - {date: 2026-02-03, event: noted, others: [Xq7]}\n  - {date: 2026-03-01, event: closed}\n",
		"condition-2026-001": "lines:\n  - {date: 2026-02-02, event: drawn, sheets: [LK7-0000001..LK7-0000004]}\n  - {date: 2026-02-05, event: surveyed, sheets: [LK7-0000002], grade: \"1\"}\n" +
			"  - {date: 2026-02-09, event: surveyed, sheets: [LK7-0000001, LK7-0000003..LK7-0000004], grade: \"1\"}\n",
	}, nil)
	for _, x := range []struct {
		day  string
		list []string
	}{
		{"2026-02-02", []string{"2026-02-02 condition-2026-001 go on with the survey: 0 of 4 sheets looked at", "2026-02-02 inventory-2026-001 go on with the round: 0 sheets looked for so far"}},
		{"2026-02-06", []string{"2026-02-06 condition-2026-001 go on with the survey: 1 of 4 sheets looked at", "2026-02-06 inventory-2026-001 go on with the round: 7 sheets looked for so far"}},
		{"2026-03-02", []string{"2026-03-02 condition-2026-001 all of its 4 sheets were looked at: close it"}},
	} {
		if diff := cmp.Diff(x.list, on(t, w, record, x.day, 0)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", x.day, diff)
		}
	}
}

// TestDivided tells of sheets that stand under a name that was divided since;
// one that was named after that day needs no eyes.
func TestDivided(t *testing.T) {
	named := func(date string) string {
		return "determinations:\n  - {name: Ranunculus acris, by: Signe Rask, date: " + date + "}\n"
	}
	files := map[string]string{"blotter.yaml": "format: \"1\"\nname: Lauvkroken Museum\ncode: LK7\nnumbering: {prefix: LK7-, digits: \"7\"}\n",
		"names/Ranunculaceae.yaml":          "family: Ranunculaceae\nnames:\n  - {name: Ranunculus acris L., split: [Ranunculus acris L., Ranunculus novus Auct.], date: 2026-01-01}\n  - {name: Ranunculus novus Auct.}\n",
		"specimens/000/00/LK7-0000001.yaml": "specimen: LK7-0000001\nentry: draft\n" + named("2024-05-12"),
		"specimens/000/00/LK7-0000002.yaml": "specimen: LK7-0000002\nentry: draft\n" + named("2024-05-12"),
		"specimens/000/00/LK7-0000003.yaml": "specimen: LK7-0000003\nentry: draft\n" + named("2026-05-12")}
	src := ledgertest.MapSource(files)
	b, err := book.Load(context.Background(), src, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	w, err := work.Load(context.Background(), src, b)
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"2026-11-03 LK7-0000001 LK7-0000002 look which they are: Ranunculus acris L. was divided among Ranunculus acris L. and Ranunculus novus Auct.; 2 sheets"}
	if diff := cmp.Diff(want, on(t, w, nil, "2026-11-03", 0)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestNoFreezing holds that a museum that treats only what it finds infested is
// reminded of nothing: neither of what came back nor of what was outside.
func TestNoFreezing(t *testing.T) {
	works := map[string]string{
		"loan-2026-001":  "partner: FJ3 Fjellheim Museum\nlines:\n  - {date: 2026-01-02, event: sent, sheets: [LK7-0000001]}\n  - {date: 2026-02-02, event: returned}\n",
		"shelf-2026-001": "lines:\n  - {date: 2026-02-01, event: taken, sheets: [LK7-0000002], to: Ove Bannister}\n  - {date: 2026-02-09, event: back, sheets: [LK7-0000002]}\n",
	}
	said := func(settings string) string {
		w, record := museum(t, settings, works, nil)
		return strings.Join(on(t, w, record, "2026-02-20", 30), "\n")
	}
	if got := said(""); !strings.Contains(got, "treat before filing") || !strings.Contains(got, "treat again") {
		t.Errorf("by the standard habits it is reminded of both:\n%s", got)
	}
	if got := said("habits:\n  treatment: {needed: \"no\"}\n"); strings.Contains(got, "treat") {
		t.Errorf("with needed: no it is reminded:\n%s", got)
	}
}

// TestPressBefore1970 holds that a load of 1965 and one of 1970 have the
// calendar of one of 2026, day for day: the day on which days are counted from
// is a day like any other.
func TestPressBefore1970(t *testing.T) {
	list := func(year string) string {
		w, record := museum(t, "", map[string]string{"press-" + year + "-001": "plants: thin herb\nlines:\n  - {date: " + year + "-01-01, event: pressed, gatherings: [Signe Rask 2001]}\n"}, nil)
		return strings.ReplaceAll(strings.Join(append(on(t, w, record, year+"-01-01", 10), on(t, w, record, year+"-01-05", 10)...), "\n"), year, "YEAR")
	}
	want := list("2026")
	if !strings.Contains(want, "*YEAR-01-02 press-YEAR-001 change the papers (day 1)") {
		t.Fatalf("no calendar:\n%s", want)
	}
	for _, year := range []string{"1965", "1969", "1970"} {
		if diff := cmp.Diff(want, list(year)); diff != "" {
			t.Errorf("%s (-2026 +%s):\n%s", year, year, diff)
		}
	}
}
