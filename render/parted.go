package render

import (
	"blotter/ledger/book"
	"blotter/render/page"
)

// manyRows is how many sheets a page lists at most. Of a longer list each
// decade of collecting has a page of its own, of a decade as long each year:
// so an address keeps its content, a browser need not read a hundred
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
}

// shelve adds the lists to the holder's page.
func (s *shelf) shelve(p *page.Page, lists ...holding) {
	for _, l := range lists {
		switch n := len(l.sheets); {
		case n > manyRows:
			section(p, l.id, l.heading, s.spans(p.Address, l, 10))
		case n > 0:
			section(p, l.id, l.heading, s.rows(l.sheets, l.once)...)
		}
	}
}

// spans are the pages of the decades, or of the years, of a list.
func (s *shelf) spans(of page.Address, l holding, years int) page.Tally {
	var out page.Tally
	for _, sp := range spansOf(l.sheets, years) {
		out.List = append(out.List, page.TallyLine{Link: page.Link{To: spanAddress(of, l.id, sp), Text: []page.Part{said(s.spanWords(sp))}}, Note: page.Said(s.sheetsWord(len(sp.sheets)))})
	}
	return out
}

// span is the sheets of a decade or of a year, in order of path; from is -1
// where the day is not known.
type span struct {
	from, years int
	sheets      []*book.Entry
}

// parted reports whether each year of a decade has a page of its own.
func (sp span) parted() bool { return sp.years > 1 && sp.from >= 0 && len(sp.sheets) > manyRows }

// spansOf parts a list, the undated last. Only pages that are made set their
// sheets in order of day.
func spansOf(list []*book.Entry, years int) []span {
	fromOf := func(e *book.Entry) int {
		if !e.Dated {
			return -1
		}
		return e.First.Year() / years * years
	}
	count := map[int]int{}
	for _, e := range list {
		count[fromOf(e)]++
	}
	out, at := make([]span, 0, len(count)), map[int]int{}
	for _, from := range sorted(count) {
		at[from] = len(out)
		out = append(out, span{from, years, make([]*book.Entry, 0, count[from])})
	}
	for _, e := range list {
		sp := &out[at[fromOf(e)]]
		sp.sheets = append(sp.sheets, e)
	}
	if len(out) > 0 && out[0].from < 0 {
		out = append(out[1:], out[0])
	}
	return out
}

func (s *shelf) spanWords(sp span) string {
	switch {
	case sp.from < 0:
		return s.lang.DateNotKnown
	case sp.years == 1:
		return itoa(sp.from)
	}
	return page.Fill(s.lang.FromTo, itoa(sp.from), itoa(sp.from+sp.years-1))
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
	return of + page.Address("/"+id+"/"+words)
}

// partJobs are the pages of the long lists of a holder.
func (s *shelf) partJobs(out []job, of page.Address, h holder) []job {
	for _, l := range h.lists {
		if len(l.sheets) <= manyRows {
			continue
		}
		for _, decade := range spansOf(l.sheets, 10) {
			out = append(out, s.partJob(of, h, l, decade, span{}))
			if !decade.parted() {
				continue
			}
			for _, year := range spansOf(decade.sheets, 1) {
				out = append(out, s.partJob(of, h, l, year, decade))
			}
		}
	}
	return out
}

func (s *shelf) partJob(of page.Address, h holder, l holding, sp, in span) job {
	a := spanAddress(of, l.id, sp)
	k := s.keyer().add("part", string(a), l.once).entries(sp.sheets)
	return job{name: string(a), key: k.sum(), rows: len(sp.sheets), page: func() (*page.Page, error) { return s.partPage(h.head(), a, l, sp, in), nil }}
}

// partPage is the page of one decade or year of a list; in is the decade of
// the year.
func (s *shelf) partPage(holder *page.Page, a page.Address, l holding, sp, in span) *page.Page {
	words := s.spanWords(sp)
	p := s.newPage(a, holder.Title+", "+words, append(append([]page.Part{}, holder.Heading...), said(", "+words))...)
	p.Trail = append(append([]page.Link{}, holder.Trail...), page.Link{To: holder.Address, Text: holder.Heading})
	if in.years > 0 {
		p.Trail = append(p.Trail, page.Link{To: spanAddress(holder.Address, l.id, in), Text: []page.Part{said(s.spanWords(in))}})
	}
	p.Standing = []page.Part{said(s.sheetsWord(len(sp.sheets)) + ".")}
	p.Notices = s.heldNotice(sp.sheets)
	if sp.parted() {
		part := l
		part.sheets = sp.sheets
		section(p, "years", s.lang.ByYear, s.spans(holder.Address, part, 1))
		return p
	}
	blocks := []page.Block{s.rowList(byDate(sp.sheets), l.once)}
	if sp.years > 1 && sp.from >= 0 {
		blocks = s.grouped(sp.sheets, l.once, 1)
	}
	section(p, "sheets", l.heading, blocks...)
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
