package drying

import (
	"fmt"
	"math"
	"slices"

	"blotter/ledger/dates"
)

// Load is what went into a press, or a bag, on a day.
type Load struct {
	Kind    Kind
	Method  Method
	Weather Weather // "" is Ordinary
	Start   dates.Day
	// Plants kept in alcohol: whether the bag has been opened, on which day, and
	// by which method they are dried since.
	Opened   bool
	OpenedOn dates.Day
	Then     Method
}

// What is a kind of step.
type What string

// The steps, in the order in which they stand on one day.
const (
	TurnBag      What = "turn the bag"
	OpenBag      What = "open the bag and dry"
	ChangePapers What = "change the papers"
	TestByHand   What = "test by hand"
	EarliestDry  What = "earliest ready"
	UsuallyDry   What = "usually ready"
)

var order = []What{TurnBag, OpenBag, ChangePapers, TestByHand, EarliestDry, UsuallyDry}

// Step is one thing of a calendar.
type Step struct {
	What     What
	Day      dates.Day // the day, or the first of a span
	Until    dates.Day // the last of it: Day but for UsuallyDry
	Count    int       // Day counted from the start of the load, or of drying
	CountTo  int
	keepDays int
}

// Words is the step for a list, for example "change the papers (day 3)".
func (s Step) Words() string {
	switch s.What {
	case UsuallyDry:
		return fmt.Sprintf("usually ready, days %d to %d; test by hand", s.Count, s.CountTo)
	case EarliestDry:
		return fmt.Sprintf("may be ready from now on (day %d); test by hand", s.Count)
	case TestByHand:
		return fmt.Sprintf("first test by hand (day %d)", s.Count)
	case OpenBag:
		return fmt.Sprintf("open the bag and dry at the latest (kept %d days)", s.keepDays)
	}
	return fmt.Sprintf("%s (day %d)", s.What, s.Count)
}

// Calendar is the steps of a load, sorted by day.
type Calendar struct {
	Load     Load
	Steps    []Step
	Prepare  []string
	ByHand   []string
	Cautions []string

	papers  Papers
	drying  dates.Day // day 0 of drying
	running bool      // drying has begun: not a closed bag
}

// Calendar works out the steps of a load. Paper changes are listed up to the
// last day on which such a load is usually dry; Papers gives those of any span.
//
// For a closed bag of alcohol the steps are those of keeping; once opened they
// are those of drying by Then, counted from that day. A kind, method or weather
// that the settings do not have is an error that names it.
func (s Settings) Calendar(l Load) (Calendar, error) {
	if l.Weather == "" {
		l.Weather = Ordinary
	}
	if !slices.Contains(Weathers(), l.Weather) {
		return Calendar{}, fmt.Errorf("drying calendar: weather %q: one of %q", l.Weather, Weathers())
	}
	c := Calendar{Load: l, drying: l.Start}
	method := l.Method
	if l.Method == Alcohol {
		bag, known := s.row(l.Kind, Alcohol)
		if !known && !slices.Contains(Kinds(), l.Kind) {
			return Calendar{}, fmt.Errorf("drying calendar: plant kind %q: one of %q", l.Kind, Kinds())
		}
		c.Prepare, c.Cautions = bag.Prepare, slices.Concat(bag.Cautions, s.Keeping.Cautions)
		if !l.Opened {
			c.keep(s.Keeping)
			return c, nil
		}
		if l.OpenedOn < l.Start {
			return Calendar{}, fmt.Errorf("drying calendar: bag opened on %s, before %s when it was closed", l.OpenedOn, l.Start)
		}
		if l.Then == Alcohol || l.Then == "" {
			return Calendar{}, fmt.Errorf("drying calendar: dried after the bag by %q: one of %q", l.Then, []Method{Unheated, WarmAir})
		}
		method, c.drying = l.Then, l.OpenedOn
	}
	row, ok := s.row(l.Kind, method)
	if !ok {
		return Calendar{}, fmt.Errorf("drying calendar: no figures for plant kind %q by method %q in the settings", l.Kind, method)
	}
	if why := row.problem(); why != "" {
		return Calendar{}, fmt.Errorf("drying calendar: settings for %s, %s: %s", row.Kind, row.Method, why)
	}
	c.dry(row, s.factor(method, l.Weather))
	return c, nil
}

// keep adds the steps of a closed bag.
func (c *Calendar) keep(k Keeping) {
	for _, n := range k.Turn {
		c.add(Step{What: TurnBag, Count: n})
	}
	if k.Keeps > 0 {
		c.add(Step{What: OpenBag, Count: k.Keeps, keepDays: k.Keeps})
	}
	c.sort()
}

// dry adds the steps of drying.
func (c *Calendar) dry(r Row, factor float64) {
	if !(factor > 0 && factor <= 10) {
		factor = 1 // Problems tells of it
	}
	days := func(n int) int { return int(math.Ceil(float64(n)*factor - 1e-9)) }
	c.papers, c.running = r.Papers, true
	// Humid weather keeps daily changes up for longer; dry weather, which nobody
	// can be sure of for days ahead, does not end them sooner.
	c.papers.Daily = max(r.Papers.Daily, days(r.Papers.Daily))
	if c.Load.Method != Alcohol { // what was in alcohol is prepared already
		c.Prepare = r.Prepare
	}
	c.ByHand, c.Cautions = r.ByHand, slices.Concat(r.Cautions, c.Cautions)
	last := days(r.To)
	for _, d := range c.Papers(c.drying, c.drying+dates.Day(last)) {
		c.add(Step{What: ChangePapers, Count: int(d - c.drying)})
	}
	c.add(Step{What: TestByHand, Count: days(r.Test)})
	c.add(Step{What: EarliestDry, Count: days(r.Earliest)})
	c.add(Step{What: UsuallyDry, Count: days(r.From), CountTo: last})
	c.sort()
}

func (c *Calendar) add(s Step) {
	s.CountTo = max(s.CountTo, s.Count)
	s.Day, s.Until = c.drying+dates.Day(s.Count), c.drying+dates.Day(s.CountTo)
	c.Steps = append(c.Steps, s)
}

func (c *Calendar) sort() {
	slices.SortStableFunc(c.Steps, func(a, b Step) int {
		if a.Day != b.Day {
			return int(a.Day - b.Day)
		}
		return slices.Index(order, a.What) - slices.Index(order, b.What)
	})
}

// Papers is the days from first to last on which papers are changed: also of
// those after the usual days, for a load that is not dry yet. At most ten years
// of them; none for a closed bag.
func (c Calendar) Papers(first, last dates.Day) []dates.Day {
	if !c.running {
		return nil
	}
	first, last = max(first, c.drying+1), min(last, c.drying+longest)
	var out []dates.Day
	for d := first; d <= last; d++ {
		n := int(d - c.drying)
		if n <= c.papers.Daily || c.papers.Then > 0 && (n-c.papers.Daily)%c.papers.Then == 0 {
			out = append(out, d)
		}
	}
	return out
}

// Find is the step of a kind, the first if there are several.
func (c Calendar) Find(w What) (Step, bool) {
	i := slices.IndexFunc(c.Steps, func(s Step) bool { return s.What == w })
	if i < 0 {
		return Step{}, false
	}
	return c.Steps[i], true
}
