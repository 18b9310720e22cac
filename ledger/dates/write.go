package dates

import (
	"fmt"
	"strconv"
	"strings"
)

// ISO is r as an ISO 8601-1 date or interval of days, for an export: the
// shortest form that says the same, for example 1987-07-14, 1987-07, 1987,
// 1952-08-03/1952-08-09. Empty when unknown, open at an end, or beyond the
// years of four figures.
func (r Reading) ISO() string {
	if !r.Known() || r.OpenStart || r.OpenEnd || r.Last.Year() > maxYear || r.First.Year() < -maxYear {
		return ""
	}
	if s := whole(r.First, r.Last); s != "" {
		return s
	}
	return r.First.String() + "/" + r.Last.String()
}

// EDTF is r in the Extended Date/Time Format, levels 0 and 1 (Library of
// Congress, 4 February 2019); empty when unknown. Read(r.EDTF()) has the same
// First, Last, Approximate and Uncertain.
func (r Reading) EDTF() string {
	if !r.Known() {
		return ""
	}
	mark := ""
	switch {
	case r.Approximate && r.Uncertain:
		mark = "%"
	case r.Approximate:
		mark = "~"
	case r.Uncertain:
		mark = "?"
	}
	switch {
	case r.OpenStart:
		return "../" + edtfDay(r.Last) + mark
	case r.OpenEnd:
		return edtfDay(r.First) + mark + "/.."
	}
	if s := r.oneEDTF(); s != "" {
		return s + mark
	}
	a, b := edtfDay(r.First), edtfDay(r.Last)
	_, m, d := r.First.Date()
	y2, m2, d2 := r.Last.Date()
	if d == 1 && d2 == daysIn(y2, m2) && a[0] != 'Y' && b[0] != 'Y' {
		cut := 3
		if m == 1 && m2 == 12 {
			cut = 6
		}
		a, b = a[:len(a)-cut], b[:len(b)-cut]
	}
	return a + mark + "/" + b + mark
}

// oneEDTF is r as one date of EDTF; "" when it needs an interval.
func (r Reading) oneEDTF() string {
	y, m, d := r.First.Date()
	y2, m2, d2 := r.Last.Date()
	far := y > maxYear || y < -maxYear
	switch {
	case r.season > 0:
		return year4(y) + "-2" + strconv.Itoa(r.season)
	case far && y == y2 && m == 1 && d == 1 && m2 == 12 && d2 == 31:
		return "Y" + strconv.Itoa(y)
	case far:
		return ""
	case r.Approximate || r.Uncertain: // level 1 knows no marks beside X
	case m == 1 && d == 1 && m2 == 12 && d2 == 31 && y >= 0 && y%10 == 0 && y2 == y+9:
		return year4(y)[:3] + "X"
	case m == 1 && d == 1 && m2 == 12 && d2 == 31 && y >= 0 && y%100 == 0 && y2 == y+99:
		return year4(y)[:2] + "XX"
	}
	return whole(r.First, r.Last)
}

// edtfDay is a day, or for a year of more than four figures the year that it
// begins or ends.
func edtfDay(d Day) string {
	if y := d.Year(); y > maxYear || y < -maxYear {
		return "Y" + strconv.Itoa(y)
	}
	return d.String()
}

func year4(y int) string {
	if y < 0 {
		return fmt.Sprintf("-%04d", -y)
	}
	return fmt.Sprintf("%04d", y)
}

// whole is the ISO form of a day, a whole month or a whole year; else "".
func whole(first, last Day) string {
	if first == last {
		return first.String()
	}
	y, m, d := first.Date()
	y2, m2, d2 := last.Date()
	switch {
	case y == y2 && m == m2 && d == 1 && d2 == daysIn(y, m):
		return first.String()[:len(first.String())-3]
	case y == y2 && m == 1 && d == 1 && m2 == 12 && d2 == 31:
		return first.String()[:len(first.String())-6]
	}
	return ""
}

// String is r in words, after "read as": "14 July 1987", "some day in July
// 1987", "some day from 3 to 9 August 1952", "4 March or 3 April 1934". Empty
// when unknown. Read again, the words give the same First and Last.
func (r Reading) String() string {
	if !r.Known() {
		return ""
	}
	s := r.words()
	if r.Approximate {
		s = "about " + strings.TrimPrefix(strings.TrimPrefix(strings.TrimPrefix(s, "some day in "), "some day from "), "some day ")
		if r.OpenEnd {
			s = "some day from about " + endWords(r.First)
		}
	}
	if r.Uncertain {
		s += ", doubtful"
	}
	return s
}

var seasonNames = [...]string{"spring", "summer", "autumn", "winter"}

func (r Reading) words() string {
	switch {
	case r.OpenStart:
		return "some day up to " + endWords(r.Last)
	case r.OpenEnd:
		return "some day from " + endWords(r.First)
	case r.First == r.Last:
		return Words(r.First)
	}
	if s := choice(r); s != "" {
		return s
	}
	y, m, d := r.First.Date()
	y2, m2, d2 := r.Last.Date()
	switch {
	case r.season > 0:
		return "some day in " + seasonNames[r.season-1] + " " + yearWords(y)
	case y == y2 && m == m2 && d == 1 && d2 == daysIn(y, m):
		return "some day in " + monthName(m) + " " + yearWords(y)
	case y == y2 && d == 1 && m == 1 && d2 == 31 && m2 == 12:
		return "some day in " + yearWords(y)
	case d == 1 && m == 1 && d2 == 31 && m2 == 12:
		return "some day from " + yearWords(y) + " to " + yearWords(y2)
	case y == y2 && m == m2:
		return fmt.Sprintf("some day from %d to %d %s %s", d, d2, monthName(m), yearWords(y))
	case y == y2 && d == 1 && d2 == daysIn(y2, m2):
		return fmt.Sprintf("some day from %s to %s %s", monthName(m), monthName(m2), yearWords(y))
	case y == y2:
		return fmt.Sprintf("some day from %d %s to %d %s %s", d, monthName(m), d2, monthName(m2), yearWords(y))
	}
	return "some day from " + endWords(r.First) + " to " + endWords(r.Last)
}

// choice names each of several days, months or years that r can be; days of
// one year share it. Empty when r is not of that kind: spans are not told apart
// again.
func choice(r Reading) string {
	if r.Precision != Ambiguous || len(r.Readings) < 2 {
		return ""
	}
	const in = "some day in "
	days, months := 0, 0
	var all []string
	year, shared := r.Year()
	for i, one := range r.Readings {
		s, whole := strings.CutPrefix(one.words(), in)
		switch {
		case whole:
			months++
		case one.Single():
			days++
			if shared && i < len(r.Readings)-1 {
				s = strings.TrimSuffix(s, " "+yearWords(year))
			}
		}
		all = append(all, s)
	}
	switch len(all) {
	case days:
		return listOr(all)
	case months:
		return in + listOr(all)
	}
	return ""
}

// yearWords is a year in at least four figures, years before 1 with BC.
func yearWords(y int) string {
	switch {
	case y > maxYear:
		return "Y" + strconv.Itoa(y)
	case 1-y > maxYear:
		return "Y" + strconv.Itoa(1-y) + " BC"
	case y < 1:
		return fmt.Sprintf("%04d BC", 1-y)
	}
	return fmt.Sprintf("%04d", y)
}

// endWords is the day at the end of a span; of a year of more than four
// figures the year alone.
func endWords(d Day) string {
	if y := d.Year(); y > maxYear || y < -maxYear {
		return yearWords(y)
	}
	return Words(d)
}

// Words is a day in words: 14 July 1987.
func Words(d Day) string {
	y, m, dd := d.Date()
	return strconv.Itoa(dd) + " " + monthName(m) + " " + yearWords(y)
}

// Short is a day in short words for lists: 14 Jul 1987.
func Short(d Day) string {
	y, m, dd := d.Date()
	return strconv.Itoa(dd) + " " + monthName(m)[:3] + " " + yearWords(y)
}

func itoa(n int) string { return strconv.Itoa(n) }

var englishMonths = [...]string{"January", "February", "March", "April", "May", "June", "July",
	"August", "September", "October", "November", "December"}

func monthName(m int) string { return englishMonths[m-1] }
