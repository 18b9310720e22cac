package annual

import (
	"slices"

	"blotter/ledger/dates"
	"blotter/ledger/opinion"
	"blotter/ledger/reading"
)

// naming counts the opinions given in the year.
type naming struct {
	first, anew, same, confirmed, denied int
	specimens                            int // that got any of them
}

// add counts a record's opinions. An opinion counts on the last day of its date, and
// only when all its days lie within one year of each other.
func (n *naming) add(r *reading.Reading, from, to dates.Day) {
	var last []string // what stood before, by the order of the record
	any := false
	for i := range r.Opinions {
		o := &r.Opinions[i]
		if o.State == opinion.Mistake {
			continue
		}
		counts := o.Date.Known && o.Date.Last >= from && o.Date.Last <= to && o.Date.Last-o.Date.First <= 366
		any = any || counts
		switch {
		case o.Kind == opinion.Conf:
			n.confirmed += one(counts)
		case o.Kind == opinion.Not:
			n.denied += one(counts)
		case o.Kind != opinion.Det: // by the rules alone: nobody looked
		case last == nil:
			n.first += one(counts)
		case opinion.Same(last, o.Name.Keys):
			n.same += one(counts)
		default:
			n.anew += one(counts)
		}
		if o.Kind == opinion.Det && len(o.Name.Keys) > 0 {
			last = slices.Clone(o.Name.Keys)
		}
	}
	n.specimens += one(any)
}

func one(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

func (c *count) named() Section {
	n := c.names
	s := Section{Key: "named", Title: "Names given", Notes: []string{"Opinions by the date on the slip, not by the day on which they were entered. Renamings in names/ are no opinions and do not count."}}
	s.Rows = []Row{
		{Key: "first", Label: "named for the first time", N: n.first},
		{Key: "anew", Label: "named anew, by another name", N: n.anew},
		{Key: "same", Label: "named again, by the same name", N: n.same},
		{Key: "confirmed", Label: "confirmed", N: n.confirmed},
		{Key: "denied", Label: "said not to be what they were named", N: n.denied},
		{Key: "specimens", Label: "specimens with any of these", N: n.specimens},
		{Key: "types.said", Label: "statements of type status", N: c.types[0]},
		{Key: "types", Label: "specimens that are types, or may be, at the end", N: c.types[1]},
	}
	return s
}
