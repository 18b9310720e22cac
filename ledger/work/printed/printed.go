// Package printed tells from the works of a ledger which papers were printed
// for a sheet and from which revision, which sheets wait for a label, and how
// the words of a paper differ from those that were printed. It reads no file.
package printed

import (
	"cmp"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/work"
)

// Papers that are asked for by name. Labels is the paper that a printing is of
// when it does not say: lines of before papers were told apart.
const (
	Labels = "labels"
	Slips  = "slips"
	Types  = "types"
)

// Printing is one time that a paper was printed for a sheet.
type Printing struct {
	Paper    string // one of ledger.PaperWords
	Revision string // of the ledger that it was printed from, as written; "" when the line has none
	Day      dates.Day
	By       string
	Work     ledger.WorkNumber
}

// PrintingOf is what an event says was printed; false for an event of another
// kind.
func PrintingOf(e *work.Event) (Printing, bool) {
	if e.Verb != "printed" {
		return Printing{}, false
	}
	return Printing{cmp.Or(e.Line.Paper.Text, Labels), e.Line.Revision.Text, e.Day, e.Line.By.Text, e.File.Number}, true
}

// Of are the printings of a paper for a sheet, oldest first.
func Of(w *work.Works, n ledger.Number, paper string) []Printing {
	var all []Printing
	for _, e := range w.HistoryOf(n) {
		if p, ok := PrintingOf(e); ok && p.Paper == paper {
			all = append(all, p)
		}
	}
	return all
}

// Last is the last of them; false when there is none.
func Last(w *work.Works, n ledger.Number, paper string) (Printing, bool) {
	all := Of(w, n, paper)
	if len(all) == 0 {
		return Printing{}, false
	}
	return all[len(all)-1], true
}

// First is the first time that a paper was printed in this museum; false when
// it never was.
func First(w *work.Works, paper string) (Printing, bool) {
	for _, e := range w.Events() {
		if p, ok := PrintingOf(e); ok && p.Paper == paper {
			return p, true
		}
	}
	return Printing{}, false
}

// Papers are the last printings of a sheet up to the end of a day, one of each
// paper, in the order of ledger.PaperWords.
func Papers(w *work.Works, n ledger.Number, on dates.Day) []Printing {
	last := map[string]Printing{}
	for _, e := range w.HistoryOf(n) {
		if p, ok := PrintingOf(e); ok && p.Day <= on {
			last[p.Paper] = p
		}
	}
	var all []Printing
	for _, paper := range ledger.PaperWords {
		if p, ok := last[paper]; ok {
			all = append(all, p)
		}
	}
	return all
}

// Words are what is told of it: label printed 3 November 2026, revision 3f2a91c.
func (p Printing) Words() string {
	words := p.Paper + " printed " + dates.Words(p.Day)
	if p.Paper != "exsiccata" {
		words = strings.TrimSuffix(p.Paper, "s") + words[len(p.Paper):]
	}
	if p.Paper == Types {
		words = "type label" + words[len("type"):]
	}
	if n := min(len(p.Revision), shownRevision); n > 0 {
		words += ", revision " + p.Revision[:n]
	}
	return words
}

// shownRevision is how much of a revision is shown, as everywhere.
const shownRevision = 7

// Batch is the sheets whose last printing of a paper was from one revision.
type Batch struct {
	Revision string
	Sheets   []Sheet // in order of number
}

// Sheet is one of them.
type Sheet struct {
	Number ledger.Number
	Bore   ledger.Number // what stands on the paper: of a plant that has got another number since, the old one
	Printing
}

// Batches are all sheets for which a paper was printed, by the revision of the
// last time, in order of revision: what was printed from one state is looked
// up together.
func Batches(w *work.Works, paper string) []Batch {
	last := map[ledger.Number]Sheet{}
	for _, e := range w.Events() {
		p, ok := PrintingOf(e)
		if !ok || p.Paper != paper {
			continue
		}
		for _, t := range w.About(e) {
			if t.Sheet != "" {
				last[t.Sheet] = Sheet{t.Sheet, e.Bore(t.Sheet), p}
			}
		}
	}
	by := map[string]*Batch{}
	var all []*Batch
	for _, s := range last {
		b := by[s.Revision]
		if b == nil {
			b = &Batch{Revision: s.Revision}
			by[s.Revision], all = b, append(all, b)
		}
		b.Sheets = append(b.Sheets, s)
	}
	slices.SortFunc(all, func(a, b *Batch) int { return cmp.Compare(a.Revision, b.Revision) })
	out := make([]Batch, len(all))
	for i, b := range all {
		slices.SortFunc(b.Sheets, func(x, y Sheet) int { return cmp.Compare(x.Number, y.Number) })
		out[i] = *b
	}
	return out
}
