package quality

import (
	"strings"

	"blotter/ledger/dates"
)

// precision is the finest unit that an ISO 8601 date states.
type precision uint8

const (
	toYear precision = iota + 1
	toMonth
	toDay
	toTime
)

// isoTime is an ISO 8601-1:2019 date, time or interval as the days and seconds
// it covers. Local times are taken as they stand: offsets count only where
// both ends state one.
type isoTime struct {
	first, last dates.Day // the first and the last day, as written
	from, to    int64     // seconds since 1970-01-01 00:00, to exclusive; in UTC when zoned
	local       [2]int64  // the same as written, without offsets
	zoned       bool      // both ends state an offset
	precision   precision // the coarser of the two ends
	interval    bool      // two dates are written
}

// sameYear reports whether all lies in one year.
func (t isoTime) sameYear() bool { return t.first.Year() == t.last.Year() }

// sameMonth reports whether all lies in one month.
func (t isoTime) sameMonth() bool {
	y, m, _ := t.first.Date()
	y2, m2, _ := t.last.Date()
	return y == y2 && m == m2
}

// dayOfYear counts days from 1 January, which is 1.
func dayOfYear(d dates.Day) int { return int(d-dates.DayOf(d.Year(), 1, 1)) + 1 }

// isoPoint is one end of an interval, or a date alone.
type isoPoint struct {
	first, last dates.Day
	precision   precision
	second      int // of the day, where it begins
	span        int // seconds that the time of day covers: 1, 60 or 3600
	offset      int // seconds east of UTC
	zoned       bool
}

// parseISO reads a calendar date, ordinal date or week date of ISO 8601-1, in
// extended or basic format, with or without a time of day, or an interval of
// two of them, of which the second may leave out what it shares with the
// first, or of one and a duration in whole units. Years have four figures;
// 24:00 is not a time (edition of 2019).
func parseISO(s string) (isoTime, bool) {
	if len(s) < 4 || len(s) > 80 {
		return isoTime{}, false
	}
	left, right, interval := strings.Cut(s, "/")
	if !interval {
		p, ok := parsePoint(s)
		return between(p, p, false), ok
	}
	if d, rest, ok := parseDuration(left); ok {
		end, okEnd := parsePoint(right)
		start := end.minus(d)
		return between(start, end, true), rest && okEnd
	}
	start, ok := parsePoint(left)
	if !ok {
		return isoTime{}, false
	}
	if d, rest, ok := parseDuration(right); ok {
		return between(start, start.plus(d), true), rest
	}
	end, ok := parsePoint(right)
	if !ok {
		end, ok = parsePoint(completed(left, right))
	}
	t := between(start, end, true)
	return t, ok && t.first <= t.last && t.from <= t.to
}

// completed is the end of an interval with what it leaves out taken from the
// start: 2007-11-13/15, 2021-01/03, 2007-11-13T09:00/15:30.
func completed(left, right string) string {
	day, _, timed := strings.Cut(left, "T")
	rightDay, _, rightTimed := strings.Cut(right, "T")
	if timed && !rightTimed && strings.Contains(right, ":") {
		return day + "T" + right
	}
	cut := len(day) - len(rightDay)
	if cut < 1 || day[cut-1] != '-' {
		return ""
	}
	return day[:cut] + right
}

// between joins two points.
func between(a, b isoPoint, interval bool) isoTime {
	t := isoTime{first: a.first, last: b.last, precision: min(a.precision, b.precision), interval: interval}
	t.from = int64(a.first)*86400 + int64(a.second)
	t.to = (int64(b.last) + 1) * 86400
	if b.precision == toTime {
		t.to = int64(b.last)*86400 + int64(b.second)
		if !interval {
			t.to += int64(b.span)
		}
	}
	t.local = [2]int64{t.from, t.to}
	if a.zoned && b.zoned {
		t.from, t.to, t.zoned = t.from-int64(a.offset), t.to-int64(b.offset), true
	}
	return t
}

// before reports whether all of t is earlier than u. Offsets count where both
// state one; else the times are compared as written.
func (t isoTime) before(u isoTime) bool {
	from, to := u.from, t.to
	if !t.zoned || !u.zoned {
		from, to = u.local[0], t.local[1]
	}
	return to < from || to == from && t.local[0] < t.local[1]
}

// parsePoint reads one date with or without a time of day.
func parsePoint(s string) (isoPoint, bool) {
	day, clock, timed := strings.Cut(s, "T")
	p, ok := parseDay(day)
	if !ok || !timed {
		return p, ok
	}
	if p.precision != toDay {
		return p, false
	}
	p.precision = toTime
	return p, p.clock(clock)
}

// parseDay reads a calendar, ordinal or week date.
func parseDay(s string) (isoPoint, bool) {
	if len(s) < 4 {
		return isoPoint{}, false
	}
	y, ok := figures(s[:4])
	if !ok {
		return isoPoint{}, false
	}
	rest := strings.ReplaceAll(s[4:], "-", "")
	extended := strings.HasPrefix(s[4:], "-")
	switch {
	case s[4:] == "":
		return isoPoint{first: dates.DayOf(y, 1, 1), last: dates.DayOf(y, 12, 31), precision: toYear}, true
	case extended && len(s) == 7 && len(rest) == 2:
		m, ok := figures(rest)
		if !ok || !dates.Exists(y, m, 1) {
			return isoPoint{}, false
		}
		return isoPoint{first: dates.DayOf(y, m, 1), last: dates.DayOf(y, m+1, 1) - 1, precision: toMonth}, true
	case len(rest) == 4 && (len(s) == 8 || len(s) == 10 && extended && s[7] == '-'):
		m, okM := figures(rest[:2])
		d, okD := figures(rest[2:])
		if !okM || !okD || !dates.Exists(y, m, d) {
			return isoPoint{}, false
		}
		return oneDay(dates.DayOf(y, m, d)), true
	case strings.HasPrefix(rest, "W"):
		return parseWeek(y, s[4:])
	case len(rest) == 3 && (len(s) == 7 || len(s) == 8 && extended):
		n, ok := figures(rest)
		day := dates.DayOf(y, 1, 1) + dates.Day(n) - 1
		return oneDay(day), ok && n >= 1 && day.Year() == y
	}
	return isoPoint{}, false
}

func oneDay(d dates.Day) isoPoint { return isoPoint{first: d, last: d, precision: toDay} }

// parseWeek reads the rest of 2021-W03, 2021-W03-4, 2021W034.
func parseWeek(y int, s string) (isoPoint, bool) {
	rest := strings.ReplaceAll(s, "-", "")
	if len(rest) != 3 && len(rest) != 4 || strings.HasPrefix(s, "-") && len(rest) == 4 && !strings.HasPrefix(s[4:], "-") || strings.Count(s, "-") > 2 {
		return isoPoint{}, false
	}
	w, ok := figures(rest[1:3])
	monday := dates.DayOf(y, 1, 4)     // always in week 1
	monday -= (monday + 3) % 7         // 1970-01-01 was a Thursday
	if monday > dates.DayOf(y, 1, 4) { // before 1970 the remainder is negative
		monday -= 7
	}
	first := monday + dates.Day(7*(w-1))
	if !ok || w < 1 || w > 53 || (first+3).Year() != y {
		return isoPoint{}, false
	}
	if len(rest) == 3 {
		return isoPoint{first: first, last: first + 6, precision: toDay}, true
	}
	d := int(rest[3] - '0')
	return oneDay(first + dates.Day(d-1)), d >= 1 && d <= 7
}

// figures reads decimal figures only.
func figures(s string) (int, bool) {
	n := 0
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return 0, false
		}
		n = n*10 + int(s[i]-'0')
	}
	return n, s != "" && len(s) < 10
}
