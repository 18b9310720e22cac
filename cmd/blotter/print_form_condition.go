package main

import (
	"context"
	"strings"

	"blotter/ledger"
	"blotter/render/document"
)

// grades are the four grades of condition in words, and damageWords what is
// ticked beside them: common practice, no source; no scale for herbaria with
// figures was found.
var (
	grades = []string{"1 good", "2 fair, stable", "3 poor: at risk, handle with care", "4 not to be handled, not to be lent"}

	damageWords = []string{"detached part", "missing fragment", "loose label", "adhesive failed", "brittle", "tear", "fold", "insect traces",
		"mould", "tide line", "foxing", "acidic paper", "faded ink", "bleached by light", "soot or dust", "poison residue"}
)

// conditionForm is a condition report: a page for each sheet that is typed, a
// list for a loan or a survey, one blank page otherwise.
func (p *formPaper) conditionForm(_ context.Context, doc *document.Document) error {
	doc.Title = p.titled("Condition report")
	switch {
	case len(p.of) > 0:
		for i, n := range p.of {
			if i > 0 {
				doc.Page()
			}
			p.conditionOf(doc, n)
		}
	case p.file != nil:
		p.conditionList(doc)
	default:
		p.conditionOf(doc, "")
	}
	return nil
}

// conditionOf is the page of one sheet.
func (p *formPaper) conditionOf(doc *document.Document, n ledger.Number) {
	name, gathered := "", ""
	if e := p.w.Book().Find(n); e != nil {
		name, gathered = e.Name, joinNonEmpty(" ", e.Collector, e.CollNo)
	}
	doc.Fill(known("Sheet", string(n)), known("Collector and number", gathered))
	doc.Fill(known("Name", name))
	doc.Caution(poison)
	for _, when := range []string{"Before", "After"} {
		doc.Heading(when)
		doc.Fill(document.Field{Label: "Looked at by", Wide: 2}, document.Field{Label: "Date"})
		doc.Tick("Grade", document.Boxes(grades)...)
		doc.Tick("Damage", document.Boxes(damageWords)...)
		doc.Blank("Where, and how much")
	}
	doc.Heading("What is to be done")
	doc.Tick("", document.Boxes([]string{"nothing", "a packet for fragments", "repair, reversible", "a conservator is asked", "quarantine", "not to be lent"})...)
	doc.Blank("Picture taken", "Next look")
}

// conditionList has a row for each sheet of a loan or survey.
func (p *formPaper) conditionList(doc *document.Document) {
	doc.Wide = true
	survey := p.file.Kind.Name == "condition"
	p.from(doc)
	if !survey {
		doc.Lines("With: " + p.w.PartnerWords(p.file.Work.Partner.Text))
	}
	doc.Caution(poison)
	doc.Say("Grades: " + strings.Join(grades, "; ") + ".")
	doc.Say("Words for damage: " + strings.Join(damageWords, "; ") + ".")
	rows := p.conditionRows()
	if survey {
		doc.Grid([]string{"sheet", "name", "grade", "damage", "to be done"}, rows, document.Grid{Blank: 3, Wide: []float64{2, 4, 1, 6, 3}})
	} else {
		doc.Grid([]string{"sheet", "name", "grade, going out", "damage, going out", "grade, back", "damage, back"}, rows, document.Grid{Blank: 3, Wide: []float64{2, 4, 1.2, 4, 1.2, 4}})
	}
	doc.Names("name")
	if survey {
		doc.Fill(document.Field{Label: "Looked at by", Wide: 2}, document.Field{Label: "Date"})
		return
	}
	doc.Fill(document.Field{Label: "Going out, looked at by", Wide: 2}, document.Field{Label: "Date"}, document.Field{Label: "Back, looked at by", Wide: 2}, document.Field{Label: "Date"})
}

func (p *formPaper) conditionRows() (rows [][]string) {
	if l := p.w.Loan(p.file, p.on); l != nil {
		for _, t := range l.Things {
			name := ""
			if t.Entry != nil {
				name = t.Entry.Name
			}
			rows = append(rows, []string{t.Words, name, t.Grade, "", t.After, joinNonEmpty(", ", t.Harm...)})
		}
		return rows
	}
	for _, t := range p.things() {
		grade, harm := "", ""
		if t.Sheet != "" {
			for _, d := range p.w.State(t.Sheet, p.on).Done {
				if d.What == "surveyed" && d.By != nil && d.By.File == p.file {
					grade, harm = d.Result, strings.Join(leafList(d.By.Line.Damage), ", ")
				}
			}
		}
		rows = append(rows, []string{p.thingWords(t), p.nameOf(t.Sheet), grade, harm, ""})
	}
	return rows
}
