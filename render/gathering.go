package render

import (
	"blotter/ledger"
	"blotter/render/page"
)

// gathering is what else there is of the same plant: duplicates, further
// sheets, parts taken, who has seen it. Of a withheld sheet much of it is
// withheld too: from where a duplicate went, the place may follow.
func (x *sheet) gathering() []page.Block {
	var lines [][]page.Part
	for i := range x.r.Duplicates {
		if l := x.duplicate(&x.r.Duplicates[i]); l != nil {
			lines = append(lines, l)
		}
	}
	if l := x.numbers(x.lang.FurtherSheets, x.r.SameGathering); l != nil {
		lines = append(lines, l)
	}
	if l := x.numbers(x.lang.SharesSheet, x.r.SharesSheet); l != nil {
		lines = append(lines, l)
	}
	for i := range x.r.Annotations {
		if l := x.annotation(&x.r.Annotations[i]); l != nil {
			lines = append(lines, l)
		}
	}
	for _, held := range []struct{ field, word string }{{"duplicates", x.lang.Duplicates}, {"same_gathering", x.lang.FurtherSheets}, {"shares_sheet", x.lang.SharesSheet}} {
		if x.withholds(held.field) {
			lines = append(lines, []page.Part{said(held.word + ": "), x.hold})
		}
	}
	if len(lines) == 0 {
		return nil
	}
	return []page.Block{page.Lines{List: lines}}
}

func (x *sheet) duplicate(d *ledger.Duplicate) []page.Part {
	out := []page.Part{said(x.lang.Duplicates + ": ")}
	n := 0
	add := func(ps ...page.Part) {
		if n++; n > 1 {
			out = append(out, said(", "))
		}
		out = append(out, ps...)
	}
	if d.Made.Set() {
		add(page.FillParts(x.lang.MadeWord, []page.Part{page.Person(d.Made.Text)})...)
	}
	if d.OnHand.Set() {
		add(page.FillParts(x.lang.OnHand, []page.Part{page.Person(d.OnHand.Text)})...)
	}
	if d.Sent.Set() {
		add(page.FillParts(x.lang.SentTo, []page.Part{page.Person(d.Sent.Text)})...)
	}
	if d.Number.Set() {
		add(page.FillParts(x.lang.TheirNumber, []page.Part{page.Person(d.Number.Text)})...)
	}
	if d.Date.Set() {
		add(said(x.dayOf(d.Date.Text)))
	}
	if n == 0 {
		return nil
	}
	return out
}

// numbers links to other specimens of ours; one that is not published is
// named without a link.
func (x *sheet) numbers(word string, ls []ledger.Leaf) []page.Part {
	if len(ls) == 0 {
		return nil
	}
	x.related = true
	out := []page.Part{said(word + ": ")}
	for i, l := range ls {
		if i > 0 {
			out = append(out, said(", "))
		}
		out = append(out, x.sheetLink(ledger.Number(l.Text)))
	}
	return out
}

func (s *shelf) sheetLink(n ledger.Number) page.Part {
	if s.published(n) == nil {
		return page.Person(string(n))
	}
	return page.Link{To: sheetAddress(n), Text: []page.Part{page.Person(string(n))}}
}

// annotation is something done or seen; questions are for the staff.
func (x *sheet) annotation(a *ledger.Annotation) []page.Part {
	if !x.in.Book.Staff() && (a.Kind.Text == "question" || a.Kind.Text == "note") {
		return nil
	}
	out := []page.Part{said(upperFirst(x.lang.Kind(a.Kind.Text)))}
	if !a.What.Set() && x.held {
		out = append(out, said(": "), x.hold)
	}
	if a.What.Set() {
		out = append(out, said(": "), page.Quote{Words: page.Words(a.What.Text)})
	}
	if a.By.Set() {
		out = append(out, said(", "), x.personName(a.By.Text))
	}
	if a.Date.Set() {
		out = append(out, said(", "+x.dayOf(a.Date.Text)))
	}
	return out
}

// maxCorrections are on the page itself; the rest is on a page of its own.
const maxCorrections = 50

func (x *sheet) corrections() []page.Block {
	cs := x.story.Corrections
	if len(cs) == 0 {
		return nil
	}
	out := []page.Block{x.correctionTable(cs[:min(len(cs), maxCorrections)])}
	if n := len(cs) - maxCorrections; n > 0 {
		out = append(out, page.Para{Parts: []page.Part{page.Link{To: correctionsAddress(x.e.Number), Text: []page.Part{said(page.Fill(x.lang.MoreCorrections, itoa(n)))}}}})
	}
	return out
}

func correctionsAddress(n ledger.Number) page.Address { return sheetAddress(n) + "-corrections" }

func (x *sheet) correctionTable(cs []Correction) page.Table {
	l := x.lang
	t := page.Table{Caption: page.Said(l.CorrCaption), Head: []page.Said{page.Said(l.CorrDay), page.Said(l.CorrField), page.Said(l.CorrBefore), page.Said(l.CorrAfter), page.Said(l.CorrReason), page.Said(l.CorrBy)}}
	for _, c := range cs {
		row := []page.Cell{sayCell(x.day(c.When)), sayCell(x.fieldWords(c.Field))}
		switch {
		case c.Withheld:
			row = append(row, sayCell(l.ChangedWithheld), sayCell(l.ChangedWithheld), sayCell(l.ChangedWithheld))
		case x.held: // why it was may tell the place
			row = append(row, wordCell(c.Before, l.NothingBefore), wordCell(c.After, l.NothingBefore), page.Cell{Said: []page.Part{x.hold}})
		case c.Decided && c.Reason == "":
			row = append(row, wordCell(c.Before, l.NothingBefore), wordCell(c.After, l.NothingBefore), sayCell(l.DecidedReason))
		default:
			row = append(row, wordCell(c.Before, l.NothingBefore), wordCell(c.After, l.NothingBefore), wordCell(c.Reason, l.NoReason))
		}
		by := []page.Part{page.Person(x.clerk(c.By))}
		if c.ID != "" {
			by = append(by, said(", "+page.Fill(l.Revision, c.Short())))
		}
		t.Rows = append(t.Rows, append(row, page.Cell{Said: by}))
	}
	return t
}

func sayCell(s string) page.Cell { return page.Cell{Said: []page.Part{said(s)}} }

func wordCell(words, none string) page.Cell {
	if words == "" {
		return sayCell(none)
	}
	return page.Cell{Words: page.Words(words)}
}

// correctionsPage is all corrections of a sheet that has too many for its own.
func (x *sheet) correctionsPage() *page.Page {
	p := &page.Page{Address: correctionsAddress(x.e.Number), Number: page.Words(x.e.Number), Heading: []page.Part{said(x.lang.Corrections)},
		Title: page.Fill(x.lang.SpecimenTitle, string(x.e.Number), x.lang.Corrections), Twinless: x.in.Options.HTMLOnly}
	p.Trail = []page.Link{{To: sheetAddress(x.e.Number), Text: []page.Part{page.Person(string(x.e.Number))}}}
	p.Lead = []page.Block{x.correctionTable(x.story.Corrections)}
	return p
}
