package darwincore

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger/dates"
	"blotter/ledger/land"
)

// Coverage is what the sheets of a data set cover, as far as they say it.
type Coverage struct {
	Sheets       int
	Placed       int // with a position
	West, East   float64
	South, North float64
	Dated        int // with a date
	First, Last  dates.Day
	InFamily     map[string]int
	InCountry    map[string]int // by code
}

// add counts one sheet, each position as the point that is exported.
func (c *Coverage) add(s *Sheet) {
	one := Coverage{Sheets: 1, InFamily: map[string]int{}, InCountry: map[string]int{}}
	if p := &s.Reading.Position; p.Known {
		one.Placed, one.West, one.East, one.South, one.North = 1, p.Lon, p.Lon, p.Lat, p.Lat
	}
	if d := &s.Reading.Date; isoDate(d) != "" {
		one.Dated, one.First, one.Last = 1, d.First, d.Last
	}
	if f := s.now().familyOr(s.Record.Family); f != "" {
		one.InFamily[f] = 1
	}
	if code := s.countryCode(); code != "" {
		one.InCountry[code] = 1
	}
	c.join(&one)
}

// join takes over what other covers.
func (c *Coverage) join(o *Coverage) {
	c.Sheets += o.Sheets
	switch {
	case o.Placed == 0:
	case c.Placed == 0:
		c.West, c.East, c.South, c.North = o.West, o.East, o.South, o.North
	default:
		c.West, c.East = min(c.West, o.West), max(c.East, o.East)
		c.South, c.North = min(c.South, o.South), max(c.North, o.North)
	}
	switch {
	case o.Dated == 0:
	case c.Dated == 0:
		c.First, c.Last = o.First, o.Last
	default:
		c.First, c.Last = min(c.First, o.First), max(c.Last, o.Last)
	}
	c.Placed += o.Placed
	c.Dated += o.Dated
	if c.InFamily == nil {
		c.InFamily, c.InCountry = map[string]int{}, map[string]int{}
	}
	for f, n := range o.InFamily {
		c.InFamily[f] += n
	}
	for code, n := range o.InCountry {
		c.InCountry[code] += n
	}
}

// Families are the families that the sheets belong to, sorted.
func (c *Coverage) Families() []string { return sortedKeys(c.InFamily) }

// where are the countries, most sheets first, in words.
func (c *Coverage) where() string {
	codes := sortedKeys(c.InCountry)
	slices.SortStableFunc(codes, func(a, b string) int { return cmp.Compare(c.InCountry[b], c.InCountry[a]) })
	var names []string
	for _, code := range codes {
		names = append(names, land.Name(code))
	}
	const most = 12
	switch {
	case len(names) == 0:
		return "The places of all specimens that have a position"
	case len(names) > most:
		return strings.Join(names[:most], ", ") + " and " + strconv.Itoa(len(names)-most) + " other countries"
	}
	return strings.Join(names, ", ")
}

func sortedKeys(m map[string]int) []string {
	out := make([]string, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}
