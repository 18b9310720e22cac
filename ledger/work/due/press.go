package due

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/drying"
	"blotter/ledger/work"
)

// Press is one load of the press as it stands on a day.
type Press struct {
	Load      drying.Load
	Begun     bool // a line says when it was
	Calendar  drying.Calendar
	Weighings []drying.Weighing
	Curve     drying.Curve
	Holds     []work.Thing
	Papers    dates.Day // the last change of papers, else the start
	Tested    *work.Event
	Problem   string // why there is no calendar; "" when there is one
}

// ReadPress is the load that a file of the kinds press and drying is about, at
// the end of a day.
func ReadPress(w *work.Works, f *work.File, on dates.Day) Press {
	p := PressOf(w.Habits.Drying, f, on)
	p.Holds = w.Holds(f, on)
	return p
}

// PressOf is the same from the file alone, without what it holds.
func PressOf(h ledger.Drying, f *work.File, on dates.Day) Press {
	events := eventsBy(f, on)
	var p Press
	p.Load = drying.Load{Kind: plantsOf(f.Work.Plants.Text), Method: methodOf(f.Work.Method.Text), Weather: weatherOf(f.Work.Weather.Text)}
	begun := slices.IndexFunc(events, func(e *work.Event) bool { return e.Verb == f.Kind.Opens })
	if begun < 0 {
		p.Problem = "no line says when it was " + f.Kind.Opens
		return p
	}
	p.Load.Start, p.Begun = events[begun].Day, true
	minutes := events[begun].Clock
	p.Papers = p.Load.Start
	for _, e := range events {
		switch {
		case e.Verb == "papers" || e.Verb == "turned":
			p.Papers = max(p.Papers, e.Day)
		case e.Verb == "tested":
			p.Tested = e
		case e.Verb == "drying" && p.Load.Method == drying.Alcohol && e.Line.Method.Set() && methodOf(e.Line.Method.Text) != drying.Alcohol:
			// a line says that the bag was opened and how it is dried since
			p.Load.Opened, p.Load.OpenedOn, p.Load.Then = true, e.Day, methodOf(e.Line.Method.Text)
		}
		if g, ok := ReadMass(e.Line.Weight.Text); ok {
			p.Weighings = append(p.Weighings, drying.Weighing{Day: since(p.Load.Start, minutes, e), Mass: g})
		}
	}
	calendar, err := DryingSettings(h).Calendar(p.Load)
	if err != nil {
		p.Problem = strings.TrimPrefix(err.Error(), "drying calendar: ")
		return p
	}
	p.Calendar = calendar
	if len(p.Weighings) > 0 {
		if p.Curve, err = drying.Fit(p.Weighings, Weighed(h.Weighed)); err != nil {
			p.Problem = strings.TrimPrefix(err.Error(), "drying calendar: ")
		}
	}
	return p
}

// since is the time of an event in days since a load was begun; what has no
// time of day was at noon.
func since(start dates.Day, minutes int, e *work.Event) float64 {
	at := func(m int) float64 {
		if m < 0 {
			m = 12 * 60
		}
		return float64(m) / (24 * 60)
	}
	return float64(e.Day-start) + at(e.Clock) - at(minutes)
}

var massWords = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^([0-9]+(?:[.,][0-9]+)?) *(kg|g|mg)?$`) })

// ReadMass reads a mass in words, 412 g or 1.2 kg, in grams; a bare figure is
// grams.
func ReadMass(words string) (grams float64, ok bool) {
	m := massWords().FindStringSubmatch(strings.TrimSpace(words))
	if m == nil {
		return 0, false
	}
	v, err := strconv.ParseFloat(strings.Replace(m[1], ",", ".", 1), 64)
	return v * map[string]float64{"": 1, "g": 1, "kg": 1000, "mg": 0.001}[m[2]], err == nil && v > 0
}

// press tells of paper changes, of tests by hand and of the day on which a
// load is usually dry.
func (l *list) press() {
	p := ReadPress(l.w, l.f, l.on.Day)
	much := amount(p.Holds, "plant")
	if p.Problem != "" && len(p.Calendar.Steps) == 0 {
		return
	}
	last := l.on.Day + dates.Day(l.on.Within)
	for _, d := range p.Calendar.Papers(p.Papers+1, max(last, p.Papers+60)) {
		n := strconv.Itoa(int(d - dryingFrom(p.Load)))
		l.day(d, Papers, "day-"+n, with("change the papers (day "+n+")", much), l.log("papers"), p.Holds)
		if d <= l.on.Day { // one missed change is told once; the days after it go by the calendar
			for _, later := range p.Calendar.Papers(l.on.Day+1, last) {
				n := strconv.Itoa(int(later - dryingFrom(p.Load)))
				l.day(later, Papers, "day-"+n, with("change the papers (day "+n+")", much), l.log("papers"), p.Holds)
			}
			break
		}
	}
	for _, s := range p.Calendar.Steps {
		switch {
		case s.What == drying.TurnBag && s.Day > p.Papers:
			l.day(s.Day, Papers, "turn-"+strconv.Itoa(s.Count), with(s.Words(), much), l.log("turned"), p.Holds)
		case s.What == drying.OpenBag:
			l.day(s.Day, Papers, "open", with(s.Words(), much), l.log("drying")+" --method unheated", p.Holds)
		}
	}
	l.tests(p, much)
}

func dryingFrom(load drying.Load) dates.Day {
	if load.Opened {
		return load.OpenedOn
	}
	return load.Start
}

// tests tells when a load is to be tested by hand: the step that stands, and
// those still to come.
func (l *list) tests(p Press, much string) {
	if at, from, to, ok := p.Curve.ReadyDays(p.Load.Start); ok {
		if p.Tested == nil || p.Tested.Day < at {
			what := fmt.Sprintf("ready by its weights about %s (%s to %s); test by hand", l.date(at), l.date(from), l.date(to))
			l.add(Thing{Day: at, Until: max(at, to), Clock: -1, Kind: Test, Step: "weighed", What: with(what, much), Next: l.log("tested"), Sheets: Spans(p.Holds)})
			return
		}
	}
	var standing *drying.Step
	for i := range p.Calendar.Steps {
		s := &p.Calendar.Steps[i]
		if s.What != drying.TestByHand && s.What != drying.EarliestDry && s.What != drying.UsuallyDry || p.Tested != nil && p.Tested.Day >= s.Day {
			continue
		}
		if s.Day <= l.on.Day {
			standing = s // a later step takes the place of an earlier one
			continue
		}
		l.test(*s, p, much)
	}
	if standing != nil {
		l.test(*standing, p, much)
		return
	}
	usual, ok := p.Calendar.Find(drying.UsuallyDry)
	if p.Tested == nil || !ok || p.Tested.Day < usual.Day {
		return
	}
	if next := p.Calendar.Papers(p.Tested.Day+1, p.Tested.Day+60); len(next) > 0 {
		n := strconv.Itoa(int(next[0] - dryingFrom(p.Load)))
		l.day(next[0], Test, "again-"+n, with("test by hand again (day "+n+")", much), l.log("tested"), p.Holds)
	}
}

func (l *list) test(s drying.Step, p Press, much string) {
	l.add(Thing{Day: s.Day, Until: s.Until, Clock: -1, Kind: Test, Step: strings.ReplaceAll(string(s.What), " ", "-"),
		What: with(s.Words(), much), Next: l.log("tested"), Sheets: Spans(p.Holds)})
}

// log is the command that writes an event of the work being looked at.
func (l *list) log(event string) string { return "blotter log " + string(l.f.Number) + " " + event }

// Stack is how a load is built, and what it takes: boards, blotters, folds. It
// is false when nothing says how many plants there are.
func Stack(p Press) (b drying.Build, counts []drying.Quantity, plants int, ok bool) {
	for _, t := range p.Holds {
		if t.Item.Bundle() && t.Sheet == "" {
			plants += t.Item.Count
		} else {
			plants++
		}
	}
	b = BuildOf(p.Load.Method)
	counts, err := b.Counts(plants)
	return b, counts, plants, err == nil && plants > 0
}

// BuildOf is how a stack is laid for a method.
func BuildOf(m drying.Method) drying.Build {
	return map[drying.Method]drying.Build{drying.Unheated: drying.Plain, drying.WarmAir: drying.Corrugated, drying.Alcohol: drying.Bagged}[m]
}
