package quality

import (
	"strings"

	"blotter/ledger/dates"
)

// clock reads a time of day with or without offset: 14, 14:07, 1407,
// 14:07:30.5, each with Z, -06, -0600 or -06:00.
func (p *isoPoint) clock(s string) bool {
	if zone := strings.LastIndexAny(s, "Z+-"); zone >= 0 {
		if !p.zone(s[zone:]) {
			return false
		}
		s = s[:zone]
	}
	whole, fraction, fractional := strings.Cut(strings.Replace(s, ",", ".", 1), ".")
	if fractional {
		if _, ok := figures(fraction); !ok {
			return false
		}
	}
	parts := strings.Split(whole, ":")
	if len(parts) == 1 && (len(whole) == 4 || len(whole) == 6) { // basic format
		parts = parts[:0]
		for ; whole != ""; whole = whole[2:] {
			parts = append(parts, whole[:2])
		}
	}
	limit := [...]int{23, 59, 60} // 60: a leap second
	unit := [...]int{3600, 60, 1}
	if len(parts) > len(limit) {
		return false
	}
	for i, part := range parts {
		n, ok := figures(part)
		if !ok || len(part) != 2 || n > limit[i] {
			return false
		}
		p.second += n * unit[i]
		p.span = unit[i]
	}
	if fractional {
		p.span = 1
	}
	return true
}

// zone reads an offset from UTC.
func (p *isoPoint) zone(s string) bool {
	p.zoned = true
	if s == "Z" {
		return true
	}
	rest := strings.Replace(s[1:], ":", "", 1)
	if len(s) == 6 && s[3] != ':' || len(rest) != 2 && len(rest) != 4 {
		return false
	}
	h, okH := figures(rest[:2])
	m := 0
	okM := true
	if len(rest) == 4 {
		m, okM = figures(rest[2:])
	}
	p.offset = h*3600 + m*60
	if s[0] == '-' {
		p.offset = -p.offset
	}
	return okH && okM && h <= 18 && m < 60
}

// duration is an ISO 8601-1 duration in whole units.
type duration struct{ years, months, days, seconds int }

// parseDuration reads P1Y2M3D, P2W, PT36H. isDuration says that the text is
// meant as one, whole that it is read to its end.
func parseDuration(s string) (d duration, whole, isDuration bool) {
	if !strings.HasPrefix(s, "P") {
		return d, false, false
	}
	inTime, n, digits, any := false, 0, 0, false
	for _, c := range s[1:] {
		switch {
		case c >= '0' && c <= '9' && digits < 6:
			n, digits = n*10+int(c-'0'), digits+1
			continue
		case c == 'T' && !inTime && digits == 0:
			inTime = true
			continue
		case digits == 0 || !d.add(c, n, inTime):
			return d, false, true
		}
		n, digits, any = 0, 0, true
	}
	return d, any && digits == 0, true
}

func (d *duration) add(unit rune, n int, inTime bool) bool {
	switch {
	case unit == 'Y' && !inTime:
		d.years += n
	case unit == 'M' && !inTime:
		d.months += n
	case unit == 'W' && !inTime:
		d.days += 7 * n
	case unit == 'D' && !inTime:
		d.days += n
	case unit == 'H' && inTime:
		d.seconds += 3600 * n
	case unit == 'M' && inTime:
		d.seconds += 60 * n
	case unit == 'S' && inTime:
		d.seconds += n
	default:
		return false
	}
	return true
}

// plus is the end of an interval that begins at p; minus its beginning when it
// ends at p. A date without time is a whole day: P3D from the 8th ends with
// the 10th.
func (p isoPoint) plus(d duration) isoPoint  { return p.shift(d, 1) }
func (p isoPoint) minus(d duration) isoPoint { return p.shift(d, -1) }

func (p isoPoint) shift(d duration, sign int) isoPoint {
	at := p.first
	if sign < 0 {
		at = p.last
	}
	y, m, day := at.Date()
	months := y*12 + m - 1 + sign*(d.years*12+d.months)
	y, m = months/12, months%12+1
	for day > 28 && !dates.Exists(y, m, day) {
		day--
	}
	at = dates.DayOf(y, m, day) + dates.Day(sign*d.days)
	q := isoPoint{first: at, last: at, precision: p.precision, offset: p.offset, zoned: p.zoned, span: p.span}
	if p.precision != toTime {
		q.precision = toDay
		if d.seconds == 0 {
			q.first -= dates.Day(sign)
			q.last = q.first
		}
		return q
	}
	second := p.second + sign*d.seconds
	for second < 0 {
		second, q.first = second+86400, q.first-1
	}
	q.first += dates.Day(second / 86400)
	q.last, q.second = q.first, second%86400
	return q
}
