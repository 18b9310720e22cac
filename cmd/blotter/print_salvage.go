package main

import (
	"context"
	"strconv"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/shelf"
	"blotter/ledger/work"
	"blotter/render/document"
)

// salvagePrint is what to save first after water or fire.
func salvagePrint() printKind {
	return printKind{
		Name: "salvage", Says: "in which order to save what after water or fire, one page for the door first",
		Make: func(ctx context.Context, d *desk, words []string) (*document.Document, error) {
			if len(words) > 0 {
				return nil, misuse("%q is too much; the plan has all cabinets", words[0])
			}
			w, err := d.works(ctx)
			if err != nil {
				return nil, err
			}
			return d.salvagePlan(w), nil
		},
	}
}

// salvageWords say what each word of the museum's order means.
var salvageWords = map[string]string{
	"types": "types", "unique": "the only specimen of its name here", "historic": "gathered long ago",
	"condition": "in a poor state when last looked at", "families": "families that go before others", "rest": "all others",
}

func (d *desk) salvagePlan(w *work.Works) *document.Document {
	h, s := w.Habits.Salvage, shelvesOf(w)
	on := d.todayAsDay()
	rescues := shelf.Salvage(s, leafTexts(h.First), atoi(h.Historic.Text), leafTexts(h.Families), func(e *book.Entry) bool {
		done, ok := w.State(e.Number, on).Has("surveyed")
		return ok && (done.Result == "3" || done.Result == "4")
	})
	doc := &document.Document{Title: "Salvage, " + d.museum.Name.Text + ", " + d.shownDate(d.today())}
	d.salvageDoor(doc, h, rescues)
	var rows [][]string
	why := ""
	flush := func() {
		if len(rows) > 0 {
			doc.Page()
			doc.Heading(salvageWords[why])
			doc.Table([]string{"cabinet", "folder", "sheet", "caution"}, rows)
			rows = nil
		}
	}
	var data [][]string
	for i, r := range rescues {
		where := ""
		if state := w.State(r.Entry.Number, on); state.Where != work.Cabinet {
			where = state.Words()
		}
		data = append(data, []string{itoa(i + 1), r.Why, r.Place.Bay.Name, r.Place.Cover.Words(), itoa(r.Place.Folder), string(r.Entry.Number), joinNonEmpty("; ", where, rescueCaution(r.Entry))})
		if r.Why == "rest" {
			continue // whole cabinets: see the first page
		}
		if r.Why != why {
			flush()
			why = r.Why
		}
		rows = append(rows, []string{r.Place.Bay.Name, r.Place.Cover.Words() + ", folder " + itoa(r.Place.Folder), string(r.Entry.Number), joinNonEmpty("; ", where, rescueCaution(r.Entry))})
	}
	flush()
	if len(data) > 0 {
		doc.Data = &document.Block{Kind: document.Table, Heads: []string{"turn", "because", "cabinet", "cover", "folder", "sheet", "note"}, Rows: data}
	}
	return doc
}

func rescueCaution(e *book.Entry) string {
	switch {
	case e.Flags.Has(book.Treated):
		return "gloves: may carry mercury or arsenic"
	case e.Flags.Has(book.Cautioned):
		return "toxic or spiny: gloves"
	}
	return ""
}

// salvageDoor is the first page: what to do, whom to call, which cabinets.
func (d *desk) salvageDoor(doc *document.Document, h ledger.Salvaging, rescues []shelf.Rescue) {
	doc.Caution("People first. Nobody goes in before whoever is in charge says that it is safe: power, gas, roof, water. " + ownRules)
	doc.Caution("Old sheets may carry mercury or arsenic, and wet ones give it off: gloves, a mask that your rules prescribe, moving air, wash your hands; keep what runs off them together.")
	if len(h.Call) > 0 {
		doc.Heading("Call, in this order")
		doc.Items(leafTexts(h.Call)...)
	}
	doc.Heading("Wet sheets")
	freeze := leafWords(h.Freeze, " to ")
	doc.Items("Ask a conservator before anything is opened, parted or wiped; what stands here is only until one answers.",
		"Mould grows within "+h.Mould.Text+" hours, soonest above 21 °C and 60 % humidity: cool the room, move the air, no heaters.",
		"What is not dry within "+freeze+" hours is frozen at "+h.Cold.Text+" °C or colder, in its folder, interleaved, not pressed together, not stacked high.",
		"Keep every sheet with its label, its fragments and its folder; write cabinet and folder on the outside of what you carry.")
	doc.Heading("First out")
	n := map[string]int{}
	var order []string
	bays := map[string]map[string]int{}
	var walk []string
	for _, r := range rescues {
		if n[r.Why]++; n[r.Why] == 1 {
			order = append(order, r.Why)
		}
		if bays[r.Place.Bay.Name] == nil {
			bays[r.Place.Bay.Name] = map[string]int{}
			walk = append(walk, r.Place.Bay.Name)
		}
		bays[r.Place.Bay.Name][r.Why]++
	}
	var rows [][]string
	for i, why := range order {
		rows = append(rows, []string{itoa(i + 1), salvageWords[why], thousands(n[why])})
	}
	door := *doc
	door.Table([]string{"turn", "what", "sheets"}, rows)
	doc.Blocks = door.Blocks
	heads := append([]string{"cabinet"}, order...)
	rows = nil
	for _, bay := range walk {
		row := []string{bay}
		for _, why := range order {
			row = append(row, strconv.Itoa(bays[bay][why]))
		}
		rows = append(rows, row)
	}
	doc.Heading("Cabinets, those with the first of the order before others")
	door = *doc
	door.Table(heads, rows)
	doc.Blocks = door.Blocks
}

func leafTexts(ls []ledger.Leaf) []string {
	all := make([]string, len(ls))
	for i, l := range ls {
		all[i] = l.Text
	}
	return all
}
