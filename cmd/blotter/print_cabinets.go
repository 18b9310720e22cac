package main

import (
	"context"
	"fmt"

	"blotter/ledger/shelf"
	"blotter/ledger/work"
	"blotter/render/document"
)

// cabinetsPrint is how full the cabinets are.
func cabinetsPrint() printKind {
	return printKind{
		Name: "cabinets", Says: "cabinets and folders: what is in them, how full, for how long",
		Make: func(ctx context.Context, d *desk, words []string) (*document.Document, error) {
			if len(words) > 0 {
				return nil, misuse("%q is too much; the list has all cabinets", words[0])
			}
			w, err := d.works(ctx)
			if err != nil {
				return nil, err
			}
			return d.cabinetList(w), nil
		},
	}
}

func (d *desk) cabinetList(w *work.Works) *document.Document {
	s := shelvesOf(w)
	doc := &document.Document{Title: "Cabinets of " + d.museum.Name.Text + ", " + d.shownDate(d.today())}
	var rows [][]string
	room, folders := 0, 0
	for _, b := range s.Bays {
		from, to := "empty", ""
		if b.First != nil {
			from, to = b.First.Words(), b.Last.Words()
		}
		folders += b.Folders
		room += max(0, b.Holds-b.Sheets)
		rows = append(rows, []string{b.Name, b.Room, from, to, thousands(b.Folders), thousands(b.Sheets), thousands(b.Holds), fmt.Sprintf("%.0f %%", 100*float64(b.Sheets)/float64(b.Holds))})
	}
	doc.Table([]string{"cabinet", "room", "from", "to", "folders", "sheets", "holds", "full"}, rows)
	doc.Say(fmt.Sprintf("%s in %s of at most %s, %s; room for %s.", count(s.Len(), "sheet"), count(folders, "folder"), count(s.PerFolder, "sheet"), count(len(s.Covers), "cover"), count(room, "sheet")))
	rate, by := shelf.Rate(w.Book(), d.todayAsDay())
	if rate > 0 {
		doc.Say(fmt.Sprintf("At %.3g sheets a year (%s) that is %.0f years.", rate, by, float64(room)/rate))
	}
	doc.Say("Specimens are counted; one on two boards counts once. Loans keep their place.")
	return doc
}
