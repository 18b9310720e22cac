package main

import (
	"context"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/work"
	"blotter/ledger/work/due"
	"blotter/render/document"
)

// paperForm is a form to be written on by hand: blank, or filled with what a
// work says already. Each is in a file of its own, print_form_NAME.go, and has
// its row in paperForms.
type paperForm struct {
	Name   string
	Says   string
	Of     []string // kinds of work that fill it
	Sheets bool     // sheets fill it too
	Write  func(p *formPaper, ctx context.Context, doc *document.Document) error
}

// paperForms are all forms. Of those that a kind of work fills the first is
// taken when only the number of the work is typed.
func paperForms() []paperForm {
	lends := []string{"loan", "gift", "exchange", "borrowing"}
	return []paperForm{
		{"packing", "packing list of a loan, gift or exchange", lends, false, (*formPaper).packingForm},
		{"receipt", "receipt of a loan or a borrowing", lends, false, (*formPaper).receiptForm},
		{"parcel", "lines that go on a parcel and into it, for customs and permits", append(lends[:3:3], "sampling"), false, (*formPaper).parcelForm},
		{"freezer", "sheet of a freezing run", []string{"freezer"}, false, (*formPaper).freezerForm},
		{"press", "sheet of a load of the press, with its calendar", []string{"press", "drying"}, false, (*formPaper).pressForm},
		{"mounting", "sheet of a mounting session", []string{"mounting"}, false, (*formPaper).mountingForm},
		{"condition", "condition report of a loan, a survey or SHEETS", append([]string{"condition"}, lends...), true, (*formPaper).conditionForm},
		{"traps", "readings of insect traps", []string{"traps"}, false, (*formPaper).trapsForm},
		{"register", "page of the accession register", nil, false, (*formPaper).registerForm},
	}
}

func formsPrint() printKind {
	return printKind{
		Name: "forms", Takes: "NAME [WORK]", Says: "a form to write on, blank or filled from a work: " + strings.Join(formNames(), ", "),
		Flags: []*flag{flagOn}, Make: makeForm,
	}
}

func formNames() (all []string) {
	for _, f := range paperForms() {
		all = append(all, f.Name)
	}
	return all
}

// formPaper is a form being filled.
type formPaper struct {
	desk *desk
	w    *work.Works
	on   dates.Day
	file *work.File      // nil: not filled from a work
	of   []ledger.Number // sheets that are typed
}

func makeForm(ctx context.Context, d *desk, words []string) (*document.Document, error) {
	form, rest, err := d.formTyped(words)
	if err != nil {
		return nil, err
	}
	w, on, err := d.worksOnDay(ctx)
	if err != nil {
		return nil, err
	}
	p := &formPaper{desk: d, w: w, on: on}
	if err := p.filled(ctx, form, rest); err != nil {
		return nil, err
	}
	doc := &document.Document{}
	if err := form.Write(p, ctx, doc); err != nil {
		return nil, err
	}
	return doc, nil
}

// formTyped is the form that is named, or that goes with the work that is
// typed alone.
func (d *desk) formTyped(words []string) (paperForm, []string, error) {
	try := []string{"blotter print forms freezer --to freezer.pdf", "blotter print forms freezer-2026-003 --to freezer.pdf"}
	if len(words) == 0 {
		return paperForm{}, nil, misuse("which form? One of %s", strings.Join(formNames(), ", ")).try(try...)
	}
	for _, f := range paperForms() {
		if f.Name == words[0] {
			return f, words[1:], nil
		}
	}
	if strings.Contains(words[0], "-") {
		n, err := d.workArgument(words[0])
		if err != nil {
			return paperForm{}, nil, err
		}
		for _, f := range paperForms() {
			if slices.Contains(f.Of, n.Kind()) {
				return f, words, nil
			}
		}
		return paperForm{}, nil, misuse("there is no form of a %s", n.Kind()).try("One of " + strings.Join(formNames(), ", "))
	}
	if near := nearest(words[0], formNames()); near != "" {
		return paperForm{}, nil, misuse("%q is no form; did you mean %s?", words[0], near)
	}
	return paperForm{}, nil, misuse("%q is no form; there are %s", words[0], strings.Join(formNames(), ", ")).try(try...)
}

// filled finds what a form is filled with.
func (p *formPaper) filled(ctx context.Context, form paperForm, rest []string) error {
	sheets := len(rest) > 0 && form.Sheets && !strings.Contains(strings.TrimPrefix(rest[0], p.desk.museum.Numbering.Prefix.Text), "-")
	if sheets || p.desk.opts.text("where") != "" {
		if !form.Sheets {
			return misuse("a %s form is filled from one work, not from sheets", form.Name)
		}
		var err error
		p.of, _, err = p.desk.sheets(ctx, rest)
		return err
	}
	switch {
	case len(rest) == 0:
		return nil
	case len(rest) > 1:
		return misuse("%q is too much; a form is filled from one work", rest[1])
	case len(form.Of) == 0:
		return misuse("%q is too much; the %s form has no work", rest[0], form.Name).try("The lots of a year: blotter print register " + rest[0])
	}
	n, err := p.desk.workArgument(rest[0])
	if err != nil {
		return err
	}
	if p.file = p.w.Find(n); p.file == nil || !slices.Contains(form.Of, n.Kind()) {
		return misuse("%s does not fill a %s form; that is for %s", n, form.Name, strings.Join(form.Of, ", "))
	}
	return nil
}

// number is the number of the work; "" on a blank form.
func (p *formPaper) number() string {
	if p.file == nil {
		return ""
	}
	return string(p.file.Number)
}

// heading is a leaf of the work; "" on a blank form.
func (p *formPaper) heading(of func(*ledger.Work) ledger.Leaf) string {
	if p.file == nil {
		return ""
	}
	return of(p.file.Work).Text
}

// titled is a title with the number of the work behind it.
func (p *formPaper) titled(words string) string { return joinNonEmpty(", ", words, p.number()) }

// from is a line that says whose form it is.
func (p *formPaper) from(doc *document.Document) {
	doc.Lines(joinNonEmpty(" ", p.desk.museum.Code.Text, p.desk.museum.Name.Text))
}

// things are the things of the work as rows of a form: sheets, gatherings,
// bundles, each once.
func (p *formPaper) things() []work.Thing {
	if p.file == nil {
		return nil
	}
	if held := p.w.Holds(p.file, p.on); len(held) > 0 {
		return held
	}
	var all []work.Thing // it is done: all that it ever held
	seen := map[string]bool{}
	for _, e := range p.file.Events {
		if e.Day > p.on || e.All() {
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

// thingWords is a thing as it is written on a form.
func (p *formPaper) thingWords(t work.Thing) string {
	switch {
	case t.Sheet != "":
		return string(t.Sheet)
	case t.Item.Who != "":
		return joinNonEmpty(" ", t.Item.Who, t.Item.No)
	case t.Item.Other != "":
		return t.Item.Other
	}
	return joinNonEmpty(": ", joinNonEmpty(" ", itoa(t.Item.Count), t.Item.Of), t.Item.What)
}

// nameOf is the name of a sheet as the book has it.
func (p *formPaper) nameOf(n ledger.Number) string {
	if e := p.w.Book().Find(n); e != nil {
		return e.Name
	}
	return ""
}

// known is a field with what is known already.
func known(label, value string) document.Field { return document.Field{Label: label, Value: value} }

// signed is where whoever did the work signs.
func signed(doc *document.Document, who string) {
	doc.Fill(document.Field{Label: who, Wide: 2.5}, document.Field{Label: "Date"})
}

// poison is the caution of every form that goes with old sheets.
const poison = "Old sheets may carry mercury or arsenic, many of them without a mark: gloves, moving air, wash your hands. " + ownRules

// clock is a moment as a form has it, its day and its time.
func (p *formPaper) clock(e *work.Event) (day, time string) {
	if e == nil {
		return "", ""
	}
	if e.Clock >= 0 {
		time = due.Moment(e, p.desk.zone).Format("15:04")
	}
	return dates.Words(e.Day), time
}
