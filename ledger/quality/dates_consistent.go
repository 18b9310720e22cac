package quality

import "strings"

// eventConsistent asks whether year, month, day and the days of the year say
// the same as eventDate. A part may only stand where eventDate is exact enough
// for it.
func eventConsistent(in *input) Response {
	if in.empty(dwcEventDate) {
		return internal("dwc:eventDate is empty")
	}
	parts := []Term{dwcYear, dwcMonth, dwcDay, dwcStartDayOfYear, dwcEndDayOfYear}
	if allEmpty(in, parts) {
		return internal("nothing stands beside dwc:eventDate")
	}
	t, ok := parseISO(in.value(dwcEventDate))
	if !ok {
		return notCompliant("dwc:eventDate is no ISO 8601 date")
	}
	var odd []string
	for _, part := range parts {
		if in.empty(part) {
			continue
		}
		want, exact := t.part(part)
		n, ok := integer(in.value(part))
		if !exact || !ok || n != want {
			odd = append(odd, part.String())
		}
	}
	return complies(len(odd) == 0, "the parts say the same as dwc:eventDate",
		"not the same as dwc:eventDate, or finer than it: "+strings.Join(odd, ", "))
}

// part is the value of a term that t settles; false when it settles none.
func (t isoTime) part(term Term) (value int, ok bool) {
	y, m, d := t.first.Date()
	byDay := t.precision >= toDay
	switch term {
	case dwcYear:
		return y, t.sameYear()
	case dwcMonth:
		return m, t.precision >= toMonth && t.sameMonth()
	case dwcDay:
		return d, byDay && t.first == t.last
	case dwcStartDayOfYear:
		return dayOfYear(t.first), byDay
	case dwcEndDayOfYear:
		return dayOfYear(t.last), byDay
	}
	return 0, false
}

// allEmpty reports whether the row says nothing under any of the terms.
func allEmpty(in *input, terms []Term) bool {
	for _, t := range terms {
		if !in.empty(t) {
			return false
		}
	}
	return true
}
