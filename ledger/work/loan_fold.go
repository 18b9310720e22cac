package work

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
)

// lending folds the events of one loan.
type lending struct {
	w     *Works
	l     *Loan
	verbs map[string]Stage
	known map[string]*Lent
}

func (f *lending) take(e *Event) {
	l := f.l
	switch e.Verb {
	case "acknowledged":
		l.Acked = e
		return
	case "extended":
		f.each(e, func(t *Lent) { f.extend(t, e) })
		return
	case "recalled":
		l.Recall = e
		f.each(e, func(t *Lent) {
			if t.Stage == Out {
				t.Due = e.Until
				if t.Due == 0 {
					t.Due = e.Day
				}
			}
		})
		return
	case ledger.EventClosed:
		l.Closed = e
		return
	}
	to, ok := f.verbs[e.Verb]
	if !ok {
		return
	}
	if e.All() {
		l.Refused = l.Refused || to == Left
		for _, t := range f.ripe(to) {
			f.move(t, to, e)
		}
		return
	}
	for _, i := range e.Items {
		f.item(i, to, e)
	}
	if to == Chosen {
		f.leaveOut(e.Verb == "selected")
	}
}

// item moves one named thing; what a line names and nobody asked for before is
// taken in.
func (f *lending) item(i Item, to Stage, e *Event) {
	if i.Bundle() && named(e) {
		return // it counts what the line names
	}
	if i.Bundle() && (to == Back || to == LostOut) {
		f.counted(i, to, e)
		return
	}
	for _, t := range f.things(i) {
		f.move(t, to, e)
	}
}

// named reports whether a line names things besides counting them.
func named(e *Event) bool {
	for _, i := range e.Items {
		if !i.Bundle() {
			return true
		}
	}
	return false
}

// counted takes back a number of sheets that nobody named: first from the
// bundles that are out, then from the whole.
func (f *lending) counted(i Item, to Stage, e *Event) {
	left := i.Count
	for _, t := range f.l.Things {
		if t.Sheet != "" || t.Stage != Out || t.Count <= 1 || left == 0 {
			continue
		}
		if t.Count <= left {
			left -= t.Count
			f.move(t, to, e)
			continue
		}
		part := *t
		part.Count, part.Stage, part.Back = left, to, e.Day
		t.Count -= left
		f.l.Things = append(f.l.Things, &part)
		left = 0
	}
	f.l.Unnamed += left
}

// ripe are the things that a line naming none is about: those that have come
// nearest to what it says.
func (f *lending) ripe(to Stage) []*Lent {
	best := Stage(0)
	for _, t := range f.l.Things {
		if t.Stage > best && (t.Stage < to || to == Left) && t.Stage < Back {
			best = t.Stage
		}
	}
	if to == Back || to == LostOut {
		best = Out
	}
	var all []*Lent
	for _, t := range f.l.Things {
		if best != 0 && t.Stage == best {
			all = append(all, t)
		}
	}
	if to == Back && len(all) > 0 {
		f.l.Unnamed = 0 // all are back, those counted before among them
	}
	return all
}

// leaveOut: an approval that names sheets leaves those out that were only asked
// for, a selection also those that were approved and not selected.
func (f *lending) leaveOut(selection bool) {
	for _, t := range f.l.Things {
		if t.Stage == Asked || selection && t.Stage == Chosen && !t.selected {
			t.Stage = Left
		}
	}
}

func (f *lending) move(t *Lent, to Stage, e *Event) {
	if to < t.Stage && t.Stage < Back { // a later sending begins anew; else nothing goes backward
		return
	}
	t.Stage = to
	switch to {
	case Chosen:
		t.selected = e.Verb == "selected"
	case Ready:
		f.condition(t, e)
	case Out:
		t.Sent, t.Back = e.Day, 0
		if f.l.Sent == 0 {
			f.l.Sent = e.Day
		}
		f.condition(t, e)
		t.Due = f.due(t, e)
	case Back:
		t.Back, t.After = e.Day, e.Line.Grade.Text
		for _, d := range e.Line.Damage {
			t.Harm = append(t.Harm, d.Text)
		}
	}
}

// condition is that in which a thing goes out.
func (f *lending) condition(t *Lent, e *Event) {
	if g := e.Line.Grade.Text; g != "" {
		t.Grade = g
	}
}

// each calls do for every thing that a line is about.
func (f *lending) each(e *Event, do func(*Lent)) {
	if e.All() {
		for _, t := range f.l.Things {
			do(t)
		}
		return
	}
	for _, i := range e.Items {
		for _, t := range f.things(i) {
			do(t)
		}
	}
}

// due is the day by which a thing that is sent is to be back: as the line
// says, else by the loan's period, else by the museum's habits.
func (f *lending) due(t *Lent, e *Event) dates.Day {
	switch f.l.File.Kind.Name {
	case "loan", "borrowing":
	default:
		return 0
	}
	if e.Until != 0 {
		return e.Until
	}
	p, ok := ReadPeriod(f.l.File.Work.Period.Text)
	if !ok && f.l.File.Kind.Name == "loan" {
		p, ok = f.habit(t)
	}
	if !ok {
		return 0
	}
	return p.After(e.Day)
}

// habit is how long a sheet is lent by the museum's habits.
func (f *lending) habit(t *Lent) (Period, bool) {
	h := f.w.Habits.Loans
	months := h.Months.Text
	if t.Entry != nil && len(t.Entry.Types) > 0 && h.TypeMonths.Set() {
		months = h.TypeMonths.Text
	}
	return ReadPeriod(months + " months")
}

func (f *lending) extend(t *Lent, e *Event) {
	if t.Stage != Out {
		return
	}
	if e.Until != 0 {
		t.Due = e.Until
		return
	}
	p, ok := ReadPeriod(f.l.File.Work.Period.Text)
	if !ok {
		p, ok = f.habit(t)
	}
	if ok && t.Due != 0 {
		t.Due = p.After(t.Due)
	}
}

// things are the things of the loan that an item names, made when they are
// new.
func (f *lending) things(i Item) []*Lent {
	var out []*Lent
	add := func(key, words string, n ledger.Number, count int) {
		t := f.known[key]
		if t == nil {
			t = &Lent{Words: words, Sheet: n, Count: count}
			if n != "" && f.w.book != nil {
				t.Entry = f.w.book.Find(n)
			}
			f.known[key] = t
			f.l.Things = append(f.l.Things, t)
		}
		out = append(out, t)
	}
	switch {
	case i.Sheet != "":
		for _, n := range f.w.sheetsOf(i) {
			add("sheet "+n.Key(), string(n), n, 1)
		}
	case i.Who != "":
		for _, no := range figuresOf(i.No, i.LastN) {
			words := i.Who + " " + no
			add("gathering "+strings.ToLower(words), words, "", 1)
		}
	case i.Other != "":
		add("other "+strings.ToLower(i.Other), i.Other, "", 1)
	case i.Bundle():
		words := strings.TrimSpace(i.Leaf.Text + " " + i.What)
		add("bundle "+words, words, "", i.Count)
	}
	return out
}
