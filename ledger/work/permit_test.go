package work

import (
	"strings"
	"testing"
)

const permitOfTest = `permit:
  number: 2026/318
  for: collecting
  from: 2026-05-01
  to: 2026-09-30
  taxa: [Ranunculaceae, Salix glauca]
  places: [Vestland]
  persons: [Signe Rask, O. Bannister]
  most: "6"
  report: 2026-12-31
`

// gathered is a record under the permit that keeps to it, but for what is
// changed.
func gathered(change ...string) string {
	words := "permit: 2026/318\ncollector: Signe Rask\ncoll_no: \"1\"\ndate: 2026-06-01\nplace: {country: Norway, province: Vestland, locality: Raundal}\n" +
		"determinations:\n  - {name: Ranunculus acris L., by: Signe Rask, date: 2026-06-01}\n"
	return strings.NewReplacer(change...).Replace(words)
}

// TestBreaches provokes each, and the nearest case that keeps to the permit.
func TestBreaches(t *testing.T) {
	cases := []struct{ record, more, want, reason string }{
		{gathered(), "", "", "it keeps to it"},
		{gathered("2026/318", "2026/3180"), "", "permit-unknown", "another number"},
		{gathered("permit: 2026/318\n", ""), "", "", "a record that names none"},
		{gathered("date: 2026-06-01\nplace", "date: 2026-10-01\nplace"), "", "permit-day", "the day after the last"},
		{gathered("date: 2026-06-01\nplace", "date: 2026-09-30\nplace"), "", "", "the last day"},
		{gathered("date: 2026-06-01\nplace", "date: 2026-05\nplace"), "", "", "a month that may be inside"},
		{gathered("date: 2026-06-01\nplace", "date: 2026-10-05\nplace"), "lines:\n  - {date: 2026-09-15, event: extended, until: 2026-10-31}\n", "", "extended"},
		{gathered(), "lines:\n  - {date: 2026-04-01, event: refused}\n", "permit-day", "refused"},
		{gathered(), "lines:\n  - {date: 2026-04-01, event: applied}\n", "permit-day", "not granted yet"},
		{gathered(), "lines:\n  - {date: 2026-04-01, event: applied}\n  - {date: 2026-04-20, event: granted}\n", "", "granted"},
		{gathered("collector: Signe Rask", "collector: K. Moldstad"), "", "permit-person", "nobody whom it names"},
		{gathered("collector: Signe Rask", "collector: K. Moldstad\nwith: [Ove Bannister]"), "", "", "with one whom it names by initials"},
		{gathered("Ranunculus acris", "Salix lapponum"), "", "permit-taxon", "another willow"},
		{gathered("Ranunculus acris L.", "Salix glauca subsp. stipulifera"), "", "", "below a species that it covers"},
		{gathered("Vestland", "Innlandet"), "", "permit-place", "another county"},
	}
	for _, c := range cases {
		w := worksOf(t, "", map[string]string{"permit-2026-001": permitOfTest + c.more}, record{"LK7-0000101", c.record},
			record{"names", "  - {name: Ranunculus acris L.}\n"})
		var got []string
		for _, b := range w.Breaches(w.book.Find("LK7-0000101")) {
			got = append(got, b.Code)
			if strings.Contains(b.Words, "Raundal") || strings.Contains(b.Words, "Innlandet") {
				t.Errorf("%s: the place is told: %s", c.reason, b.Words)
			}
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s: %v, want %q", c.reason, got, c.want)
		}
	}
}

// TestPermitSums: the sheets of one gathering are one taking; sums by hand.
func TestPermitSums(t *testing.T) {
	w := worksOf(t, "", map[string]string{"permit-2026-001": permitOfTest},
		record{"LK7-0000101", gathered("date: 2026-06-01\nplace", "taken: 3\ndate: 2026-06-01\nplace")},
		record{"LK7-0000102", gathered("date: 2026-06-01\nplace", "taken: 3\ndate: 2026-06-01\nplace")}, // its duplicate
		record{"LK7-0000103", gathered("\"1\"", "\"2\"", "date: 2026-06-01\nplace", "taken: 2\ndate: 2026-06-01\nplace")},
		record{"LK7-0000104", gathered("\"1\"", "\"3\"")}) // says nothing: one
	f := w.Find("permit-2026-001")
	if got, want := w.CollectedUnder()[f], (Collected{Sheets: 4, Gatherings: 3, Taken: 6}); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// TestPermitFindings provokes what a permit itself wants.
func TestPermitFindings(t *testing.T) {
	taken := record{"LK7-0000101", gathered("date: 2026-06-01\nplace", "taken: 7\ndate: 2026-06-01\nplace")}
	access := "permit:\n  for: access\n  country: Norway\n  accessed: %\n"
	cases := []struct{ permit, today, want, reason string }{
		{permitOfTest, "2026-12-31", "permit-most", "7 taken, 6 allowed; the report is due today"},
		{permitOfTest, "2027-01-01", "permit-most permit-report", "a day late"},
		{permitOfTest + "lines:\n  - {date: 2026-12-01, event: reported}\n", "2027-01-01", "permit-most", "reported"},
		{strings.Replace(access, "%", "2014-10-12", 1), "2026-01-01", "permit-consent", "on the day on which the protocol came into force"},
		{strings.Replace(access, "%", "2014-10-11", 1), "2026-01-01", "", "the day before"},
		{strings.Replace(access, "%", "2020-01-01", 1) + "  consent: not required, the country asks for none\n", "2026-01-01", "", "why none is needed"},
	}
	for _, c := range cases {
		w := worksOf(t, "", map[string]string{"permit-2026-001": c.permit}, taken)
		var got []string
		for _, f := range w.PermitFindings(day(t, c.today)) {
			got = append(got, f.Code)
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s: %v, want %q", c.reason, got, c.want)
		}
	}
}
