package work

import "slices"

// move is one row of the table of states: what an event does to a thing, and
// from where it is usual.
type move struct {
	events []string
	kinds  []string // of work; nil: every kind that has the event
	usual  []Place  // where the thing is before; nil: anywhere
	to     Place    // where it is then; "": where it was
	stays  []Place  // where it stays all the same
	leaves bool     // the work holds it no more
	done   string   // what is marked as done
	needs  need     // what must have been done before
	starts bool     // a sheet that this is the first event of was not here before
	was    bool     // it was here before the ledger, dried, treated and mounted
}

// need is what must have been done before an event.
type need uint8

const (
	needDry   need = 1 << iota // dried, if it was ever pressed
	needClean                  // treated against insects since it came into the house
)

var (
	atHand  = []Place{Coming, InTray, Cabinet, OutCard, Display, Returned, Stray}
	inHouse = []Place{Coming, InPress, InTray, Freezer, InBag, Weights, Cabinet, OutCard, Display, Packed, Returned, Stray}
	resting = []Place{Coming, InTray, InBag, Cabinet, OutCard, Display, Returned, Stray}
	lost    = []Place{Missing, Stray}
	arrived = append([]Place{OnLoan, Missing, Gone}, inHouse[1:]...)
)

// table is THE table of states, in the order of a thing's life, which is the
// order in which events of one day count. Whatever is not in usual is a
// finding, and happens all the same.
var table = []move{
	{events: []string{"here"}, usual: []Place{Coming, Cabinet}, to: Cabinet, leaves: true, was: true},
	{events: []string{"applied", "requested", "refused", "granted", "approved"}},
	{events: []string{"set", "drawn", "selected", "held"}},
	{events: []string{"pressed", "drying"}, usual: []Place{Coming}, to: InPress, starts: true},
	{events: []string{"papers", "turned", "weighed", "tested"}, usual: []Place{InPress}},
	{events: []string{"dried"}, usual: []Place{InPress}, to: InTray, leaves: true, done: "dried", starts: true},
	{events: []string{"spoiled"}, usual: []Place{InPress}, to: Gone, leaves: true, starts: true},
	{events: []string{"received"}, kinds: []string{"accession"}, usual: []Place{Coming, InPress, InTray}, to: InTray, stays: []Place{InPress}, done: "received", starts: true},
	{events: []string{"received"}, usual: []Place{Coming}, to: InTray, done: "received", starts: true},
	{events: []string{"counted"}, to: InTray, stays: arrived, starts: true},
	{events: []string{"accessioned"}, to: InTray, stays: arrived, done: "accessioned", starts: true},
	{events: []string{"taken-in"}, done: "taken-in"},
	{events: []string{"discarded", "distributed"}, usual: inHouse, to: Gone, leaves: true},
	{events: []string{"returned"}, usual: []Place{OnLoan}, to: Returned, leaves: true, done: "returned"},
	{events: []string{"seen"}, usual: []Place{Cabinet, Display, OutCard, Missing}, to: Cabinet, stays: []Place{Display}, done: "seen"},
	{events: []string{"missing"}, usual: inHouse, to: Missing},
	{events: []string{"misplaced"}, usual: append([]Place{Missing}, inHouse...), to: Stray},
	{events: []string{"found"}, usual: lost, to: Cabinet},
	{events: []string{"in"}, usual: append([]Place{InBag}, atHand...), to: Freezer},
	{events: []string{"out"}, usual: []Place{Freezer}, to: InBag, done: "treated"},
	{events: []string{"unpacked"}, usual: []Place{InBag}, to: InTray, leaves: true},
	{events: []string{"glued"}, usual: append([]Place{InBag}, atHand...), to: Weights, needs: needDry},
	{events: []string{"lifted"}, usual: []Place{Weights}, to: InTray, done: "mounted"},
	{events: []string{"mounted"}, usual: append([]Place{Weights, InBag}, atHand...), to: InTray, done: "mounted", needs: needDry},
	{events: []string{"printed"}, done: "printed"},
	{events: []string{"labelled"}, done: "labelled"},
	{events: []string{"pictured"}, done: "pictured"},
	{events: []string{"sampled"}, done: "sampled"},
	{events: []string{"treated"}, kinds: []string{"conservation"}, usual: inHouse, done: "repaired"},
	{events: []string{"checked"}, usual: inHouse, done: "checked"},
	{events: []string{"surveyed"}, usual: inHouse, done: "surveyed"},
	{events: []string{"inspected"}, done: "inspected"},
	{events: []string{"filed"}, usual: resting, to: Cabinet, leaves: true, done: "filed", needs: needClean},
	{events: []string{"taken"}, usual: []Place{Cabinet, InTray, Display, Stray}, to: OutCard},
	{events: []string{"displayed"}, usual: []Place{Cabinet, InTray, OutCard}, to: Display},
	{events: []string{"back"}, usual: []Place{OutCard, Display}, to: Cabinet, leaves: true},
	{events: []string{"packed"}, usual: atHand, to: Packed},
	{events: []string{"sent"}, kinds: []string{"loan"}, usual: append([]Place{Packed}, atHand...), to: OnLoan, done: "lent"},
	{events: []string{"sent"}, usual: append([]Place{Packed}, atHand...), to: Gone, done: "sent"},
	{events: []string{"acknowledged"}},
	{events: []string{"extended", "recalled"}},
	{events: []string{"lost"}, to: Missing, leaves: true},
	{events: []string{"sent-back"}, usual: inHouse, to: Gone, leaves: true},
	{events: []string{"found-pest", "read", "replaced", "removed", "measured", "cleared", "reported", "lapsed"}},
	{events: []string{"closed", "noted", "renumbered", "swapped"}},
}

// moveOf is the row of an event in a kind of work, and its place in the life of
// a thing. An event that the table does not have changes nothing.
func moveOf(kind, event string) (*move, int) {
	m := moves[kind+" "+event]
	if m == nil {
		return &table[len(table)-1], rank(event)
	}
	return m, ranks[event]
}

// rank is an event's place in the life of a thing. What is not of the table
// stands last but for closing.
func rank(event string) int {
	if r, ok := ranks[event]; ok {
		return r
	}
	return len(table) - 1
}

var ranks, moves = rowsOf()

func rowsOf() (map[string]int, map[string]*move) {
	ranks, moves := map[string]int{}, map[string]*move{}
	for i := range table {
		m := &table[i]
		for _, event := range m.events {
			if _, ok := ranks[event]; !ok {
				ranks[event] = i
			}
			for _, k := range kindsOf(m, event) {
				if moves[k+" "+event] == nil {
					moves[k+" "+event] = m
				}
			}
		}
	}
	ranks[eventClosed] = len(table)
	return ranks, moves
}

// isUsual reports whether a thing in a place is where the event is usual.
func (m *move) isUsual(at Place) bool { return m.usual == nil || slices.Contains(m.usual, at) }
