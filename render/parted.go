package render

import (
	"slices"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/render/page"
)

// manyRows is how many sheets a page lists at most. Of a longer list each
// decade of collecting has a page of its own, of a decade as long each year,
// and of a year as long, or where the day is not known, each stretch of so many
// numbers: so an address keeps its content, a browser need not read a hundred
// megabytes, and one sheet altered does not write a whole country anew.
const manyRows = 2000

// holder is a page that lists sheets: of a name, a person, a place.
type holder struct {
	head  func() *page.Page // its address, heading and trail, nothing more
	lists []holding
}

// holding is one list of a holder.
type holding struct {
	id      string // its section
	heading string
	sheets  []*book.Entry
	once    string // as in row
	within  *span  // they are all of this decade or year, whose pages are parts of it; nil: of any
}

// parts are the pages of a list that one page cannot bear.
func (l holding) parts() []span {
	if l.within == nil {
		return spansOf(l.sheets, 10)
	}
	whole := *l.within
	whole.sheets = l.sheets
	return whole.parts()
}

// shelve adds the lists to the holder's page.
func (s *shelf) shelve(p *page.Page, lists ...holding) {
	for _, l := range lists {
		switch n := len(l.sheets); {
		case n > manyRows:
			section(p, l.id, l.heading, s.partTally(p.Address, l, l.parts()))
		case n > 0:
			section(p, l.id, l.heading, s.rows(l.sheets, l.once)...)
		}
	}
}

// partTally leads to the pages of the parts of a list.
func (s *shelf) partTally(of page.Address, l holding, parts []span) page.Tally {
	var out page.Tally
	for _, sp := range parts {
		words := s.spanWords(sp)
		if l.within != nil {
			words = upperFirst(s.stretchWords(sp))
		}
		out.List = append(out.List, page.TallyLine{Link: page.Link{To: spanAddress(of, l.id, sp), Text: []page.Part{said(words)}}, Note: page.Said(s.sheetsWord(len(sp.sheets)))})
	}
	return out
}

// span is the sheets of a decade or of a year, in order of path, or those of
// them in a stretch of numbers.
type span struct {
	from, years int // from is -1 where the day is not known
	stretch     int // of manyRows numbers, from 1; 0: all
	sheets      []*book.Entry
}

// parted reports whether its parts have pages of their own.
func (sp span) parted() bool { return sp.stretch == 0 && len(sp.sheets) > manyRows }

// parts are the years of a decade, else the stretches of numbers.
func (sp span) parts() []span {
	if sp.decade() {
		return spansOf(sp.sheets, 1)
	}
	return groupedBy(sp.sheets, func(e *book.Entry) int { return stretchOf(e.Number) }, func(k int) span {
		return span{from: sp.from, years: sp.years, stretch: k}
	})
}

// decade reports whether it is of more than one year.
func (sp span) decade() bool { return sp.from >= 0 && sp.years > 1 }

// stretchOf is the stretch that a number lies in, by its digits.
func stretchOf(n ledger.Number) int {
	serial, _ := n.Serial()
	return int(min(serial, 1<<40)/manyRows) + 1
}

// spansOf parts a list by so many years each, the undated last.
func spansOf(list []*book.Entry, years int) []span {
	out := groupedBy(list, func(e *book.Entry) int {
		if !e.Dated {
			return -1
		}
		return e.First.Year() / years * years
	}, func(from int) span { return span{from: from, years: years} })
	if len(out) > 0 && out[0].from < 0 {
		out = append(out[1:], out[0])
	}
	return out
}

// groupedBy parts a list by a figure of each sheet, smallest first. Only pages
// that are made set their sheets in order of day.
func groupedBy(list []*book.Entry, figure func(*book.Entry) int, of func(figure int) span) []span {
	count := map[int]int{}
	for _, e := range list {
		count[figure(e)]++
	}
	out, at := make([]span, 0, len(count)), map[int]int{}
	for _, k := range sorted(count) {
		at[k] = len(out)
		sp := of(k)
		sp.sheets = make([]*book.Entry, 0, count[k])
		out = append(out, sp)
	}
	for _, e := range list {
		sp := &out[at[figure(e)]]
		sp.sheets = append(sp.sheets, e)
	}
	return out
}

func (s *shelf) spanWords(sp span) string {
	words := itoa(sp.from)
	switch {
	case sp.from < 0:
		words = s.lang.DateNotKnown
	case sp.years > 1:
		words = page.Fill(s.lang.FromTo, words, itoa(sp.from+sp.years-1))
	}
	if sp.stretch > 0 {
		words += ", " + s.stretchWords(sp)
	}
	return words
}

func (s *shelf) stretchWords(sp span) string {
	first, last := sp.numbers()
	return page.Fill(s.lang.NumbersOf, itoa(first), itoa(last))
}

// numbers are the first and the last of its stretch.
func (sp span) numbers() (first, last int) {
	return (sp.stretch - 1) * manyRows, sp.stretch*manyRows - 1
}

// spanAddress is below the holder's: people/signe-rask/collected/1950-1959.
func spanAddress(of page.Address, id string, sp span) page.Address {
	words := "not-known"
	if sp.from >= 0 {
		words = itoa(sp.from)
		if sp.years > 1 {
			words += "-" + itoa(sp.from+sp.years-1)
		}
	}
	if sp.stretch > 0 {
		first, last := sp.numbers()
		words += "-numbers-" + itoa(first) + "-" + itoa(last)
	}
	return of + page.Address("/"+id+"/"+words)
}

// partJobs are the pages of the long lists of a holder.
func (s *shelf) partJobs(out []job, of page.Address, h holder) []job {
	for _, l := range h.lists {
		if len(l.sheets) > manyRows {
			out = s.spanJobs(out, of, h, l, l.parts(), nil)
		}
	}
	return out
}

// spanJobs are the pages of parts and of what they are parted in; in are the
// longer spans that they are parts of, longest first.
func (s *shelf) spanJobs(out []job, of page.Address, h holder, l holding, parts, in []span) []job {
	for _, sp := range parts {
		a := spanAddress(of, l.id, sp)
		k := s.keyer().add("part", string(a), l.once).entries(sp.sheets)
		out = append(out, job{name: string(a), key: k.sum(), rows: len(sp.sheets), page: func() (*page.Page, error) { return s.partPage(h.head(), a, l, sp, in), nil }})
		if sp.parted() {
			out = s.spanJobs(out, of, h, l, sp.parts(), append(slices.Clip(in), sp))
		}
	}
	return out
}

// partPage is the page of one part of a list.
func (s *shelf) partPage(holder *page.Page, a page.Address, l holding, sp span, in []span) *page.Page {
	words := s.spanWords(sp)
	if l.within != nil { // the holder's own words say the year
		words = s.stretchWords(sp)
	}
	p := s.newPage(a, holder.Title+", "+words, append(append([]page.Part{}, holder.Heading...), said(", "+words))...)
	p.Trail = append(append([]page.Link{}, holder.Trail...), page.Link{To: holder.Address, Text: holder.Heading})
	for _, longer := range in {
		p.Trail = append(p.Trail, page.Link{To: spanAddress(holder.Address, l.id, longer), Text: []page.Part{said(s.spanWords(longer))}})
	}
	p.Standing = []page.Part{said(s.sheetsWord(len(sp.sheets)) + ".")}
	p.Notices = s.heldNotice(sp.sheets)
	switch {
	case sp.parted() && sp.decade():
		section(p, "years", s.lang.ByYear, s.partTally(holder.Address, l, sp.parts()))
	case sp.parted():
		section(p, "numbers", s.lang.ByNumber, s.partTally(holder.Address, l, sp.parts()))
	case sp.decade():
		section(p, "sheets", l.heading, s.grouped(sp.sheets, l.once, 1)...)
	default:
		section(p, "sheets", l.heading, s.rowList(byDate(sp.sheets), l.once))
	}
	return p
}

// onPage is how many rows of the lists stand on the holder's page itself.
func (h holder) onPage() (n int) {
	for _, l := range h.lists {
		if len(l.sheets) <= manyRows {
			n += len(l.sheets)
		}
	}
	return n
}
