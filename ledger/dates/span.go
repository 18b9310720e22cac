package dates

import (
	"fmt"
	"slices"
)

// span is one possible reading.
type span struct {
	first, last Day
	precision   Precision
	season      int
}

// spanOf is the days of a date; false when it is not whole enough or stands
// in no calendar.
func (p *parser) spanOf(x partial) (span, bool) {
	lastYear := x.y + x.more
	switch {
	case !x.hasYear, (x.y > maxYear || x.y < -maxYear) && (x.m != 0 || x.d != 0 || x.season != 0 || x.part != 0):
		return span{}, false
	case x.season != 0:
		return seasonSpan(x), true
	case x.anyMonth:
		return span{first: p.day(x.y, 1, x.d), last: p.day(lastYear, 12, x.d), precision: ToSpan}, x.d >= 1 && x.d <= 31
	case x.m == 0 && x.d == 0:
		s := span{first: p.day(x.y, 1, 1), last: p.day(lastYear, 12, 31), precision: ToYear}
		if x.more > 0 {
			s.precision = ToSpan
			if x.more == 9 && x.y%10 == 0 || x.more == 99 && x.y%100 == 0 || x.hundred {
				s.precision = ToDecade
			}
		}
		return narrow(s, x.part), true
	case x.m < 1 || x.m > 12:
		p.noSuchMonth = x.m
		return span{}, false
	case x.d == 0:
		s := span{first: p.day(x.y, x.m, 1), last: p.day(lastYear, x.m, p.days(lastYear, x.m)), precision: ToMonth}
		if x.more > 0 {
			s.precision = ToSpan
			return s, true
		}
		return narrow(s, x.part), true
	}
	return p.dayIn(x, lastYear)
}

// dayIn is the span of a day, or of a day of several years.
func (p *parser) dayIn(x partial, lastYear int) (span, bool) {
	y := x.y
	for y < lastYear && x.m == 2 && x.d == 29 && p.days(y, 2) < 29 {
		y++
	}
	for lastYear > y && x.m == 2 && x.d == 29 && p.days(lastYear, 2) < 29 {
		lastYear--
	}
	if x.d < 1 || x.d > p.days(y, x.m) {
		if x.d > 0 {
			p.noSuchDay = fmt.Sprintf("%s %d has no day %d", monthName(x.m), x.y, x.d)
			if p.shortYear {
				p.noSuchDay = fmt.Sprintf("%s has no day %d", monthName(x.m), x.d)
			} else if x.m == 2 && x.d == 29 && x.y%4 == 0 {
				p.noSuchDay += fmt.Sprintf(" (by the Julian calendar it has: that is %s)", Words(julianDay(x.y, 2, 29)))
			}
		}
		return span{}, false
	}
	s := span{first: p.day(y, x.m, x.d), last: p.day(lastYear, x.m, x.d), precision: ToDay}
	if y != lastYear {
		s.precision = ToSpan
	}
	return s, true
}

func (p *parser) day(y, m, d int) Day {
	if p.julian {
		return julianDay(y, m, d)
	}
	return DayOf(y, m, d)
}

func (p *parser) days(y, m int) int {
	if p.julian && m == 2 && y%4 == 0 {
		return 29
	}
	return daysIn(y, m)
}

// seasonSpan is the span that a season of a year may mean on either side of
// the equator: no standard fixes its days (EDTF 2019 fixes none), so all of
// the year, and for winter the three months after it. A season of two years,
// winter 1909/10, runs from December to March.
func seasonSpan(x partial) span {
	s := span{first: DayOf(x.y, 1, 1), last: DayOf(x.y+x.more, 12, 31), precision: ToSeason, season: x.season}
	switch {
	case x.more == 1:
		s = span{first: DayOf(x.y, 12, 1), last: DayOf(x.y+1, 3, 31), precision: ToSeason}
	case x.more > 0:
		s.season, s.precision = 0, ToSpan
	case x.season == 4:
		s.last = DayOf(x.y+1, 3, 31)
	}
	return s
}

// narrow is the part of a month, a year or more years that a word names.
// Nothing fixes what early and late mean: they are taken for the first and
// the second half, middle for the half between (our choice, no source).
func narrow(s span, part int) span {
	n := int(s.last-s.first) + 1
	switch {
	case part == 0:
		return s
	case part > 10 && part < 20 && s.precision == ToMonth:
		if part == 19 {
			s.first = s.last - 6
		} else {
			s.first, s.last = s.first+Day(7*(part-11)), min(s.last, s.first+Day(7*(part-10)-1))
		}
	case s.precision == ToMonth:
		a, b := s.first, s.last
		switch part {
		case early, 21:
			s.last = a + 14
		case middle:
			s.first, s.last = a+7, a+22
		case late, 22:
			s.first = a + 15
		}
		s.last = min(s.last, b)
	default:
		s.first, s.last = yearsPart(s.first.Year(), s.last.Year(), part, n)
	}
	s.precision = ToSpan
	return s
}

// yearsPart is the part of the years from a to b.
func yearsPart(a, b, part, days int) (first, last Day) {
	half, quarter := (b-a+1)/2, (b-a+1)/4
	if days < 400 {
		switch part {
		case middle:
			return DayOf(a, 4, 1), DayOf(a, 9, 30)
		case late, 22:
			return DayOf(a, 7, 1), DayOf(a, 12, 31)
		}
		return DayOf(a, 1, 1), DayOf(a, 6, 30)
	}
	switch part {
	case middle:
		return DayOf(a+quarter, 1, 1), DayOf(b-quarter, 12, 31)
	case late, 22:
		return DayOf(a+half, 1, 1), DayOf(b, 12, 31)
	}
	return DayOf(a, 1, 1), DayOf(b-half, 12, 31)
}

// pair is the span from one date to another; what one lacks it takes from the
// other: "3-9 Aug. 1952", "July 16-26, 1945", "28 Dec.-3 Jan. 1931".
func (p *parser) pair(l, r partial) (span, bool) {
	lent := !l.hasYear
	lend(&l, r)
	lend(&r, l)
	a, ok1 := p.spanOf(l)
	b, ok2 := p.spanOf(r)
	if !ok1 || !ok2 {
		return span{}, false
	}
	if lent && a.first > b.first && l.m > r.m && r.m > 0 { // over the turn of the year
		l.y--
		a, ok1 = p.spanOf(l)
	}
	if !ok1 || !ok2 || a.first > b.last || a.first > b.first {
		p.reversed = true
		return span{}, false
	}
	s := span{first: a.first, last: b.last, precision: ToSpan}
	if s.first == s.last {
		s.precision = ToDay
	}
	return s, true
}

func lend(to *partial, from partial) {
	if !to.hasYear && from.hasYear {
		to.y, to.hasYear = from.y, true
		if to.more == 0 {
			to.more = from.more
		}
	}
	if to.m == 0 && (to.d != 0 || to.part != 0) && from.m != 0 {
		to.m = from.m
	}
}

// choose keeps the spans on the stated day of the week, if one is.
func choose(spans []span, weekday uint8) []span {
	if weekday < 1 || weekday > 7 {
		return spans
	}
	fits := func(s span) bool { return s.precision == ToDay && s.first.Weekday() == int(weekday) }
	if !slices.ContainsFunc(spans, fits) {
		return spans
	}
	return slices.DeleteFunc(spans, func(s span) bool { return !fits(s) })
}
