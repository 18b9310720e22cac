package dates

import "fmt"

// solve makes spans of the dates that are whole enough and stand in the
// calendar.
func (p *parser) solve(dates []partial) []span {
	var out []span
	for _, d := range dates {
		if s, ok := p.spanOf(d); ok {
			out = append(out, s)
		}
	}
	return out
}

func (p *parser) spanOf(x partial) (span, bool) {
	switch {
	case !x.hasYear:
		return span{}, false
	case x.yearsMore > 0:
		prec := ToSpan
		if x.yearsMore == 9 || x.yearsMore == 99 {
			prec = ToDecade
		}
		return span{DayOf(x.y, 1, 1), DayOf(x.y+x.yearsMore, 12, 31), prec}, true
	case x.season != 0:
		return seasonSpan(x), true
	case x.anyMonth && x.d >= 1 && x.d <= 31:
		return span{DayOf(x.y, 1, x.d), DayOf(x.y, 12, x.d), ToSpan}, true
	case x.m == 0 && x.d == 0:
		return span{DayOf(x.y, 1, 1), DayOf(x.y, 12, 31), ToYear}, true
	case x.d == 0:
		if x.m < 1 || x.m > 12 {
			return span{}, false
		}
		return span{DayOf(x.y, x.m, 1), DayOf(x.y, x.m, daysIn(x.y, x.m)), ToMonth}, true
	case !Exists(x.y, x.m, x.d):
		if x.m >= 1 && x.m <= 12 && x.d > 0 {
			p.noSuchDay = fmt.Sprintf("%s %d has no day %d", monthName(x.m), x.y, x.d)
		}
		return span{}, false
	}
	d := DayOf(x.y, x.m, x.d)
	return span{d, d, ToDay}, true
}

// seasonSpan is the span that a season of a year may mean on either side of
// the equator: no standard fixes its days (EDTF 2019 fixes none), so all of
// the year, and for winter the two months after it.
func seasonSpan(x partial) span {
	last := DayOf(x.y, 12, 31)
	first := DayOf(x.y, 1, 1)
	if x.season == 4 {
		last = DayOf(x.y+1, 3, 31)
	}
	return span{first, last, ToSeason}
}

// pairs are the spans from a left date to a right one; what one lacks it
// takes from the other: "3-9 Aug. 1952", "July 16-26, 1945".
func (p *parser) pairs(left, right []partial) []span {
	var out []span
	for _, l := range left {
		for _, r := range right {
			l, r := l, r
			lend(&l, r)
			lend(&r, l)
			a, ok1 := p.spanOf(l)
			b, ok2 := p.spanOf(r)
			if !ok1 || !ok2 || a.first > b.last || a.first > b.first {
				continue
			}
			s := span{a.first, b.last, ToSpan}
			if s.first == s.last {
				s.precision = ToDay
			}
			out = append(out, s)
		}
	}
	return out
}

func lend(to *partial, from partial) {
	if !to.hasYear && from.hasYear {
		to.y, to.hasYear = from.y, true
	}
	if to.m == 0 && to.d != 0 && from.m != 0 {
		to.m = from.m
	}
}

// explain says why nothing could be read.
func (p *parser) explain(tokens []token) Reading {
	if p.noSuchDay != "" && !p.shortYear {
		return unread("date-no-such-day", p.noSuchDay)
	}
	years := false
	for _, t := range tokens {
		if t.kind == number && (t.digits == 4 || t.digits == 2 && t.value > 31) {
			years = true
		}
	}
	if !years && len(tokens) > 0 {
		return unread("date-no-year", "no year can be read; write what the label has, for example 14.vii.1987")
	}
	return unread("date-unread", "cannot be read as a date; for example 14.vii.1987, July 1987 or 1987-07-14")
}
