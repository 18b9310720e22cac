package dates

import (
	"slices"
	"strconv"
	"strings"
)

// Options are the conventions under which dates are read.
type Options struct {
	Order Order
	// FirstYear and LastYear bound what a year of two figures can mean; both
	// 0: 18yy, 19yy and, for 00 to 49, 20yy (common practice, no source).
	FirstYear, LastYear int
}

// OptionsOf is the conventions of a museum's settings: the order of day and
// month (see OrderOf), and the first of the hundred years in which years of
// two figures lie, for example "1900" or "1850"; other words count as not
// given.
func OptionsOf(order, twoDigitYears string) Options {
	o := Options{Order: OrderOf(order)}
	if y, err := strconv.Atoi(strings.TrimSpace(twoDigitYears)); err == nil && y >= 1500 && y <= 2100 {
		o.FirstYear, o.LastYear = y, y+99
	}
	return o
}

// Read reads a date as it stands on a label or slip, or in ISO 8601 or EDTF
// form. It never returns an error: what cannot be read has Precision Unread
// and a warning, or None set when the words say that there is no date.
func Read(text string, o Order) Reading { return ReadWith(text, Options{Order: o}) }

// maxText is the longest text that is taken for a date, in bytes.
const maxText = 200

// ReadWith is Read under further conventions.
func ReadWith(text string, o Options) Reading {
	text = strings.TrimSpace(text)
	if n, ok := noneOf(text); ok {
		return Reading{None: n}
	}
	if len(text) > maxText {
		return unread("date-unread", "too long for a date")
	}
	if r, ok := readISO(text); ok {
		return remark(r)
	}
	if (text[0] == '[' || text[0] == '{') && strings.Contains(text, "..") && level2(text) != "" {
		return notLevel2(level2(text))
	}
	if why := notEDTF(text); why != "" {
		return unread("date-unread", why)
	}
	var l lexed
	l.lex(text)
	r, ok := l.read(o)
	if !ok {
		if form := level2(text); form != "" {
			return notLevel2(form)
		}
		if r.noSuchDay() { // 29.II.1900 is read: II is no slip for 11
			return r
		}
		if fixed, said := repair(text); said != "" {
			var again lexed
			again.lex(fixed)
			if r2, ok := again.read(o); ok {
				r2.Warnings = append(r2.Warnings, Warning{Code: "date-misspelt", Message: said})
				return remark(r2)
			}
		}
		return r
	}
	if innerMarks(text) {
		r.Warnings = append(r.Warnings, Warning{Code: "date-misspelt", Message: "a mark beside a part of the date is EDTF level 2: taken for a mark of the whole date"})
	}
	return remark(r)
}

// noSuchDay reports whether the words were read, but name a day or month that
// the calendar does not have.
func (r Reading) noSuchDay() bool {
	return len(r.Warnings) > 0 && r.Warnings[0].Code == "date-no-such-day"
}

// read reads what was lexed; when it cannot, the reading says why.
func (l *lexed) read(o Options) (Reading, bool) {
	tokens, limit := l.bounds()
	if l.otherWord != "" || l.latinDay || len(tokens) == 0 {
		return l.explain(parser{}, tokens), false
	}
	spans, p := l.ways(tokens, o)
	if len(spans) == 0 && l.orMonth {
		spans, p = l.ways(asMonths(tokens), o)
	}
	if len(spans) == 0 {
		return l.explain(p, tokens), false
	}
	asked := len(spans)
	spans = choose(spans, l.weekday)
	r := join(spans, p.shortYear && asked > 1)
	if p.double.precision != Unread && r.Precision == ToSpan && !l.between {
		r = doubled(r, p.double, l.style)
	}
	if m := p.monthToo; m.precision != Unread && r.Precision == ToSpan {
		r.Readings = []Reading{{First: r.First, Last: r.Last, Precision: ToSpan}, {First: m.first, Last: m.last, Precision: ToMonth}}
		r.Precision, r.Warnings = Ambiguous, append(r.Warnings, ambiguousWarning(r.Readings, false))
	}
	if len(p.several) > 0 && r.Precision == ToSpan && !l.between {
		r.Warnings = append(r.Warnings, severalWarning(p.several))
	}
	r.Approximate, r.Uncertain, r.style = l.approximate, l.uncertain, l.style
	r.limit(limit)
	l.notices(&r, p)
	return r, true
}

// asMonths takes "au" and its like for months instead of dividers.
func asMonths(tokens []token) []token {
	out := slices.Clone(tokens)
	for i, t := range out {
		if t.orMonth > 0 {
			out[i] = token{kind: month, value: int(t.orMonth)}
		}
	}
	return out
}

// bounds takes the words before, until, after and since from the tokens.
func (l *lexed) bounds() (tokens []token, limit int) {
	tokens = trimDividers(l.tokens)
	for len(tokens) > 0 && tokens[0].kind == bound {
		if limit == 0 || tokens[0].value != upTo {
			limit = tokens[0].value
		}
		tokens = trimDividers(tokens[1:])
	}
	if n := len(tokens); n > 0 && tokens[n-1].kind == bound {
		limit = map[int]int{before: upTo, upTo: upTo, after: since, since: since}[tokens[n-1].value]
		tokens = trimDividers(tokens[:n-1])
	}
	if l.not && limit > 0 {
		limit = map[int]int{before: since, upTo: after, after: upTo, since: upTo}[limit]
	}
	return tokens, limit
}

// limit opens one end of r. "From" before a span says nothing.
func (r *Reading) limit(bound int) {
	switch bound {
	case before:
		r.OpenStart, r.Last = true, r.First-1
	case upTo:
		r.OpenStart = true
	case after:
		r.OpenEnd, r.First = true, r.Last+1
	case since:
		if r.Precision == ToSpan {
			return
		}
		r.OpenEnd = true
	default:
		return
	}
	r.Precision, r.season, r.Readings = ToSpan, 0, nil
	if r.OpenStart {
		r.First = 0
	} else {
		r.Last = 0
	}
}

// ways are the readings of the tokens under every order and every hundred
// years that o leaves open, and what the parsers met on the way.
func (l *lexed) ways(tokens []token, o Options) ([]span, parser) {
	orders := []Order{DayMonth, MonthDay}
	if o.Order == MonthDay {
		orders[0], orders[1] = orders[1], orders[0]
	}
	var out, against []span
	var met parser
	for _, years := range o.windows() {
		for i, order := range orders {
			if i > 0 && !met.orderMattered && !met.contradiction {
				break
			}
			p := parser{order: order, settled: o.Order != Ask, julian: l.style == oldStyle, firstYear: years[0], lastYear: years[1]}
			s, ok := p.text(tokens)
			met.note(&p, ok)
			switch {
			case !ok || slices.Contains(out, s):
			case p.contradiction:
				against = append(against, s)
			default:
				out = append(out, s)
			}
		}
		if !met.shortYear {
			break
		}
	}
	if len(out) == 0 {
		out = slices.Compact(against)
	}
	return out, met
}

// note gathers what q met; of a reading only when it was one.
func (p *parser) note(q *parser, ok bool) {
	p.orderMattered = p.orderMattered || q.orderMattered
	p.contradiction = p.contradiction || q.contradiction
	p.shortYear = p.shortYear || q.shortYear
	p.reversed = p.reversed || q.reversed
	p.noSuchMonth = max(p.noSuchMonth, q.noSuchMonth)
	if q.noSuchDay != "" {
		p.noSuchDay = q.noSuchDay
	}
	if ok && q.double.precision != Unread {
		p.double = q.double
	}
	if ok && q.monthToo.precision != Unread {
		p.monthToo = q.monthToo
	}
	if ok && q.several != nil {
		p.several = q.several
	}
}

// windows are the runs of years that a year of two figures may lie in.
func (o Options) windows() [][2]int {
	if o.FirstYear == 0 && o.LastYear == 0 {
		return defaultWindows
	}
	var out [][2]int
	for y := o.FirstYear; y <= o.LastYear && len(out) < 6; y += 100 {
		out = append(out, [2]int{y, min(y+99, o.LastYear)})
	}
	if out == nil {
		out = [][2]int{{o.FirstYear, o.LastYear}}
	}
	return out
}

var defaultWindows = [][2]int{{1800, 1899}, {1900, 1999}, {2000, 2049}}

// join makes one reading of all possible spans; shortYear says that the year
// has two figures.
func join(spans []span, shortYear bool) Reading {
	r := Reading{First: spans[0].first, Last: spans[0].last, Precision: spans[0].precision, season: spans[0].season}
	if len(spans) == 1 {
		return r
	}
	slices.SortStableFunc(spans, func(a, b span) int { return cmpDay(a.first, b.first) })
	for _, s := range spans {
		r.First, r.Last = min(r.First, s.first), max(r.Last, s.last)
		r.Readings = append(r.Readings, Reading{First: s.first, Last: s.last, Precision: s.precision, season: s.season})
	}
	r.Precision, r.season = Ambiguous, 0
	r.Warnings = []Warning{ambiguousWarning(r.Readings, shortYear)}
	return r
}

func cmpDay(a, b Day) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// doubled makes of a span that may be a double date, 1/13 June 1880, both
// readings; where the calendar is named it is the one day.
func doubled(r Reading, day span, style style) Reading {
	one := Reading{First: day.first, Last: day.last, Precision: ToDay}
	if style != unsaid || r.First == r.Last {
		return one
	}
	all := []Reading{one, {First: r.First, Last: r.Last, Precision: ToSpan}}
	r.Precision, r.Readings = Ambiguous, all
	r.Warnings = append(r.Warnings, doubleWarning(all))
	return r
}
