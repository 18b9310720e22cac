package main

import (
	"slices"
	"strings"
	"time"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/people"
	"blotter/ledger/waypoints"
)

// Points no farther apart in time and space than this are one stop.
const (
	stopGap   = 30 * time.Minute
	stopReach = 150.0 // metres
)

// gatherings are the sheets by what a waypoint may say of them.
type gatherings struct {
	bySheet  map[ledger.Number]*book.Entry
	byNumber map[string][]*book.Entry // collector's number as waypoints.Number has it
	byDay    map[dates.Day][]*book.Entry
}

func (p *placing) gatherings(b *book.Book) gatherings {
	g := gatherings{map[ledger.Number]*book.Entry{}, map[string][]*book.Entry{}, map[dates.Day][]*book.Entry{}}
	only := p.desk.opts.text("collector")
	for e := range b.All() {
		if e.Fate != "" || only != "" && !collectedBy(e, only) {
			continue
		}
		g.bySheet[e.Number] = e
		if l, ok := waypoints.LabelOf(e.CollNo); ok {
			g.byNumber[l.Number] = append(g.byNumber[l.Number], e)
		}
		if e.Dated && e.First == e.Last {
			g.byDay[e.First] = append(g.byDay[e.First], e)
		}
	}
	return g
}

// collectedBy reports whether a sheet's first collector is called so, by the
// whole name or the family name.
func collectedBy(e *book.Entry, who string) bool {
	read := people.Read(e.Collector)
	return strings.EqualFold(e.Collector, who) || len(read) > 0 && (strings.EqualFold(read[0].String(), who) || strings.EqualFold(read[0].Family, who))
}

// match finds the sheet of each spot: by the sheet's number, by the collector's
// number, or else by the day.
func (p *placing) match(b *book.Book) {
	g := p.gatherings(b)
	found := map[*book.Entry][]match{}
	var order []*book.Entry
	put := func(e *book.Entry, m match) {
		if found[e] == nil {
			order = append(order, e)
		}
		m.e = e
		found[e] = append(found[e], m)
	}
	var left []int
	for i := range p.spots {
		if !p.byName(g, i, put) {
			left = append(left, i)
		}
	}
	p.byDay(g, left, put, func(e *book.Entry) bool { return found[e] != nil })
	for _, e := range order {
		ms := found[e]
		m := ms[0]
		var names []string
		for _, x := range ms {
			names = append(names, x.from)
		}
		switch {
		case e.Positioned || e.Flags.Has(book.PositionSaid):
			p.note(hasPosition, "%s: %s: %s", e.Number, m.from, howFar(e, &m))
		case len(ms) > 1:
			p.note(ambiguous, "%s: %s", e.Number, strings.Join(names, "; "))
		default:
			p.matches = append(p.matches, m)
		}
	}
	slices.SortFunc(p.matches, func(a, b match) int { return strings.Compare(string(a.e.Number), string(b.e.Number)) })
}

func (x *spot) at(how string) match {
	return match{lat: x.Lat, lon: x.Lon, decimals: min(max(x.Decimals, 1), 6), metres: x.metres, from: x.what, how: how, when: x.Time}
}

// byName matches a spot by the number in its name; false when there is none, or
// no sheet has it.
func (p *placing) byName(g gatherings, i int, put func(*book.Entry, match)) bool {
	x := &p.spots[i]
	if len(x.sheets) == 0 {
		n := ledger.Number(x.Name)
		if have, ok := g.bySheet[n]; ok {
			x.sheets = []ledger.Number{have.Number}
		}
	}
	if len(x.sheets) == 1 {
		e := g.bySheet[x.sheets[0]]
		if e == nil {
			return false
		}
		if p.sameDay(e, x) == apartDays {
			p.note(otherDay, "%s: %s, %s", e.Number, x.what, p.days(e, x))
			return true
		}
		put(e, x.at("the sheet's number"))
		return true
	}
	label, ok := waypoints.LabelOf(x.Name)
	if !ok {
		return false
	}
	fits := slices.DeleteFunc(slices.Clone(g.byNumber[label.Number]), func(e *book.Entry) bool { return !p.isOf(e, label) })
	if len(fits) == 0 {
		return false
	}
	// A device counts its waypoints by itself: figures alone are a collector's
	// number only on a day on which that was gathered.
	agree := slices.DeleteFunc(slices.Clone(fits), func(e *book.Entry) bool {
		s := p.sameDay(e, x)
		return s == apartDays || s == unknownDays && label.Letters == "" && (len(fits) > 1 || !x.Time.IsZero())
	})
	switch {
	case len(agree) == 0 && label.Letters == "":
		return false
	case len(agree) == 0:
		p.note(otherDay, "%s: %s, %s", fits[0].Number, x.what, p.days(fits[0], x))
	case !oneGathering(agree):
		p.note(ambiguous, "%s: %s", x.what, numbersOf(agree))
	default:
		for _, e := range agree {
			put(e, x.at("collector's number"))
		}
	}
	return true
}

// isOf reports whether the letters of a waypoint's name are those of the
// sheet's collector or of the number as the sheet has it.
func (p *placing) isOf(e *book.Entry, l waypoints.Label) bool {
	if own, ok := waypoints.LabelOf(e.CollNo); l.Letters == "" || ok && own.Letters == l.Letters {
		return true
	}
	for _, who := range people.Read(e.Collector) {
		return l.Names(who.Given, who.Family)
	}
	return false
}

// How the day of a spot and of a sheet stand to each other.
const (
	unknownDays = iota // one of them has none
	sameDays
	apartDays
)

func (p *placing) sameDay(e *book.Entry, x *spot) int {
	if !e.Dated || x.Time.IsZero() {
		return unknownDays
	}
	if day := dayIn(x.Time, p.desk.zone); day < e.First || day > e.Last {
		return apartDays
	}
	return sameDays
}

func (p *placing) days(e *book.Entry, x *spot) string {
	return "of " + dayIn(x.Time, p.desk.zone).String() + ", gathered " + e.Date
}

// oneGathering reports whether sheets are of one gathering: the same
// collector, number and day.
func oneGathering(es []*book.Entry) bool {
	for _, e := range es[1:] {
		if e.Who != es[0].Who || waypoints.Number(e.CollNo) != waypoints.Number(es[0].CollNo) || e.First != es[0].First || e.Last != es[0].Last {
			return false
		}
	}
	return true
}

func numbersOf(es []*book.Entry) string {
	var out []string
	for _, e := range es[:min(len(es), 10)] {
		out = append(out, string(e.Number))
	}
	if len(es) > 10 {
		out = append(out, "and "+thousands(len(es)-10)+" more")
	}
	return strings.Join(out, ", ")
}

// byDay matches what has no number of a sheet: on a day with one stop and
// gatherings of one collector at one locality, it was there.
func (p *placing) byDay(g gatherings, left []int, put func(*book.Entry, match), placed func(*book.Entry) bool) {
	days := map[dates.Day][]int{}
	var order []dates.Day
	for _, i := range left {
		x := &p.spots[i]
		if x.Time.IsZero() {
			p.note(noGathering, "%s: no number that a sheet has, and no time", x.what)
			continue
		}
		day := dayIn(x.Time, p.desk.zone)
		if days[day] == nil {
			order = append(order, day)
		}
		days[day] = append(days[day], i)
	}
	slices.Sort(order)
	all := map[dates.Day][]waypoints.Point{}
	for i := range p.spots {
		if x := &p.spots[i]; !x.Time.IsZero() {
			day := dayIn(x.Time, p.desk.zone)
			all[day] = append(all[day], x.Point)
		}
	}
	for _, day := range order {
		stops := waypoints.Stops(all[day], stopGap, stopReach)
		p.oneDay(day, len(stops), days[day], slices.DeleteFunc(slices.Clone(g.byDay[day]), placed), put)
	}
}

// oneDay gives the place of a day to its sheets that have none yet, when there
// was one stop on it, those of sheets with a number of their own counted too.
func (p *placing) oneDay(day dates.Day, stops int, spots []int, sheets []*book.Entry, put func(*book.Entry, match)) {
	first := &p.spots[spots[0]]
	what := first.what
	if n := len(spots) - 1; n > 0 {
		what += " and " + thousands(n) + " more"
	}
	if len(sheets) == 0 {
		p.note(noGathering, "%s: none on %s", what, day.String())
		return
	}
	for _, e := range sheets[1:] {
		if e.Who != sheets[0].Who || e.Locality != sheets[0].Locality {
			p.note(ambiguous, "%s: %s, and on %s gatherings of more than one collector or place: %s", what, count(stops, "place"), day.String(), numbersOf(sheets))
			return
		}
	}
	if stops > 1 {
		p.note(ambiguous, "%s: %s on %s: %s", what, count(stops, "place"), day.String(), numbersOf(sheets))
		return
	}
	points := make([]waypoints.Point, len(spots))
	for i, at := range spots {
		points[i] = p.spots[at].Point
	}
	place := waypoints.Stops(points, stopGap, 2*stopReach)[0]
	m := first.at("the day of gathering")
	m.lat, m.lon, m.from = place.Lat, place.Lon, what
	for _, at := range spots {
		if x := p.spots[at].metres; x == 0 {
			m.metres = 0
			break
		} else {
			m.metres = max(m.metres, x)
		}
	}
	if place.Radius >= 1 {
		if m.metres == 0 {
			m.metres = commonMetres
		}
		m.metres += place.Radius
	}
	for _, e := range sheets {
		put(e, m)
	}
}
