package dates

import "strings"

// readISO reads ISO 8601-1 and EDTF forms (levels 0 and 1, Library of
// Congress 2019): 1987-07-14, 1987-07, 1987, a time of day after T, an
// interval with /, the marks ? ~ %, X for figures not stated, .. for an open
// end, Y before a year of more than four figures, 21 to 24 for a season. Of
// ISO besides: an interval whose end leaves out what it shares with its start
// (2007-11-13/15), and the date of a week (1987-W29-2). False when the text is
// not wholly of such a form. A plain 1987-07 is a month, never a span of
// years.
func readISO(text string) (Reading, bool) {
	c := text[0]
	if c != '-' && c != '.' && c != '/' && c != 'Y' && !isDigit(c) {
		return Reading{}, false
	}
	left, right, isInterval := strings.Cut(text, "/")
	if !isInterval {
		return edtfDate(text)
	}
	a, openA, okA := edtfEnd(left)
	b, openB, okB := edtfEnd(right)
	if okA && !openA && !okB {
		return shortInterval(a, right)
	}
	if !okA || !okB || openA && openB {
		return Reading{}, false
	}
	r := Reading{First: a.First, Last: b.Last, Precision: ToSpan, OpenStart: openA, OpenEnd: openB,
		Approximate: a.Approximate || b.Approximate, Uncertain: a.Uncertain || b.Uncertain, Warnings: append(a.Warnings, b.Warnings...)}
	if !openA && !openB && a.First > b.Last {
		return Reading{}, false
	}
	if len(r.Warnings) > 1 {
		r.Warnings = r.Warnings[:1]
	}
	if !openA && !openB && r.First == r.Last {
		r.Precision = ToDay
	}
	return r, true
}

// shortInterval reads the ISO 8601-1 forms 2007-11-13/15, 2007-11-13/12-02 and
// 2007-11/12, whose end leaves out what it shares with the start.
func shortInterval(a Reading, right string) (Reading, bool) {
	n := 0
	switch {
	case a.Precision == ToDay && (len(right) == 2 || len(right) == 5), a.Precision == ToMonth && len(right) == 2:
		n = 10
		if a.Precision == ToMonth {
			n = 7
		}
	default:
		return Reading{}, false
	}
	start := a.First.String()
	if len(start) < 10 || start[0] == '-' {
		return Reading{}, false
	}
	b, ok := edtfDate(start[:n-len(right)] + right)
	if !ok || b.season > 0 || b.Last < a.First || len(b.Warnings) > 0 {
		return Reading{}, false
	}
	return Reading{First: a.First, Last: b.Last, Precision: ToSpan, Approximate: a.Approximate, Uncertain: a.Uncertain}, true
}

func edtfEnd(s string) (r Reading, open, ok bool) {
	if s == "" || s == ".." {
		return Reading{}, true, true
	}
	r, ok = edtfDate(s)
	return r, false, ok
}

// edtfDate reads one date of EDTF or ISO 8601-1. A single day or month that
// does not exist is left to the reader of plain dates, which explains it.
func edtfDate(s string) (Reading, bool) {
	var r Reading
	if n := len(s); n > 1 {
		switch s[n-1] {
		case '?':
			r.Uncertain, s = true, s[:n-1]
		case '~':
			r.Approximate, s = true, s[:n-1]
		case '%':
			r.Uncertain, r.Approximate, s = true, true, s[:n-1]
		}
	}
	if strings.HasPrefix(s, "Y") {
		return edtfLongYear(r, s[1:])
	}
	sign := 1
	if strings.HasPrefix(s, "-") {
		sign, s = -1, s[1:]
	}
	if i := strings.IndexByte(s, 'T'); i == 10 {
		if !isTime(s[11:]) {
			return Reading{}, false
		}
		if !strings.HasPrefix(s[11:], "00:00") {
			r.Warnings = timeWarning
		}
		s = s[:10]
	}
	if len(s) >= 8 && s[5] == 'W' {
		return weekDate(s)
	}
	if len(s) != 4 && len(s) != 7 && len(s) != 10 || len(s) > 4 && s[4] != '-' || len(s) > 7 && s[7] != '-' {
		return Reading{}, false
	}
	y1, y2, ok := edtfYear(s[:4])
	if !ok || sign < 0 && (y1 != y2 || y1 == 0) {
		return Reading{}, false
	}
	y1, y2 = sign*y1, sign*y2
	if len(s) == 4 {
		r.First, r.Last, r.Precision = DayOf(y1, 1, 1), DayOf(y2, 12, 31), ToYear
		if y1 != y2 {
			r.Precision = ToDecade
		}
		return r, true
	}
	return edtfParts(r, y1, y2, s[5:7], s[min(len(s), 8):])
}

var timeWarning = []Warning{{Code: "date-time", Message: "the time of day stays in the words and takes no part in the reading"}}

// edtfLongYear reads what stands after Y: a year of more than four figures.
func edtfLongYear(r Reading, s string) (Reading, bool) {
	sign := 1
	if strings.HasPrefix(s, "-") {
		sign, s = -1, s[1:]
	}
	y, ok := longNumber(s)
	if !ok {
		return Reading{}, false
	}
	r.First, r.Last, r.Precision = DayOf(sign*y, 1, 1), DayOf(sign*y, 12, 31), ToYear
	return r, true
}

// longNumber is a number of five to ten figures that does not begin with 0.
func longNumber(s string) (int, bool) {
	if len(s) < 5 || len(s) > 10 || s[0] == '0' {
		return 0, false
	}
	n := 0
	for i := range len(s) {
		if !isDigit(s[i]) {
			return 0, false
		}
		n = n*10 + int(s[i]-'0')
	}
	return n, true
}

// weekDate reads 1987-W29 and 1987-W29-2 (ISO 8601-1): weeks begin on Monday
// and the first has the year's first Thursday.
func weekDate(s string) (Reading, bool) {
	y1, y2, ok := edtfYear(s[:4])
	w, ok2 := number2(s[6:8])
	if !ok || !ok2 || y1 != y2 || s[4] != '-' || w < 1 {
		return Reading{}, false
	}
	jan4 := DayOf(y1, 1, 4)
	monday := jan4 - Day(jan4.Weekday()-1) + Day(7*(w-1))
	switch {
	case (monday + 3).Year() != y1:
		return Reading{}, false
	case len(s) == 8:
		return Reading{First: monday, Last: monday + 6, Precision: ToSpan}, true
	case len(s) == 10 && s[8] == '-' && s[9] >= '1' && s[9] <= '7':
		d := monday + Day(s[9]-'1')
		return Reading{First: d, Last: d, Precision: ToDay}, true
	}
	return Reading{}, false
}

// edtfParts reads the month or season and the day, both possibly XX.
func edtfParts(r Reading, y1, y2 int, month, day string) (Reading, bool) {
	if month == "XX" && (day == "" || day == "XX") {
		r.First, r.Last, r.Precision = DayOf(y1, 1, 1), DayOf(y2, 12, 31), ToYear
		return r, true
	}
	m, ok := number2(month)
	if !ok || y1 != y2 {
		return Reading{}, false
	}
	if m >= 21 && m <= 24 && day == "" {
		s := seasonSpan(partial{y: y1, season: m - 20})
		r.First, r.Last, r.Precision, r.season = s.first, s.last, s.precision, s.season
		return r, true
	}
	if m < 1 || m > 12 {
		return Reading{}, false
	}
	if day == "" || day == "XX" {
		r.First, r.Last, r.Precision = DayOf(y1, m, 1), DayOf(y1, m, daysIn(y1, m)), ToMonth
		return r, true
	}
	d, ok := number2(day)
	if !ok || !Exists(y1, m, d) {
		return Reading{}, false
	}
	r.First = DayOf(y1, m, d)
	r.Last, r.Precision = r.First, ToDay
	return r, true
}

// edtfYear is the range of years that four characters stand for: 1987, 198X,
// 19XX.
func edtfYear(s string) (from, to int, ok bool) {
	open := false
	for i := range len(s) {
		c := s[i]
		switch {
		case c == 'X' && i > 0:
			from, to, open = from*10, to*10+9, true
		case isDigit(c) && !open:
			from, to = from*10+int(c-'0'), to*10+int(c-'0')
		default:
			return 0, 0, false
		}
	}
	return from, to, true
}

func number2(s string) (int, bool) {
	if len(s) != 2 || !isDigit(s[0]) || !isDigit(s[1]) {
		return 0, false
	}
	return int(s[0]-'0')*10 + int(s[1]-'0'), true
}

// isTime reports whether s is a time of day, hh:mm, hh:mm:ss or with a
// fraction, with or without offset; the time itself is not kept.
func isTime(s string) bool {
	n := 0
	for _, most := range []int{24, 59, 60} {
		v, ok := number2(s[min(n, len(s)):min(n+2, len(s))])
		if !ok || v > most {
			return false
		}
		if n += 2; n >= len(s) || s[n] != ':' {
			break
		}
		n++
	}
	if n < 5 || s[n-1] == ':' {
		return false
	}
	if n < len(s) && (s[n] == '.' || s[n] == ',') {
		for n++; n < len(s) && isDigit(s[n]); n++ {
		}
	}
	return isOffset(s[n:])
}

// isOffset reports whether s is "", Z, +05, +0530 or +05:30.
func isOffset(s string) bool {
	if s == "" || s == "Z" {
		return true
	}
	if s[0] != '+' && s[0] != '-' || len(s) < 3 {
		return false
	}
	h, ok := number2(s[1:3])
	m, ok2 := 0, true
	if rest := strings.TrimPrefix(s[3:], ":"); rest != "" {
		m, ok2 = number2(rest)
	}
	return ok && ok2 && h <= 14 && m <= 59
}

// notEDTF says why a text that has the look of EDTF is none; "" when it has
// not that look.
func notEDTF(text string) string {
	day := len(text) > 10 && text[4] == '-' && text[7] == '-'
	switch {
	case day && text[10] == 'T' && isDigit(text[9]):
		return "what stands after T is no time of day (ISO 8601-1, for example 2018-08-29T15:19)"
	case len(text) > 6 && text[4:6] == "-W" && isDigit(text[3]):
		return "the year has no such week (ISO 8601-1)"
	case strings.HasPrefix(text, "-0000"):
		return "there is no year -0000; 0000 is 1 BC (ISO 8601-1)"
	case len(text) > 6 && text[4] == '-' && text[5] == '(' || strings.HasPrefix(text, "("):
		if isDigit(text[0]) || len(text) > 6 && text[5] == ')' && text[6] == '?' {
			return "brackets are the form of the 2012 draft of EDTF, which the standard dropped; write for example 2004-06-11?"
		}
	}
	return ""
}
