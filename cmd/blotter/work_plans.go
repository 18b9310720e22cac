package main

import (
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/work"
)

// workPlan is what the commands know of one kind of work beside what all
// have: what it must say when it is opened, and what its plan makes of a line.
type workPlan struct {
	needs   []string                // fields of the heading without which it is not opened; "contents": what it is about
	bare    bool                    // opening it without a figure writes no line
	caution string                  // for whoever does the work
	said    func(p *planned) string // behind the first sentence: the plan, in a sentence or two
	next    func(p *planned) string // what to type next; nil: what the order of the events says
}

// planned is a work as it is after a line.
type planned struct {
	desk   *desk
	file   *work.File
	event  *work.Event // of the line; nil: no line was written
	habits ledger.Habits
}

// workPlans are those of the kinds that have one. The words of drying and of
// treatment come from their own packages: their makers fill in said and next.
var workPlans = map[string]workPlan{
	"press":   {needs: []string{"contents"}, said: pressSaid, caution: "alcohol-kept plants and warm air do not go together: vapour burns. Gloves for spiny and toxic plants."},
	"drying":  {needs: []string{"contents"}, said: pressSaid, caution: "alcohol near heat burns; let it evaporate outdoors. Nobody leaves a warm drier alone overnight."},
	"freezer": {needs: []string{"contents"}, caution: "bag first, open only when at room temperature, gloves.", said: freezerSaid, next: freezerNext},
	"treatment": {needs: []string{"contents"},
		caution: "fumigants and the dust of old ones harm people; licensed persons only, air before anyone goes in.", next: closeWithLog},
	"mounting":     {needs: []string{"contents"}, said: mountingSaid, next: mountingNext, caution: "old sheets may carry mercury or arsenic: gloves, moving air, wash hands."},
	"accession":    {needs: []string{"contents"}},
	"conservation": {needs: []string{"contents"}, caution: "old sheets may carry mercury or arsenic: gloves, moving air, wash hands."},
	"shelf":        {needs: []string{"contents"}},
	"printing":     {needs: []string{"contents"}},
	"loan":         {needs: []string{"partner"}},
	"borrowing":    {needs: []string{"partner"}},
	"gift":         {needs: []string{"partner"}},
	"exchange":     {needs: []string{"partner"}},
	"traps":        {needs: []string{"place"}},
	"climate":      {needs: []string{"place"}, bare: true},
}

// ownRules ends every caution.
const ownRules = "Your own rules and licensed practice come first."

// closeWithLog is the end of a run whose temperatures a logger kept.
func closeWithLog(p *planned) string {
	if p.event == nil || p.event.Verb == p.file.Kind.Closes || p.event.Verb != p.file.Kind.Opens {
		return nextOf(p.file)
	}
	return "blotter close " + string(p.file.Number) + " --from logger.csv"
}

// mountingSaid tells when glue has set and how long the weights stay.
func mountingSaid(p *planned) string {
	m := p.habits.Mounting
	if p.event == nil || p.event.Verb != p.file.Kind.Opens {
		return ""
	}
	words := joinNonEmpty("; ", suffixed("The glue sets in ", m.SetMinutes.Text, " minutes"), suffixed("under weight for ", m.WeightHours.Text, " hours"))
	if words == "" {
		return ""
	}
	if m.Cover.Set() {
		words += ", " + m.Cover.Text + " between sheet and weight"
	}
	return words + "."
}

// mountingNext tells from when the weights may be lifted.
func mountingNext(p *planned) string {
	if p.event == nil || p.event.Verb != p.file.Kind.Opens {
		return nextOf(p.file)
	}
	typed := "blotter close " + string(p.file.Number)
	if day, clock, ok := hoursLater(p.event, p.habits.Mounting.WeightHours.Text); ok {
		return "from " + joinNonEmpty(" ", dayAndMonth(day), clock) + ": " + typed
	}
	return typed
}

// hoursLater is the moment so many hours behind an event; false when hours is
// no figure. Without a time of day it is counted from the end of the day.
func hoursLater(e *work.Event, hours string) (day dates.Day, clock string, ok bool) {
	h := atoi(hours)
	if h <= 0 {
		return 0, "", false
	}
	if e.Clock < 0 {
		return e.Day + dates.Day((h+23)/24), "", true
	}
	minutes := e.Clock + 60*h
	return e.Day + dates.Day(minutes/1440), clockWords(minutes % 1440), true
}

// dayAndMonth is 6 November.
func dayAndMonth(d dates.Day) string {
	w := dates.Words(d)
	return w[:strings.LastIndexByte(w, ' ')]
}

func suffixed(before, word, behind string) string {
	if word == "" {
		return ""
	}
	return before + word + behind
}

// ways are the usual steps of the kinds in which several events follow each
// other; what stands between them may be left out.
var ways = map[string][]string{
	"permit":    {"applied", "granted", "reported", "closed"},
	"loan":      {"requested", "approved", "selected", "packed", "sent", "acknowledged", "returned", "filed", "closed"},
	"borrowing": {"requested", "received", "acknowledged", "in", "out", "sent-back", "closed"},
	"gift":      {"requested", "approved", "selected", "packed", "sent", "acknowledged", "closed"},
	"exchange":  {"selected", "packed", "sent", "acknowledged", "received", "closed"},
	"sampling":  {"requested", "approved", "sampled", "reported", "closed"},
	"accession": {"received", "counted", "accessioned", "filed", "closed"},
	"freezer":   {"in", "out", "unpacked", "filed"},
	"treatment": {"in", "out", "unpacked", "filed"},
	"mounting":  {"glued", "lifted", "mounted", "labelled", "filed"},
	"incident":  {"found-pest", "inspected", "cleared", "closed"},
}

// nextOf is the command that the order of the events says comes next; "" when
// the work needs no hand.
func nextOf(f *work.File) string { return nextOn(f, 1<<40) }

// nextOn is nextOf as of the end of a day.
func nextOn(f *work.File, on dates.Day) string {
	done := map[string]bool{}
	for _, e := range f.Events {
		if e.Day <= on {
			done[e.Verb] = true
		}
	}
	way := ways[f.Kind.Name]
	if done[ledger.EventClosed] || done["refused"] {
		return ""
	}
	last := -1
	for i, verb := range way {
		if done[verb] {
			last = i
		}
	}
	next := ""
	switch {
	case last+1 < len(way):
		next = way[last+1]
	case len(way) == 0 && !done[f.Kind.Closes]:
		next = f.Kind.Closes
	}
	switch {
	case next == "":
		return ""
	case next == f.Kind.Closes:
		return "blotter close " + string(f.Number)
	}
	return "blotter log " + string(f.Number) + " " + next
}

// mayHappen is the event of a kind that was typed; a near miss is answered
// with the right word.
func mayHappen(kind ledger.WorkKind, typed string) (string, error) {
	all := append(slices.Clone(kind.Events), ledger.EventClosed, ledger.EventNoted)
	if slices.Contains(all, typed) {
		return typed, nil
	}
	if near := nearest(typed, all); near != "" {
		return "", misuse("a %s has no event %q; did you mean %s?", kind.Name, typed, near)
	}
	return "", misuse("a %s has no event %q", kind.Name, typed).try("Its events are " + strings.Join(all, ", "))
}
