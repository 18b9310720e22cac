package check

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/land"
)

var journeyRules = []Rule{
	{Code: "collector-two-places", Severity: ledger.Warning,
		Says:  "A collector's places of one day lie no further apart than one can travel.",
		Why:   "Where they do, a date, a collector or a place is misread. What counts is the way as the crow flies, less what either position may be off, in travel_hours at the speed of the time; both are settings under checks. Of a record without a position its country and province count.",
		Of:    &byDay,
		Group: twoPlaces},
	{Code: "collector-next-day", Severity: ledger.Warning,
		Says:  "A collector's places of two days in a row lie no further apart than a day's travel.",
		Why:   "People do fly to a field, and seldom collect the day before at the other end. How far is possible is neighbour_days under checks.",
		Of:    &byDay,
		Group: nextDay},
}

// byDay puts together what one collector collected on two days in a row: each
// sheet is under its own day, and under the next.
var byDay = Grouping{Name: "day", Keys: func(keys []string, e *book.Entry) []string {
	if !led(e) || !oneDay(e) {
		return keys
	}
	return append(keys, e.Who+"|"+strconv.Itoa(int(e.First)), e.Who+"|"+strconv.Itoa(int(e.First)+1))
}}

// dayOf is the later of the two days of a group of byDay.
func (g *group) day() dates.Day {
	d, _ := strconv.Atoi(g.key[strings.LastIndexByte(g.key, '|')+1:])
	return dates.Day(d)
}

// days parts one person's sheets by the two days of the group.
func (g *group) days(same []*book.Entry) (before, on []*book.Entry) {
	for _, e := range same {
		if e.First == g.day() {
			on = append(on, e)
		} else {
			before = append(before, e)
		}
	}
	return before, on
}

// reach is how far one travels on a day, in kilometres.
func (s *Settings) reach(d dates.Day) float64 {
	if d.Year() < int(s.SpeedFrom) {
		return s.SpeedEarly * s.TravelHours
	}
	return s.Speed * s.TravelHours
}

func twoPlaces(g *group, say sayOf) {
	reach := g.around.Settings.reach(g.day())
	far := func(a, b *book.Entry) bool {
		switch {
		case placed(a) && placed(b):
			return apart(a, b) > reach
		case placed(a):
			return farFrom(a, b, reach)
		case placed(b):
			return farFrom(b, a, reach)
		}
		return farCountries(a.Country, b.Country, reach)
	}
	for _, same := range g.persons() {
		_, on := g.days(same)
		if len(on) < 2 {
			continue
		}
		unlikes(on, far, func(e, other *book.Entry) {
			say(e, place{line: int(e.Lines.Date), field: "date"}, words{
				fmt.Sprintf("the collector was elsewhere on that day: %s comes from further away than one travels in a day", other.Number),
				lines("Look at the date, the collector and the place of both.", accept(short(e.Number), "collector-two-places"))}, other)
		})
	}
}

// farFrom reports whether a position lies further than reach kilometres from
// the country, or the province, that another record names.
func farFrom(e, named *book.Entry, reach float64) bool {
	code, ok := land.CodeOf(stated(named.Country))
	if !ok {
		return false
	}
	reach = reach*1000 + e.Uncertainty
	if own, ok := land.CodeOf(stated(e.Country)); !ok || own != code {
		m, ok := land.Outside(e.Lat, e.Lon, code)
		return ok && m > reach
	}
	if !unlike(e.Province, named.Province) {
		return false
	}
	m, ok := land.OutsideRegion(e.Lat, e.Lon, code, named.Province)
	return ok && m > reach
}

// farCountries reports whether two countries lie further apart than reach
// kilometres, of which nobody is sure who knows no places in them: what counts
// is the way from the middle of each to the other, less twice the radius of a
// circle of its area.
func farCountries(a, b string, reach float64) bool {
	x, ok := land.CodeOf(stated(a))
	y, known := land.CodeOf(stated(b))
	if !ok || !known || x == y {
		return false
	}
	from := func(x, y string) bool {
		centres := land.Centres(x)
		if len(centres) == 0 || land.Area(x) == 0 {
			return false
		}
		m, ok := land.Outside(centres[0].Lat, centres[0].Lon, y)
		return ok && m-2*math.Sqrt(land.Area(x)/math.Pi) > reach*1000
	}
	return from(x, y) && from(y, x)
}

func nextDay(g *group, say sayOf) {
	for _, same := range g.persons() {
		before, on := g.days(same)
		tell := func(e *book.Entry, others []*book.Entry, when string) {
			i := slices.IndexFunc(others, func(o *book.Entry) bool { return placed(e) && apart(e, o) > g.around.Settings.NeighbourDays })
			if i < 0 {
				return
			}
			say(e, place{line: int(e.Lines.Date), field: "date"}, words{
				fmt.Sprintf("the collector was elsewhere %s: %s comes from more than %s km away", when, others[i].Number, figure(g.around.Settings.NeighbourDays)),
				lines("Look at the date, the collector and the place of both.", accept(short(e.Number), "collector-next-day"))}, others[i])
		}
		spots, spotsOn := spots(before), spots(on)
		for _, e := range on {
			tell(e, spots, "the day before")
		}
		for _, e := range before {
			tell(e, spotsOn, "the day after")
		}
	}
}

// spots is one sheet for each degree square that sheets come from: a day may
// have hundreds from one place.
func spots(same []*book.Entry) []*book.Entry {
	seen := map[[2]int]bool{}
	var out []*book.Entry
	for _, e := range same {
		square := [2]int{int(math.Floor(e.Lat)), int(math.Floor(e.Lon))}
		if placed(e) && !seen[square] {
			seen[square] = true
			out = append(out, e)
		}
	}
	return out
}

// placed reports whether a record has a position that means one: 0, 0 is what
// machines write for none.
func placed(e *book.Entry) bool { return e.Positioned && (e.Lat != 0 || e.Lon != 0) }

// unlike reports whether both say something and not the same.
func unlike(a, b string) bool {
	return stated(a) != "" && stated(b) != "" && !strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b))
}

// apart is the least distance of two positions in kilometres, their
// uncertainties taken off, on a sphere of 6371 km (the mean radius of IUGG;
// haversine formula).
func apart(a, b *book.Entry) float64 {
	const deg = math.Pi / 180
	s := math.Sin((b.Lat - a.Lat) * deg / 2)
	t := math.Sin((b.Lon - a.Lon) * deg / 2)
	h := s*s + math.Cos(a.Lat*deg)*math.Cos(b.Lat*deg)*t*t
	km := 2 * 6371 * math.Asin(math.Sqrt(math.Min(1, h)))
	return math.Max(0, km-(a.Uncertainty+b.Uncertainty)/1000)
}
