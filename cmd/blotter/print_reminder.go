package main

import (
	"context"
	"fmt"
	"strconv"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/work"
	"blotter/render/document"
)

// reminderPrint is the letter that a due day asks for.
func reminderPrint() printKind {
	return printKind{
		Name: "reminder", Takes: "[LOAN]", Says: "the letter about sheets that are due back or overdue; without LOAN one for every loan that asks for it",
		Flags: []*flag{flagOn},
		Make: func(ctx context.Context, d *desk, words []string) (*document.Document, error) {
			if len(words) > 1 {
				return nil, misuse("one loan, or none for all of them; %q is too much", words[1])
			}
			if len(words) == 1 {
				return loanDocument((*lendingPaper).reminder)(ctx, d, words)
			}
			return d.reminders(ctx)
		},
	}
}

// reminder is the letter about one loan.
func (p *lendingPaper) reminder(context.Context) (*document.Document, error) {
	if p.file.Kind.Name != "loan" || p.loan.Due() == 0 {
		return nil, stuck("nothing of %s is to come back, so there is nothing to remind of", p.file.Number).try("blotter show " + string(p.file.Number))
	}
	doc := &document.Document{Letters: true}
	p.letter(doc)
	return doc, nil
}

// reminders are the letters of all loans whose first day of reminding is past.
func (d *desk) reminders(ctx context.Context) (*document.Document, error) {
	w, on, err := d.worksOnDay(ctx)
	if err != nil {
		return nil, err
	}
	doc := &document.Document{Letters: true}
	for _, f := range w.Files {
		if f.Kind.Name != "loan" {
			continue
		}
		l := w.Loan(f, on)
		due := l.Due()
		if due == 0 || int(due-on) > firstReminder(w.Habits.Loans) {
			continue
		}
		if len(doc.Blocks) > 0 {
			doc.Page()
		}
		(&lendingPaper{desk: d, w: w, file: f, loan: l, on: on}).letter(doc)
	}
	if len(doc.Blocks) == 0 {
		doc.Say("No loan asks for a letter on " + dates.Words(on) + ".")
	}
	return doc, nil
}

// firstReminder is how many days before the due day a loan is first spoken of.
func firstReminder(h ledger.Loans) int {
	most := 0
	for _, l := range h.Remind {
		if n, err := strconv.Atoi(l.Text); err == nil {
			most = max(most, n)
		}
	}
	return most
}

// letter adds the letter about a loan.
func (p *lendingPaper) letter(doc *document.Document) {
	l := p.loan
	doc.Heading("Our " + string(p.file.Number) + prefixedAny(", your number ", p.file.Work.Theirs.Text))
	p.parties(doc)
	doc.Say(dates.Words(p.on))
	out, due := l.Outstanding(), l.Due()
	of := count(l.Gone(), "sheet")
	if out < l.Gone() {
		of = thousands(out) + " of " + of
	}
	switch late := l.Late(); {
	case l.Recall != nil && late == 0:
		doc.Say(fmt.Sprintf("We need %s of this loan back, by %s. We are sorry if that comes at a bad time.", of, dates.Words(due)))
	case late > 0:
		doc.Say(fmt.Sprintf("%s of this loan %s due on %s, %s ago, and %s still with you by our book.", of, verb(out, "was", "were"), dates.Words(due), count(late, "day"), verb(out, "is", "are")))
	case due == p.on:
		doc.Say(fmt.Sprintf("%s of this loan %s due back today.", of, verb(out, "is", "are")))
	default:
		doc.Say(fmt.Sprintf("%s of this loan %s due back on %s, in %s.", of, verb(out, "is", "are"), dates.Words(due), count(int(due-p.on), "day")))
	}
	doc.Say("Please send them back, or tell us until when you need them. If they came back long ago, tell us that as well: our book may be wrong.")
	if l.Unnamed > 0 {
		doc.Say(fmt.Sprintf("%s came back counted, without their numbers, so this list may name some that are here.", count(l.Unnamed, "sheet")))
	}
	doc.Table([]string{"sheet", "name", "sent", "due"}, p.outRows())
	doc.Names("name")
	doc.Lines(p.desk.museum.Code.Text + " " + p.desk.museum.Name.Text)
	doc.Fill(document.Field{Label: "Name and signature", Wide: 2}, document.Field{Label: "Date"})
}

func (p *lendingPaper) outRows() [][]string {
	var rows [][]string
	for _, t := range p.loan.Things {
		if t.Stage != work.Out {
			continue
		}
		name := ""
		if t.Entry != nil {
			name = t.Entry.Name
		}
		row := []string{t.Words, name, dates.Words(t.Sent), ""}
		if t.Due != 0 {
			row[3] = dates.Words(t.Due)
		}
		rows = append(rows, row)
	}
	return rows
}
