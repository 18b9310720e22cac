package treatment

import (
	"math"
	"slices"
	"sort"
	"time"
)

// Reading is the temperature of the core at a moment.
type Reading struct {
	At time.Time
	C  float64 // °C
}

// Run is a time continuously at or below the set point; Cold is its length less
// the warm excursions that the profile lets pass.
type Run struct {
	From, To time.Time
	Cold     time.Duration
	// What bounds it, other than a crossing of the set point: the first or last
	// reading of the log, or a gap.
	AtStart, AtEnd, AfterGap, BeforeGap bool
}

// Gap is a time between two readings that lie too far apart.
type Gap struct {
	From, To time.Time
	Cold     bool // it was at or below the set point on both sides
}

// Excursion is a time above the set point after it was reached.
type Excursion struct {
	From, To time.Time
	Peak     float64 // °C, the warmest reading in it
	Passed   bool    // short and small enough for the profile
	Cut      bool    // a gap bounds it: it may have been longer
	Pause    bool    // it is the warm pause between two cycles; with stays such pauses are not listed
}

// tidy is the readings in order of time, without those that are no number; of
// several at one moment the warmest stays.
func tidy(readings []Reading) []Reading {
	sorted := func(a, b Reading) int { return a.At.Compare(b.At) }
	out := make([]Reading, 0, len(readings))
	for _, r := range readings {
		if !math.IsNaN(r.C) && !math.IsInf(r.C, 0) {
			out = append(out, r)
		}
	}
	if !slices.IsSortedFunc(out, sorted) {
		slices.SortStableFunc(out, sorted)
	}
	kept := out[:0]
	for _, r := range out {
		if n := len(kept); n > 0 && kept[n-1].At.Equal(r.At) {
			kept[n-1].C = max(kept[n-1].C, r.C)
			continue
		}
		kept = append(kept, r)
	}
	return kept
}

// walk follows the straight lines between readings and notes runs, gaps and
// excursions.
type walk struct {
	p          Profile
	maxGap     time.Duration
	bridge     bool // take a gap with cold on both sides as cold
	runs       []Run
	gaps       []Gap
	excursions []Excursion
	seen       int // readings walked through

	cold bool // at the last reading
	run  *Run // the run going on, through excursions that may pass
	warm *Excursion
}

// walkThrough walks through the readings of each stay, of all when none is
// known. What lies outside the stays may be of a probe without the load.
func walkThrough(readings []Reading, stays []Stay, p Profile, bridge bool) *walk {
	w := &walk{p: p, maxGap: time.Duration(p.MaxGap * float64(time.Minute)), bridge: bridge}
	if len(stays) == 0 {
		w.through(readings, true, true)
	}
	for _, s := range stays {
		part, first, last := w.within(readings, s)
		w.through(part, first, last)
	}
	slices.SortFunc(w.gaps, func(a, b Gap) int { return a.From.Compare(b.From) })
	return w
}

// through walks through readings; first and last say whether they are the first
// and the last of the log.
func (w *walk) through(readings []Reading, first, last bool) {
	if len(readings) == 0 {
		return
	}
	w.seen += len(readings)
	w.begin(readings[0])
	w.warm = nil // before the set point is reached it is no excursion
	if w.run != nil {
		w.run.AtStart = first
	}
	for i := 1; i < len(readings); i++ {
		w.line(readings[i-1], readings[i])
	}
	if w.warm == nil && w.run != nil {
		w.run.AtEnd = last
	}
	w.end(readings[len(readings)-1].At)
}

// within is the readings of a stay, with one more where it begins and where it
// ends, on the lines between readings.
func (w *walk) within(readings []Reading, s Stay) (part []Reading, first, last bool) {
	from := sort.Search(len(readings), func(i int) bool { return !readings[i].At.Before(s.In) })
	to := len(readings)
	if !s.Out.IsZero() {
		to = sort.Search(len(readings), func(i int) bool { return readings[i].At.After(s.Out) })
	}
	if from >= to {
		return nil, false, false
	}
	if from > 0 && readings[from].At.After(s.In) {
		part = w.edge(part, readings[from-1], readings[from], s.In, s.In, readings[from].At)
	}
	part = append(part, readings[from:to]...)
	if to < len(readings) && readings[to-1].At.Before(s.Out) {
		part = w.edge(part, readings[to-1], readings[to], s.Out, readings[to-1].At, s.Out)
	}
	return part, from == 0, to == len(readings)
}

// edge adds the reading at a moment between a and b, or notes the gap, as far as
// it lies in the stay.
func (w *walk) edge(part []Reading, a, b Reading, at, from, to time.Time) []Reading {
	if w.joined(a, b) {
		return append(part, between(a, b, at))
	}
	w.gaps = append(w.gaps, Gap{From: from, To: to, Cold: a.C <= w.p.SetPoint && b.C <= w.p.SetPoint})
	return part
}

// joined reports whether the line from a to b is known, or taken as known.
func (w *walk) joined(a, b Reading) bool {
	return b.At.Sub(a.At) <= w.maxGap || w.bridge && a.C <= w.p.SetPoint && b.C <= w.p.SetPoint
}

// between is the reading at a moment on the line from a to b.
func between(a, b Reading, at time.Time) Reading {
	return Reading{at, a.C + (b.C-a.C)*float64(at.Sub(a.At))/float64(b.At.Sub(a.At))}
}

// begin takes up the walk at a reading that nothing is known before.
func (w *walk) begin(r Reading) {
	w.cold, w.run, w.warm = r.C <= w.p.SetPoint, nil, nil
	if w.cold {
		w.run = &Run{From: r.At}
	} else if len(w.runs) > 0 {
		w.warm = &Excursion{From: r.At, Peak: r.C, Cut: true}
	}
}

// end closes what is going on at a moment. A run ends where it was last cold.
func (w *walk) end(at time.Time) {
	if w.run == nil {
		return
	}
	w.run.To = at
	if w.warm != nil {
		w.run.To = w.warm.From
	}
	w.runs = append(w.runs, *w.run)
	w.run = nil
}

// line follows the straight line from a to b.
func (w *walk) line(a, b Reading) {
	d := b.At.Sub(a.At)
	cold := b.C <= w.p.SetPoint
	if !w.joined(a, b) {
		w.gap(a, b, cold)
		return
	}
	switch {
	case w.cold && cold:
		w.run.Cold += d
	case w.cold: // rises through the set point
		part := crossing(a, b, w.p.SetPoint)
		w.run.Cold += part
		w.warm = &Excursion{From: a.At.Add(part), Peak: b.C}
	case cold: // falls through it
		part := crossing(a, b, w.p.SetPoint)
		w.fall(a.At.Add(part))
		w.run.Cold += d - part
	case w.warm != nil:
		w.warm.Peak = max(w.warm.Peak, b.C)
	}
	w.cold = cold
}

// crossing is how long after a the straight line to b is at a temperature.
func crossing(a, b Reading, c float64) time.Duration {
	return time.Duration(math.Round((c - a.C) / (b.C - a.C) * float64(b.At.Sub(a.At))))
}

// fall ends an excursion at the moment at which the set point is reached again,
// or begins the first run.
func (w *walk) fall(at time.Time) {
	if w.warm != nil {
		x := *w.warm
		x.To = at
		x.Passed = !x.Cut && x.To.Sub(x.From) <= time.Duration(w.p.Excursion*float64(time.Minute)) && x.Peak <= w.p.SetPoint+w.p.Rise
		w.excursions = append(w.excursions, x)
		if x.Passed && w.run != nil {
			w.warm = nil
			return
		}
		w.end(at)
		w.warm = nil
	}
	w.run = &Run{From: at}
}

func (w *walk) gap(a, b Reading, cold bool) {
	w.gaps = append(w.gaps, Gap{From: a.At, To: b.At, Cold: w.cold && cold})
	if w.warm != nil && a.At.After(w.warm.From) {
		x := *w.warm
		x.To, x.Cut = a.At, true
		w.excursions = append(w.excursions, x)
	}
	if w.run != nil && w.warm == nil {
		w.run.BeforeGap = true
	}
	w.end(a.At)
	w.begin(b)
	if w.run != nil {
		w.run.AfterGap = true
	}
}

// longestFrom is the longest time continuously at or above a temperature from
// one moment to another.
func longestFrom(readings []Reading, from, to time.Time, c float64, maxGap time.Duration) time.Duration {
	var longest, now time.Duration
	for i := 1; i < len(readings); i++ {
		a, b := readings[i-1], readings[i]
		if b.At.Before(from) || a.At.After(to) {
			continue
		}
		d := b.At.Sub(a.At)
		switch {
		case d > maxGap:
			now = 0
		case a.C >= c && b.C >= c:
			now += d
		case a.C >= c:
			longest = max(longest, now+crossing(a, b, c))
			now = 0
		case b.C >= c:
			now = d - crossing(a, b, c)
		}
		longest = max(longest, now)
	}
	return longest
}
