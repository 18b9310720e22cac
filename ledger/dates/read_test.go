package dates

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestRead(t *testing.T) {
	for _, c := range []struct{ why, text, edtf, code string }{
		{"roman month", "14.vii.1987", "1987-07-14", ""},
		{"Darwin Core, verbatimEventDate", "17IV1934", "1934-04-17", ""},
		{"Darwin Core, verbatimEventDate", "Marzo 2002", "2002-03", ""},
		{"Darwin Core, verbatimEventDate", "1999-03-XX", "1999-03", ""},
		{"English", "14 July 1987", "1987-07-14", ""},
		{"English", "July 14th, 1987", "1987-07-14", ""},
		{"German", "14. März 1921", "1921-03-14", ""},
		{"French", "14 août 1921", "1921-08-14", ""},
		{"Spanish", "3 de enero de 1950", "1950-01-03", ""},
		{"Norwegian", "3. desember 1950", "1950-12-03", ""},
		{"Latin", "3 Octobris 1850", "1850-10-03", ""},
		{"Portuguese", "15 março 1950", "1950-03-15", ""},
		{"Italian", "15 Giugno 1917", "1917-06-15", ""},
		{"Dutch", "1 mei 1920", "1920-05-01", ""},
		{"Swedish", "1 maj 1920", "1920-05-01", ""},
		{"month", "vii-1987", "1987-07", ""},
		{"month", "July 1987", "1987-07", ""},
		{"year", "1987", "1987", ""},
		{"about", "ca. 1931", "1931~", ""},
		{"doubtful", "1931?", "1931?", ""},
		{"span of days", "3-9 Aug. 1952", "1952-08-03/1952-08-09", ""},
		{"span of days", "14/15.vii.1987", "1987-07-14/1987-07-15", ""},
		{"span with the month first", "July 6-9, 1945", "1945-07-06/1945-07-09", ""},
		{"span over months", "29 vi-13 vii-2001", "2001-06-29/2001-07-13", ""},
		{"span of months", "May and June 1899", "1899-05/1899-06", ""},
		{"span of years", "1882 to 1885", "1882/1885", ""},
		{"decade", "1840's", "184X", ""},
		{"ISO 8601-1, Darwin Core eventDate", "1963-03-08T14:07-06:00", "1963-03-08", "date-time"},
		{"ISO 8601-1, Darwin Core eventDate", "2007-11-13/15", "2007-11-13/2007-11-15", ""},
		{"ISO 8601-1 day of the year", "1880-350", "1880-12-15", ""},
		{"a season has no fixed days", "spring 1910", "1910-21", ""},
		{"13 to 31 is a day", "4/23/1934", "1934-04-23", ""},
		{"day and month alike", "4/4/1934", "1934-04-04", ""},
		{"ambiguous", "3/4/1934", "1934-03-04/1934-04-03", "date-ambiguous"},
		{"two figures", "14.vii.87", "1887-07-14/1987-07-14", "date-short-year"},
		{"no such day", "30 Feb. 1987", "", "date-no-such-day"},
		{"no such day, and no slip for 29.11.", "29.II.1900", "", "date-no-such-day"},
		{"1900 was no leap year", "1900-02-29", "", "date-no-such-day"},
		{"2000 was one", "2000-02-29", "2000-02-29", ""},
		{"no year", "14 July", "", "date-no-year"},
		{"two days, no year", "Aug. 22-23", "", "date-no-year"},
		{"century only", "May 13, 19-", "1900-05-13/1999-05-13", ""},
		{"words", "when the snow had gone", "", "date-unread"},
		{"too long", strings.Repeat("1987 ", 60), "", "date-unread"},
	} {
		r := Read(c.text, Ask)
		code := ""
		if len(r.Warnings) > 0 {
			code = r.Warnings[0].Code
		}
		if c.code == "date-unread" && code == "date-no-year" {
			code = c.code
		}
		if r.EDTF() != c.edtf || code != c.code {
			t.Errorf("%s (%s): %q %q, want %q %q", c.text, c.why, r.EDTF(), code, c.edtf, c.code)
		}
	}
}

func TestReadingInWords(t *testing.T) {
	for text, want := range map[string]string{
		"14.vii.1987":     "14 July 1987",
		"July 1987":       "some day in July 1987",
		"1987":            "some day in 1987",
		"3-9 Aug. 1952":   "some day from 3 to 9 August 1952",
		"ca. 1931":        "about 1931",
		"1931?":           "some day in 1931, doubtful",
		"May-June 1899":   "some day from May to June 1899",
		"1840's":          "some day from 1840 to 1849",
		"29 vi-13 vii 01": "some day from 29 June 1801 to 13 July 2001",
		"../1987-07-14":   "some day up to 14 July 1987",
		"1987-07-14/..":   "some day from 14 July 1987",
	} {
		if got := Read(text, Ask).String(); got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}

func TestNone(t *testing.T) {
	for text, want := range map[string]None{"s.d.": NotRecorded, "S. D.": NotRecorded, "undated": NotRecorded, "[s.d.]": NotRecorded,
		"[illegible]": Illegible, "[...]": Illegible, "": NotTyped, "  ": NotTyped, "1987": Stated, "..": Stated} {
		r := Read(text, Ask)
		if r.None != want || r.Known() != (text == "1987") {
			t.Errorf("%q: none %d, want %d; known %v", text, r.None, want, r.Known())
		}
	}
}

func TestOrderAndYears(t *testing.T) {
	if got := Read("3/4/1934", DayMonth).EDTF(); got != "1934-04-03" {
		t.Error("day-month:", got)
	}
	if got := Read("3/4/1934", MonthDay).EDTF(); got != "1934-03-04" {
		t.Error("month-day:", got)
	}
	if got := Read("3/24/1934", DayMonth).EDTF(); got != "1934-03-24" {
		t.Error("an order does not make a thirteenth month:", got)
	}
	if got := ReadWith("3.iv.26", Options{FirstYear: 1928, LastYear: 2027}).EDTF(); got != "2026-04-03" {
		t.Error("years bounded:", got)
	}
	if OrderOf("day-month") != DayMonth || OrderOf("month-day") != MonthDay || OrderOf("") != Ask {
		t.Error("the words of the setting")
	}
	r := Read("3/4/1934", Ask)
	if len(r.Warnings) != 1 || strings.Join(r.Warnings[0].Readings, "|") != "4 March 1934|3 April 1934" {
		t.Errorf("both readings are named: %+v", r.Warnings)
	}
}

// Library of Congress, Extended Date/Time Format, 4 February 2019: examples
// of levels 0 and 1 with the days they reach. Seasons have no days there.
func TestEDTF(t *testing.T) {
	for _, c := range []struct{ text, first, last string }{
		{"2001-02-03", "2001-02-03", "2001-02-03"}, {"2008-12", "2008-12-01", "2008-12-31"}, {"2008", "2008-01-01", "2008-12-31"},
		{"-0999", "-0999-01-01", "-0999-12-31"}, {"0000", "0000-01-01", "0000-12-31"},
		{"2001-02-03T09:30:01", "2001-02-03", "2001-02-03"}, {"2004-01-01T10:10:10Z", "2004-01-01", "2004-01-01"},
		{"2004-01-01T10:10:10+05:00", "2004-01-01", "2004-01-01"},
		{"1964/2008", "1964-01-01", "2008-12-31"}, {"2004-06/2006-08", "2004-06-01", "2006-08-31"},
		{"2004-02-01/2005-02-08", "2004-02-01", "2005-02-08"}, {"2004-02-01/2005-02", "2004-02-01", "2005-02-28"},
		{"2004-02-01/2005", "2004-02-01", "2005-12-31"}, {"2005/2006-02", "2005-01-01", "2006-02-28"},
		{"1984?", "1984-01-01", "1984-12-31"}, {"2004-06-11?", "2004-06-11", "2004-06-11"}, {"1984~", "1984-01-01", "1984-12-31"},
		{"1984%", "1984-01-01", "1984-12-31"}, {"199X", "1990-01-01", "1999-12-31"}, {"19XX", "1900-01-01", "1999-12-31"},
		{"1999-XX", "1999-01-01", "1999-12-31"}, {"1999-01-XX", "1999-01-01", "1999-01-31"}, {"1999-XX-XX", "1999-01-01", "1999-12-31"},
		{"../2006", "", "2006-12-31"}, {"/2006", "", "2006-12-31"}, {"2004-06-01/", "2004-06-01", ""}, {"2004-01-01/..", "2004-01-01", ""},
		{"1984-06-02?/2004-08-08~", "1984-06-02", "2004-08-08"},
	} {
		r, ok := readISO(c.text)
		first, last := r.First.String(), r.Last.String()
		if r.OpenStart {
			first = ""
		}
		if r.OpenEnd {
			last = ""
		}
		if !ok || first != c.first || last != c.last {
			t.Errorf("%s: %v %s to %s, want %s to %s", c.text, ok, first, last, c.first, c.last)
		}
	}
	for _, text := range []string{"2016-13-08", "2016-02-39", "-0000-01-01", "2004-(06)?-11", "Y17E7-12-26", "not a edtf string"} {
		if r, ok := readISO(text); ok {
			t.Errorf("%s: read as %s", text, r)
		}
		if r := Read(text, Ask); r.Known() {
			t.Errorf("%s: read on a label as %s", text, r)
		}
	}
}

func TestDay(t *testing.T) {
	if DayOf(1970, 1, 1) != 0 || DayOf(2000, 3, 1) != 11017 || DayOf(1582, 10, 15) != -141427 {
		t.Error("days since 1970-01-01; 1582-10-15 is JDN 2299161, 1970-01-01 is JDN 2440588")
	}
	for d := DayOf(-5, 1, 1); d < DayOf(2405, 1, 1); d++ {
		if y, m, dd := d.Date(); DayOf(y, m, dd) != d || !Exists(y, m, dd) {
			t.Fatalf("day %d is %d-%d-%d and back %d", d, y, m, dd, DayOf(y, m, dd))
		}
	}
	for _, c := range [][3]int{{1900, 2, 29}, {1987, 2, 30}, {1987, 4, 31}, {1987, 13, 1}, {1987, 0, 1}, {1987, 1, 0}} {
		if Exists(c[0], c[1], c[2]) {
			t.Error(c, "does not exist")
		}
	}
}

// lawful checks what holds for every text.
func lawful(t interface {
	Helper()
	Errorf(string, ...any)
}, text string) {
	t.Helper()
	r := Read(text, Ask)
	switch {
	case !r.Known():
		if r.None == Stated && len(r.Warnings) == 0 {
			t.Errorf("%q: not read and no reason", text)
		}
		return
	case r.None != Stated:
		t.Errorf("%q: read, and none", text)
	case !r.OpenStart && !r.OpenEnd && r.First > r.Last:
		t.Errorf("%q: %s", text, r)
	}
	if r.Precision == Ambiguous && len(r.Warnings) == 0 {
		t.Errorf("%q: ambiguous without a word", text)
	}
	for _, written := range []string{r.EDTF(), r.String()} {
		again := Read(written, Ask)
		if !again.Known() || again.First != r.First || again.Last != r.Last || again.OpenStart != r.OpenStart || again.OpenEnd != r.OpenEnd ||
			again.Approximate != r.Approximate || again.Uncertain != r.Uncertain {
			t.Errorf("%q: written %s, read again as %s (%+v)", text, written, again.EDTF(), again.Warnings)
		}
	}
	for _, o := range []Order{DayMonth, MonthDay} {
		misspelt := func(w Warning) bool { return w.Code == "date-misspelt" }
		if s := Read(text, o); s.Known() && !r.OpenStart && !r.OpenEnd && !slices.ContainsFunc(s.Warnings, misspelt) && (s.First < r.First || s.Last > r.Last) {
			t.Errorf("%q: %s, but in order %d %s", text, r.EDTF(), o, s.EDTF())
		}
	}
	_ = r.ISO()
}

func FuzzRead(f *testing.F) {
	for _, s := range []string{"14.vii.1987", "3/4/34", "s.d.", "3-9 Aug. 1952", "199X/..", "18 25/7 73", "-0999-12-31", "XX-01-1995", "9.I-10.XII.2000", "[...]",
		"vor 1890", "1890-årene", "XIXe siècle", "3d week in July, 1923", "1/13 June 1880", "1 (13) June 1880", "14 July 1887 o.s.", "day 45 of 1980",
		"May 29, 30, Sept 14, 15, 1903", "7, 21 Jun & 4, 12 Jul 1885", "18[?]5", "May 13, 19-", "5/14/2001 3:15 PM", "1987-W29-2", "Y170000002",
		"1985年5月9日", "3 мая 1920", "22 Jul l932", "winter 1909/10", "June 7, 1860-62", "1853-4", "not before 1890", "0002 BC"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) { lawful(t, text) })
}

// A day written in any of the common ways is read as that day.
func TestReadsWhatIsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Day(rapid.IntRange(int(DayOf(1700, 1, 1)), int(DayOf(2099, 12, 31))).Draw(t, "day"))
		y, m, dd := d.Date()
		ys, ds := itoa(y), itoa(dd)
		roman, english := romanMonths[m-1], englishMonths[m-1]
		for _, text := range []string{d.String(), label(d), Words(d), Short(d), ds + "-" + strings.ToUpper(roman) + "-" + ys, english + " " + ds + ", " + ys,
			english[:3] + ". " + ds + ". " + ys, ys + " " + english + " " + ds, ds + "/" + roman + "/" + ys, ds + roman + ys} {
			if r := Read(text, Ask); !r.Single() || r.First != d {
				t.Fatalf("%s: %s, want %s", text, r, d)
			}
		}
		if s := itoa(dd) + "/" + itoa(m) + "/" + ys; Read(s, DayMonth).First != d && m <= 12 {
			t.Fatal(s)
		}
	})
}

func BenchmarkRead(b *testing.B) {
	texts := []string{"14.vii.1987", "1987-07-14", "July 14, 1987", "3-9 Aug. 1952", "3/4/1934"}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		Read(texts[i%len(texts)], Ask)
	}
}

// label is a day as labels write it: 14.vii.1987.
func label(d Day) string {
	y, m, dd := d.Date()
	return strconv.Itoa(dd) + "." + romanMonths[m-1] + "." + strconv.Itoa(y)
}
