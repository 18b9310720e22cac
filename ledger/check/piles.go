package check

import (
	"fmt"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
)

var pileRules = []Rule{
	{Code: "date-pile-up", Severity: ledger.Warning,
		Says:   "A collector's days are no more often a 1 January, or the first of a month, than chance has it.",
		Why:    "Programs write 1 January for a year alone and the first for a month alone. Where a collector has very many such days, most of them were never on a label. How many times more than chance is too many is pile_up under checks.",
		Counts: &byCollectorDay,
		Odd:    pileUp},
	{Code: "collector-years", Severity: ledger.Warning,
		Says:   "A collector's sheets are of one span of years.",
		Why:    "Where nearly all sheets of a name are of some decades and one is of a time far from them, its year is misread, or it is another person of the name. How many years without a sheet part two times is idle_years under checks.",
		Counts: &byCollectorYear,
		Odd:    collectorYears},
}

// byCollectorDay counts the days on which a collector collected.
var byCollectorDay = Tallying{Name: "days", Of: func(to []book.Tally, e *book.Entry) []book.Tally {
	if !led(e) || !oneDay(e) {
		return to
	}
	return append(to, book.Tally{Key: e.Who, Bin: strconv.Itoa(int(e.First))})
}}

// leastPile is how many different days make a pile at least. Our choice, no
// source: fewer may be chance.
const leastPile = 5

// Of so many days, so many are a 1 January, and the first of a month: 400
// years of the calendar have 146,097 days.
const (
	shareNewYear = 400.0 / 146097
	shareFirst   = 4800.0 / 146097
)

func pileUp(_ string, c book.Counts, a *Around) func(*book.Entry, say) {
	newYears, firsts := 0, 0
	for day := range c {
		n, _ := strconv.Atoi(day)
		switch _, m, d := dates.Day(n).Date(); {
		case d == 1 && m == 1:
			newYears++
			firsts++
		case d == 1:
			firsts++
		}
	}
	all := float64(len(c))
	newYear := newYears >= leastPile && float64(newYears) > a.Settings.PileUp*shareNewYear*all
	first := firsts-newYears >= leastPile && float64(firsts) > a.Settings.PileUp*shareFirst*all
	if !newYear && !first {
		return nil
	}
	return func(e *book.Entry, say say) {
		y, m, d := e.First.Date()
		what, how, value := "1 January", newYears, strconv.Itoa(y)
		if m != 1 {
			what, how, value = "the first of a month", firsts, fmt.Sprintf("%04d-%02d", y, m)
		}
		if d != 1 || m == 1 && !newYear || m != 1 && !first {
			return
		}
		n := short(e.Number)
		say(place{line: int(e.Lines.Date), field: "date"}, words{
			fmt.Sprintf("%d of this collector's %d days are %s, more than chance has it; programs write it for what is not known", how, len(c), what),
			lines("If the label has no more: "+set(n, "date", value), accept(n, "date-pile-up"))})
	}
}

// byCollectorYear counts the sheets of a name in each year. Here the words
// count, not the person: it is about persons who were taken for one.
var byCollectorYear = Tallying{Name: "years", Of: func(to []book.Tally, e *book.Entry) []book.Tally {
	if !led(e) || !e.Dated || e.First.Year() != e.Last.Year() {
		return to
	}
	return append(to, book.Tally{Key: strings.ToLower(strings.TrimSpace(e.Collector)), Bin: strconv.Itoa(e.First.Year())})
}}

// leastActive is how many sheets show a collector's years. Our choice, no
// source.
const leastActive = 20

func collectorYears(_ string, c book.Counts, a *Around) func(*book.Entry, say) {
	all := 0
	least, most := 9999, -9999
	byYear := map[int]int{}
	for bin, n := range c {
		y, _ := strconv.Atoi(bin)
		byYear[y] = n
		least, most, all = min(least, y), max(most, y), all+n
	}
	if all < leastActive || most-least < int(a.Settings.IdleYears) {
		return nil
	}
	type span struct{ first, last, sheets int }
	var spans []span
	for y := least; y <= most; y++ {
		switch n := byYear[y]; {
		case n == 0:
		case len(spans) > 0 && y-spans[len(spans)-1].last < int(a.Settings.IdleYears):
			s := &spans[len(spans)-1]
			s.last, s.sheets = y, s.sheets+n
		default:
			spans = append(spans, span{y, y, n})
		}
	}
	main := spans[0]
	for _, s := range spans {
		if s.sheets > main.sheets {
			main = s
		}
	}
	if len(spans) == 1 || float64(all-main.sheets) > rareShare*float64(all) {
		return nil
	}
	return func(e *book.Entry, say say) {
		if y := e.First.Year(); y >= main.first && y <= main.last {
			return
		}
		say(place{line: int(e.Lines.Date), field: "date"}, words{
			fmt.Sprintf("lies far from the collector's years: %d of %d sheets under this name are of %d to %d", main.sheets, all, main.first, main.last),
			lines("Look at the year; or it is another person of the name, whom people.yaml can tell apart.", accept(short(e.Number), "collector-years"))})
	}
}
