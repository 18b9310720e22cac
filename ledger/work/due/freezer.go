package due

import (
	"fmt"
	"math"
	"slices"
	"time"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/treatment"
	"blotter/ledger/work"
)

// Freezer is one run of the freezer as it stands on a day.
type Freezer struct {
	Profile treatment.Profile
	Problem string           // why there is no profile; "" when there is one
	Stays   []treatment.Stay // in the museum's time
	Timed   bool             // every line of going in and out has a time of day
	Out     *work.Event      // the last line of coming out, when nothing is in
	Opened  bool             // the bag was opened since
	Result  string           // what the last line of coming out says of it
	Holds   []work.Thing
}

// ReadFreezer is the run that a file of the kinds freezer and treatment is
// about, at the end of a day. What goes in later begins the stay anew: the last
// sheet in is the last one cold. A line without a time of day counts from the
// end of its day.
func ReadFreezer(w *work.Works, f *work.File, on dates.Day, zone *time.Location) Freezer {
	r := Freezer{Holds: w.Holds(f, on), Timed: true}
	var err error
	if r.Profile, err = Profile(w.Habits.Treatment, f.Work.Profile.Text); err != nil {
		r.Problem = err.Error()
	} else if why := r.Profile.Problems(); len(why) > 0 {
		r.Problem = and(why)
	}
	in := map[string]bool{}
	for _, e := range eventsBy(f, on) {
		at := Moment(e, zone)
		switch e.Verb {
		case "in":
			r.Timed = r.Timed && e.Clock >= 0
			r.Out, r.Opened, r.Result = nil, false, ""
			if n := len(r.Stays); n > 0 && r.Stays[n-1].Out.IsZero() {
				r.Stays[n-1].In = at
			} else {
				r.Stays = append(r.Stays, treatment.Stay{In: at})
			}
			for _, t := range w.About(e) {
				in[t.Key] = true
			}
		case "out":
			r.Timed = r.Timed && e.Clock >= 0
			for _, t := range w.About(e) {
				delete(in, t.Key)
			}
			if n := len(r.Stays); n > 0 && (len(in) == 0 || e.All()) {
				r.Stays[n-1].Out, r.Out, r.Result = at, e, e.Line.Result.Text
			}
		case "unpacked":
			r.Opened = r.Out != nil
		}
	}
	return r
}

// StaysOf are the stays in the freezer by the lines of a file alone: a line of
// coming out that names sheets ends none.
func StaysOf(f *work.File, zone *time.Location) []treatment.Stay {
	var out []treatment.Stay
	for _, e := range eventsBy(f, 1<<40) {
		n := len(out)
		switch at := Moment(e, zone); {
		case e.Verb == "in" && n > 0 && out[n-1].Out.IsZero():
			out[n-1].In = at
		case e.Verb == "in":
			out = append(out, treatment.Stay{In: at})
		case e.Verb == "out" && e.All() && n > 0:
			out[n-1].Out = at
		}
	}
	return out
}

// Moment is when an event happened, in a zone; without a time of day at the
// end of its day.
func Moment(e *work.Event, zone *time.Location) time.Time {
	y, m, d := e.Day.Date()
	if e.Clock < 0 {
		return time.Date(y, time.Month(m), d+1, 0, 0, 0, 0, zone)
	}
	return time.Date(y, time.Month(m), d, e.Clock/60, e.Clock%60, 0, 0, zone)
}

// freezer tells when a load comes out, goes in again and may be opened.
func (l *list) freezer() {
	r := ReadFreezer(l.w, l.f, l.on.Day, l.on.Zone)
	much := amount(r.Holds, "sheet")
	if planned := lastOf(l.events, ledger.EventNoted); len(l.events) > 0 && lastOf(l.events, "in", "out", "unpacked", "filed") == nil && planned != nil {
		l.day(planned.Day, Treat, "planned", with("into the freezer, planned "+l.date(planned.Day), much), l.log("in"), r.Holds)
		return
	}
	until := lastOf(l.events, "in")
	if until != nil && until.Until != 0 && r.Out == nil { // the line itself says until when
		l.day(until.Until, Out, "out", with("out", much), l.close(), r.Holds)
		return
	}
	if l.f.Kind.Name != "freezer" || len(r.Stays) == 0 || r.Problem != "" {
		return
	}
	if r.Out != nil && r.Result == "failed" {
		l.day(r.Out.Day, Again, "failed", with("into the freezer again: its log did not keep the profile", much), l.log("in"), r.Holds)
		return
	}
	for _, s := range r.Profile.Plan(r.Stays...) {
		if r.Opened && s.Stage == treatment.OpenFrom {
			continue
		}
		t := Thing{Kind: kindOfStage[s.Stage], Step: fmt.Sprintf("cycle-%d", s.Cycle), Sheets: Spans(r.Holds)}
		t.Day, t.Clock = dayOf(s.At, r.Timed)
		from := ""
		if t.Clock >= 0 {
			from = " after " + clock(t.Clock)
		}
		cycles := max(r.Profile.Cycles, 1)
		switch {
		case s.Stage == treatment.OutFrom && s.Cycle < cycles:
			t.What, t.Next = fmt.Sprintf("out%s, cycle %d of %d, then %s warm in its closed bag", from, s.Cycle, cycles, hours(r.Profile.Between)), l.log("out")
		case s.Stage == treatment.OutFrom:
			t.What, t.Next = "out"+from, l.close()+" --from logger.csv"
			if r.Profile.Closed > 0 {
				t.What += ", then " + hours(r.Profile.Closed) + " in its closed bag"
			}
		case s.Stage == treatment.InAgain:
			t.What, t.Next = fmt.Sprintf("into the freezer again%s, cycle %d of %d", from, s.Cycle, cycles), l.log("in")
		default:
			t.What, t.Next = "the bag may be opened"+from+", when it is at room temperature", l.log("unpacked")
		}
		t.What = with(t.What, much)
		l.add(t)
	}
}

var kindOfStage = map[treatment.Stage]Kind{treatment.OutFrom: Out, treatment.InAgain: Again, treatment.OpenFrom: Unpack}

// dayOf is a moment as day and minute; without a time of day it is the day on
// which the moment has come.
func dayOf(at time.Time, timed bool) (dates.Day, int) {
	day := dates.DayOf(at.Year(), int(at.Month()), at.Day())
	if !timed {
		return day, -1
	}
	return day, at.Hour()*60 + at.Minute()
}

func (l *list) close() string { return "blotter close " + string(l.f.Number) }

// glue tells when weights may be lifted from glued sheets.
func (l *list) glue() {
	by := map[*work.Event][]work.Thing{}
	var glued []*work.Event
	for _, t := range l.w.Holds(l.f, l.on.Day) {
		s := l.w.StateOf(t, l.on.Day)
		if s.Where != work.Weights || s.By == nil || s.By.File != l.f {
			continue
		}
		if by[s.By] == nil {
			glued = append(glued, s.By)
		}
		by[s.By] = append(by[s.By], t)
	}
	slices.SortStableFunc(glued, func(a, b *work.Event) int { return int(a.Day - b.Day) })
	for _, e := range glued {
		day, minute := GlueDry(e, l.w.Habits.Mounting.WeightHours, l.on.Zone)
		next := l.close()
		if len(glued) > 1 {
			next = l.log("lifted")
		}
		l.add(Thing{Day: day, Clock: minute, Kind: Glue, Step: fmt.Sprintf("glued-%d", e.N+1), What: with("glue dry, lift the weights", amount(by[e], "sheet")), Next: next, Sheets: Spans(by[e])})
	}
}

// GlueDry is from when the weights may be lifted from what an event glued:
// the day, and the minute after midnight, -1 when the event has no time of day.
func GlueDry(e *work.Event, weightHours ledger.Leaf, zone *time.Location) (dates.Day, int) {
	h := math.Max(figure(weightHours, 24), 0)
	if e.Clock < 0 {
		return e.Day + dates.Day(math.Ceil(h/24)), -1
	}
	return dayOf(Moment(e, zone).Add(time.Duration(h*float64(time.Hour))), true)
}
