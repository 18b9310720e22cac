package work

import (
	"blotter/ledger"
	"blotter/ledger/dates"
)

// Place is the kind of place where a sheet is.
type Place string

const (
	Coming   Place = "coming"    // gathered or promised, not yet in any work's hands
	InPress  Place = "press"     // in the press or the drier
	InTray   Place = "tray"      // in the house, on the way to the cabinet
	Freezer  Place = "freezer"   // under treatment
	InBag    Place = "bag"       // out of the freezer, still in its closed bag
	Weights  Place = "weights"   // glued, under weight
	Cabinet  Place = "cabinet"   // where it belongs
	OutCard  Place = "out"       // taken out by somebody; an out-card stands in its place
	Display  Place = "display"   // on display
	Packed   Place = "packed"    // packed for sending
	OnLoan   Place = "loan"      // with a partner
	Returned Place = "returned"  // back from a loan, not yet treated
	Missing  Place = "missing"   // not found at the last look
	Stray    Place = "misplaced" // found where it does not belong
	Gone     Place = "gone"      // given, exchanged, spoiled, withdrawn
)

// State is what is known of one sheet on one day.
type State struct {
	Where Place
	At    string    // cabinet, person, partner: the line's own words
	Since dates.Day // 0: since before the ledger
	By    *Event    // the event that brought it there; nil: it was here before the ledger
	Done  []Done    // oldest first
}

// Done is something that was done to a sheet.
type Done struct {
	What   string // dried, treated, mounted, accessioned, pictured, sampled, labelled, surveyed, ...
	Day    dates.Day
	Result string
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

// index finds the events that touch a thing.
type index struct {
	of map[ledger.Number][]*Event // by specimen, in the order in which they count
}

func newIndex(w *Works) *index { return &index{of: map[ledger.Number][]*Event{}} }

// State is the state of a specimen at the end of a day.
func (w *Works) State(n ledger.Number, on dates.Day) State {
	return fold(w.index.of[n], on)
}

func fold(events []*Event, on dates.Day) State {
	return State{Where: Cabinet}
}

// rank is a verb's place in the life of a sheet.
func rank(verb string) int { return 0 }
