package render

import (
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/reading"
	"blotter/render/page"
)

// renamings are the entries of names/ by which the name of the sheet is
// another now; none when it stands as it was determined.
func (x *sheet) renamings() []*book.Name {
	name, _ := x.d.Current()
	return x.in.Book.Museum.Renamings(name)
}

// shown is the name that a sheet is shown under: "NEW (det. as OLD)" when the
// museum's list has another for that of its determination.
func (x *sheet) shown(name reading.Name) []page.Part {
	steps := x.in.Book.Museum.Renamings(name)
	if len(steps) == 0 {
		return []page.Part{readName(name)}
	}
	out := []page.Part{x.name(steps[len(steps)-1].Of.Given.Name.Text)}
	return append(out, x.detAs(readName(name))...)
}

// accepted is the words of the name that a sheet stands under.
func (x *sheet) accepted(name reading.Name) string {
	if steps := x.in.Book.Museum.Renamings(name); len(steps) > 0 {
		return steps[len(steps)-1].Of.Given.Name.Text
	}
	return name.Words
}

// detAs is " (det. as OLD)".
func (s *shelf) detAs(old page.Name) []page.Part {
	return page.FillParts(" ("+s.lang.DetAs+")", []page.Part{old})
}

// bar is a renaming on the rail.
type bar struct {
	at  int // how many opinions, oldest first, lie below it
	day reading.Date
	page.Opinion
}

// bars are the renamings of the museum's list as the rail has them, oldest
// first. Each stands at its date, but above the opinion whose name it changes,
// for the list may be older than that. Of a withheld sheet it always stands
// there, so that its place tells nothing of the date of the opinion.
func (x *sheet) bars() []bar {
	var out []bar
	order := x.d.Chain.Order
	above := len(order)
	for i, k := range order {
		if k == x.d.Chain.Current {
			above = i + 1
		}
	}
	steps := x.renamings()
	for i, n := range steps {
		b := bar{at: above, day: x.listDay(n)}
		b.Opinion = page.Opinion{Anchor: "renamed-" + itoa(i+1), Mark: page.Renamed, What: page.Said(x.lang.RenamedBar), State: page.Said(x.lang.Earlier),
			Day: page.Said(x.lang.NoDay), Name: x.name(n.Of.Given.Name.Text), By: []page.Part{x.personName(n.Given.By.Text)}, More: x.listMore(n)}
		if i == len(steps)-1 {
			b.State = page.Said(x.lang.Stands)
		}
		if b.day.Known {
			b.Day = page.Said(b.day.Read.String())
		}
		if b.day.Known {
			for j := above; j < len(order); j++ {
				if o := &x.d.Opinions[order[j]]; o.Date.Known && o.Date.First <= b.day.First {
					b.at = j + 1
				}
			}
			if b.at > 0 && b.at == above && x.d.Opinions[order[b.at-1]].Date.Known && x.d.Opinions[order[b.at-1]].Date.First > b.day.Last {
				b.Day = page.Said(page.Fill(x.lang.InListSince, b.day.Read.String()))
				b.day = reading.Date{} // not when it happened to this sheet
			}
		}
		above = b.at
		out = append(out, b)
	}
	return out
}

// listDay is the date of an entry of names/.
func (x *sheet) listDay(n *book.Name) reading.Date {
	r := dates.Read(n.Given.Date.Text, x.in.Book.Museum.Conventions.Order)
	return reading.Date{Words: n.Given.Date.Text, Read: r, Known: r.Known() && !r.OpenStart && !r.OpenEnd, First: r.First, Last: r.Last}
}

func (x *sheet) listMore(n *book.Name) []page.Part {
	if !n.Given.Source.Set() {
		return nil
	}
	return page.FillParts(x.lang.AfterSource, []page.Part{page.Quote{Words: page.Words(n.Given.Source.Text)}})
}

// inList is what a row in a list of former names says of a sheet that bears
// the name still and is renamed in the museum's list.
func (s *shelf) inList(e *book.Entry) string {
	n := s.in.Book.Museum.Names.Find(e.NameKey)
	if r := dates.Read(n.Given.Date.Text, s.in.Book.Museum.Conventions.Order); r.Known() {
		return page.Fill(s.lang.RenamedSinceRow, r.String())
	}
	return s.lang.RenamedRow
}
