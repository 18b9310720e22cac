package dates

import (
	"strings"
)

// Warning says what is doubtful in a date and, where it can be read in more
// than one way, how. The codes:
//
//	date-ambiguous    more than one reading; First and Last span all
//	date-short-year   the same, since the year has two figures
//	date-several      more than one date
//	date-no-such-day  a day that the calendar does not have; no reading
//	date-no-year      no year, or not all of it; no reading
//	date-unread       not read
//	date-misspelt     read by taking a word or figure for another
//	date-weekday      the day of the week is another
//	date-calendar     before the Gregorian calendar
//	date-old-style    by the Julian calendar, or perhaps
//	date-time         a time of day, which takes no part in the reading
type Warning struct {
	Code     string // stable, for example date-ambiguous
	Message  string
	Readings []string // for example "3 April 1934" and "4 March 1934"
}

// Notice reports whether the warning only says how a date was read, and
// nothing is doubtful.
func (w Warning) Notice() bool { return w.Code == "date-time" }

func unread(code, message string) Reading {
	return Reading{Warnings: []Warning{{Code: code, Message: message}}}
}

// settle is how a person settles a date in the record.
func settle(r Reading) string {
	return "; whoever knows which writes it under read, for example date: {is: " + r.EDTF() + "}"
}

func inWords(rs []Reading) []string {
	var out []string
	for _, r := range rs {
		out = append(out, r.String())
	}
	return out
}

func ambiguousWarning(rs []Reading, shortYear bool) Warning {
	w := Warning{Code: "date-ambiguous", Readings: inWords(rs)}
	w.Message = "can be " + listOr(w.Readings) + settle(rs[0])
	if shortYear {
		w.Code = "date-short-year"
		w.Message = "the year has two figures: " + w.Message
	}
	return w
}

func doubleWarning(rs []Reading) Warning {
	w := Warning{Code: "date-ambiguous", Readings: inWords(rs)}
	w.Message = "can be " + w.Readings[0] + ", written by the old and the new calendar, or " + w.Readings[1] + settle(rs[0])
	return w
}

func severalWarning(all []span) Warning {
	w := Warning{Code: "date-several"}
	for _, s := range all {
		w.Readings = append(w.Readings, Reading{First: s.first, Last: s.last, Precision: s.precision, season: s.season}.String())
	}
	last := len(w.Readings) - 1
	w.Message = "has more than one date: " + strings.Join(w.Readings[:last], ", ") + " and " + w.Readings[last] + "; the reading spans them all"
	return w
}

func listOr(words []string) string {
	if len(words) == 1 {
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

var weekdayNames = [...]string{"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"}

// notices adds what the other words of the text say of the reading.
func (l *lexed) notices(r *Reading, p parser) {
	add := func(code, message string) { r.Warnings = append(r.Warnings, Warning{Code: code, Message: message}) }
	if l.time {
		add("date-time", "the time of day stays in the words and takes no part in the reading")
	}
	if l.weekday >= 1 && l.weekday <= 7 && r.Single() && r.First.Weekday() != int(l.weekday) && l.style != oldStyle {
		message := Words(r.First) + " was a " + weekdayNames[r.First.Weekday()-1] + ", not a " + weekdayNames[l.weekday-1]
		if j := r.First + Day(JulianDays(r.First)); j.Weekday() == int(l.weekday) && r.First < changes["GR"] {
			message += ", unless it is by the Julian calendar (" + Words(j) + " by ours)"
		}
		add("date-weekday", message)
	}
	if l.style == oldStyle && p.double.precision == Unread {
		add("date-old-style", "old style, the Julian calendar: the days are counted on by "+itoa(JulianDays(r.First))+" to our calendar")
	}
}

var lastDay = DayOf(maxYear, 12, 31)

// remark adds what holds of any early date; the year 9999 stands in tables for
// none.
func remark(r Reading) Reading {
	if r.Last == lastDay && r.First == DayOf(maxYear, 1, 1) && r.season == 0 {
		return Reading{None: NotTyped}
	}
	end := r.First
	if r.OpenStart {
		end = r.Last
	}
	switch {
	case !r.Known() || end >= gregorian || r.style == oldStyle:
	case end.Year() < 1500:
		r.Warnings = append(r.Warnings, Warning{Code: "date-calendar",
			Message: "lies before the oldest herbaria (16th century): most likely a slip of the pen"})
	default:
		r.Warnings = append(r.Warnings, Warning{Code: "date-calendar",
			Message: "lies before 15 October 1582, when the Gregorian calendar began: read by it all the same, as ISO 8601 counts; labels of the time go by the Julian"})
	}
	return r
}

// explain says why nothing could be read.
func (l *lexed) explain(p parser, tokens []token) Reading {
	switch {
	case l.latinDay:
		return unread("date-unread", "counts by the Roman calendar (calends, nones, ides), which is not worked out here; write the day under read, for example date: {is: 1787-07-14}")
	case l.otherWord != "":
		message := "cannot read \"" + l.otherWord + "\" as part of a date"
		if guess := nearMonth(l.otherWord); guess != "" {
			message += "; did you mean " + guess + "?"
		}
		return unread("date-unread", message)
	case len(tokens) == 0:
		return unread("date-unread", "has no figures that give a date")
	case p.noSuchDay != "":
		return unread("date-no-such-day", p.noSuchDay)
	case p.reversed:
		return unread("date-unread", "the end of the span lies before its start")
	}
	r := explainTokens(tokens)
	if r.Warnings[0].Code == "date-unread" && p.noSuchMonth > 12 {
		return unread("date-no-such-day", "there is no month "+itoa(p.noSuchMonth))
	}
	return r
}

func explainTokens(tokens []token) Reading {
	years, days, months := false, 0, 0
	for i, t := range tokens {
		switch {
		case t.kind == number && t.digits == 3 && i > 0 && t.hyphen && years && t.value <= 366:
			return unread("date-no-such-day", "the year has no day "+itoa(t.value))
		case t.yearLike(), t.kind == century, t.kind == decade:
			years = true
		case t.kind == number && t.digits == 3:
			return unread("date-no-year", "the year "+itoa(t.value)+" has three figures: one is missing")
		case t.kind == number && t.digits == 5:
			return unread("date-unread", "a number of five figures is no date; if it is a spreadsheet's count of days, take the day from the spreadsheet")
		case t.kind == number && t.digits > 5:
			return unread("date-unread", "a number of "+itoa(int(t.digits))+" figures is no date; for example 14.vii.1987")
		case t.kind == number:
			days++
		case t.kind == month:
			months++
		}
	}
	switch {
	case !years && (days > 0 || months > 0):
		return unread("date-no-year", "no year can be read; a date needs at least the year, for example 14.vii.1987")
	case !years:
		return unread("date-no-year", "no year can be read")
	case months > 1 || days > 4:
		return unread("date-unread", "cannot be read as one date; it may be several")
	}
	return unread("date-unread", "cannot be read as a date; for example 14.vii.1987, July 1987 or 1987-07-14")
}
