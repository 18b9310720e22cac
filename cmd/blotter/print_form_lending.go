package main

import (
	"cmp"
	"context"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/work"
	"blotter/render/document"
)

// lending is the paper of the work that fills a form of lending.
func (p *formPaper) lending() *lendingPaper {
	return &lendingPaper{desk: p.desk, w: p.w, load: p.w.Book().Loader(p.desk.source(), p.desk.cache()), file: p.file, loan: p.w.Loan(p.file, p.on), on: p.on}
}

// packingForm is the packing list; blank it has rows to write in.
func (p *formPaper) packingForm(ctx context.Context, doc *document.Document) error {
	if p.file != nil {
		made, err := p.lending().packing(ctx)
		if err == nil {
			*doc = *made
		}
		return err
	}
	doc.Title = "Packing list"
	p.from(doc)
	p.blankParties(doc)
	doc.Tick("It is", document.Boxes([]string{"a loan", "a gift", "an exchange", "to be sampled", "sent back"})...)
	doc.Blank("What for", "To be back by")
	doc.Caution(poison)
	doc.Grid([]string{"sheet", "condition", "note", "collector and number", "name"}, nil, document.Grid{Blank: 8, ToFoot: true, Wide: []float64{2.2, 1.4, 2.4, 2.6, 4}})
	doc.Heading("How it is packed")
	doc.Tick("", document.Boxes(leafList(p.w.Habits.Loans.Packing))...)
	doc.Fill(document.Field{Label: "Packed by", Wide: 2.5}, document.Field{Label: "Date"}, document.Field{Label: "Counted", Wide: 0.7, After: "sheets"})
	return nil
}

func (p *formPaper) blankParties(doc *document.Document) {
	doc.Blank("To")
	doc.Blank("")
	doc.Blank("Our number", "Your number", "Date")
}

// receiptForm is the receipt; blank it is for whatever comes in.
func (p *formPaper) receiptForm(ctx context.Context, doc *document.Document) error {
	if p.file != nil {
		made, err := p.lending().receipt(ctx)
		if err == nil {
			*doc = *made
		}
		return err
	}
	doc.Title = "Receipt"
	p.from(doc)
	p.blankParties(doc)
	doc.Blank("Sheets on the list", "Sheets counted", "Date of receipt")
	doc.Tick("The count agrees with the list:", document.Boxes([]string{"yes", "no"})...)
	doc.Caution(poison + " What came in goes into quarantine before it comes near other sheets.")
	doc.Grid([]string{"sheet", "damage seen"}, nil, document.Grid{Blank: 6, ToFoot: true, Wide: []float64{1, 3}})
	doc.Heading("Terms")
	doc.Items(leafList(p.w.Habits.Loans.Terms)...)
	signed(doc, "Name and signature")
	return nil
}

// parcelForm is what goes on a parcel and into it. It is no official form and
// says so.
func (p *formPaper) parcelForm(ctx context.Context, doc *document.Document) error {
	doc.Title = p.titled("Lines for a parcel")
	doc.Caution("These lines are no official form and stand in for none. Customs, plant health and the authorities for species and access in both countries have their own papers: ask them before anything is sent. What they and your rules say comes first.")
	doc.Heading("On the parcel")
	if p.file == nil {
		doc.Blank("From")
		doc.Blank("To")
	} else {
		p.lending().parties(doc)
	}
	doc.Lines("Scientific specimens for study: dried, pressed plants.", "No commercial value. Not for sale.")
	n := ""
	if p.file != nil {
		n = thousands(countOf(p.lending().going()))
	}
	doc.Fill(document.Field{Label: "Number of specimens", Value: n}, document.Field{Label: "Boxes", Wide: 0.6}, known("Our number", p.number()))
	own, theirs := p.treatyCodes()
	doc.Say("Codes in the register of the treaty on trade in species, where both are registered:")
	doc.Fill(known("Sender", own), known("Receiver", theirs))
	doc.Page()
	doc.Heading("In the parcel" + prefixedAny(", ", p.number()))
	doc.Tick("It is", document.Boxes([]string{"a loan, to be sent back", "a gift", "an exchange", "material taken for study"}, p.parcelIs())...)
	doc.Heading("Permits, by number")
	doc.Grid([]string{"number", "for", "issued by", "holds until"}, p.permitRows(), document.Grid{Blank: 3, Wide: []float64{2, 2, 3, 2}})
	p.treatyLines(doc)
	doc.Heading("Seen by whoever packs")
	doc.Tick("", document.Boxes([]string{"dry, no living part", "free of soil", "free of insects", "frozen before packing", "list of sheets on top", "copies of permits inside"})...)
	doc.Blank("Freezing run", "out of the freezer on")
	doc.Caution(poison)
	signed(doc, "Packed by")
	return nil
}

// parcelIs is what a work sends, as a box of the form.
func (p *formPaper) parcelIs() string {
	if p.file == nil {
		return ""
	}
	return map[string]string{"loan": "a loan, to be sent back", "gift": "a gift", "exchange": "an exchange", "sampling": "material taken for study"}[p.file.Kind.Name]
}

func (p *formPaper) treatyCodes() (own, theirs string) {
	code := func(words string) string {
		if x := p.w.PartnerOf(words); x != nil {
			return x.Treaty.Text
		}
		return ""
	}
	if p.file == nil {
		return code(p.desk.museum.Code.Text), ""
	}
	return code(p.desk.museum.Code.Text), code(p.file.Work.Partner.Text)
}

// permitRows are the permits that the work names; one that no file of work/
// has stands there as it is written.
func (p *formPaper) permitRows() (rows [][]string) {
	if p.file == nil {
		return nil
	}
	for _, l := range p.file.Work.Permits {
		files := p.w.PermitsOf(l.Text)
		if len(files) == 0 {
			rows = append(rows, []string{l.Text, "", "", ""})
		}
		for _, f := range files {
			x, until := &f.Work.Permit, ""
			if to := work.ReadPermit(f).To; to != 0 {
				until = dates.Words(to)
			}
			rows = append(rows, []string{cmp.Or(x.Number.Text, string(f.Number)), x.For.Text, x.Issuer.Text, until})
		}
	}
	return rows
}

// treatyLines name the sheets whose taxon the treaty lists.
func (p *formPaper) treatyLines(doc *document.Document) {
	if p.file == nil {
		return
	}
	var rows [][]string
	each := func(n ledger.Number, e *book.Entry) {
		if in := p.w.Treaty(e); in != "" {
			rows = append(rows, []string{string(n), e.Name, in})
		}
	}
	for _, t := range p.lending().going() {
		if t.Entry != nil {
			each(t.Sheet, t.Entry)
		}
	}
	if len(rows) == 0 {
		doc.Say("No sheet in it is of a taxon that names/ lists under the treaty on trade in species.")
		return
	}
	doc.Say(sentence(count(len(rows), "sheet") + " of taxa that are listed by the treaty on trade in species:"))
	doc.Table([]string{"sheet", "name", "appendix"}, rows)
	doc.Names("name")
}
