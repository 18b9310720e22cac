package main

import (
	"context"
	"fmt"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/shelf"
	"blotter/ledger/survey"
	"blotter/ledger/work"
	"blotter/render/document"
)

// inventoryPrint is the list of a round through the cabinets, and what came of
// it.
func inventoryPrint() printKind {
	return printKind{
		Name: "inventory", Takes: "INVENTORY", Says: "which sheets a round looks for, in walking order, and what came of it",
		Make: func(ctx context.Context, d *desk, words []string) (*document.Document, error) {
			if len(words) != 1 {
				return nil, misuse("which round? Its number stands behind inventory").try("A new one: blotter open inventory --percent 5", "blotter print inventory inventory-2026-001")
			}
			n, err := d.workArgument(words[0])
			if err != nil {
				return nil, err
			}
			w, err := d.works(ctx)
			if err != nil {
				return nil, err
			}
			f := w.Find(n)
			if f == nil || f.Kind.Name != "inventory" {
				return nil, misuse("%s is no inventory", n)
			}
			return d.inventoryList(w, f)
		},
	}
}

// round is what a round through the cabinets looks for and what came of it.
type round struct {
	drawn, seen, missing, misplaced, unseen []*book.Entry
	beyond                                  []*book.Entry   // seen, not drawn
	strangers                               []string        // scans that no record bears
	withdrawn                               []ledger.Number // scanned, though their records say that they are gone
	twice                                   map[string]int  // scanned more than once
}

// drawnBy are the sheets that an inventory looks for: those that its drawn
// lines name, else the share that its seed draws of all that have a place.
func drawnBy(w *work.Works, f *work.File, s *shelf.Shelves) ([]*book.Entry, error) {
	named := map[ledger.Number]bool{}
	for _, e := range f.Events {
		if e.Verb == "drawn" && !e.All() {
			for _, t := range w.About(e) {
				if t.Sheet != "" {
					named[t.Sheet] = true
				}
			}
		}
	}
	r, no, err := rollingOf(w, f)
	if err != nil {
		return nil, err
	}
	var out []*book.Entry
	for i := range s.Len() {
		e, _ := s.At(i)
		switch turn, err := r.Round(string(e.Number)); {
		case err != nil:
			return nil, stuck("%v", err)
		case len(named) > 0 && named[e.Number], len(named) == 0 && turn == no:
			out = append(out, e)
		}
	}
	return out, nil
}

// rollingOf is the draw of an inventory and its round: inventories with one
// seed and share are rounds of one rolling inventory, in order of number.
func rollingOf(w *work.Works, f *work.File) (survey.Rolling, int, error) {
	share := func(f *work.File) string {
		if f.Work.Percent.Set() {
			return strings.TrimSpace(strings.TrimSuffix(f.Work.Percent.Text, "%"))
		}
		return w.Habits.Inventory.Percent.Text
	}
	percent, err := strconv.ParseFloat(share(f), 64)
	if err != nil {
		return survey.Rolling{}, 0, misuse("%s: percent %q is no figure", f.Number, share(f))
	}
	r := survey.Rolling{Words: []string{"inventory", f.Work.Seed.Text}, Percent: percent}
	rounds, err := r.Rounds()
	if err != nil {
		return r, 0, stuck("%s: %v", f.Number, err)
	}
	before := 0
	for _, o := range w.Files {
		if o == f {
			break
		}
		if o.Kind.Name == "inventory" && o.Work.Seed.Text == f.Work.Seed.Text && share(o) == share(f) {
			before++
		}
	}
	return r, before % rounds, nil
}

// lines reads the lines of a round: what was said last of each sheet, and
// where it was then.
func (r *round) lines(w *work.Works, f *work.File) (last, places map[ledger.Number]string) {
	last, places = map[ledger.Number]string{}, map[ledger.Number]string{}
	for _, e := range f.Events {
		said := e.Verb == "seen" || e.Verb == "missing" || e.Verb == "misplaced" || e.Verb == "found"
		if !said && e.Verb != ledger.EventNoted {
			continue
		}
		for _, it := range e.Items {
			if it.Sheet != "" && it.Last == "" && w.Book().Find(it.Sheet) == nil {
				r.strangers = append(r.strangers, string(it.Sheet))
			}
			if it.Other != "" {
				r.strangers = append(r.strangers, it.Other)
			}
		}
		for _, t := range w.About(e) {
			switch was := last[t.Sheet]; {
			case t.Sheet == "" || e.All() && !said:
			case !said:
				if b := w.Book().Find(t.Sheet); b != nil && b.Fate != "" {
					r.withdrawn = append(r.withdrawn, t.Sheet)
				}
			default:
				if e.Verb == "seen" && was == "seen" {
					r.twice[string(t.Sheet)]++
				}
				last[t.Sheet], places[t.Sheet] = e.Verb, e.Line.To.Text
			}
		}
	}
	return last, places
}

// roundOf is a round as its lines tell, and as it stands on a day.
func roundOf(w *work.Works, f *work.File, s *shelf.Shelves, on dates.Day) (*round, error) {
	r := &round{twice: map[string]int{}}
	var err error
	if r.drawn, err = drawnBy(w, f, s); err != nil {
		return nil, err
	}
	last, places := r.lines(w, f)
	for n, verb := range last {
		if verb == "missing" && w.State(n, on).AtHand() { // it turned up in another work, or by its record
			last[n] = "found"
		}
	}
	in := map[ledger.Number]bool{}
	for _, e := range r.drawn {
		in[e.Number] = true
		r.sort(e, last[e.Number], places[e.Number], s)
	}
	for i := range s.Len() {
		if e, _ := s.At(i); !in[e.Number] && last[e.Number] != "" {
			r.beyond = append(r.beyond, e)
			if p, ok := s.Of(e); ok && elsewhere(places[e.Number], p) || last[e.Number] == "misplaced" {
				r.misplaced = append(r.misplaced, e)
			}
		}
	}
	return r, nil
}

func (r *round) sort(e *book.Entry, verb, place string, s *shelf.Shelves) {
	p, ok := s.Of(e)
	switch {
	case verb == "":
		r.unseen = append(r.unseen, e)
	case verb == "missing":
		r.missing = append(r.missing, e)
	case verb == "misplaced" || ok && elsewhere(place, p):
		r.misplaced = append(r.misplaced, e)
	default:
		r.seen = append(r.seen, e)
	}
}

// elsewhere reports whether the words of a scan name another cabinet than the
// one where a sheet belongs.
func elsewhere(words string, p shelf.Place) bool {
	c := namedCabinet(words)
	return c != "" && !strings.EqualFold(c, p.Bay.Name)
}

func (d *desk) inventoryList(w *work.Works, f *work.File) (*document.Document, error) {
	s := shelvesOf(w)
	on := d.todayAsDay()
	r, err := roundOf(w, f, s, on)
	if err != nil {
		return nil, err
	}
	doc := &document.Document{Title: "Round of the cabinets, " + joinNonEmpty(", ", string(f.Number), f.Work.Title.Text)}
	doc.Say(fmt.Sprintf("%s looked for: %s seen, %s missing, %s in another cabinet, %s not yet.", count(len(r.drawn), "sheet"),
		thousands(len(r.seen)), thousands(len(r.missing)), thousands(len(r.misplaced)), thousands(len(r.unseen))))
	doc.Caution("Old sheets may carry mercury or arsenic: gloves, moving air, wash your hands. " + ownRules)
	list := func(head string, es []*book.Entry) {
		var rows [][]string
		for _, e := range es {
			p, _ := s.Of(e)
			where := ""
			if st := w.State(e.Number, on); st.Where != work.Cabinet {
				where = st.Words()
			}
			rows = append(rows, []string{p.Bay.Name, p.Cover.Words() + ", folder " + itoa(p.Folder), string(e.Number), strings.TrimSpace(e.Collector + " " + e.CollNo), where})
		}
		if len(rows) > 0 {
			doc.Heading(head)
			doc.Table([]string{"cabinet", "folder", "sheet", "collector", "where it is"}, rows)
		}
	}
	list("To look for", r.unseen)
	list("Missing", r.missing)
	list("In another cabinet", r.misplaced)
	if len(r.strangers) > 0 {
		doc.Heading("Scans that no record bears")
		doc.Items(r.strangers...)
	}
	if len(r.withdrawn) > 0 {
		doc.Heading("Withdrawn, and scanned")
		var words []string
		for _, n := range r.withdrawn {
			words = append(words, string(n)+", "+w.Book().Find(n).Fate)
		}
		doc.Items(words...)
	}
	if len(r.twice) > 0 {
		doc.Say(count(len(r.twice), "sheet") + " " + plural(len(r.twice), "was", "were") + " scanned more than once.")
	}
	if len(r.unseen) > 0 {
		doc.Say("Scans: blotter log " + string(f.Number) + " seen - --to \"cabinet 4\"    Not there: blotter log " + string(f.Number) + " missing SHEETS")
	}
	return doc, nil
}
