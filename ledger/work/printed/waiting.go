package printed

import (
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/work"
)

// MayWait reports whether a sheet may still want its first label, as far as
// the works and the entry of its record say: none was printed, it has none of
// before the ledger, nothing became of it, and it is new material: gathered
// from the day newFrom on, or come into the house by a work. HasLabel of its
// record says the rest.
func MayWait(w *work.Works, e *book.Entry, newFrom dates.Day) bool {
	if e.Stage != ledger.Full || e.Fate != "" {
		return false
	}
	fresh := e.Dated && e.Last >= newFrom
	for _, x := range w.HistoryOf(e.Number) {
		if x.Verb == "labelled" || x.Verb == "here" {
			return false
		}
		fresh = fresh || came(x)
		if p, ok := PrintingOf(x); ok && p.Paper == Labels {
			return false
		}
	}
	return fresh
}

// Asked reports whether the state of a sheet that may want a label asks for
// one, so that a list for the wall tells of it: a work says that it came into
// the house; or it was gathered no more than a year before the first label was
// printed here. What is neither and was entered before that first printing has
// a label of before, printed by whatever the museum had then (own judgement).
func Asked(w *work.Works, e *book.Entry, first dates.Day) bool {
	return e.Dated && e.Last >= first-lastSeason || slices.ContainsFunc(w.HistoryOf(e.Number), came)
}

// lastSeason is how many days before the first printing what was gathered then
// still waits to be labelled.
const lastSeason = 366

// came reports whether an event brings a sheet into the house.
func came(e *work.Event) bool {
	switch e.Verb {
	case "pressed", "drying", "dried", "received", "accessioned":
		return true
	}
	return false
}

// HasLabel reports whether a record tells of a label that is on the sheet: one
// copied to the letter, that of a set, that of the herbarium it came from. A
// determination "from: label" tells nothing: so is entered what a label bears
// that is still to be printed.
func HasLabel(r *ledger.Record) bool {
	for _, w := range r.Writings {
		if strings.Contains(strings.ToLower(w.OnSheet.Text), "label") {
			return true
		}
	}
	return r.Exsiccata.Number.Set() || r.FormerHerb.Set()
}
