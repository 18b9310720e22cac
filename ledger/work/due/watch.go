package due

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/work"
)

// permit tells when a permit lapses and when its report is due.
func (l *list) permit() {
	so := *l.f
	so.Events = l.events
	p := work.ReadPermit(&so)
	if p.Refused || p.Lapsed != 0 {
		return
	}
	name := l.f.Work.Permit.Number.Text
	if name == "" {
		name = cmp.Or(l.f.Work.Title.Text, "the permit")
	} else {
		name = "permit " + name
	}
	if p.Report != 0 && p.Reported == 0 {
		l.ahead(p.Report, Report, "report on "+name+" to "+cmp.Or(l.f.Work.Permit.Issuer.Text, "its issuer"), l.log("reported"))
	}
	if p.To != 0 && p.Granted {
		if p.To < l.on.Day {
			l.day(p.To+1, Permit, "lapsed", name+" lapsed on "+l.date(p.To), l.log("lapsed"), nil)
			return
		}
		l.ahead(p.To, Permit, name+" lapses", l.log("extended")+" --until DATE")
	}
}

// ahead tells of a day, and of it on the days before it that the museum's
// habits have.
func (l *list) ahead(day dates.Day, k Kind, what, next string) {
	l.day(day, k, "day", what, next, nil)
	for _, before := range l.w.Habits.Collecting.Report {
		if n, err := strconv.Atoi(before.Text); err == nil && n > 0 && day-dates.Day(n) >= l.on.Day {
			l.day(day-dates.Day(n), k, "before-"+before.Text, what+" on "+l.date(day)+", in "+count(n, "day"), next, nil)
		}
	}
}

// period is how often something is looked at: as the heading says, else as the
// museum's habits have it.
func (l *list) period(habit ledger.Leaf) (work.Period, bool) {
	if p, ok := work.ReadPeriod(l.f.Work.Every.Text); ok {
		return p, true
	}
	return work.ReadPeriod(habit.Text)
}

// traps tells when traps are read next, those of one day together.
func (l *list) traps() {
	every, ok := l.period(l.w.Habits.Traps.Every)
	if !ok {
		return
	}
	last := map[string]dates.Day{}
	for _, e := range l.events {
		trap := e.Line.Trap.Text
		switch {
		case e.Verb == "removed" && trap == "":
			clear(last)
		case e.Verb == "removed":
			delete(last, trap)
		case trap == "" && len(last) > 0:
			for t := range last {
				last[t] = e.Day
			}
		default:
			last[trap] = e.Day
		}
	}
	by := map[dates.Day][]string{}
	var days []dates.Day
	for trap, day := range last {
		next := every.After(day)
		if by[next] == nil {
			days = append(days, next)
		}
		by[next] = append(by[next], trap)
	}
	slices.Sort(days)
	for _, day := range days {
		names := by[day]
		slices.Sort(names)
		what := "read the trap"
		if words := strings.TrimSpace(and(names)); words != "" {
			what += map[bool]string{true: " ", false: "s "}[len(names) == 1] + words
		} else {
			what += "s"
		}
		next := l.log("read")
		if len(names) == 1 && names[0] != "" {
			next += " --trap " + quoted(names[0])
		}
		l.add(Thing{Day: day, Clock: -1, Kind: Traps, Step: strings.Join(names, "-"), What: what + at(l.f.Work.Place.Text), Next: next})
	}
}

// climate tells of a reading that is missing.
func (l *list) climate() {
	every, ok := l.period(l.w.Habits.Climate.Every)
	last := lastOf(l.events, "measured")
	if !ok || last == nil {
		return
	}
	day := every.After(last.Day)
	what := "read temperature and humidity" + at(l.f.Work.Place.Text)
	if day < l.on.Day {
		what = "no reading" + at(l.f.Work.Place.Text) + " since " + l.date(last.Day)
	}
	l.day(day, Climate, "reading", what, l.log("measured"), nil)
}

// incident tells when a place is looked at again.
func (l *list) incident() {
	last := lastOf(l.events, "found-pest", "inspected", "held")
	if last == nil {
		return
	}
	day := last.Until
	if day == 0 {
		day = last.Day + dates.Day(whole(l.w.Habits.Traps.Return, 28))
	}
	found := lastOf(l.events, "found-pest")
	where, what := l.f.Work.Place.Text, ""
	if found != nil {
		where = cmp.Or(found.Line.To.Text, where)
		what = found.Line.Insect.Text
	}
	words := "look again" + at(where)
	if what != "" {
		words += ": " + what + " found " + l.date(found.Day)
	}
	l.day(day, Inspect, "inspect-"+strconv.Itoa(last.N+1), words, l.log("inspected"), nil)
}

// fromEvents tells of what single lines leave to be done, whether their work is
// open or not: sheets missing, in the wrong place, outside the cabinet, back
// and not yet treated, repairs to be looked at again.
func (l *list) fromEvents() {
	day := l.on.Day
	for _, e := range l.w.Events() {
		if e.Day > day {
			break
		}
		switch e.Verb {
		case "missing":
			if still := l.still(e, work.Missing); len(still) > 0 {
				l.of(e, e.Day+dates.Day(whole(l.w.Habits.Inventory.Search, 30)), Missing, with("look again for what is missing since "+l.date(e.Day), amount(still, "sheet")), " found", still)
			}
		case "misplaced":
			if still := l.still(e, work.Stray); len(still) > 0 {
				l.of(e, e.Day, Back, with("put back what lies in the wrong place"+at(e.Line.To.Text), amount(still, "sheet")), " found", still)
			}
		case "returned":
			if still := l.still(e, work.Returned); len(still) > 0 {
				l.treat(e, with("treat before filing, back from "+l.partnerOf(e.File)+" since "+l.date(e.Day), amount(still, "sheet")), still)
			}
		case "received":
			if still := slices.DeleteFunc(l.still(e, work.InTray), l.treated(e.Day)); len(still) > 0 && e.File.Kind.Name == "accession" {
				l.treat(e, with("treat before filing, received "+l.date(e.Day), amount(still, "sheet")), still)
			}
		case "taken", "displayed":
			l.outside(e)
		case "back":
			l.leftOut(e)
		case "treated", "surveyed", "checked":
			if e.Until != 0 && lastAfter(e) == nil {
				things := l.w.About(e)
				l.of(e, e.Until, Inspect, with("look again, "+e.Verb+" "+l.date(e.Day), amount(things, "sheet")), " checked", things)
			}
		}
	}
}

// still is what an event brought to a place and what is there yet.
func (l *list) still(e *work.Event, where work.Place) []work.Thing {
	var out []work.Thing
	for _, t := range l.w.About(e) {
		if s := l.w.StateOf(t, l.on.Day); s.Where == where && s.By == e {
			out = append(out, t)
		}
	}
	return out
}

// treated is whether a thing was treated on a day or after it.
func (l *list) treated(since dates.Day) func(work.Thing) bool {
	return func(t work.Thing) bool {
		d, ok := l.w.StateOf(t, l.on.Day).Has("treated")
		return ok && d.Day >= since
	}
}

// of adds a thing of one event; log is what is logged of its work when it is
// done.
func (l *list) of(e *work.Event, day dates.Day, k Kind, what, log string, things []work.Thing) {
	l.add(Thing{Day: day, Clock: -1, Work: e.File.Number, Kind: k, Step: fmt.Sprintf("line-%d", e.N+1), What: what, Next: "blotter log " + string(e.File.Number) + log + " " + short(things), Sheets: Spans(things)})
}

// treat adds what is to be treated against insects.
func (l *list) treat(e *work.Event, what string, things []work.Thing) {
	if !l.w.Habits.Treatment.IsNeeded() {
		return
	}
	l.add(Thing{Day: e.Day + dates.Day(whole(l.w.Habits.Treatment.Within, 7)), Clock: -1, Work: e.File.Number, Kind: Treat, Step: fmt.Sprintf("line-%d", e.N+1), What: what,
		Next: strings.TrimSpace("blotter open freezer " + short(things)), Sheets: Spans(things)})
}

// outside tells of sheets that were taken out and are not back.
func (l *list) outside(e *work.Event) {
	where := map[string]work.Place{"taken": work.OutCard, "displayed": work.Display}[e.Verb]
	day := e.Until
	if day == 0 {
		if e.Verb == "displayed" {
			return
		}
		day = e.Day + dates.Day(max(whole(l.w.Habits.Treatment.OutDays, 1), 1))
	}
	still := l.still(e, where)
	if len(still) == 0 {
		return
	}
	who := ""
	if w := cmp.Or(e.Line.To.Text, e.Line.By.Text); w != "" && e.Verb == "taken" {
		who = " with " + w
	}
	words := e.Verb + " " + l.date(e.Day) + who + ": put back"
	if n := whole(l.w.Habits.Treatment.OutDays, 1); n > 0 && int(l.on.Day-e.Day) >= n && l.w.Habits.Treatment.IsNeeded() {
		words += ", through the freezer first"
	}
	l.of(e, day, Back, with(words, amount(still, "sheet")), " back", still)
}

// leftOut tells of sheets that were put back after more days outside than the
// museum's habits let pass, and were not treated since.
func (l *list) leftOut(e *work.Event) {
	most := whole(l.w.Habits.Treatment.OutDays, 1)
	if most <= 0 {
		return
	}
	var left []work.Thing
	for _, t := range l.still(e, work.Cabinet) {
		var taken *work.Event
		for _, x := range l.w.EventsOf(t) {
			if x == e {
				break
			}
			if x.Verb == "taken" || x.Verb == "displayed" {
				taken = x
			}
		}
		if taken != nil && int(e.Day-taken.Day) >= most && !l.treated(taken.Day+1)(t) {
			left = append(left, t)
		}
	}
	if len(left) > 0 {
		l.treat(e, with("treat again, outside the cabinet until "+l.date(e.Day), amount(left, "sheet")), left)
	}
}

// lastAfter is a later line of the same work that looks at things again.
func lastAfter(e *work.Event) *work.Event {
	for _, x := range e.File.Events {
		if x.N > e.N && (x.Verb == "checked" || x.Verb == "surveyed" || x.Verb == ledger.EventClosed) {
			return x
		}
	}
	return nil
}

func (l *list) partnerOf(f *work.File) string {
	was := l.f
	l.f = f
	defer func() { l.f = was }()
	return l.partner()
}

// short is things as a command takes them: numbers without their zeros would
// do, the whole number always does.
func short(things []work.Thing) string {
	var out []string
	for _, s := range Spans(things) {
		if strings.ContainsRune(s, ' ') {
			s = quoted(s)
		}
		out = append(out, s)
	}
	if len(out) > 6 {
		return "SHEETS"
	}
	return strings.Join(out, " ")
}

func quoted(s string) string {
	if strings.ContainsAny(s, " &()'\"") {
		return `"` + strings.ReplaceAll(s, `"`, `\"`) + `"`
	}
	return s
}

func at(place string) string {
	if place == "" {
		return ""
	}
	return ", " + place
}
