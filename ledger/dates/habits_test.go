package dates

import (
	"testing"
)

// What botanists write, by habit. The forms are common practice (no source)
// but where a source is named; the days follow from the calendar.
var habits = []struct{ why, text, edtf, codes string }{
	{"roman month, two figures", "17iv34", "1834-04-17/2034-04-17", "date-short-year"},
	{"colons, as cameras write a day", "1912:07:14", "1912-07-14", ""},
	{"colons and a time of day", "1912:07:14 10:30:00", "1912-07-14", "date-time"},
	{"year in roman numerals", "die XIV Julii MDCCCLXXXVII", "1887-07-14", ""},
	{"year in roman numerals, added up", "14 maii MDCCCCX", "1910-05-14", ""},
	{"no roman year", "14 May MIC", "", "date-unread"},
	{"end of, Norwegian", "i slutten av mai 1910", "1910-05-16~/1910-05-31~", ""},
	{"beginning of, Swedish", "i början av maj 1910", "1910-05-01~/1910-05-15~", ""},
	{"in, Norwegian", "i mai 1910", "1910-05", ""},
	{"a day to a month in figures is no span", "XII-1-1-87", "", "date-unread"},
	{"month and year", "VII.87", "1887-07/1987-07", "date-short-year"},
	{"over the end of a month", "28 Feb.-3 Mar. 1931", "1931-02-28/1931-03-03", ""},
	{"over the end of a year", "30.xii.1930-2.i.1931", "1930-12-30/1931-01-02", ""},
	{"over the end of a year, once", "30.xii.-2.i.1931", "1930-12-30/1931-01-02", ""},
	{"the century of the other end", "30.xii.1930-2.i.31", "1930-12-30/1931-01-02", ""},
	{"month-day/day", "7/28-30/1930", "1930-07-28/1930-07-30", ""},
	{"Scandinavian day/month", "8/IX 1901", "1901-09-08", ""},
	{"year around", "18 25/7 73", "1873-07-25", ""},
	{"German season", "Frühjahr 1910", "1910-21", ""},
	{"French season", "printemps 1910", "1910-21", ""},
	{"Swedish season", "höst 1910", "1910-23", ""},
	{"Latin season", "Aestate 1876", "1876-22", ""},
	{"winter of two years", "winter 1909/10", "1909-12/1910-03", ""},
	{"early", "early July 1987", "1987-07-01~/1987-07-15~", ""},
	{"German early", "Anfang Juli 1987", "1987-07-01~/1987-07-15~", ""},
	{"middle", "mid-July 1987", "1987-07-08~/1987-07-23~", ""},
	{"late", "fin de juillet 1845", "1845-07-16~/1845-07-31~", ""},
	{"a week", "3d week in July, 1923", "1923-07-15/1923-07-21", ""},
	{"late in a month", "last of Sept. 1912", "1912-09-16~/1912-09-30~", ""},
	{"about", "ca. 1890", "1890~", ""},
	{"before", "vor 1890", "../1889-12-31", ""},
	{"up to", "until 1890", "../1890-12-31", ""},
	{"up to, after", "1890 or earlier", "../1890-12-31", ""},
	{"after", "after 1890", "1891-01-01/..", ""},
	{"since", "since 1890", "1890-01-01/..", ""},
	{"not before", "not before 1890", "1890-01-01/..", ""},
	{"between", "between 1 and 5 May 1910", "1910-05-01/1910-05-05", ""},
	{"decade", "1890s", "189X", ""},
	{"Norwegian decade", "1890-årene", "189X", ""},
	{"French decade", "années 1890", "189X", ""},
	{"part of a decade", "early 1890s", "1890~/1894~", ""},
	{"century: 1800 and 1900 may both be meant", "19th century", "1800/1900", ""},
	{"French century", "XIXe siècle", "1800/1900", ""},
	{"Spanish century", "s. XIX", "1800/1900", ""},
	{"figures left out", "19--", "19XX", ""},
	{"figures not known", "18 Oct 190?", "1900-10-18/1909-10-18", ""},
	{"a figure supplied", "18 Jun 185[5]", "1855-06-18?", ""},
	{"doubtful", "1909?", "1909?", ""},
	{"supplied", "[1909]", "1909", ""},
	{"English ordinal", "5th of June 1901", "1901-06-05", ""},
	{"French ordinal", "1er mai 1920", "1920-05-01", ""},
	{"Latin", "14 8bris 1850", "1850-10-14", ""},
	{"Latin, genitive", "die 3 Julii 1850", "1850-07-03", ""},
	{"Latin, ablative", "mense Julio 1850", "1850-07", ""},
	{"Latin calends are not worked out", "III Kal. Jul. 1787", "", "date-unread"},
	{"Finnish", "3. toukokuuta 1920", "1920-05-03", ""},
	{"Polish", "3 sierpnia 1920", "1920-08-03", ""},
	{"Czech", "3. srpna 1920", "1920-08-03", ""},
	{"Russian", "3 мая 1920", "1920-05-03", ""},
	{"Russian in Latin letters", "3 iyulya 1920", "1920-07-03", ""},
	{"Dutch, the usual short form", "3 mrt. 1921", "1921-03-03", ""},
	{"French, the short form of notebooks", "14 jlt 1900", "1900-07-14", ""},
	{"Russian century", "XIX век", "1800/1900", ""},
	{"German between, shortened", "zw. 1900 und 1910", "1900/1910", ""},
	{"German without year", "o. J.", "", ""},
	{"Scandinavian without year", "u.å.", "", ""},
	{"Spanish without date", "s.f.", "", ""},
	{"Spanish", "3 y 4 de mayo de 1920", "1920-05-03/1920-05-04", ""},
	{"Dutch of is or, English of is not", "23rd of Sept. 1902", "1902-09-23", ""},
	{"several days", "7, 21 Jun & 4, 12 Jul 1885", "1885-06-07/1885-07-12", "date-several"},
	{"several days, no gap", "28 & 29 May 1910", "1910-05-28/1910-05-29", ""},
	{"several in figures", "4/30, 5/18, 8/2/1897", "1897-04-30/1897-08-02", "date-several"},
	{"a month or two years", "1853-4", "1853/1854", "date-ambiguous"},
	{"a day of some years", "June 7, 1860-62", "1860-06-07/1862-06-07", ""},
	{"the day of the week is right", "Tuesday, 14 July 1987", "1987-07-14", ""},
	{"the day of the week is another", "Monday 14 July 1987", "1987-07-14", "date-weekday"},
	{"the day of the week settles the order", "Tuesday 3/4/1934", "1934-04-03", ""},
	{"time of day", "14 July 1987, 10.30 a.m.", "1987-07-14", "date-time"},
	{"time of day", "14.7.1987 14.30 Uhr", "1987-07-14", "date-time"},
	{"time of day", "14. juli 1987 kl. 14", "1987-07-14", "date-time"},
	{"midnight is a computer's time of day", "1987-07-14 00:00:00", "1987-07-14", ""},
	{"old style: 12 days in the 19th century", "14 July 1887 o.s.", "1887-07-26", "date-old-style"},
	{"old style: 13 days in the 20th", "29 Feb. 1900 O.S.", "1900-03-13", "date-old-style"},
	{"new style", "26 July 1887 N.S.", "1887-07-26", ""},
	{"double date or span", "1/13 June 1880", "1880-06-01/1880-06-13", "date-ambiguous"},
	{"double date", "1 (13) June 1880", "1880-06-13", ""},
	{"no double date: 11 days", "1/12 June 1880", "1880-06-01/1880-06-12", ""},
	{"before the calendar", "1500-03-04", "1500-03-04", "date-calendar"},
	{"older than herbaria", "10 Oct 1043", "1043-10-10", "date-calendar"},
	{"ISO 8601-1 week date", "1987-W29-2", "1987-07-14", ""},
	{"ISO 8601-1 week", "1987-W29", "1987-07-13/1987-07-19", ""},
	{"day of the year", "day 45 of 1980", "1980-02-14", ""},
	{"eight figures, day first", "14071987", "1987-07-14", ""},
	{"a zero for what is not known", "1935-04-00", "1935-04", ""},
	{"a zero for what is not known", "00/00/1935", "1935", ""},
	{"a count of days is not guessed", "41234", "", "date-unread"},
	{"three figures are no year", "June 28, 195", "", "date-no-year"},
	{"the end before the start", "1894-1870", "", "date-unread"},
	{"misspelt", "Augut 21 1891", "1891-08-21", "date-misspelt"},
	{"the letter l for 1", "22 Jul l932", "1932-07-22", "date-misspelt"},
	{"the letter I for 1", "I.VIII.1883", "1883-08-01", "date-misspelt"},
	{"the letter l in a roman numeral", "14.Vll.1883", "1883-07-14", "date-misspelt"},
	{"two days and no year", "10-11 May", "", "date-no-year"},
	{"one day of two years", "26 Aug 1859 or 1860", "1859-08-26/1860-08-26", "date-several"},
	{"another word", "Whitsun 1932", "", "date-unread"},
	{"EDTF of 2012", "2004-(06)?-11", "", "date-unread"},
}

func TestHabits(t *testing.T) {
	for _, c := range habits {
		r := Read(c.text, Ask)
		codes := ""
		for _, w := range r.Warnings {
			codes += w.Code
		}
		if r.EDTF() != c.edtf || codes != c.codes {
			t.Errorf("%s (%s): %q %q, want %q %q", c.text, c.why, r.EDTF(), codes, c.edtf, c.codes)
		}
	}
}

// The fourteenth of each month in the words of each language, in full and by
// the first letters where those are an abbreviation.
func TestMonthsOfEveryLanguage(t *testing.T) {
	for i, l := range languages {
		for m, group := range groups(l.months) {
			for n, w := range group {
				forms := []string{w}
				if r := []rune(w); n == 0 && l.shortest == 3 && len(r) > 5 {
					forms = append(forms, string(r[:4])+".")
				}
				for _, form := range forms {
					r := Read("14 "+form+" 1921", Ask)
					if want := DayOf(1921, m+1, 14); r.First != want || r.Last != want {
						t.Errorf("language %d: 14 %s 1921 is %s (%v), want %s", i, form, r.EDTF(), r.Warnings, want)
					}
				}
			}
		}
	}
}
