package dates

// partial is one date of which parts may be missing (0).
type partial struct {
	y, m, d  int
	hasYear  bool
	more     int // the year stands for y to y+more
	season   int
	part     int  // early, middle, late, 11.. a week, 21.. a half
	anyMonth bool // the month was left open though the day is given
	hundred  bool // a century
}

// parser reads the tokens of a text in one way: under one order of day and
// month and one meaning of years of two figures. It notes where another way
// would be possible too.
type parser struct {
	order     Order // DayMonth or MonthDay
	settled   bool  // by the caller, so that no other order is possible
	firstYear int   // years of two figures lie in the hundred years from here on
	lastYear  int
	julian    bool // days are by the Julian calendar

	orderMattered bool
	shortYear     bool
	contradiction bool // the figures show the other order
	noSuchDay     string
	noSuchMonth   int
	reversed      bool // the end of a span lies before its start
	monthToo      span // the single month that 1853-4 can be
	double        span // the single day that 1/13 June 1880 can be
	several       []span
}

// single reads tokens as one date.
func (p *parser) single(tokens []token) (partial, bool) {
	var items [4]token
	n, named, weeks := 0, 0, false
	months := hasMonth(tokens)
	for i, t := range tokens {
		switch {
		case t.kind == divider && t.word, t.kind == other, t.kind == bound:
			return partial{}, false
		case t.kind == divider:
		case t.kind == part && named == 0:
			named, weeks = t.value, t.value > 10 && t.value < 100
		case n > 0 && items[n-1].torn(t), n > 0 && months && tokens[i-1].kind == divider && items[n-1].spansTo(t, len(tokens)):
		case n == len(items) || t.kind == part:
			return partial{}, false
		default:
			items[n] = t
			n++
		}
	}
	if named > 100 { // "first of July" is a day
		return p.ordinalDay(items[:n], named-100)
	}
	x, ok := p.items(items[:n], len(tokens) > n)
	if n == 0 && named > 0 {
		return partial{part: named}, true
	}
	x.part = named
	if weeks && (x.m == 0 || x.d != 0) && named < 20 {
		return partial{}, false
	}
	return x, ok
}

func (p *parser) ordinalDay(items []token, n int) (partial, bool) {
	x, ok := p.items(items, false)
	if !ok || x.m == 0 || x.d != 0 {
		return partial{}, false
	}
	x.d = n
	return x, true
}

func (p *parser) items(t []token, divided bool) (partial, bool) {
	switch len(t) {
	case 1:
		return p.one(t[0])
	case 2:
		return p.two(t[0], t[1], divided)
	case 3:
		return p.three(t[0], t[1], t[2])
	case 4:
		return p.oldForm(t)
	}
	return partial{}, false
}

func (p *parser) one(t token) (partial, bool) {
	switch {
	case t.kind == month:
		return partial{m: t.value}, true
	case t.kind == season:
		return partial{season: t.value}, true
	case t.kind != number:
		return partial{}, false
	case t.fullYear(), t.apostrophe:
		return p.year(t)
	case t.digits == 8:
		return p.eight(t.value)
	case t.small() && t.value >= 1 && t.value <= 31:
		return partial{d: t.value}, true
	}
	return partial{}, false
}

// eight reads 19870714 and, when that is no day, 14071987.
func (p *parser) eight(v int) (partial, bool) {
	x := partial{y: v / 10000, m: v / 100 % 100, d: v % 100, hasYear: true}
	switch {
	case x.y < 1000:
	case x.m == 0 && x.d == 0, x.m >= 1 && x.m <= 12 && x.d <= 31:
		return x, true
	}
	y, a, b := v%10000, v/1000000, v/10000%100
	if y < 1700 || y > 2099 {
		return partial{}, false
	}
	ta, tb := token{kind: number, value: a, digits: 2}, token{kind: number, value: b, digits: 2}
	return p.dayMonth(ta, tb, partial{y: y, hasYear: true})
}

// two reads month and year, year and month, a year and its decade, a day of
// the year, or two numbers.
func (p *parser) two(a, b token, divided bool) (partial, bool) {
	if a.kind != number && b.kind == number && a.kind != blank || a.kind == century {
		return p.wordNumber(a, b)
	}
	if a.kind == number && b.kind != number && b.kind != blank {
		return p.wordNumber(b, a)
	}
	switch {
	case a.kind == blank && b.fullYear():
		return p.year(b)
	case a.fullYear() && b.kind == blank:
		return p.year(a)
	case a.kind == number && b.kind == number:
		return p.twoNumbers(a, b, divided)
	}
	return partial{}, false
}

// wordNumber reads a word beside a number. A month's number is a year when it
// has four figures or is too great for a day, else a day without year.
func (p *parser) wordNumber(w, n token) (partial, bool) {
	switch w.kind {
	case month:
		if n.small() && n.value >= 1 && n.value <= 31 {
			return partial{m: w.value, d: n.value}, true
		}
		x, ok := p.year(n)
		x.m = w.value
		return x, ok
	case season:
		x, ok := p.year(n)
		x.season = w.value
		return x, ok
	case decade:
		x, ok := p.year(n)
		switch {
		case n.more == 9 || n.value%10 != 0:
		case x.y%100 == 0 && n.digits == 4:
			x.more = 99
		default:
			x.more = 9
		}
		return x, ok
	case century:
		if n.value >= 15 && n.value <= 21 {
			return partial{y: (n.value - 1) * 100, more: 100, hasYear: true, hundred: true}, true
		}
	}
	return partial{}, false
}

func (p *parser) twoNumbers(a, b token, divided bool) (partial, bool) {
	switch {
	case a.fullYear() && a.more == 0 && b.digits == 3 && b.hyphen:
		return p.dayOfYear(a, b)
	case a.fullYear() && b.small() && b.value >= 1 && b.value <= 12:
		x, ok := p.year(a)
		if divided && b.digits == 1 && b.value == a.value%10+1 && a.more == 0 { // 1853-4: April or two years
			m := DayOf(x.y, b.value, 1)
			p.monthToo = span{first: m, last: m + Day(daysIn(x.y, b.value)-1), precision: ToMonth}
			x.more = 1
			return x, ok
		}
		x.m = b.value
		return x, ok
	case a.fullYear() && a.more == 0 && b.digits <= 2 && divided:
		return p.toYear(a, b)
	case b.fullYear() && a.small() && a.value >= 1 && a.value <= 12:
		x, ok := p.year(b)
		x.m = a.value
		return x, ok
	case a.small() && a.value >= 1 && a.value <= 12 && b.yearLike():
		x, ok := p.year(b)
		x.m = a.value
		return x, ok
	case a.small() && b.small() && (divided || b.point): // 7/28, whose year stands elsewhere
		return p.dayMonth(a, b, partial{})
	case a.digits == 2 && b.digits == 2 && (a.value == 18 || a.value == 19) && !divided && !b.comma && !b.point:
		return partial{y: 100*a.value + b.value, hasYear: true}, true // 18 82
	}
	return partial{}, false
}

// toYear reads 1909/10 and 1853-4.
func (p *parser) toYear(a, b token) (partial, bool) {
	unit := 100
	if b.digits == 1 {
		unit = 10
	}
	more := b.value - a.value%unit
	if b.apostrophe || more > 0 {
		return partial{y: a.value, more: more, hasYear: true}, more > 0
	}
	if a.value%100 > 90 && b.digits == 2 && b.value < 10 { // 1899/00
		return partial{y: a.value, more: b.value + 100 - a.value%100, hasYear: true}, true
	}
	return partial{}, false
}

// dayOfYear reads the ISO 8601-1 day of the year, 1880-350.
func (p *parser) dayOfYear(year, n token) (partial, bool) {
	y, m, d := (DayOf(year.value, 1, 1) + Day(n.value-1)).Date()
	if n.value < 1 || y != year.value {
		return partial{}, false
	}
	return partial{y: y, m: m, d: d, hasYear: true}, true
}

// three reads day, month and year in any order that the figures allow.
func (p *parser) three(a, b, c token) (partial, bool) {
	switch {
	case a.kind == dayWord && b.kind == number && c.fullYear():
		return p.dayOfYear(c, b)
	case b.kind == month && a.kind == number && c.kind == number:
		if a.yearLike() {
			return p.whole(a, b.value, c)
		}
		return p.whole(c, b.value, a)
	case a.kind == month && b.kind == number && c.kind == number:
		if b.fullYear() {
			return p.whole(b, a.value, c)
		}
		if c.hyphen && c.digits <= 2 && c.value > b.value && c.value <= 31 && !c.apostrophe {
			return partial{}, false // Aug. 22-23: two days without year
		}
		return p.whole(c, a.value, b)
	case c.kind == month && a.yearLike() && b.kind == number:
		return p.whole(a, c.value, b)
	case a.kind == season && b.fullYear() && c.kind == number:
		return p.longSeason(a, b, c)
	case a.kind == number && b.kind == number && c.kind == number:
		return p.figures(a, b, c)
	}
	return p.withBlanks(a, b, c)
}

// longSeason reads winter 1909/10.
func (p *parser) longSeason(s, a, b token) (partial, bool) {
	x := partial{y: b.value, more: 1, hasYear: true}
	ok := b.fullYear()
	if !ok {
		x, ok = p.toYear(a, b)
	}
	x.y, x.season = a.value, s.value
	return x, ok && (b.value == a.value+1 || x.more == 1 && !b.fullYear())
}

// whole is the date of a year, a month and a day.
func (p *parser) whole(year token, m int, day token) (partial, bool) {
	x, ok := p.year(year)
	x.m, x.d = m, day.value // 0 for a day or month is "not known"
	return x, ok && day.small() && (m > 0 || day.value == 0)
}

// withBlanks reads XX-01-1995, XX-XX-1995, 23 XXX 1947, **-Nov-1910.
func (p *parser) withBlanks(a, b, c token) (partial, bool) {
	if a.fullYear() {
		a, c = c, a
	}
	x, ok := p.year(c)
	switch {
	case !ok || !c.fullYear():
		return partial{}, false
	case a.kind == blank && b.kind == blank:
	case a.kind == blank && (b.kind == month || b.small()):
		x.m = b.value
		if x.m == 0 {
			return partial{}, false
		}
	case a.small() && b.kind == blank:
		x.d, x.anyMonth = a.value, true
	default:
		return partial{}, false
	}
	return x, true
}

// figures reads a date all in figures.
func (p *parser) figures(a, b, c token) (partial, bool) {
	if !a.yearLike() {
		x, ok := p.year(c)
		if !ok {
			return partial{}, false
		}
		return p.dayMonth(a, b, x)
	}
	padded := b.digits == 2 && c.digits == 2
	if b.value > 12 && c.value <= 12 && !(padded && b.hyphen) { // 1866 27/7
		b, c = c, b
	}
	if !padded && b.value == 0 { // 1990.0.5: a day not known
		b, c = c, b
	}
	if !padded && b.value != c.value && c.value > 0 && b.value <= 12 && c.value <= 12 && b.small() && c.small() && !p.settled {
		p.orderMattered = true
		if p.order == DayMonth {
			b, c = c, b
		}
	}
	if !b.small() {
		return partial{}, false
	}
	return p.whole(a, b.value, c)
}

// dayMonth reads the two figures before a year.
func (p *parser) dayMonth(a, b token, year partial) (partial, bool) {
	if !a.small() || !b.small() || a.value > 31 || b.value > 31 {
		return partial{}, false
	}
	order := p.order
	switch {
	case a.value == 0 || b.value == 0: // 00/05/1990: a day not known
		year.m = a.value + b.value
		return year, year.m <= 12
	case a.value == b.value:
	case a.value > 12:
		order = DayMonth
		p.contradiction = p.contradiction || p.order != order
	case b.value > 12:
		order = MonthDay
		p.contradiction = p.contradiction || p.order != order
	default:
		p.orderMattered = !p.settled
	}
	if order == MonthDay {
		a, b = b, a
	}
	year.d, year.m = a.value, b.value
	return year, true
}

// oldForm reads the form "18 25/7 73", the year split around day and month:
// a Scandinavian habit, so the day stands first (common practice, no source).
func (p *parser) oldForm(t []token) (partial, bool) {
	for i := range t {
		if !t[i].small() && (i != 2 || t[i].kind != month) && (i != 3 || !t[i].apostrophe) {
			return partial{}, false
		}
	}
	if t[0].digits != 2 || t[0].value < 16 || t[0].value > 20 || t[3].digits != 2 {
		return partial{}, false
	}
	return partial{y: t[0].value*100 + t[3].value, m: max(t[2].value, -1), d: t[1].value, hasYear: true}, t[1].value > 0 && t[2].value > 0
}

// year is the year that a number means under this reading.
func (p *parser) year(t token) (partial, bool) {
	switch {
	case t.kind != number:
	case t.digits == 4:
		return partial{y: t.value, more: t.more, hasYear: true}, true
	case t.digits == 2:
		p.shortYear = true
		y := p.firstYear + ((t.value-p.firstYear)%100+100)%100
		return partial{y: y, hasYear: true}, y <= p.lastYear
	}
	return partial{}, false
}
