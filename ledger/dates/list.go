package dates

// text reads the tokens of a whole text: one date, a span, or several days.
func (p *parser) text(tokens []token) (span, bool) {
	tokens = trimDividers(tokens)
	if len(tokens) == 0 || len(tokens) > 20 {
		return span{}, false
	}
	if x, ok := p.single(tokens); ok {
		if s, ok := p.spanOf(x); ok || p.noSuchDay != "" {
			return s, ok
		}
	}
	p.contradiction, p.monthToo = false, span{}
	if hasList(tokens) {
		if s, ok := p.list(tokens); ok {
			p.monthToo = span{}
			return s, true
		}
	}
	p.contradiction = false
	if s, ok := p.span(tokens); ok {
		p.monthToo = span{}
		return s, true
	}
	p.contradiction = false
	if s, ok := p.doubleInBrackets(tokens); ok {
		return s, true
	}
	s, ok := p.list(tokens)
	p.monthToo = span{}
	return s, ok
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

func hasList(tokens []token) bool {
	for _, t := range tokens {
		if t.kind == divider && t.list {
			return true
		}
	}
	return false
}

// span reads two dates joined by a divider; a word goes before a sign.
func (p *parser) span(tokens []token) (span, bool) {
	last := token{}
	for _, t := range tokens {
		if t.kind == divider {
			last = t
		}
	}
	for pass := range 3 {
		for i, t := range tokens {
			if t.kind != divider || i == 0 || i == len(tokens)-1 || pass != passOf(t, last) {
				continue
			}
			l, r, ok := p.sides(tokens[:i], tokens[i+1:])
			if !ok {
				p.contradiction = false
				continue
			}
			if !t.word && l.d != 0 && r.d == 0 && r.m != 0 && !hasMonth(tokens[i+1:]) {
				continue // XII-1-1-87: a day to a month in figures is no habit
			}
			if !t.word && (l.onlyYear() && r.d != 0 || r.onlyYear() && l.d != 0 || l.onlyMonth() && r.d != 0) {
				continue
			}
			s, ok := p.pair(l, r)
			if !ok {
				p.contradiction = false
			} else {
				if t.slash {
					p.mayBeDouble(s)
				}
				return s, true
			}
		}
	}
	return span{}, false
}

// passOf is when a divider is tried: a word first, then a sign unlike the
// last one, which parts day, month and year.
func passOf(t, last token) int {
	switch {
	case t.word:
		return 0
	case t.slash != last.slash:
		return 1
	}
	return 2
}

// sides reads the dates left and right of a divider.
func (p *parser) sides(left, right []token) (l, r partial, ok bool) {
	left, right = trimDividers(left), trimDividers(right)
	if len(left) == 0 || len(right) == 0 {
		return l, r, false
	}
	short := p.shortYear
	p.shortYear = false
	l, ok = p.single(left)
	lShort := p.shortYear
	if !ok {
		p.shortYear = short || lShort
		return l, r, false
	}
	q := *p
	q.shortYear = false
	if l.hasYear && !lShort { // 30.xii.1930-2.i.31: the century of the left
		q.firstYear, q.lastYear = l.y, l.y+99
	}
	r, ok = q.after(l, right)
	rShort := q.shortYear && (lShort || !l.hasYear)
	switch {
	case !ok:
	case lShort && rShort && r.y < l.y:
		r.y += 100
	case lShort && r.hasYear && !q.shortYear:
		q.firstYear, q.lastYear = r.y-99, r.y
		l, ok = q.single(left)
		lShort = false
	}
	p.orderMattered, p.contradiction = q.orderMattered, q.contradiction
	p.shortYear = short || lShort || rShort
	return l, r, ok
}

// after reads a date that follows l: "July 6-9, 1945" has a day and a year
// there, "1897 or 98" the last figures of a year.
func (p *parser) after(l partial, right []token) (partial, bool) {
	last := right[len(right)-1]
	if n := numbers(right); n == 2 && l.m != 0 && l.d != 0 && !l.hasYear && right[0].small() && right[0].value <= 31 && last.kind == number && last.digits != 1 && (len(right) == 2 || last.fullYear()) {
		x, ok := p.year(last)
		x.d = right[0].value
		return x, ok
	}
	if len(right) == 1 && right[0].kind == number && right[0].digits == 2 && l.hasYear && l.m == 0 && l.season == 0 && l.more == 0 {
		y := floorDiv(l.y, 100)*100 + right[0].value
		return partial{y: y, hasYear: true}, y > l.y
	}
	return p.single(right)
}

// numbers is how many tokens are left when they are all numbers but for
// dividers, else 0.
func numbers(tokens []token) int {
	n := 0
	for _, t := range tokens {
		switch {
		case t.kind == number:
			n++
		case t.kind != divider || t.word:
			return 0
		}
	}
	return n
}

// mayBeDouble notes that a span such as 1/13 June 1880 has the length by
// which the old calendar was behind.
func (p *parser) mayBeDouble(s span) {
	if s.first >= gregorian && s.last < changes["GR"] && int(s.last-s.first) == JulianDays(s.last) {
		p.double = span{first: s.last, last: s.last, precision: ToDay}
	}
}

// doubleInBrackets reads 1 (13) June 1880.
func (p *parser) doubleInBrackets(tokens []token) (span, bool) {
	for i, t := range tokens {
		if i == 0 || !t.paren || !tokens[i-1].small() {
			continue
		}
		without := append(append([]token{}, tokens[:i-1]...), tokens[i:]...)
		x, ok := p.single(without)
		if !ok {
			return span{}, false
		}
		s, ok := p.spanOf(x)
		if _, _, d := (s.first - Day(JulianDays(s.first))).Date(); ok && s.precision == ToDay && d == tokens[i-1].value {
			p.double = s
			return s, true
		}
	}
	return span{}, false
}

// stretch is one item of a list: a date or a span.
type stretch struct {
	from, to partial
	ranged   bool
}

// list reads several dates joined by commas and "and": "3, 5 & 7 May 1910".
func (p *parser) list(tokens []token) (span, bool) {
	chunks := chunksOf(tokens)
	if len(chunks) < 2 || len(chunks) > 8 {
		return span{}, false
	}
	var items []stretch
	var l partial
	for _, c := range chunks {
		x, ok := p.stretch(l, c)
		if !ok {
			return span{}, false
		}
		items = append(items, x)
		m := l.m
		if l = x.to; l.m == 0 {
			l.m = m
		}
	}
	share(items)
	for i := range items { // 26 Aug. 1859 or 1860
		if first := items[0].from; i > 0 && items[i].from.onlyYear() && first.hasYear {
			items[i].from.m, items[i].from.d = first.m, first.d
			items[i].to.m, items[i].to.d = first.m, first.d
		}
	}
	l = items[len(items)-1].to
	for _, it := range items { // days, months or years, but not one with another
		if (it.from.d != 0) != (l.d != 0) || (it.from.m != 0) != (l.m != 0) {
			return span{}, false
		}
	}
	var all []span
	for _, it := range items {
		s, ok := p.solve(it)
		if !ok {
			return span{}, false
		}
		all = append(all, s)
	}
	return p.joinList(all), true
}

// joinList is the span of all items; those that leave days between are
// several dates.
func (p *parser) joinList(all []span) span {
	out := all[0]
	out.precision, out.season = ToSpan, 0
	apart := false
	for i, s := range all[1:] {
		apart = apart || s.first > all[i].last+1 || s.last < all[i].first-1
		out.first, out.last = min(out.first, s.first), max(out.last, s.last)
	}
	if apart {
		p.several = all
	}
	return out
}

func (p *parser) solve(it stretch) (span, bool) {
	if it.ranged {
		return p.pair(it.from, it.to)
	}
	return p.spanOf(it.from)
}

func (p *parser) stretch(before partial, tokens []token) (stretch, bool) {
	if x, ok := p.after(before, tokens); ok {
		return stretch{from: x, to: x}, true
	}
	for i, t := range tokens {
		if t.kind == divider && i > 0 && i < len(tokens)-1 {
			if l, r, ok := p.sides(tokens[:i], tokens[i+1:]); ok {
				return stretch{from: l, to: r, ranged: true}, true
			}
		}
	}
	return stretch{}, false
}

// share lends the year from right to left, and the month from the side where
// the writer put it.
func share(items []stretch) {
	monthFirst := items[0].from.m != 0
	for i := len(items) - 2; i >= 0; i-- {
		next := items[i+1].from
		for _, x := range []*partial{&items[i].to, &items[i].from} {
			from := partial{y: next.y, more: next.more, hasYear: next.hasYear || items[i+1].to.hasYear}
			if !next.hasYear {
				from.y, from.more = items[i+1].to.y, items[i+1].to.more
			}
			if !monthFirst {
				from.m = max(next.m, items[i+1].to.m)
			}
			lend(x, from)
		}
	}
	for i := 1; i < len(items); i++ {
		for _, x := range []*partial{&items[i].from, &items[i].to} {
			lend(x, items[i-1].to)
		}
	}
}

// chunksOf parts tokens at "and" and at commas; a year or a number alone that
// a comma only sets off from its date goes back to it.
func chunksOf(tokens []token) [][]token {
	var chunks [][]token
	start := 0
	cut := func(i, next int) {
		if c := trimDividers(tokens[start:i]); len(c) > 0 {
			chunks = append(chunks, c)
		}
		start = next
	}
	for i, t := range tokens {
		dated := yearWithin(tokens[start:i])
		switch {
		case t.kind == divider && t.list:
			cut(i, i+1)
		case dated && tokens[i-1].fullYear() && t.kind != divider && i-start > 2 && yearWithin(tokens[i+1:]),
			dated && t.comma && i-start > 2:
			cut(i, i)
		case t.comma && i > start && !(i == start+1 && tokens[start].kind == month && t.small()) && !yearAlone(tokens, i):
			cut(i, i)
		}
	}
	cut(len(tokens), len(tokens))
	return chunks
}

// yearAlone reports whether the token at i is a year that belongs to what
// stands before it.
func yearAlone(tokens []token, i int) bool {
	if !tokens[i].yearLike() || tokens[i-1].fullYear() {
		return false
	}
	return i == len(tokens)-1 || tokens[i+1].comma || tokens[i+1].kind == divider
}

func yearWithin(tokens []token) bool {
	for _, t := range tokens {
		if t.fullYear() {
			return true
		}
	}
	return false
}

func (x partial) onlyMonth() bool { return !x.hasYear && x.m != 0 && x.d == 0 }

func (x partial) onlyYear() bool { return x.hasYear && x.m == 0 && x.d == 0 && x.season == 0 }
