package main

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/reading"
	"blotter/ledger/work"
	"blotter/render/document"
)

// packingPrint is the list that travels with the sheets.
func packingPrint() printKind {
	return printKind{
		Name: "packing", Takes: "LOAN", Says: "the list that travels with a loan, gift or exchange: sheets, condition, cautions, how to pack",
		Flags: []*flag{flagOn}, Make: loanDocument((*lendingPaper).packing),
	}
}

// receiptPrint is what the borrower sends back.
func receiptPrint() printKind {
	return printKind{
		Name: "receipt", Takes: "LOAN", Says: "the form by which a loan is acknowledged: count, condition, terms; of a borrowing our acknowledgement",
		Flags: []*flag{flagOn}, Make: loanDocument((*lendingPaper).receipt),
	}
}

// lendingPaper is a loan on a day, and what its papers are made of.
type lendingPaper struct {
	desk *desk
	w    *work.Works
	load *book.Loader
	file *work.File
	loan *work.Loan
	on   dates.Day
}

// loanDocument makes a document about the one loan that is typed.
func loanDocument(write func(*lendingPaper, context.Context) (*document.Document, error)) func(context.Context, *desk, []string) (*document.Document, error) {
	return func(ctx context.Context, d *desk, words []string) (*document.Document, error) {
		if len(words) != 1 {
			return nil, misuse("of which loan? One number").try("blotter print " + d.args[0] + " loan-2026-004")
		}
		n, err := d.workArgument(words[0])
		if err != nil {
			return nil, err
		}
		p, err := d.lendingPaper(ctx, n)
		if err != nil {
			return nil, err
		}
		return write(p, ctx)
	}
}

func (d *desk) lendingPaper(ctx context.Context, n ledger.WorkNumber) (*lendingPaper, error) {
	w, on, err := d.worksOnDay(ctx)
	if err != nil {
		return nil, err
	}
	f := w.Find(n)
	if f == nil || !work.Lends(f.Kind.Name) {
		return nil, misuse("%s is no loan, gift, exchange or sampling", n)
	}
	return &lendingPaper{desk: d, w: w, load: w.Book().Loader(d.source(), d.cache()), file: f, loan: w.Loan(f, on), on: on}, nil
}

// going are the things that are packed, else those sent, else those chosen.
func (p *lendingPaper) going() []*work.Lent {
	for _, stage := range []work.Stage{work.Ready, work.Out, work.Chosen, work.Asked, work.Back} {
		var all []*work.Lent
		for _, t := range p.loan.Things {
			if t.Stage == stage {
				all = append(all, t)
			}
		}
		if len(all) > 0 {
			return all
		}
	}
	return nil
}

func countOf(things []*work.Lent) int {
	n := 0
	for _, t := range things {
		n += t.Count
	}
	return n
}

// packing is the packing list.
func (p *lendingPaper) packing(ctx context.Context) (*document.Document, error) {
	things := p.going()
	if len(things) == 0 {
		return nil, stuck("%s holds nothing that could be packed", p.file.Number).try("blotter log " + string(p.file.Number) + " selected SHEETS")
	}
	doc := &document.Document{Title: "Packing list of " + string(p.file.Number)}
	p.parties(doc)
	doc.Lines(p.facts(countOf(things))...)
	rows, cautions, err := p.rows(ctx, things)
	if err != nil {
		return nil, err
	}
	for _, c := range cautions {
		doc.Caution(c)
	}
	doc.Table([]string{"sheet", "condition", "note", "collector", "name"}, rows)
	doc.Names("name")
	doc.Heading("How it is packed")
	doc.Items(leafList(p.w.Habits.Loans.Packing)...)
	for _, l := range p.barLines(ctx, things) {
		p.desk.tell("%s", l)
	}
	doc.Fill(document.Field{Label: "Packed by", Wide: 2.5}, document.Field{Label: "Date"}, document.Field{Label: "Counted", Wide: 0.7, After: "sheets"})
	return doc, nil
}

// barLines are the reasons that stand against sending the sheets.
func (p *lendingPaper) barLines(ctx context.Context, things []*work.Lent) []string {
	if p.file.Kind.Name == "borrowing" || things[0].Stage == work.Out {
		return nil
	}
	bars, err := p.w.Bars(ctx, p.load, work.Sending{File: p.file, Verb: "sent", On: p.on, Sheets: lentNumbers(things)})
	if err != nil {
		return []string{err.Error()}
	}
	var out []string
	for _, b := range bars {
		out = append(out, "Not to be sent without a reason: "+string(b.Sheet)+": "+b.Words+" ["+b.Rule+"]")
	}
	return out
}

func lentNumbers(things []*work.Lent) []ledger.Number {
	var all []ledger.Number
	for _, t := range things {
		if t.Sheet != "" {
			all = append(all, t.Sheet)
		}
	}
	return all
}

// parties are the two sides, with their addresses.
func (p *lendingPaper) parties(doc *document.Document) {
	own := append([]string{"From: " + p.desk.museum.Code.Text + " " + p.desk.museum.Name.Text}, p.addressOf(p.desk.museum.Code.Text)...)
	theirs := append([]string{"To: " + joinNonEmpty(", ", p.w.PartnerWords(p.file.Work.Partner.Text), p.file.Work.Person.Text)}, p.addressOf(p.file.Work.Partner.Text)...)
	if p.file.Kind.Name == "borrowing" {
		own[0], theirs[0] = strings.Replace(own[0], "From: ", "To: ", 1), strings.Replace(theirs[0], "To: ", "From: ", 1)
	}
	doc.Lines(own...)
	doc.Lines(theirs...)
}

func (p *lendingPaper) addressOf(partner string) []string {
	entry := p.w.PartnerOf(partner)
	if entry == nil {
		return nil
	}
	out := leafList(entry.Address)
	if entry.Country.Set() {
		out = append(out, entry.Country.Text)
	}
	if entry.Treaty.Set() {
		out = append(out, "Registered under the treaty on trade in species: "+entry.Treaty.Text)
	}
	return out
}

func leafList(ls []ledger.Leaf) []string {
	out := make([]string, len(ls))
	for i, l := range ls {
		out[i] = l.Text
	}
	return out
}

// facts are the lines that say what it is.
func (p *lendingPaper) facts(n int) []string {
	w := p.file.Work
	lines := []string{
		"Number of sheets: " + thousands(n),
		prefixedAny("What for: ", w.Purpose.Text),
		prefixedAny("Your number: ", w.Theirs.Text),
		prefixedAny("Day: ", dates.Words(p.on)),
	}
	if p.loan.Sent != 0 {
		lines[3] = "Sent: " + dates.Words(p.loan.Sent)
	}
	if due := p.loan.Due(); due != 0 {
		lines = append(lines, "To be back by: "+dates.Words(due))
	}
	for _, c := range w.Conditions {
		lines = append(lines, "Condition of the loan: "+c.Text)
	}
	for _, c := range w.Permits {
		lines = append(lines, "Under permit: "+c.Text)
	}
	return lines
}

// poisonWords go with every sheet that was, or may have been, treated.
const poisonWords = "sheets marked \"treated\" may carry mercury or arsenic, many of them only by their age. Gloves, a ventilated place, wash your hands; your own rules and licensed practice come first."

// rows are the sheets, one a row, and the cautions that travel with them.
func (p *lendingPaper) rows(ctx context.Context, things []*work.Lent) (rows [][]string, cautions []string, err error) {
	words := map[string]int{}
	for _, t := range things {
		row := []string{t.Words, gradeWords(t.Grade), "", "", ""}
		if t.Entry != nil {
			r, err := p.load.Record(ctx, t.Entry)
			if err != nil {
				return nil, nil, stuck("read %s: %v", t.Entry.Path, err)
			}
			notes := slices.Clone(t.Entry.Types)
			for _, c := range reading.Of(r, reading.ConventionsOf(p.desk.museum)).Cautions {
				said := c.Words
				if c.Treated() && c.Assumed {
					said = "treated, assumed"
				}
				notes = append(notes, said)
				words[cautionKind(c)]++
			}
			if p.w.Withheld(t.Entry) {
				notes = append(notes, "exact place not to be published")
			}
			row[2] = strings.Join(notes, "; ")
			row[3] = joinNonEmpty(" ", r.Collector.Text, r.CollNo.Text)
			row[4] = p.desk.standing(r).shown
		}
		rows = append(rows, row)
	}
	for _, c := range p.file.Work.Cautions {
		words[c.Text] += countOf(things)
	}
	for _, kind := range slices.Sorted(maps.Keys(words)) {
		said := fmt.Sprintf("%s: %s.", count(words[kind], "sheet"), kind)
		if kind == "treated" {
			said = count(words[kind], "sheet") + ": " + poisonWords
		}
		cautions = append(cautions, said)
	}
	return rows, cautions, nil
}

func cautionKind(c reading.Caution) string {
	if c.Treated() {
		return "treated"
	}
	return c.Words
}

// gradeWords is a grade of condition as it stands on paper.
func gradeWords(grade string) string {
	words := map[string]string{"1": "1 good", "2": "2 fair", "3": "3 at risk", "4": "4 not to be handled"}
	if w, ok := words[grade]; ok {
		return w
	}
	return grade
}

// receipt is the form that acknowledges a loan; of a borrowing it is filled in.
func (p *lendingPaper) receipt(ctx context.Context) (*document.Document, error) {
	things := p.going()
	n := countOf(things)
	doc := &document.Document{Title: "Receipt for " + string(p.file.Number)}
	if theirs := p.file.Work.Theirs.Text; p.file.Kind.Name == "borrowing" && theirs != "" {
		doc.Title = "Receipt for " + theirs + " (ours: " + string(p.file.Number) + ")"
	}
	p.parties(doc)
	doc.Lines(p.facts(n)...)
	if p.file.Kind.Name == "borrowing" {
		doc.Say(fmt.Sprintf("We have received %s in order, but for what is noted below.", count(n, "sheet")))
	} else {
		doc.Say(fmt.Sprintf("This form is sent back on receipt. The packing list has %s.", count(n, "sheet")))
		doc.Blank("Sheets counted", "Date of receipt")
		doc.Tick("The count agrees with the list:", document.Boxes([]string{"yes", "no"})...)
	}
	doc.Blank("Damage seen (sheet, what)")
	doc.Blank("")
	doc.Blank("")
	if p.file.Kind.Name == "loan" || p.file.Kind.Name == "borrowing" {
		doc.Heading("Terms")
		doc.Items(leafList(p.w.Habits.Loans.Terms)...)
	}
	doc.Fill(document.Field{Label: "Name and signature", Wide: 2.5}, document.Field{Label: "Date"})
	rows, _, err := p.rows(ctx, things)
	if err != nil {
		return nil, err
	}
	doc.Table([]string{"sheet", "condition", "note", "collector", "name"}, rows)
	doc.Names("name")
	return doc, nil
}
