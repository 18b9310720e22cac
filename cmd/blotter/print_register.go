package main

import (
	"cmp"
	"context"
	"fmt"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/work"
	"blotter/render/document"
)

func registerPrint() printKind {
	return printKind{
		Name: "register", Takes: "[YEAR | FROM..TO]", Says: "the accession register of a time, a line for each lot, with lines to write on below",
		Flags: []*flag{flagOn},
		Make: func(ctx context.Context, d *desk, words []string) (*document.Document, error) {
			w, on, err := d.worksOnDay(ctx)
			if err != nil {
				return nil, err
			}
			from, to, err := registerDays(words, on)
			if err != nil {
				return nil, err
			}
			p := &formPaper{desk: d, w: w, on: on}
			doc := &document.Document{}
			p.register(doc, from, to)
			return doc, nil
		},
	}
}

// registerDays is the time that is typed; nothing is the year of the day.
func registerDays(words []string, on dates.Day) (from, to dates.Day, err error) {
	if len(words) > 1 {
		return 0, 0, misuse("%q is too much; a register is of one time", words[1])
	}
	if len(words) == 0 {
		return dates.DayOf(on.Year(), 1, 1), dates.DayOf(on.Year(), 12, 31), nil
	}
	first, last, span := strings.Cut(words[0], "..")
	if !span {
		last = first
	}
	a, b := dates.Read(first, dates.Ask), dates.Read(last, dates.Ask)
	if !a.Known() || !b.Known() || a.OpenEnd || b.OpenEnd || a.First > b.Last {
		return 0, 0, misuse("%q is no time", words[0]).try("blotter print register 2026", "blotter print register 2026-01-01..2026-06-30")
	}
	return a.First, b.Last, nil
}

var registerHeads = []string{"lot", "received", "source", "how much", "numbers", "permits and conditions", "treated", "mounted", "filed", "note"}

// registerGrid gives the columns their shares of a page that lies on its side.
var registerGrid = document.Grid{Blank: 4, ToFoot: true, Height: 10, Wide: []float64{2.2, 2, 3, 1.8, 2.4, 3.2, 1.3, 1.3, 1.3, 2.4}}

// registerForm is a blank page of the register.
func (p *formPaper) registerForm(_ context.Context, doc *document.Document) error {
	doc.Title, doc.Wide = "Accession register, "+p.desk.museum.Name.Text, true
	doc.Blank("From", "to", "first number", "last number")
	doc.Grid(registerHeads, nil, registerGrid)
	signed(doc, "Closed by")
	return nil
}

// register are the lots that were received from one day to another.
func (p *formPaper) register(doc *document.Document, from, to dates.Day) {
	doc.Title = "Accession register, " + p.desk.museum.Name.Text + ", " + dates.Words(from) + " to " + dates.Words(to)
	doc.Wide = true
	var rows [][]string
	var before, after ledger.Number
	for _, f := range p.w.Files {
		day := lotDay(f)
		if f.Kind.Name != "accession" || day == 0 || day > to || day > p.on {
			continue
		}
		p.file = f
		for _, t := range p.lotThings() {
			after = higher(after, t.Sheet)
			if day < from {
				before = higher(before, t.Sheet)
			}
		}
		if day >= from {
			rows = append(rows, p.registerRow(day))
		}
	}
	p.file = nil
	doc.Fill(known("Highest number in a lot before", cmp.Or(string(before), "none")), known("at the end", cmp.Or(string(after), "none")), known("Lots", thousands(len(rows))))
	doc.Grid(registerHeads, rows, registerGrid)
	doc.Say("Treated, mounted and filed count the sheets of a lot that have a number. A number is never used twice.")
	signed(doc, "Closed by")
}

// lotDay is the day on which a lot came; 0 when no line says it.
func lotDay(f *work.File) dates.Day {
	first := dates.Day(0)
	for _, e := range f.Events {
		if first == 0 || e.Day < first {
			first = e.Day
		}
		if e.Verb == "received" {
			return e.Day
		}
	}
	return first
}

// higher is the one of two numbers that was given later.
func higher(a, b ledger.Number) ledger.Number {
	x, okA := a.Serial()
	y, okB := b.Serial()
	if okB && (!okA || x < y) {
		return b
	}
	return a
}

// lotThings are all things that a lot ever held, each once.
func (p *formPaper) lotThings() (all []work.Thing) {
	seen := map[string]bool{}
	for _, e := range p.events() {
		if e.All() {
			continue
		}
		for _, t := range p.w.About(e) {
			if !seen[t.Key] {
				seen[t.Key] = true
				all = append(all, t)
			}
		}
	}
	return all
}

// registerRow is the line of a lot.
func (p *formPaper) registerRow(day dates.Day) []string {
	f := p.file
	var ns []ledger.Number
	done := map[string]int{}
	for _, t := range p.lotThings() {
		if t.Sheet == "" {
			continue
		}
		ns = append(ns, t.Sheet)
		state := p.w.State(t.Sheet, p.on)
		for _, what := range []string{"treated", "mounted", "filed"} {
			if _, ok := state.Has(what); ok {
				done[what]++
			}
		}
	}
	of := func(what string) string {
		if len(ns) == 0 {
			return ""
		}
		return fmt.Sprintf("%d of %d", done[what], len(ns))
	}
	var spans []string
	for _, s := range spansOf(ns) {
		spans = append(spans, strings.Replace(s, "..", " to ", 1))
	}
	var terms []string
	for _, l := range f.Work.Permits {
		words := l.Text
		for _, x := range p.w.PermitsOf(l.Text) {
			if n := x.Work.Permit.Number.Text; n != "" && n != l.Text {
				words += " (" + n + ")"
			}
		}
		terms = append(terms, words)
	}
	terms = append(terms, leafList(f.Work.Conditions)...)
	return []string{string(f.Number), dates.Words(day), joinNonEmpty(", ", f.Work.Source.Text, p.w.PartnerWords(f.Work.Partner.Text)), p.lotCount(ns), strings.Join(spans, ", "),
		strings.Join(terms, "; "), of("treated"), of("mounted"), of("filed"), joinNonEmpty("; ", f.Work.Title.Text, f.Work.Standing.Text)}
}

// lotCount is how much came: as counted last, else as received, else the
// sheets with numbers.
func (p *formPaper) lotCount(ns []ledger.Number) string {
	said := ""
	for _, e := range p.events() {
		if e.Line.Count.Set() && (e.Verb == "received" || e.Verb == "counted") {
			said = e.Line.Count.Text
			if e.Line.How.Text == "estimated" {
				said = "about " + said
			}
		}
	}
	if said == "" && len(ns) > 0 {
		said = count(len(ns), "sheet")
	}
	return said
}
