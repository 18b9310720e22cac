package dates

import (
	"fmt"
	"strings"
)

// Order is how a date all in figures is to be taken when it can be read in
// two ways, as 3/4/1934 can.
type Order uint8

const (
	Ask      Order = iota // both readings stand, with a warning
	DayMonth              // 3/4/1934 is 3 April
	MonthDay              // 3/4/1934 is 4 March
)

// OrderOf is the order that the words of a setting name: day-month or
// month-day; anything else is Ask.
func OrderOf(words string) Order {
	switch words {
	case "day-month":
		return DayMonth
	case "month-day":
		return MonthDay
	}
	return Ask
}

// Precision is how closely the words themselves give the date.
type Precision uint8

const (
	Unread    Precision = iota // no reading
	ToDay                      // one day
	ToMonth                    // some day in a month
	ToSeason                   // some day in a season
	ToYear                     // some day in a year
	ToDecade                   // some day in ten or a hundred years
	ToSpan                     // from one stated time to another
	Ambiguous                  // two or more readings are possible; First and Last span all
)

// None is what the words say when they give no date. The three kinds are
// different things and are shown with different phrases.
type None uint8

const (
	Stated      None = iota // the words are meant as a date
	NotRecorded             // s.d.: none on the label
	Illegible               // [illegible]: there, not legible
	NotTyped                // nothing: not yet typed
)

// Warning says what is doubtful in a date and, where it can be read in more
// than one way, how.
type Warning struct {
	Code     string // stable, for example date-ambiguous
	Message  string
	Readings []string // for example "3 April 1934" and "4 March 1934"
}

// Reading is a date as read: every day from First to Last is possible, no
// other is. It says nothing unless Known.
type Reading struct {
	First, Last Day
	Precision   Precision
	None        None
	Approximate bool // ca., about, early, late: the words say that the days are not exact
	Uncertain   bool // ?: the words say that the date is doubtful
	OpenStart   bool // nothing is said of the first day (EDTF ../1985); First means nothing
	OpenEnd     bool // nothing is said of the last day; Last means nothing
	Warnings    []Warning
}

// Known reports whether there is a reading.
func (r Reading) Known() bool { return r.Precision != Unread }

// Single reports whether exactly one day is possible.
func (r Reading) Single() bool {
	return r.Known() && r.First == r.Last && !r.OpenStart && !r.OpenEnd
}

// Year is the year that the date surely lies in; false when it may lie in
// more than one.
func (r Reading) Year() (int, bool) {
	if !r.Known() || r.OpenStart || r.OpenEnd || r.First.Year() != r.Last.Year() {
		return 0, false
	}
	return r.First.Year(), true
}

// Month is the year and month that the date surely lies in.
func (r Reading) Month() (year, month int, ok bool) {
	y, ok := r.Year()
	if !ok {
		return 0, 0, false
	}
	_, m1, _ := r.First.Date()
	_, m2, _ := r.Last.Date()
	return y, m1, m1 == m2
}

// Overlaps reports whether r and s share a possible day.
func (r Reading) Overlaps(s Reading) bool {
	if !r.Known() || !s.Known() {
		return false
	}
	return (r.OpenStart || s.OpenEnd || r.First <= s.Last) && (s.OpenStart || r.OpenEnd || s.First <= r.Last)
}

// ISO is r as an ISO 8601-1 date or interval of days, for an export: the
// shortest form that says the same, for example 1987-07-14, 1987-07, 1987,
// 1952-08-03/1952-08-09. Empty when unknown or open at an end.
func (r Reading) ISO() string {
	if !r.Known() || r.OpenStart || r.OpenEnd {
		return ""
	}
	if s := whole(r.First, r.Last); s != "" {
		return s
	}
	return r.First.String() + "/" + r.Last.String()
}

// EDTF is r in the Extended Date/Time Format, levels 0 and 1 (Library of
// Congress, 4 February 2019); empty when unknown. Read(r.EDTF()) has the same
// First and Last.
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
	case r.OpenStart && r.OpenEnd:
		return "../.."
	case r.OpenStart:
		return "../" + r.Last.String() + mark
	case r.OpenEnd:
		return r.First.String() + mark + "/.."
	}
	if s := whole(r.First, r.Last); s != "" {
		return s + mark
	}
	return r.First.String() + mark + "/" + r.Last.String() + mark
}

// whole is the ISO form of a day, a whole month or a whole year; else "".
func whole(first, last Day) string {
	y, m, d := first.Date()
	y2, m2, d2 := last.Date()
	switch {
	case first == last:
		return first.String()
	case y == y2 && m == m2 && d == 1 && d2 == daysIn(y, m):
		return first.String()[:len(first.String())-3]
	case y == y2 && m == 1 && d == 1 && m2 == 12 && d2 == 31:
		return first.String()[:len(first.String())-6]
	}
	return ""
}

// String is r in words, after "read as": "14 July 1987", "some day in July
// 1987", "some day from 3 to 9 August 1952". Empty when unknown.
func (r Reading) String() string {
	if !r.Known() {
		return ""
	}
	s := r.words()
	if r.Approximate {
		s = "about " + strings.TrimPrefix(s, "some day in ")
	}
	if r.Uncertain {
		s += ", doubtful"
	}
	return s
}

func (r Reading) words() string {
	switch {
	case r.OpenStart && r.OpenEnd:
		return "any day"
	case r.OpenStart:
		return "some day up to " + Words(r.Last)
	case r.OpenEnd:
		return "some day from " + Words(r.First)
	}
	y, m, d := r.First.Date()
	y2, m2, d2 := r.Last.Date()
	iso := whole(r.First, r.Last)
	switch {
	case r.First == r.Last:
		return Words(r.First)
	case iso != "" && y == y2 && m == m2:
		return fmt.Sprintf("some day in %s %d", monthName(m), y)
	case iso != "":
		return fmt.Sprintf("some day in %d", y)
	case d == 1 && m == 1 && d2 == 31 && m2 == 12:
		return fmt.Sprintf("some day from %d to %d", y, y2)
	case y == y2 && m == m2:
		return fmt.Sprintf("some day from %d to %d %s %d", d, d2, monthName(m), y)
	case y == y2 && d == 1 && d2 == daysIn(y2, m2):
		return fmt.Sprintf("some day from %s to %s %d", monthName(m), monthName(m2), y)
	case y == y2:
		return fmt.Sprintf("some day from %d %s to %d %s %d", d, monthName(m), d2, monthName(m2), y)
	}
	return "some day from " + Words(r.First) + " to " + Words(r.Last)
}

// Words is a day in words: 14 July 1987.
func Words(d Day) string {
	y, m, dd := d.Date()
	return fmt.Sprintf("%d %s %d", dd, monthName(m), y)
}

// Short is a day in short words for lists: 14 Jul 1987.
func Short(d Day) string {
	y, m, dd := d.Date()
	return fmt.Sprintf("%d %s %d", dd, monthName(m)[:3], y)
}

var englishMonths = [...]string{"January", "February", "March", "April", "May", "June", "July",
	"August", "September", "October", "November", "December"}

func monthName(m int) string { return englishMonths[m-1] }
