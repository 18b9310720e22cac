package printed

import (
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
		switch x.Verb {
		case "labelled", "here":
			return false
		case "pressed", "drying", "dried", "received", "accessioned":
			fresh = true
		}
		if p, ok := of(x); ok && p.Paper == Labels {
			return false
		}
	}
	return fresh
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
