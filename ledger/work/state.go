package work

import (
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
)

// State is what is known of one sheet on one day.
type State struct {
	Where Place
	At    string    // cabinet, person, partner: the line's own words
	Since dates.Day // 0: since before the ledger
	By    *Event    // the event that brought it there; nil: it was here before the ledger, or its record's fate says so
	Done  []Done    // oldest first
}

// Done is something that was done to a sheet.
type Done struct {
	What   string // dried, received, accessioned, treated, mounted, labelled, pictured, printed, sampled, surveyed, repaired, checked, inspected, seen, filed, lent, returned, sent
	Day    dates.Day
	Result string // of a survey its grade, of a sampling the material
	By     *Event
}

// Has reports whether something was done, and when last.
func (s State) Has(what string) (Done, bool) {
	for i := len(s.Done) - 1; i >= 0; i-- {
		if s.Done[i].What == what {
			return s.Done[i], true
		}
	}
	return Done{}, false
}

// Words is where the sheet is, in one phrase: on loan, FJ3 Fjellheim Museum,
// since 3 November 2026.
func (s State) Words() string {
	words := s.Where.Words()
	if s.At != "" {
		words += ", " + s.At
	}
	if s.Since != 0 {
		words += ", since " + dates.Words(s.Since)
	}
	return words
}

// State is the state of a specimen at the end of a day.
func (w *Works) State(n ledger.Number, on dates.Day) State {
	id, ok := w.find(n)
	if !ok {
		return State{Where: Cabinet}
	}
	return w.state(id, on)
}

// StateOf is the state of a thing at the end of a day.
func (w *Works) StateOf(t Thing, on dates.Day) State {
	if t.Sheet != "" {
		return w.State(t.Sheet, on)
	}
	id, ok := w.byKey[t.Key]
	if !ok {
		return State{Where: Coming}
	}
	return w.state(id, on)
}

// Each gives every record with its state at the end of a day, in order of
// path, until yield is false.
func (w *Works) Each(on dates.Day, yield func(*book.Entry, State) bool) {
	for i := range w.book.Len() {
		if !yield(w.book.At(i), w.state(int32(i), on)) {
			return
		}
	}
}

func (w *Works) state(id int32, on dates.Day) State {
	f := w.folding(id)
	list := w.placesOf(id)
	if len(list) == 0 && (f.entry == nil || f.entry.First <= on && len(f.entry.Fates) == 0) {
		return f.State
	}
	f.fold(w, list, on, nil)
	return f.State
}

// folding is the state of one thing while events are gone through in order.
type folding struct {
	State
	entry *book.Entry // nil: no record
	wet   bool        // pressed and not yet dried
	bare  bool        // not treated against insects since it came into the house
	back  bool        // the same, since it came back from a partner, or came from one for a while
	moved bool        // some event has been about it
}

// before is told of each event with the state before it.
type before func(e *Event, was *folding)

// folding is a thing before any event: a record's specimen was here before the
// ledger, mounted and filed; anything else is still to come.
func (w *Works) folding(id int32) folding {
	if !w.record(id) {
		return folding{State: State{Where: Coming}, bare: true}
	}
	return folding{State: State{Where: Cabinet}, entry: w.book.At(int(id))}
}

// fold goes through a thing's events up to the end of a day, and through the
// fates of its record, each at its date: a withdrawal counts after the events
// of its day.
func (f *folding) fold(w *Works, list []int32, on dates.Day, say before) {
	var fates []book.Fated
	if f.entry != nil {
		fates = f.entry.Fates
		if f.entry.Dated && f.entry.First > on {
			f.Where = Coming
		}
	}
	for _, n := range list {
		e := w.events[n]
		if e.Day > on {
			break
		}
		for len(fates) > 0 && fates[0].Dated && fates[0].On < e.Day {
			f.fate(fates[0])
			fates = fates[1:]
		}
		f.apply(e, say)
	}
	for _, x := range fates {
		if !x.Dated || x.On <= on {
			f.fate(x)
		}
	}
}

// apply is one step: what the table says of the event.
func (f *folding) apply(e *Event, say before) {
	m := e.move
	if !f.moved && m.starts && f.entry != nil {
		f.Where, f.bare = Coming, true
	}
	f.moved = f.moved || m.to != "" || m.done != "" || m.starts
	if say != nil {
		say(e, f)
	}
	failed := m.done == "treated" && e.Line.Result.Text == "failed"
	if m.done != "" && !failed && !(m.done == "mounted" && f.mountedBy(e.File)) {
		f.Done = append(f.Done, Done{m.done, e.Day, resultOf(e), e})
	}
	switch {
	case m.was:
		f.wet, f.bare = false, false
	case m.to == InPress:
		f.wet = true
	case m.to == Returned:
		f.bare, f.back = true, true
	case m.done == "received" && e.File.Kind.Name == "borrowing":
		f.back = true
	case m.done == "dried":
		f.wet = false
	case m.done == "treated" && !failed:
		f.bare, f.back = false, false
	}
	if m.to == "" || slices.Contains(m.stays, f.Where) {
		return
	}
	f.Where, f.At, f.Since, f.By = m.to, atOf(e), e.Day, e
}

// mountedBy reports whether the last mounting was in a work: its lines glued,
// lifted, mounted are one mounting.
func (f *folding) mountedBy(in *File) bool {
	d, ok := f.Has("mounted")
	return ok && d.By.File == in
}

// fate is what the record says became of the specimen.
func (f *folding) fate(x book.Fated) {
	f.Since, f.By = x.On, nil
	if x.Is == "found" {
		f.Where, f.At = Cabinet, ""
		return
	}
	f.Where, f.At = Gone, strings.TrimSuffix(x.Is+", "+x.To, ", ")
}

// atOf is where the event brings a thing, in the words of the line, else of
// the heading.
func atOf(e *Event) string {
	l, h := e.Line, e.File.Work
	switch to := e.move.to; {
	case l.To.Set():
		return l.To.Text
	case to == OnLoan || to == Packed || to == Gone && h.Partner.Set():
		return h.Partner.Text
	case to == OutCard:
		return l.By.Text
	case to == InPress || to == Freezer || to == Display || to == Weights:
		return h.Place.Text
	}
	return ""
}

// resultOf is what came of an event.
func resultOf(e *Event) string {
	l := e.Line
	for _, x := range []ledger.Leaf{l.Result, l.Grade, l.Material} {
		if x.Set() {
			return x.Text
		}
	}
	if e.Verb == "sampled" || e.Verb == "printed" {
		return e.File.Work.Material.Text
	}
	return ""
}
