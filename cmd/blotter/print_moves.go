package main

import (
	"context"
	"strings"

	"blotter/ledger/book"
	"blotter/ledger/shelf"
	"blotter/render/document"
)

func movesPrint() printKind {
	return printKind{
		Name: "moves", Says: "what to carry from one cover to another since a REV, in walking order", Flags: []*flag{flagSince},
		Make: func(ctx context.Context, d *desk, words []string) (*document.Document, error) {
			if len(words) > 0 {
				return nil, misuse("%q is too much; the list has all that moves", words[0])
			}
			m, err := d.movesSince(ctx)
			if err != nil {
				return nil, err
			}
			return d.moveList(m), nil
		},
	}
}

// moveList is the list for whoever walks past the cabinets.
func (d *desk) moveList(m *moving) *document.Document {
	doc := &document.Document{Title: "Move list, " + d.shownDate(d.today())}
	doc.Say(joinNonEmpty(" ", sentence(count(len(m.pull), "sheet")+" to move"), doneWords(m.done)))
	if treated := treatedAmong(m.pull); treated > 0 {
		doc.Caution(count(treated, "sheet") + " among them may carry mercury or arsenic: gloves, moving air, wash your hands. " + ownRules)
	}
	doc.Table(moveHeads, moveRows(m, m.pull))
	sayCovers(doc, coversNeeded(shelf.Needed(m.before, m.after), m.before))
	if len(m.away) > 0 {
		doc.Heading("Not in the cabinet now")
		var rows [][]string
		for _, a := range m.away {
			rows = append(rows, []string{string(a.Now.Number), a.where, a.To.Words()})
		}
		doc.Table([]string{"sheet", "where it is", "put, when it comes back"}, rows)
	}
	if len(m.out) > 0 {
		doc.Heading("Withdrawn")
		var rows [][]string
		for _, o := range m.out {
			rows = append(rows, []string{string(o.Now.Number), o.From.Words(), o.Now.Fate})
		}
		doc.Table([]string{"sheet", "lay in", "what became of it"}, rows)
	}
	if len(m.pull) > 0 {
		doc.Say("When done: " + filedCommand(d, m.pull))
	}
	return doc
}

var moveHeads = []string{"sheet", "pull from", "put", "as"}

// moveRows are moves as rows; as is the determination when names/ has it under
// another name.
func moveRows(m *moving, moves []shelf.Move) (rows [][]string) {
	for _, v := range moves {
		as := ""
		if m.works.Book().Museum.Renamed(v.Now) != nil {
			as = "det. as " + withoutAuthors(v.Now.Name)
		}
		rows = append(rows, []string{string(v.Now.Number), v.From.Words(), v.To.Words(), as})
	}
	return rows
}

func doneWords(n int) string {
	if n == 0 {
		return ""
	}
	return sentence(count(n, "sheet") + " " + plural(n, "was", "were") + " moved since")
}

func treatedAmong(moves []shelf.Move) (n int) {
	for _, m := range moves {
		if m.Now.Flags.Has(book.Treated) {
			n++
		}
	}
	return n
}

// filedCommand is what to type when the sheets are in their new covers.
func filedCommand(d *desk, moves []shelf.Move) string {
	var short []string
	for _, m := range moves {
		short = append(short, d.brief(m.Now.Number))
	}
	list := strings.Join(short, ",")
	if n := lastOfKind(d.workNumbers(), "shelf"); n != "" {
		return "blotter log " + string(n) + " filed " + list
	}
	return "blotter open shelf " + list
}

// coversNeeded are the covers that have to be made, in words.
func coversNeeded(need []shelf.Need, before *shelf.Shelves) (words []string) {
	for _, g := range shelf.NewGenera(before, need) {
		words = append(words, "genus "+joinNonEmpty(", ", g.Cover.Genus, g.Cover.Series))
	}
	for _, n := range need {
		words = append(words, joinNonEmpty(", ", n.Cover.Title(), n.Cover.Series)+" ("+count(n.Cover.Folders, "folder")+")")
	}
	return words
}

// sayCovers names them: a few in a sentence, many in a list.
func sayCovers(doc *document.Document, covers []string) {
	const few = 6
	switch n := len(covers); {
	case n == 0:
	case n <= few:
		doc.Say("Covers needed: " + strings.Join(covers, "; ") + ".")
	default:
		doc.Heading("Covers needed")
		doc.Items(covers...)
	}
}
