package treatment

import (
	"fmt"
	"math"
	"strings"
	"time"
)

// Verdict is what a log says of a treatment.
type Verdict string

// The verdicts.
const (
	Pass      Verdict = "pass"
	Fail      Verdict = "fail"
	TimesOnly Verdict = "times only"      // no log: neither pass nor fail
	NotEnough Verdict = "not enough data" // the log does not show it, and does not show the contrary
)

// Cycle is one cycle that a log shows.
type Cycle struct {
	Run
	Pause   time.Duration // warm before it; 0 for the first
	ByBook  bool          // the pause is that of the stays, the log does not show it
	Ordinal int           // counted from 1
}

// Result is what Judge found.
type Result struct {
	Verdict    Verdict
	Reason     string // in words, one or more sentences' parts joined by "; "
	Readings   int
	From, To   time.Time // the log
	Longest    Run       // the run with the most cold time; zero when there is none
	Reached    bool      // the set point was reached
	ReachedAt  time.Time
	ToReach    time.Duration // from going in by the book; from the first reading when that is not known
	Coldest    Reading
	Warmest    Reading // of the whole log, on the way in and out as well
	Runs       []Run
	Gaps       []Gap
	Excursions []Excursion
	Cycles     []Cycle
}

// Judge holds a log to a profile. Readings may come in any order, and from
// several files. stays are the times in the freezer by the book, in order, none
// if they are not known: then only what lies within them counts, since a probe
// that lives in the freezer is cold without the load too; they say whether a log
// began late or ended early, show a warm pause that the log does not, and are
// all there is without a log. Of a time known by its day alone give the last
// moment for In and the first for Out.
//
// Between readings the temperature is a straight line, so that it is at the set
// point where that line crosses it; between readings further apart than MaxGap
// nothing is known. A cycle is Hours at or below the set point in one run.
//
// With one cycle a colder log never fails where a warmer one passes. With more
// it may, since the pause between them must be warm.
func Judge(log []Reading, stays []Stay, p Profile) Result {
	readings := tidy(log)
	r := Result{Readings: len(readings)}
	if why := p.Problems(); len(why) > 0 {
		r.Verdict, r.Reason = NotEnough, strings.Join(why, "; ")
		return r
	}
	if len(readings) < 2 {
		r.Verdict, r.Reason = p.withoutLog(stays, len(log))
		return r
	}
	r.From, r.To = readings[0].At, readings[len(readings)-1].At
	r.Coldest, r.Warmest = readings[0], readings[0]
	for _, x := range readings {
		if x.C < r.Coldest.C {
			r.Coldest = x
		}
		if x.C > r.Warmest.C {
			r.Warmest = x
		}
	}
	w := walkThrough(readings, stays, p, false)
	r.Runs, r.Gaps, r.Excursions = w.runs, w.gaps, w.excursions
	if w.seen == 0 {
		r.Verdict, r.Reason = NotEnough, fmt.Sprintf("the log, %s to %s, has no reading between in and out by the book", clock(r.From), clock(r.To))
		return r
	}
	r.reach(stays)
	for _, run := range r.Runs {
		if run.Cold > r.Longest.Cold || r.Longest.From.IsZero() {
			r.Longest = run
		}
	}
	var short string
	r.Cycles, short = p.find(r.Runs, readings, stays)
	r.markPauses()
	r.Verdict, r.Reason = r.judge(p, readings, stays, short)
	return r
}

// withoutLog is the verdict when there is no log to speak of.
func (p Profile) withoutLog(stays []Stay, given int) (Verdict, string) {
	if given > 0 {
		return NotEnough, fmt.Sprintf("%d readings of temperature: at least two are needed", given)
	}
	var parts []string
	for _, s := range stays {
		switch {
		case s.Out.IsZero():
			parts = append(parts, fmt.Sprintf("in since %s", clock(s.In)))
		default:
			d := s.Out.Sub(s.In)
			word := "by the clock"
			if d < hours(p.Hours) {
				word = "too short even by the clock"
			}
			parts = append(parts, fmt.Sprintf("in %s, out %s: %s of %s, %s", clock(s.In), clock(s.Out), span(d), span(hours(p.Hours)), word))
		}
	}
	if len(parts) == 0 {
		parts = append(parts, "no times in and out")
	}
	return TimesOnly, "no log of the temperature, so neither pass nor fail; " + strings.Join(parts, "; ")
}

// reach notes when the set point was reached.
func (r *Result) reach(stays []Stay) {
	if len(r.Runs) == 0 {
		return
	}
	r.Reached, r.ReachedAt = true, r.Runs[0].From
	since := r.From
	if len(stays) > 0 && !stays[0].In.After(r.ReachedAt) {
		since = stays[0].In
	}
	r.ToReach = r.ReachedAt.Sub(since)
}

// enough reports whether d is a cycle; crossings are rounded to nanoseconds, so
// that a millisecond does not count.
func (p Profile) enough(d time.Duration) bool { return d+time.Millisecond >= hours(p.Hours) }

// find is the cycles among runs, and why a run that is long enough is none.
func (p Profile) find(runs []Run, readings []Reading, stays []Stay) (cycles []Cycle, short string) {
	maxGap := time.Duration(p.MaxGap * float64(time.Minute))
	for _, run := range runs {
		if !p.enough(run.Cold) {
			continue
		}
		c := Cycle{Run: run, Ordinal: len(cycles) + 1}
		if len(cycles) > 0 {
			before := cycles[len(cycles)-1].Run
			c.Pause = longestFrom(readings, before.To, run.From, p.Warm, maxGap)
			if book := pauseByBook(stays, before, run); c.Pause < hours(p.Between) && book > c.Pause {
				c.Pause, c.ByBook = book, true
			}
			if c.Pause < hours(p.Between) {
				short = fmt.Sprintf("between %s and %s it was %s at %s or warmer, %s are asked for: one cycle, not two",
					clock(before.To), clock(run.From), span(c.Pause), degrees(p.Warm), span(hours(p.Between)))
				continue
			}
		}
		cycles = append(cycles, c)
	}
	return cycles, short
}

// pauseByBook is the time out of the freezer between two runs.
func pauseByBook(stays []Stay, a, b Run) time.Duration {
	var longest time.Duration
	for i := 1; i < len(stays); i++ {
		out, in := stays[i-1].Out, stays[i].In
		if !out.IsZero() && out.After(a.From) && in.Before(b.To) {
			longest = max(longest, in.Sub(out))
		}
	}
	return longest
}

// markPauses tells the warm pauses from the excursions.
func (r *Result) markPauses() {
	for i := 1; i < len(r.Cycles); i++ {
		for j := range r.Excursions {
			x := &r.Excursions[j]
			if !x.From.Before(r.Cycles[i-1].To) && !x.To.After(r.Cycles[i].From) && x.To.Sub(x.From) >= r.Cycles[i].Pause {
				x.Pause = true
			}
		}
	}
}

func (r *Result) judge(p Profile, readings []Reading, stays []Stay, short string) (Verdict, string) {
	need := p.cycles()
	if len(r.Cycles) >= need {
		return Pass, r.passed(p)
	}
	found := r.failed(p, short)
	if bridged, _ := p.find(walkThrough(readings, stays, p, true).runs, readings, stays); len(bridged) >= need {
		return NotEnough, found + "; were it as cold in the gaps as on both sides of them, it would pass"
	}
	if why := r.unseen(p, stays); why != "" {
		return NotEnough, found + "; " + why
	}
	return Fail, found
}

// passed is the reason of a pass.
func (r *Result) passed(p Profile) string {
	var parts []string
	for _, c := range r.Cycles {
		s := fmt.Sprintf("%s at or below %s, %s to %s; %s asked for", span(c.Cold), degrees(p.SetPoint), clock(c.From), clock(c.To), span(hours(p.Hours)))
		if p.cycles() > 1 {
			s = fmt.Sprintf("cycle %d: %s", c.Ordinal, s)
		}
		if c.Ordinal > 1 {
			by := ""
			if c.ByBook {
				by = " by the book, not by the log"
			}
			s += fmt.Sprintf(", after %s warm%s", span(c.Pause), by)
		}
		parts = append(parts, s)
	}
	return strings.Join(parts, "; ")
}

// failed says in what the log falls short, with what broke it.
func (r *Result) failed(p Profile, short string) string {
	if !r.Reached {
		return fmt.Sprintf("never at or below %s: the coldest reading was %s, %s", degrees(p.SetPoint), degrees(r.Coldest.C), clock(r.Coldest.At))
	}
	var parts []string
	if need := p.cycles(); need > 1 {
		parts = append(parts, fmt.Sprintf("%d of %d cycles", len(r.Cycles), need))
	}
	if short != "" {
		return strings.Join(append(parts, short), "; ")
	}
	longest := r.longestOther()
	if longest.From.IsZero() {
		return strings.Join(append(parts, "the log shows no other time in the cold"), "; ")
	}
	parts = append(parts, fmt.Sprintf("longest at or below %s: %s of %s, %s to %s", degrees(p.SetPoint), under(longest.Cold, hours(p.Hours)), span(hours(p.Hours)), clock(longest.From), clock(longest.To)))
	for _, x := range r.Excursions {
		if !x.Passed && !x.Pause && (x.From.Equal(longest.To) || x.To.Equal(longest.From)) {
			parts = append(parts, fmt.Sprintf("a warm excursion of %s to %s, %s", span(x.To.Sub(x.From)), degrees(x.Peak), clock(x.From)))
		}
	}
	for _, g := range r.Gaps {
		if g.From.Equal(longest.To) || g.To.Equal(longest.From) {
			parts = append(parts, fmt.Sprintf("a gap of %s in the log, %s to %s", span(g.To.Sub(g.From)), clock(g.From), clock(g.To)))
		}
	}
	return strings.Join(parts, "; ")
}

// longestOther is the longest run that is no cycle: the one that falls short.
func (r *Result) longestOther() (longest Run) {
	for _, run := range r.Runs {
		cycle := false
		for _, c := range r.Cycles {
			cycle = cycle || c.From.Equal(run.From)
		}
		if !cycle && (run.Cold > longest.Cold || longest.From.IsZero()) {
			longest = run
		}
	}
	return longest
}

// under is d in words, by seconds where minutes would make it as long as what
// it falls short of.
func under(d, of time.Duration) string {
	if span(d) == span(of) && d < of {
		return fmt.Sprintf("%s less %d s", span(of), max(1, int64(math.Round((of-d).Seconds()))))
	}
	return span(d)
}

// unseen says, of a log that falls short, where it does not see as much of the
// cold as there may have been; "" when what it does not see could not help.
func (r *Result) unseen(p Profile, stays []Stay) string {
	const ever = time.Duration(math.MaxInt64 / 4)
	before, after := ever, ever // how long it may have been cold outside the log
	if len(stays) > 0 {
		before = max(0, r.From.Sub(stays[0].In))
		if out := stays[len(stays)-1].Out; !out.IsZero() {
			after = max(0, out.Sub(r.To))
		}
	}
	for _, run := range r.Runs {
		could, parts := run.Cold, []string{}
		if run.AtStart && before > 0 {
			could += before
			parts = append(parts, fmt.Sprintf("the log begins in the cold, %s", clock(r.From)))
		}
		if run.AtEnd && after > 0 {
			could += after
			parts = append(parts, fmt.Sprintf("the log ends in the cold, %s", clock(r.To)))
		}
		if len(parts) > 0 && !p.enough(run.Cold) && p.enough(could) {
			return strings.Join(parts, " and ")
		}
	}
	for _, s := range stays {
		if !s.In.Before(r.To) || !s.Out.IsZero() && !s.Out.After(r.From) {
			return fmt.Sprintf("the stay that began %s is not in the log", clock(s.In))
		}
	}
	return ""
}
