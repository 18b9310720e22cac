package work

import (
	"slices"
	"strings"

	"blotter/ledger/dates"
)

// Balance is what stands between the museum and one partner at the end of a
// day, by the files of work/ alone: what only a record's list of duplicates
// tells is not in it.
type Balance struct {
	Partner  string // as on lists
	LoansOut int    // of ours, with sheets there
	Out      int    // sheets of ours there
	Late     int    // of these overdue
	LoansIn  int    // of theirs, with sheets here
	In       int    // sheets of theirs here
	Sent     int    // in exchange
	Received int    // in exchange
	Given    int    // as gifts
}

// Owed is how many duplicates the partner owes: sent less received (exchange
// is one for one; common practice).
func (b Balance) Owed() int { return b.Sent - b.Received }

// Balances are those of all partners whom works name, in order of their words.
func (w *Works) Balances(on dates.Day) []Balance {
	by := map[string]*Balance{}
	for _, f := range w.Files {
		if f.Kind.Name == "sampling" || !Lends(f.Kind.Name) || !f.Work.Partner.Set() {
			continue
		}
		key := w.PartnerKey(f.Work.Partner.Text)
		b := by[key]
		if b == nil {
			b = &Balance{Partner: w.PartnerWords(f.Work.Partner.Text)}
			by[key] = b
		}
		l := w.Loan(f, on)
		switch out := l.Outstanding(); f.Kind.Name {
		case "loan":
			if out > 0 && l.Closed == nil {
				b.LoansOut, b.Out = b.LoansOut+1, b.Out+out
				if l.Late() > 0 {
					b.Late += out
				}
			}
		case "borrowing":
			if out > 0 && l.Closed == nil {
				b.LoansIn, b.In = b.LoansIn+1, b.In+out
			}
		case "gift":
			b.Given += w.moved(f, "sent", on)
		case "exchange":
			b.Sent += w.moved(f, "sent", on)
			b.Received += w.moved(f, "received", on)
		}
	}
	var out []Balance
	for _, b := range by {
		out = append(out, *b)
	}
	slices.SortFunc(out, func(a, b Balance) int { return strings.Compare(a.Partner, b.Partner) })
	return out
}

// moved is how many things the lines of a verb moved: as they count, else one
// for each that they name, else all that was packed or selected.
func (w *Works) moved(f *File, verb string, on dates.Day) int {
	n := 0
	for _, e := range f.Events {
		if e.Verb != verb || e.Day > on {
			continue
		}
		if count, _, ok := ReadCount(e.Line.Count.Text); ok {
			n += count
			continue
		}
		if e.All() {
			n += w.Loan(f, on).Gone()
			continue
		}
		for _, i := range e.Items {
			switch {
			case i.Sheet != "":
				n += len(w.sheetsOf(i))
			case i.Who != "":
				n += len(figuresOf(i.No, i.LastN))
			default:
				n++
			}
		}
	}
	return n
}
