package quality

import (
	"testing"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"

	"blotter/ledger/dates"
)

// Forms of ISO 8601-1:2019; the examples of Darwin Core's eventDate (list of
// terms of 2026-05-26) are marked DwC.
func TestParseISO(t *testing.T) {
	for _, c := range []struct {
		text, first, last string
		seconds           int64
		reason            string
	}{
		{"1963-03-08T14:07-06:00", "1963-03-08", "1963-03-08", 60, "DwC: a minute with an offset"},
		{"2009-02-20T08:40Z", "2009-02-20", "2009-02-20", 60, "DwC: in UTC"},
		{"2018-08-29T15:19", "2018-08-29", "2018-08-29", 60, "DwC: local time"},
		{"1809-02-12", "1809-02-12", "1809-02-12", 86400, "DwC: a day"},
		{"1906-06", "1906-06-01", "1906-06-30", 30 * 86400, "DwC: a month"},
		{"1971", "1971-01-01", "1971-12-31", 365 * 86400, "DwC: a year"},
		{"1972", "1972-01-01", "1972-12-31", 366 * 86400, "a leap year"},
		{"2007-03-01T13:00:00Z/2008-05-11T15:30:00Z", "2007-03-01", "2008-05-11", 437*86400 + 9000, "DwC: an interval of times"},
		{"1900/1909", "1900-01-01", "1909-12-31", 3652 * 86400, "DwC: years"},
		{"2007-11-13/15", "2007-11-13", "2007-11-15", 3 * 86400, "DwC: the end leaves out what it shares"},
		{"2021-01/03", "2021-01-01", "2021-03-31", 90 * 86400, "months, shortened"},
		{"2007-12-14T13:30/15:30", "2007-12-14", "2007-12-14", 7200, "times of one day, shortened"},
		{"2008-02-15/03-14", "2008-02-15", "2008-03-14", 29 * 86400, "month and day, shortened"},
		{"20070413", "2007-04-13", "2007-04-13", 86400, "basic format"},
		{"20070413T1330", "2007-04-13", "2007-04-13", 60, "basic format with time"},
		{"2007-103", "2007-04-13", "2007-04-13", 86400, "ordinal date"},
		{"2008-W01", "2007-12-31", "2008-01-06", 7 * 86400, "a week"},
		{"2009-W53-7", "2010-01-03", "2010-01-03", 86400, "the last day of a long year of weeks"},
		{"1985-W15-5", "1985-04-12", "1985-04-12", 86400, "a day of a week"},
		{"1962-W01-1", "1962-01-01", "1962-01-01", 86400, "a week before 1970"},
		{"2003-02-15/P3D", "2003-02-15", "2003-02-17", 3 * 86400, "a start and a duration"},
		{"P1M/2003-03-14", "2003-02-15", "2003-03-14", 28 * 86400, "a duration and an end"},
		{"2003-02-15T00:00:00Z/PT36H", "2003-02-15", "2003-02-16", 36 * 3600, "hours"},
		{"1963-03-08T14:07:30.25+0100", "1963-03-08", "1963-03-08", 1, "a fraction of a second"},
		{"1963-03-08T10:00-06:00/1963-03-08T10:00-07:00", "1963-03-08", "1963-03-08", 3600, "offsets that differ"},
		{text: "1963-03-08T14:67", reason: "no such minute"},
		{text: "1963-03-08T24:00", reason: "24 is no hour in the edition of 2019"},
		{text: "1963-03-08T4", reason: "an hour of one figure"},
		{text: "1963-03-08T14:0", reason: "a minute of one figure"},
		{text: "1963-3-8", reason: "no leading zeros"},
		{text: "1900-02-29", reason: "no leap year"},
		{text: "1987-13", reason: "no such month"},
		{text: "1987-366", reason: "no such day of the year"},
		{text: "2008-W53", reason: "the year has 52 weeks"},
		{text: "63", reason: "two figures"},
		{text: "196303", reason: "YYYYMM is not allowed"},
		{text: "1963/03/08", reason: "slashes part intervals"},
		{text: "2008/2007", reason: "ends before it begins"},
		{text: "1949-01-15T12:34/", reason: "an open end"},
		{text: "2008/", reason: "an open end"},
		{text: "1987~", reason: "a mark of EDTF"},
		{text: " 1987", reason: "a blank"},
		{text: "-2000", reason: "years before 0 need an agreement"},
		{text: "1963-03-08T", reason: "no time after T"},
		{text: "1963T10:00", reason: "a time of no day"},
		{text: "2003-02-15/P", reason: "an empty duration"},
		{text: "1963-03-08T14:07-6", reason: "an offset of one figure"},
	} {
		got, ok := parseISO(c.text)
		switch {
		case ok != (c.first != ""):
			t.Errorf("%q (%s): valid is %v", c.text, c.reason, ok)
		case ok && (got.first.String() != c.first || got.last.String() != c.last || got.to-got.from != c.seconds):
			t.Errorf("%q (%s): %s to %s, %d s; want %s to %s, %d s", c.text, c.reason, got.first, got.last, got.to-got.from, c.first, c.last, c.seconds)
		}
	}
}

// What an amendment writes reads back as the same days.
func TestRangeOfDaysReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first := dates.Day(rapid.IntRange(-150000, 30000).Draw(t, "first"))
		last := first + dates.Day(rapid.IntRange(0, 4000).Draw(t, "days"))
		got, ok := parseISO(rangeOfDays(first, last))
		if !ok || got.first != first || got.last != last {
			t.Fatalf("%s to %s is written %s", first, last, rangeOfDays(first, last))
		}
	})
}
