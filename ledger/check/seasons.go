package check

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/land"
)

var seasonRules = []Rule{
	{Code: "season-odd", Severity: ledger.Warning,
		Says:   "A plant flowers in the months in which its kind flowers in the collection.",
		Why:    "Where many sheets of a kind from one hemisphere flower in some months and one in another, the month, the name or the phenology is misread. Asked of kinds with season_sheets sheets and more; how many months away is odd is season_months under checks.",
		Counts: &bySeason,
		Odd:    seasonOdd},
}

// bySeason counts the months in which a kind flowers outside the tropics, by
// hemisphere.
var bySeason = Tallying{Name: "season", Of: func(to []book.Tally, e *book.Entry) []book.Tally {
	m := monthOf(e)
	if e.NameKey == "" || m == 0 || !e.Flags.Has(book.Flower) || e.Flags.Has(book.Cultivated) || !led(e) {
		return to
	}
	h := hemisphere(e)
	if h == "" {
		return to
	}
	return append(to, book.Tally{Key: e.NameKey + "|" + h, Bin: strconv.Itoa(m)})
}}

// monthOf is the month that a date surely lies in; 0 when there is none.
func monthOf(e *book.Entry) int {
	if !e.Dated || e.Uncertain || e.Last-e.First > 31 {
		return 0
	}
	y1, m1, _ := e.First.Date()
	y2, m2, _ := e.Last.Date()
	if y1 != y2 || m1 != m2 {
		return 0
	}
	return m1
}

// tropic is the latitude of the tropics in degrees, where seasons are not told
// by the months.
const tropic = 23.44

// hemisphere is N or S, by the position, else by the middle of the country; ""
// in the tropics and where nobody knows.
func hemisphere(e *book.Entry) string {
	lat := e.Lat
	if !placed(e) {
		code, ok := land.CodeOf(e.Country)
		if !ok {
			return ""
		}
		centres := land.Centres(code)
		if len(centres) == 0 {
			return ""
		}
		lat = centres[0].Lat
	}
	switch {
	case math.Abs(lat) < tropic:
		return ""
	case lat > 0:
		return "N"
	}
	return "S"
}

// rareShare is the share of the sheets in a month up to which it does not
// belong to the season. Our choice, no source.
const rareShare = 0.05

func seasonOdd(key string, c book.Counts, a *Around) func(*book.Entry, say) {
	var month [13]int
	all := 0
	for m := 1; m <= 12; m++ {
		month[m] = c[strconv.Itoa(m)]
		all += month[m]
	}
	if float64(all) < a.Settings.SeasonSheets {
		return nil
	}
	var season []int
	for m := 1; m <= 12; m++ {
		if float64(month[m]) > rareShare*float64(all) {
			season = append(season, m)
		}
	}
	off := func(m int) bool {
		return !slices.ContainsFunc(season, func(s int) bool { return float64(min((m-s+12)%12, (s-m+12)%12)) < a.Settings.SeasonMonths })
	}
	found := false
	for m := 1; m <= 12; m++ {
		found = found || month[m] > 0 && off(m)
	}
	if !found {
		return nil
	}
	name, _, _ := strings.Cut(key, "|")
	return func(e *book.Entry, say say) {
		if !off(monthOf(e)) {
			return
		}
		say(place{line: int(e.Lines.Date), field: "date"}, words{
			fmt.Sprintf("%s flowers in %s on the other %d sheets of this hemisphere, and not in this month", name, monthsIn(season), all-1),
			lines("Look at the month, the name and the phenology. " + accept(short(e.Number), "season-odd"))})
	}
}

var monthNames = [...]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"}

// monthsIn are months as words: "May to July", "December to February".
func monthsIn(season []int) string {
	if len(season) == 0 {
		return "no month"
	}
	first := season[0]
	for _, m := range season { // a season that runs over the new year begins after its gap
		if !slices.Contains(season, (m+10)%12+1) {
			first = m
		}
	}
	last := first
	for slices.Contains(season, last%12+1) && last%12+1 != first {
		last = last%12 + 1
	}
	n := (last-first+12)%12 + 1
	if n < len(season) {
		var all []string
		for _, m := range season {
			all = append(all, monthNames[m-1])
		}
		return strings.Join(all, ", ")
	}
	if first == last {
		return monthNames[first-1]
	}
	return monthNames[first-1] + " to " + monthNames[last-1]
}
