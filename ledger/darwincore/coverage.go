package darwincore

import (
	"math"
	"slices"

	"blotter/ledger/dates"
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
	genera       map[string]int
}

// add counts one sheet. A position counts with its radius, so that the box
// holds the plant; a box across the antimeridian is drawn around the world.
func (c *Coverage) add(s *Sheet) {
	if c.families == nil {
		c.families, c.genera = map[string]int{}, map[string]int{}
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
	if n.genus != "" {
		c.genera[n.genus]++
	}
}

// Families are the families that the sheets belong to, sorted.
func (c *Coverage) Families() []string { return sortedKeys(c.families) }

// Genera are the genera, sorted.
func (c *Coverage) Genera() []string { return sortedKeys(c.genera) }

func sortedKeys(m map[string]int) []string {
	out := make([]string, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}
