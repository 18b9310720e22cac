package dates

// partial is one possible date of which parts may be missing (0).
type partial struct {
	y, m, d   int
	hasYear   bool
	season    int
	yearsMore int  // the year stands for y to y+yearsMore
	anyMonth  bool // the month was left open though the day is given
}

// span is one possible reading.
type span struct {
	first, last Day
	precision   Precision
}

// parser finds every possible reading of a list of tokens.
type parser struct {
	options   Options
	shortYear bool   // a year of two figures was met
	noSuchDay string // a day that the calendar does not have, as d m y
}

// spans are the possible readings of the tokens of a whole text.
func (p *parser) spans(tokens []token) []span {
	tokens = trimDividers(tokens)
	if len(tokens) == 0 || len(tokens) > 16 {
		return nil
	}
	if s := p.solve(p.single(tokens)); len(s) > 0 {
		return s
	}
	for i, t := range tokens {
		if t.kind != divider || i == 0 || i == len(tokens)-1 {
			continue
		}
		left, right := p.single(tokens[:i]), p.single(tokens[i+1:])
		if dayAndYear(left, tokens[i+1:]) {
			right = withDay(p.years(tokens[len(tokens)-1]), tokens[i+1])
		}
		if s := p.pairs(left, right); len(s) > 0 {
			return s
		}
	}
	return nil
}

// dayAndYear reports whether right is the day and year of a span whose month
// stands on the left: "July 6-9, 1945".
func dayAndYear(left []partial, right []token) bool {
	return len(left) == 1 && left[0].m != 0 && left[0].d != 0 && !left[0].hasYear && len(right) == 2 &&
		right[0].kind == number && right[0].digits <= 2 && right[1].kind == number && right[1].digits != 1
}

func trimDividers(t []token) []token {
	for len(t) > 0 && t[0].kind == divider {
		t = t[1:]
	}
	for len(t) > 0 && t[len(t)-1].kind == divider {
		t = t[:len(t)-1]
	}
	return t
}

// single reads tokens as one date: every possible way.
func (p *parser) single(tokens []token) []partial {
	var items [4]token
	n, dividers := 0, 0
	for _, t := range tokens {
		if t.kind == divider {
			if t.word {
				return nil
			}
			dividers++
			continue
		}
		if n == len(items) {
			return nil
		}
		items[n] = t
		n++
	}
	shape := [4]kind{other, other, other, other}
	for i := range n {
		shape[i] = items[i].kind
	}
	switch n {
	case 1:
		return p.one(items[0])
	case 2:
		return p.two(items[0], items[1], dividers)
	case 3:
		return p.three(items[0], items[1], items[2])
	case 4:
		return p.oldForm(shape, items)
	}
	return nil
}

func (p *parser) one(t token) []partial {
	switch {
	case t.kind == month:
		return []partial{{m: t.value}}
	case t.kind != number:
		return nil
	case t.digits == 4 && t.value >= 1000:
		return []partial{{y: t.value, hasYear: true}}
	case t.digits == 8 && t.value/10000 >= 1000:
		y, m, d := t.value/10000, t.value/100%100, t.value%100
		if m == 0 && d != 0 {
			return nil
		}
		return []partial{{y: y, m: m, d: d, hasYear: true}}
	case t.digits <= 2 && t.value >= 1 && t.value <= 31:
		return []partial{{d: t.value}}
	}
	return nil
}

// two reads month and year, year and month, a year and its decade, or two
// numbers.
func (p *parser) two(a, b token, dividers int) []partial {
	switch {
	case a.kind == month && b.kind == number:
		return p.monthNumber(a, b, true)
	case a.kind == number && b.kind == month:
		return p.monthNumber(b, a, false)
	case a.kind == number && b.kind == decade:
		more := 9
		if a.value%100 == 0 {
			more = 99
		}
		return []partial{{y: a.value, hasYear: true, yearsMore: more}}
	case a.kind == season && b.kind == number:
		return withSeason(p.years(b), a.value)
	case a.kind == number && b.kind == season:
		return withSeason(p.years(a), b.value)
	case a.kind == blank && b.kind == number && b.digits == 4:
		return p.years(b)
	case a.kind == number && a.digits == 4 && b.kind == blank:
		return p.years(a)
	case a.kind == number && b.kind == number:
		return p.twoNumbers(a, b, dividers)
	}
	return nil
}

// monthNumber reads a month beside a number: a year when it has four
// figures or is too great for a day; a day without year otherwise.
func (p *parser) monthNumber(m, n token, after bool) []partial {
	if n.digits >= 3 || n.value > 31 || n.value == 0 {
		return withMonth(p.years(n), m.value)
	}
	return []partial{{m: m.value, d: n.value}}
}

func (p *parser) twoNumbers(a, b token, dividers int) []partial {
	switch {
	case a.digits == 4 && a.value < 1000 || b.digits == 4 && b.value < 1000:
		return nil
	case a.digits == 4 && b.digits == 3 && b.hyphen && b.value >= 1 && b.value <= 366:
		y, m, d := (DayOf(a.value, 1, 1) + Day(b.value-1)).Date()
		if y != a.value {
			return nil
		}
		return []partial{{y: y, m: m, d: d, hasYear: true}} // ISO 8601 day of the year
	case a.digits == 4 && b.digits <= 2 && b.value >= 1 && b.value <= 12 && dividersOrPlain(dividers):
		return []partial{{y: a.value, m: b.value, hasYear: true}}
	case a.digits == 4 && b.digits == 2 && dividers == 1 && b.value > a.value%100:
		return []partial{{y: a.value, hasYear: true, yearsMore: b.value - a.value%100}}
	case b.digits == 4 && a.digits <= 2 && a.value >= 1 && a.value <= 12:
		return []partial{{y: b.value, m: a.value, hasYear: true}}
	}
	return nil
}

func dividersOrPlain(n int) bool { return n <= 1 }

// three reads day, month and year in any order that the figures allow.
func (p *parser) three(a, b, c token) []partial {
	switch {
	case b.kind == month && a.kind == number && c.kind == number:
		if a.digits >= 3 || a.value > 31 {
			return withDay(withMonth(p.years(a), b.value), c)
		}
		return withDay(withMonth(p.years(c), b.value), a)
	case a.kind == month && b.kind == number && c.kind == number:
		if b.digits >= 3 {
			return withDay(withMonth(p.years(b), a.value), c)
		}
		if c.hyphen && c.digits <= 2 && c.value > b.value && c.value <= 31 {
			return nil // Aug. 22-23: two days without year
		}
		return withDay(withMonth(p.years(c), a.value), b)
	case c.kind == month && a.kind == number && b.kind == number:
		return withDay(withMonth(p.years(a), c.value), b)
	case a.kind == number && b.kind == number && c.kind == number:
		return p.figures(a, b, c)
	}
	return p.withBlanks(a, b, c)
}

// withBlanks reads XX-01-1995, XX-XX-1995, 23 XXX 1947, **-Nov-1910.
func (p *parser) withBlanks(a, b, c token) []partial {
	if a.kind == number && a.digits == 4 {
		a, c = c, a
	}
	if c.kind != number || c.digits != 4 {
		return nil
	}
	ys := p.years(c)
	switch {
	case a.kind == blank && b.kind == blank:
		return ys
	case a.kind == blank && b.kind == month:
		return withMonth(ys, b.value)
	case a.kind == blank && b.kind == number && b.digits <= 2:
		return withMonth(ys, b.value)
	case a.kind == number && b.kind == blank && a.digits <= 2:
		out := withDay(ys, a)
		for i := range out {
			out[i].anyMonth = true
		}
		return out
	}
	return nil
}

// figures reads a date all in figures.
func (p *parser) figures(a, b, c token) []partial {
	if a.digits >= 3 {
		out := withDay(withMonth(p.years(a), b.value), c)
		padded := b.digits == 2 && c.digits == 2
		if !padded && b.value != c.value && c.value <= 12 && p.options.Order == Ask {
			out = append(out, withDay(withMonth(p.years(a), c.value), b)...)
		}
		return out
	}
	ys := p.years(c)
	dm := withDay(withMonth(ys, b.value), a)
	md := withDay(withMonth(ys, a.value), b)
	switch {
	case a.value == b.value:
		return dm
	case a.value > 12 || b.value <= 12 && p.options.Order == DayMonth:
		return dm
	case b.value > 12 || p.options.Order == MonthDay:
		return md
	}
	return append(dm, md...)
}

// oldForm reads the form "18 25/7 73", the year split around day and month:
// a Scandinavian habit, so the day stands first (common practice, no source).
func (p *parser) oldForm(shape [4]kind, t [4]token) []partial {
	century := t[0].digits == 2 && t[0].value >= 16 && t[0].value <= 20
	if !century || shape != [4]kind{number, number, number, number} || t[3].digits != 2 {
		return nil
	}
	y := t[0].value*100 + t[3].value
	return withDay(withMonth([]partial{{y: y, hasYear: true}}, t[2].value), t[1])
}

// years are the years that a number can mean.
func (p *parser) years(t token) []partial {
	switch {
	case t.kind != number || t.digits > 4:
		return nil
	case t.digits == 4 && t.value >= 1000:
		return []partial{{y: t.value, hasYear: true}}
	case t.digits != 2:
		return nil
	}
	p.shortYear = true
	o := p.options
	var out []partial
	for century := 1500; century <= 2000; century += 100 {
		y := century + t.value
		if o.FirstYear == 0 && o.LastYear == 0 {
			if century < 1800 || century == 2000 && t.value >= 50 {
				continue
			}
		} else if y < o.FirstYear || y > o.LastYear {
			continue
		}
		out = append(out, partial{y: y, hasYear: true})
	}
	return out
}

func withMonth(ps []partial, m int) []partial {
	out := make([]partial, len(ps))
	for i, x := range ps {
		x.m = m
		if m == 0 {
			x.m = -1 // a written month 0 is no month
		}
		out[i] = x
	}
	return out
}

func withDay(ps []partial, d token) []partial {
	if d.digits > 2 {
		return nil
	}
	out := make([]partial, len(ps))
	for i, x := range ps {
		x.d = d.value
		if d.value == 0 {
			x.d = -1
		}
		out[i] = x
	}
	return out
}

func withSeason(ps []partial, s int) []partial {
	for i := range ps {
		ps[i].season = s
	}
	return ps
}
