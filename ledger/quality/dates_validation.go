package quality

import (
	"strconv"

	"blotter/ledger/dates"
)

// isoValid makes the test whether a term holds a valid ISO 8601 date.
func isoValid(t Term) func(*input) Response {
	return func(in *input) Response {
		if in.empty(t) {
			return internal(t.String() + " is empty")
		}
		_, ok := parseISO(in.value(t))
		return complies(ok, t.String()+" is an ISO 8601 date", t.String()+" is no ISO 8601 date")
	}
}

// eventDateInRange asks whether all of eventDate lies between two dates.
func eventDateInRange(in *input) Response {
	t, ok := parseISO(in.value(dwcEventDate))
	if !ok {
		return internal(emptyOr(in, dwcEventDate, "is no ISO 8601 date"))
	}
	earliest, latest := in.validDates()
	if t.first >= earliest && t.last <= latest {
		return compliant("dwc:eventDate is possible")
	}
	return notCompliant("dwc:eventDate does not lie wholly between " + earliest.String() + " and " + latest.String())
}

// dateIdentifiedInRange asks whether a determination is not older than the
// gathering, nor than botany, nor to come.
func dateIdentifiedInRange(in *input) Response {
	det, ok := parseISO(in.value(dwcDateIdentified))
	if !ok {
		return internal(emptyOr(in, dwcDateIdentified, "is no ISO 8601 date"))
	}
	compare := in.parameter(bdqIncludeEventDate) != "false" && !in.empty(dwcEventDate)
	event, ok := parseISO(in.value(dwcEventDate))
	if compare && !ok {
		return internal("dwc:eventDate is no ISO 8601 date")
	}
	earliest, latest := in.validDates()
	// The year or month that runs now is not to come, though its last day is.
	early := det.last <= latest || !det.interval && det.first <= latest
	switch {
	case det.first < earliest || !early:
		return notCompliant("dwc:dateIdentified does not lie between " + earliest.String() + " and " + latest.String())
	case compare && det.before(event):
		return notCompliant("dwc:dateIdentified is before dwc:eventDate")
	}
	return compliant("dwc:dateIdentified is possible")
}

// validDates are the first and last day that the parameters allow.
func (in *input) validDates() (earliest, latest dates.Day) {
	earliest, latest = dates.DayOf(1, 1, 1), dates.DayOf(in.suite.today.Year(), 12, 31)
	if t, ok := parseISO(in.parameter(bdqEarliestValidDate)); ok {
		earliest = t.first
	}
	switch p := in.parameter(bdqLatestValidDate); p {
	case currentDay:
		latest = in.suite.today
	default:
		if t, ok := parseISO(p); ok {
			latest = t.last
		}
	}
	return earliest, latest
}

// Defaults of a parameter that change with the calendar, as the standard
// writes them.
const (
	currentDay  = "{current day}"
	currentYear = "{current year}"
)

// emptyOr says that a term is empty, or what else is wrong with it.
func emptyOr(in *input, t Term, else_ string) string {
	if in.empty(t) {
		return t.String() + " is empty"
	}
	return t.String() + " " + else_
}

// yearInRange asks whether year lies between the years of two dates.
func yearInRange(in *input) Response {
	y, ok := integer(in.value(dwcYear))
	if !ok {
		return internal(emptyOr(in, dwcYear, "is no whole number"))
	}
	earliest, latest := in.validDates()
	span := strconv.Itoa(earliest.Year()) + " to " + strconv.Itoa(latest.Year())
	return complies(y >= earliest.Year() && y <= latest.Year(), "dwc:year is in "+span, "dwc:year is not in "+span)
}

// monthStandard asks whether month is 1 to 12.
func monthStandard(in *input) Response { return wholeNumber(in, dwcMonth, 12) }

// dayStandard asks whether day is 1 to 31.
func dayStandard(in *input) Response { return wholeNumber(in, dwcDay, 31) }

func wholeNumber(in *input, t Term, most int) Response {
	if in.empty(t) {
		return internal(t.String() + " is empty")
	}
	n, ok := integer(in.value(t))
	span := "a whole number from 1 to " + strconv.Itoa(most)
	return complies(ok && n >= 1 && n <= most, t.String()+" is "+span, t.String()+" is not "+span)
}

// dayInRange asks whether the month of that year has such a day.
func dayInRange(in *input) Response {
	d, ok := integer(in.value(dwcDay))
	if !ok {
		return internal(emptyOr(in, dwcDay, "is no whole number"))
	}
	if d >= 1 && d <= 28 {
		return compliant("every month has such a day")
	}
	m, okM := integer(in.value(dwcMonth))
	if d < 29 || d > 31 {
		return notCompliant("no month has such a day")
	}
	if !okM || m < 1 || m > 12 {
		return internal("dwc:month, which says whether there is such a day, is not from 1 to 12")
	}
	year := 2000 // a leap year: for other days than 29 February the year does not count
	if m == 2 && d == 29 {
		y, okY := figures(trim(in.value(dwcYear)))
		if !okY || len(trim(in.value(dwcYear))) != 4 {
			return internal("dwc:year, which says whether there is a 29 February, is no year of four figures")
		}
		year = y
	}
	return complies(dates.Exists(year, m, d), "the month has such a day", "the month has no such day")
}

// dayOfYearInRange makes the test whether a day counted within the year is
// possible in the year in which eventDate begins or ends.
func dayOfYearInRange(t Term, of func(isoTime) dates.Day) func(*input) Response {
	return func(in *input) Response {
		if in.empty(t) {
			return internal(t.String() + " is empty")
		}
		n, ok := integer(in.value(t))
		switch {
		case ok && n >= 1 && n <= 365:
			return compliant(t.String() + " is in range")
		case !ok || n != 366:
			return notCompliant(t.String() + " is not a whole number from 1 to 366")
		}
		event, known := parseISO(in.value(dwcEventDate))
		if !known {
			return internal("day 366 needs a leap year, and dwc:eventDate gives none")
		}
		y := of(event).Year()
		return complies(dates.Exists(y, 2, 29), strconv.Itoa(y)+" has a day 366", strconv.Itoa(y)+" has no day 366")
	}
}

func firstDay(t isoTime) dates.Day { return t.first }
func lastDay(t isoTime) dates.Day  { return t.last }

// eventDuration measures eventDate in seconds; every day has 86,400.
func eventDuration(in *input) Response {
	t, ok := parseISO(in.value(dwcEventDate))
	if !ok {
		r := internal(emptyOr(in, dwcEventDate, "is no ISO 8601 date"))
		r.Result = NotReported
		return r
	}
	return measured(int(t.to-t.from), "seconds from the start to the end of dwc:eventDate")
}
