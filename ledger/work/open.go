package work

import (
	"slices"

	"blotter/ledger"
	"blotter/ledger/dates"
)

// ends are the events after which a kind of work needs no hand any more; a
// kind that is not here, nor among batches, needs one until it is closed.
var ends = map[string][]string{
	"permit":       {"refused", "lapsed"},
	"loan":         {"refused"},
	"borrowing":    {"refused"},
	"gift":         {"refused"},
	"exchange":     {"refused"},
	"sampling":     {"refused"},
	"incident":     {"cleared"},
	"conservation": {"treated"},
	"shelf":        {"here", "filed", "taken", "displayed", "back", "missing", "misplaced", "found", "pictured"},
	"printing":     {"printed"},
	"mounting":     {"lifted", "mounted"},
	"freezer":      {"unpacked"},
	"treatment":    {"unpacked"},
	"press":        {"dried", "spoiled"},
	"drying":       {"dried", "spoiled"},
}

// batches are the kinds whose work is done when nothing of what they hold is
// in these places any more through them.
var batches = map[string][]Place{
	"press":     {InPress},
	"drying":    {InPress},
	"freezer":   {Freezer, InBag},
	"treatment": {Freezer, InBag},
	"mounting":  {Weights},
}

// Open reports whether a work still needs a hand at the end of a day: it has
// begun, is not closed, and what ends its kind has not happened.
func (w *Works) Open(f *File, on dates.Day) bool {
	var so []*Event
	for _, e := range f.ordered {
		if e.Day <= on && e.turns() == nil {
			so = append(so, e)
		}
	}
	if len(so) == 0 || slices.ContainsFunc(so, func(e *Event) bool { return e.Verb == eventClosed }) {
		return false
	}
	ending := func(e *Event) bool { return slices.Contains(ends[f.Kind.Name], e.Verb) }
	at, batch := batches[f.Kind.Name]
	switch {
	case f.Kind.Name == "traps":
		return anyTrap(so)
	case !batch:
		return !slices.ContainsFunc(so, ending)
	case !slices.ContainsFunc(so, func(e *Event) bool { return e.Verb != ledger.EventNoted }):
		return len(w.Holds(f, on)) > 0 // planned, not yet begun
	case !slices.ContainsFunc(so, func(e *Event) bool { return !e.All() }):
		return !ending(so[len(so)-1])
	}
	return slices.ContainsFunc(w.Holds(f, on), func(t Thing) bool {
		s := w.StateOf(t, on)
		return slices.Contains(at, s.Where) && s.By != nil && s.By.File == f
	})
}

// anyTrap reports whether a trap was set and not removed.
func anyTrap(so []*Event) bool {
	out := map[string]bool{}
	for _, e := range so {
		switch trap := e.Line.Trap.Text; {
		case e.Verb != "removed":
			out[trap] = true
		case trap == "":
			clear(out)
		default:
			delete(out, trap)
		}
	}
	return len(out) > 0
}
