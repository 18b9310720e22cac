package dates

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

// Reading is a date as read: every day from First to Last is possible, no
// other is. It says nothing unless Known.
type Reading struct {
	First, Last Day
	Precision   Precision
	None        None
	Approximate bool      // ca., about, early, late: the words say that the days are not exact
	Uncertain   bool      // ?: the words say that the date is doubtful
	OpenStart   bool      // nothing is said of the first day (EDTF ../1985); First means nothing
	OpenEnd     bool      // nothing is said of the last day; Last means nothing
	Readings    []Reading // when Ambiguous: each possible reading, earliest first
	Warnings    []Warning

	season int // 1 spring to 4 winter, when Precision is ToSeason and it is one year's
	style  style
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
