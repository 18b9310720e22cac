package treatment

import (
	"fmt"
	"math"
	"time"
)

// Profile is what a treatment by cold must keep.
type Profile struct {
	Name     string
	SetPoint float64 // °C; the core is to be at or below it
	Hours    float64 // continuously, each cycle
	Cycles   int     // 0 is 1
	Between  float64 // hours warm between two cycles
	Warm     float64 // °C, from which on it counts as warm
	Lead     float64 // hours planned for the core to get cold; for Plan alone
	Closed   float64 // hours in the closed bag after the last cycle
	// MaxGap is for how many minutes two readings may lie apart: between them
	// the temperature is taken as a straight line. What lies further apart is a
	// gap, and nobody knows what was in it.
	MaxGap float64
	// A warm excursion of at most Excursion minutes that rises at most Rise °C
	// above the set point, as when a door is opened, does not end a run; its
	// minutes do not count as cold. 0 lets none pass.
	Excursion float64
	Rise      float64
}

// cycles is how many cycles the profile asks for.
func (p Profile) cycles() int { return max(p.Cycles, 1) }

// Problems says in words what of a profile cannot be; none when all is well.
func (p Profile) Problems() []string {
	var out []string
	say := func(bad bool, format string, args ...any) {
		if bad {
			out = append(out, fmt.Sprintf("profile %q: ", p.Name)+fmt.Sprintf(format, args...))
		}
	}
	hours := func(v float64) bool { return v >= 0 && v <= 24*365 }
	say(!(p.SetPoint >= -200 && p.SetPoint < 10), "set point %v °C: a freezer's is below 10 °C, for example -30", p.SetPoint)
	say(!(p.Hours > 0 && hours(p.Hours)), "%v hours at the set point: write more than 0, at most a year", p.Hours)
	say(p.Cycles < 0 || p.Cycles > 10, "%d cycles: between 1 and 10", p.Cycles)
	say(!hours(p.Between) || !hours(p.Lead) || !hours(p.Closed), "hours between %v, before %v, closed %v: between 0 and a year", p.Between, p.Lead, p.Closed)
	say(p.cycles() > 1 && !(p.Between > 0), "%d cycles without hours warm between them are one", p.Cycles)
	say(p.cycles() > 1 && !(p.Warm > p.SetPoint && p.Warm <= 40), "warm from %v °C: above the set point, at most 40", p.Warm)
	say(!(p.MaxGap > 0 && p.MaxGap <= 24*60), "readings at most %v minutes apart: write more than 0, at most a day", p.MaxGap)
	say(!(p.Excursion >= 0 && p.Rise >= 0) || math.IsInf(p.Excursion+p.Rise, 0), "excursions of %v minutes and %v °C: 0 or more", p.Excursion, p.Rise)
	return out
}

func hours(h float64) time.Duration { return time.Duration(h * float64(time.Hour)) }

// Stay is once in the freezer, by the book. Out is zero while it is in.
type Stay struct {
	In, Out time.Time
}

// Stage is a time of a plan.
type Stage string

// The stages, in their order.
const (
	OutFrom  Stage = "out"           // the cycle may end from then on
	InAgain  Stage = "in again"      // the next cycle may begin
	OpenFrom Stage = "may be opened" // the closed bag may be opened
)

// Step is a stage at its earliest time, in a cycle counted from 1.
type Step struct {
	Stage Stage
	At    time.Time
	Cycle int
}

// Words is the step for a list, without its time.
func (s Step) Words(p Profile) string {
	switch {
	case s.Stage == OutFrom && s.Cycle < p.cycles():
		return fmt.Sprintf("out of the freezer, cycle %d of %d, then %s warm in its closed bag", s.Cycle, p.cycles(), span(hours(p.Between)))
	case s.Stage == OutFrom && p.Closed > 0:
		return fmt.Sprintf("out of the freezer, then %s in its closed bag", span(hours(p.Closed)))
	case s.Stage == OutFrom:
		return "out of the freezer"
	case s.Stage == InAgain:
		return fmt.Sprintf("into the freezer again, cycle %d of %d", s.Cycle, p.cycles())
	}
	return "the bag may be opened when it is at room temperature"
}

// Plan is what is still to come of a treatment after the stays so far, each
// step at its earliest: from the moment a load goes in it is Lead and Hours to
// the end of a cycle, then Between to the next, then Closed to the opening. A
// stay that ended is taken as it was, long enough or not: Judge says that.
// Hours pass as on a stopwatch; a change to or from summer time does not
// shorten them.
func (p Profile) Plan(stays ...Stay) []Step {
	if len(stays) == 0 {
		return nil
	}
	var out []Step
	cycle, at := len(stays), stays[len(stays)-1]
	for {
		if at.Out.IsZero() {
			at.Out = at.In.Add(hours(p.Lead) + hours(p.Hours))
			out = append(out, Step{OutFrom, at.Out, cycle})
		}
		if cycle >= p.cycles() {
			return append(out, Step{OpenFrom, at.Out.Add(hours(p.Closed)), cycle})
		}
		cycle++
		at = Stay{In: at.Out.Add(hours(p.Between))}
		out = append(out, Step{InAgain, at.In, cycle})
	}
}

// span is a duration in words: 72 h, 3 h 10 min, 45 min.
func span(d time.Duration) string {
	minutes := int64(d.Round(time.Minute) / time.Minute)
	switch h, m := minutes/60, minutes%60; {
	case h == 0 && m == 0 && d > 0:
		return fmt.Sprintf("%d s", int64(d.Round(time.Second)/time.Second))
	case h == 0:
		return fmt.Sprintf("%d min", m)
	case m == 0:
		return fmt.Sprintf("%d h", h)
	default:
		return fmt.Sprintf("%d h %d min", h, m)
	}
}

// degrees is a temperature in words: -30 °C, -27.4 °C.
func degrees(c float64) string {
	v := math.Round(c*10) / 10
	if v == 0 {
		v = 0 // not -0
	}
	return fmt.Sprintf("%g °C", v)
}

func clock(t time.Time) string { return t.Format("2006-01-02 15:04") }
