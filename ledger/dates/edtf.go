package dates

import "strings"

// readEDTF reads ISO 8601-1 and EDTF forms (levels 0 and 1, Library of
// Congress 2019): 1987-07-14, 1987-07, 1987, a time of day after T, an
// interval with /, the marks ? ~ %, X for figures not stated, .. for an open
// end. False when the text is not wholly of that form. A plain 1987-07 is a
// month, never a span of years.
func readEDTF(text string) (Reading, bool) {
	c := text[0]
	if c != '-' && c != '.' && c != '/' && c != 'Y' && (c < '0' || c > '9') {
		return Reading{}, false
	}
	left, right, isInterval := strings.Cut(text, "/")
	if !isInterval {
		r, ok := edtfDate(text)
		return r, ok
	}
	a, openA, okA := edtfEnd(left)
	b, openB, okB := edtfEnd(right)
	if !okA || !okB || openA && openB && text != "../.." {
		return shortInterval(a, okA && !openA, right)
	}
	r := Reading{First: a.First, Last: b.Last, Precision: ToSpan, OpenStart: openA, OpenEnd: openB,
		Approximate: a.Approximate || b.Approximate, Uncertain: a.Uncertain || b.Uncertain}
	if !openA && !openB && a.First > b.Last {
		return Reading{}, false
	}
	if !openA && !openB && r.First == r.Last {
		r.Precision = ToDay
	}
	return r, true
}

// shortInterval reads the ISO 8601-1 form 2007-11-13/15, whose end leaves out
// what it shares with the start.
func shortInterval(a Reading, ok bool, right string) (Reading, bool) {
	if !ok || a.Precision != ToDay || len(right) != 2 {
		return Reading{}, false
	}
	y, m, _ := a.First.Date()
	d, digits := number2(right)
	if !digits || !Exists(y, m, d) || DayOf(y, m, d) < a.First {
		return Reading{}, false
	}
	return Reading{First: a.First, Last: DayOf(y, m, d), Precision: ToSpan}, true
}

func edtfEnd(s string) (r Reading, open, ok bool) {
	if s == "" || s == ".." {
		return Reading{}, true, true
	}
	r, ok = edtfDate(s)
	return r, false, ok
}

// edtfDate reads one date of EDTF. A single day or month that does not exist
// is left to the reader of plain dates, which explains it.
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
	sign := 1
	if strings.HasPrefix(s, "-") {
		sign, s = -1, s[1:]
	}
	if i := strings.IndexByte(s, 'T'); i == 10 && isTime(s[11:]) {
		s = s[:10]
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
		r.First, r.Last, r.Precision = s.first, s.last, s.precision
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
		case c >= '0' && c <= '9' && !open:
			from, to = from*10+int(c-'0'), to*10+int(c-'0')
		default:
			return 0, 0, false
		}
	}
	return from, to, true
}

func number2(s string) (int, bool) {
	if len(s) != 2 || s[0] < '0' || s[0] > '9' || s[1] < '0' || s[1] > '9' {
		return 0, false
	}
	return int(s[0]-'0')*10 + int(s[1]-'0'), true
}

// isTime reports whether s is a time of day with or without offset; the time
// itself is not kept.
func isTime(s string) bool {
	if len(s) < 5 {
		return false
	}
	for i, c := range []byte(s) {
		digit := c >= '0' && c <= '9'
		if i < 5 && (i == 2) != (c == ':') || i < 5 && i != 2 && !digit {
			return false
		}
		if !digit && !strings.ContainsRune(":.,+-Z", rune(c)) {
			return false
		}
	}
	return true
}
