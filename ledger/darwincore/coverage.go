package darwincore

import (
	"cmp"
	"math"
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
	families     map[string]int
	countries    map[string]int // by code
}

// add counts one sheet, each position as the point that is exported.
func (c *Coverage) add(s *Sheet) {
	if c.families == nil {
		c.families, c.countries = map[string]int{}, map[string]int{}
		c.West, c.East, c.South, c.North = math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	}
	c.Sheets++
	if p := &s.Reading.Position; p.Known {
		c.Placed++
		c.West, c.East = min(c.West, p.Lon), max(c.East, p.Lon)
		c.South, c.North = min(c.South, p.Lat), max(c.North, p.Lat)
	}
	if d := &s.Reading.Date; isoDate(d) != "" {
		if c.Dated++; c.Dated == 1 {
			c.First, c.Last = d.First, d.Last
		}
		c.First, c.Last = min(c.First, d.First), max(c.Last, d.Last)
	}
	n := s.now()
	if f := n.familyOr(s.Record.Family); f != "" {
		c.families[f]++
	}
	if code := s.countryCode(); code != "" {
		c.countries[code]++
	}
}

// Families are the families that the sheets belong to, sorted.
func (c *Coverage) Families() []string { return sortedKeys(c.families) }

// where are the countries, most sheets first, in words.
func (c *Coverage) where() string {
	codes := sortedKeys(c.countries)
	slices.SortStableFunc(codes, func(a, b string) int { return cmp.Compare(c.countries[b], c.countries[a]) })
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
