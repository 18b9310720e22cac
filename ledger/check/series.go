package check

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/reading"
)

var seriesRules = []Rule{
	{Code: "series-order", Severity: ledger.Warning,
		Says:  "A collector's numbers run with the dates.",
		Why:   "People number as they collect. Where most numbers of a stretch run with the dates, one that does not has its number or its date misread. How many days a number may run against them is number_order under checks.",
		Of:    &bySeries,
		Group: func(g *group, say sayOf) { outOfSeries(g, "series-order", say) }},
	{Code: "series-swap", Severity: ledger.Warning,
		Says:  "Day and month of a date stand in the order that the collector's numbers on either side ask for.",
		Why:   "A date that does not fit between the numbers before and after it, and does with day and month exchanged, was written or typed in the other order.",
		Of:    &bySeries,
		Group: func(g *group, say sayOf) { outOfSeries(g, "series-swap", say) }},
	{Code: "series-year", Severity: ledger.Warning,
		Says:  "The year of a date is the one that the collector's numbers on either side ask for.",
		Why:   "A date that does not fit between the numbers before and after it, and does in another year, has a year or a century misread.",
		Of:    &bySeries,
		Group: func(g *group, say sayOf) { outOfSeries(g, "series-year", say) }},
	{Code: "series-settles", Severity: ledger.Warning,
		Says:  "A date in two ways that the collector's numbers on either side settle has a person's reading.",
		Why:   "Of the two readings one fits between the numbers before and after it and one does not. The program does not choose; a person who looked writes the reading down.",
		Of:    &bySeries,
		Group: func(g *group, say sayOf) { outOfSeries(g, "series-settles", say) }},
}

// seriesStep: a stretch of a series is judged with half as many numbers on
// either side at least. Our choice, no source.
const seriesStep = 50

// bySeries puts stretches of a collector's numbers together. They overlap:
// each number is judged in the one stretch in whose middle it lies.
var bySeries = Grouping{Name: "series", Keys: func(keys []string, e *book.Entry) []string {
	n, ok := reading.ReadCollNo(e.CollNo)
	if !led(e) || !ok || !e.Dated {
		return keys
	}
	key := e.Who + "|" + n.Prefix + "|"
	block := int(n.Serial) / seriesStep
	return append(keys, key+strconv.Itoa(block), key+strconv.Itoa(block+1))
}}

// midst reports whether a number is judged in the stretch of a key.
func midst(key string, serial uint32) bool {
	block, _ := strconv.Atoi(key[strings.LastIndexByte(key, '|')+1:])
	from := block*seriesStep - seriesStep/2
	return int(serial) >= from && int(serial) < from+seriesStep
}

// point is the sheets of one number and date.
type point struct {
	serial uint32
	sheets []*book.Entry
	sure   bool // the date is one day
	fits   bool // it runs with most of its neighbours
	tied   bool // as many neighbours speak for it as against it
}

func (p *point) first() dates.Day { return p.sheets[0].First }
func (p *point) last() dates.Day  { return p.sheets[0].Last }

// stretch is one person's points of a group, in order of number, then date.
func stretch(same []*book.Entry) []*point {
	var out []*point
	at := map[[3]int32]*point{}
	for _, e := range same {
		n, _ := reading.ReadCollNo(e.CollNo)
		k := [3]int32{int32(n.Serial), int32(e.First), int32(e.Last)}
		p := at[k]
		if p == nil {
			p = &point{serial: n.Serial, sure: oneDay(e)}
			at[k] = p
			out = append(out, p)
		}
		p.sheets = append(p.sheets, e)
	}
	slices.SortFunc(out, func(a, b *point) int {
		return cmp.Or(cmp.Compare(a.serial, b.serial), cmp.Compare(a.first(), b.first()), cmp.Compare(a.last(), b.last()))
	})
	return out
}

// The least that a stretch must have before it can speak against a date: so
// many sure dates, and so large a share of them in order. A collector who
// numbers at home has neither. A greater stretch is no series. Our choice, no
// source.
const (
	leastPoints = 4
	leastShare  = 0.8
	mostPoints  = 400
)

// judgeSeries finds the longest run of sure dates that goes with the numbers;
// false when too few do. Those in every such run fit, those in some are tied.
func judgeSeries(points []*point, slack dates.Day) bool {
	var sure []*point
	for _, p := range points {
		if p.sure {
			sure = append(sure, p)
		}
	}
	if len(sure) < leastPoints || len(sure) > mostPoints {
		return false
	}
	n := len(sure)
	up, down := make([]int, n), make([]int, n) // the longest run that ends, begins here
	longest := 0
	for i := range n {
		up[i] = 1
		for j := range i {
			if up[j] >= up[i] && sure[j].first() <= sure[i].first()+slack {
				up[i] = up[j] + 1
			}
		}
		longest = max(longest, up[i])
	}
	for i := n - 1; i >= 0; i-- {
		down[i] = 1
		for j := i + 1; j < n; j++ {
			if down[j] >= down[i] && sure[i].first() <= sure[j].first()+slack {
				down[i] = down[j] + 1
			}
		}
	}
	if float64(longest) < leastShare*float64(n) {
		return false
	}
	at := make([]int, longest+1) // how many points can be at a place of a longest run
	for i := range n {
		if up[i]+down[i]-1 == longest {
			at[up[i]]++
		}
	}
	for i, p := range sure {
		in := up[i]+down[i]-1 == longest
		p.fits, p.tied = in && at[up[i]] == 1, in && at[up[i]] > 1
	}
	return true
}

// neighbours is the nearest points on either side that fit; nil where there is
// none.
func neighbours(points []*point, i int) (below, above *point) {
	for j := i - 1; j >= 0 && below == nil; j-- {
		if points[j].fits {
			below = points[j]
		}
	}
	for j := i + 1; j < len(points) && above == nil; j++ {
		if points[j].fits {
			above = points[j]
		}
	}
	return below, above
}

// outOfSeries reports, under one code, the points of a group that do not fit.
func outOfSeries(g *group, code string, say sayOf) {
	for _, v := range g.series() {
		if v.code == code {
			for _, e := range v.of.sheets {
				v.tell(e, g.around, say)
			}
		}
	}
}

// series is what the neighbours say of the points of a group that do not fit;
// four rules ask for it.
func (g *group) series() []verdict {
	if g.verdicts != nil {
		return g.verdicts
	}
	g.verdicts = []verdict{}
	slack := dates.Day(g.around.Settings.NumberOrder)
	if len(g.same) < leastPoints {
		return nil
	}
	for _, same := range g.persons() {
		points := stretch(same)
		if !judgeSeries(points, slack) {
			continue
		}
		for i, p := range points {
			if !p.fits && midst(g.key, p.serial) {
				below, above := neighbours(points, i)
				g.verdicts = append(g.verdicts, verdictOf(p, below, above, slack))
			}
		}
	}
	return g.verdicts
}

// verdict is what the neighbours say of a point.
type verdict struct {
	code         string // "": nothing
	of           *point
	below, above *point // nil: none
	fits         dates.Day
}

func verdictOf(p, below, above *point, slack dates.Day) verdict {
	v := verdict{of: p, below: below, above: above}
	early := below != nil && p.last() < below.first()-slack
	late := above != nil && p.first() > above.first()+slack
	fits := func(d dates.Day) bool { return d >= below.first()-slack && d <= above.first()+slack }
	near := below != nil && above != nil && above.first()-below.first() < 183
	e := p.sheets[0]
	if near && !p.sure && e.Uncertain && ambiguous(e) && fits(p.first()) != fits(p.last()) {
		v.code, v.fits = "series-settles", p.first()
		if !fits(v.fits) {
			v.fits = p.last()
		}
		return v
	}
	if !early && !late || below != nil && below.serial == p.serial || above != nil && above.serial == p.serial {
		return v // of one number with two dates collno-twice tells
	}
	v.code = "series-order"
	if !near || !p.sure {
		return v
	}
	if d, ok := exchanged(e); ok && fits(d) {
		v.code, v.fits = "series-swap", d
		return v
	}
	_, m, d := p.first().Date()
	for _, y := range []int{below.first().Year(), above.first().Year()} {
		if day := dates.DayOf(y, m, d); fits(day) && day.Year() == y {
			v.code, v.fits = "series-year", day
			return v
		}
	}
	return v
}

// ambiguous reports whether the words of a date have two readings of one day
// each, which are then the first and the last possible day.
func ambiguous(e *book.Entry) bool {
	r := dates.Read(e.Date, dates.Ask)
	return r.Precision == dates.Ambiguous && r.First == e.First && r.Last == e.Last && len(r.Warnings) > 0 && len(r.Warnings[0].Readings) == 2
}

// exchanged is the date with day and month exchanged, if it was written in
// figures and has such a reading.
func exchanged(e *book.Entry) (dates.Day, bool) {
	y, m, d := e.First.Date()
	if d > 12 || d == m || strings.ContainsFunc(e.Date, func(r rune) bool { return r >= 'A' }) {
		return 0, false
	}
	return dates.DayOf(y, d, m), true
}

func (v verdict) tell(e *book.Entry, a *Around, say sayOf) {
	n := short(e.Number)
	message, field, line := "does not go with the dates of the numbers on either side", "date", e.Lines.Date
	read := set(n, "date-read", v.fits.String())
	read = strings.Replace(read, "--why TEXT", `--why "the numbers on either side"`, 1)
	switch v.code {
	case "series-order":
		field, line = "coll_no", e.Lines.CollNo
		message = "this number does not run with the dates of the numbers on either side"
		read = "Look at the number and the date on the label, and in the field book."
	case "series-swap":
		message += ", and with day and month exchanged it does"
		read = "If the label or the field book agrees: " + read
	case "series-year":
		message += ", and in another year it does"
		read = "If the label or the field book agrees: " + read
	case "series-settles":
		message = "can be read in two ways, of which the numbers on either side allow one"
		read = "If you agree: " + read
	}
	var others []*book.Entry
	var said []string
	for _, p := range []*point{v.below, v.above} {
		if p != nil {
			others = append(others, p.sheets[0])
			if when := dated(p.sheets[0], a); when != "" {
				said = append(said, fmt.Sprintf("%s (%s) is of %s", strings.TrimSpace(p.sheets[0].CollNo), p.sheets[0].Number, when))
			}
		}
	}
	if len(said) > 0 {
		message += ": " + strings.Join(said, ", ")
	}
	say(e, place{line: int(line), field: field}, words{message, lines(read, accept(n, v.code))}, others...)
}
