package annual

import (
	"strings"

	"blotter/ledger/dates"
	"blotter/ledger/work"
)

// movement is the sums of one kind of lending.
type movement struct {
	opened, sheetsOut, sheetsIn int // works that began to go out in the year; sheets that went, sheets that came
	outBefore, outAfter, late   int // sheets out on the eve of the year and at its end; works overdue at its end
}

// moved follows the works of one kind through the year.
func (c *count) moved(kind string) (m movement) {
	for _, f := range c.Works.Files {
		if f.Kind.Name != kind {
			continue
		}
		eve, end := c.Works.Loan(f, c.from-1), c.Works.Loan(f, c.to)
		if eve == nil || end == nil {
			continue
		}
		if went := end.Gone() - eve.Gone(); went > 0 {
			m.sheetsOut += went
			m.opened += one(c.within(end.Sent) || eve.Gone() == 0)
		}
		m.sheetsIn += end.Returned() - eve.Returned()
		m.outBefore += eve.Outstanding()
		m.outAfter += end.Outstanding()
		m.late += one(end.Late() > 0)
	}
	return m
}

// lending is what went out and came in, by kind.
func (c *count) lending() Section {
	s := Section{Key: "lending", Title: "Loans, gifts, exchange, sampling", Notes: []string{"Sheets by number and bundles as counted. A loan counts in the year of its first sending."}}
	row := func(key, label string, n int) {
		if n != 0 {
			s.Rows = append(s.Rows, Row{Key: key, Label: label, N: n})
		}
	}
	m := c.moved("loan")
	row("loans", "loans sent", m.opened)
	row("loans.sheets", "sheets lent", m.sheetsOut)
	row("loans.returned", "sheets that came back", m.sheetsIn)
	row("loans.out.opening", "sheets on loan, opening", m.outBefore)
	row("loans.out", "sheets on loan, closing", m.outAfter)
	row("loans.late", "loans overdue at the end", m.late)
	m = c.moved("borrowing")
	row("borrowings", "loans received", m.opened)
	row("borrowings.sheets", "sheets borrowed", m.sheetsOut)
	row("borrowings.returned", "borrowed sheets sent back", m.sheetsIn)
	row("borrowings.here", "borrowed sheets here, closing", m.outAfter)
	m = c.moved("gift")
	row("gifts", "gifts sent", m.opened)
	row("gifts.sheets", "sheets and duplicates given", m.sheetsOut)
	m = c.moved("exchange")
	row("exchanges", "exchanges sent", m.opened)
	row("exchanges.sheets", "sheets and duplicates sent in exchange", m.sheetsOut)
	row("exchanges.received", "received in exchange", c.received("exchange"))
	m = c.moved("sampling")
	row("samplings", "samplings done", m.opened)
	row("samplings.sheets", "sheets sampled", m.sheetsOut)
	return s
}

// received is how many things the received lines of a kind name in the year.
func (c *count) received(kind string) (n int) {
	for _, e := range c.Works.Events() {
		if e.File.Kind.Name == kind && e.Verb == "received" && c.within(e.Day) {
			n += itemCount(e)
		}
	}
	return n
}

// itemCount is how many things a line names.
func itemCount(e *work.Event) (n int) {
	for _, i := range e.Items {
		n += i.Named()
	}
	return n
}

// lot is the bundles of one lot that have no record: what it was counted at,
// less the specimens with a record in it.
type lot struct {
	n        map[string]int // by what is counted
	about    bool           // estimated
	recorded int
}

// lotOf is a lot on a day: what was counted last replaces what was said
// before.
func (c *count) lotOf(f *work.File, on dates.Day) (l lot) {
	l.n = map[string]int{}
	counted := false
	for _, e := range f.Events {
		if e.Day > on {
			continue
		}
		for _, i := range e.Items {
			if !i.Bundle() {
				continue
			}
			if e.Verb == "counted" && !counted {
				counted, l.n, l.about = true, map[string]int{}, false
			}
			switch {
			case e.Verb == "discarded":
				l.n[i.Of] -= i.Count
			case e.Verb == "counted" || !counted && (e.Verb == "received" || e.Verb == "here"):
				l.n[i.Of] += i.Count
				l.about = l.about || i.About
			}
		}
	}
	for _, t := range c.Works.Holds(f, on) {
		l.recorded += one(t.Sheet != "" && c.book.Find(t.Sheet) != nil)
	}
	return l
}

// countedLots is the lots that are counted or estimated and have no records yet,
// kept apart from what has.
func (c *count) countedLots() Section {
	s := Section{Key: "lots", Title: "Counted or estimated, without records", Notes: []string{
		"What lots were counted or estimated at, less the specimens of the lot that have a record. Not among the specimens above."}}
	var sum [2]map[string][2]int // counted, estimated: by unit, opening and closing
	sum[0], sum[1] = map[string][2]int{}, map[string][2]int{}
	for _, f := range c.Works.Files {
		standing := f.Work.Standing.Text
		if f.Kind.Name != "accession" && f.Kind.Name != "shelf" || standing == "teaching" || standing == "student" {
			continue
		}
		for at, on := range []dates.Day{c.from - 1, c.to} {
			l := c.lotOf(f, on)
			for unit, n := range l.n {
				if unit == "sheets" || unit == "specimens" || unit == "folds" {
					n -= l.recorded
				}
				kind := one(l.about)
				v := sum[kind][unit]
				v[at] += max(n, 0)
				sum[kind][unit] = v
			}
		}
	}
	for kind, word := range []string{"counted", "estimated"} {
		for _, unit := range sortedKeys(sum[kind]) {
			v := sum[kind][unit]
			s.Rows = append(s.Rows, Row{Key: word + "." + unit + ".opening", Label: unit + " " + word + ", opening", N: v[0]},
				Row{Key: word + "." + unit, Label: unit + " " + word + ", closing", N: v[1]})
		}
	}
	return s
}

// activity is what was done in the year, counted by specimen.
type activity map[string]int

func (a activity) add(s stay, from, to dates.Day) {
	seen := map[string]bool{}
	for _, d := range s.end.Done {
		if d.Day >= from && d.Day <= to && !seen[d.What] {
			seen[d.What] = true
			a[d.What]++
		}
	}
}

// done is what was done in the year, and the hours written down for it.
func (c *count) done() Section {
	s := Section{Key: "done", Title: "What was done", Notes: []string{"Specimens, each once a year and kind of work; bundles and gatherings without a number as their lines count them."}}
	for _, what := range sortedKeys(c.activity) {
		s.Rows = append(s.Rows, Row{Key: what, Label: what, N: c.activity[what]})
	}
	bundles, hoursOf := map[string]int{}, map[string]float64{}
	for _, e := range c.Works.Events() {
		if !c.within(e.Day) {
			continue
		}
		for _, i := range e.Items {
			if i.Bundle() && e.File.Kind.Name != "traps" && e.File.Kind.Name != "incident" {
				bundles[strings.ReplaceAll(e.Verb, "-", " ")+", "+i.Of+" without a number"] += i.Count
			}
		}
		if h, ok := leading(e.Line.Hours.Text); ok {
			hoursOf[e.File.Kind.Name] += h
		}
	}
	for _, what := range sortedKeys(bundles) {
		s.Rows = append(s.Rows, Row{Key: "bundle." + what, Label: what, N: bundles[what]})
	}
	for _, kind := range sortedKeys(hoursOf) {
		s.Rows = append(s.Rows, Row{Key: "hours." + kind, Label: "hours written down: " + kind, Words: hours(hoursOf[kind])})
	}
	return s
}
