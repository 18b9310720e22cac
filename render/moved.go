package render

import (
	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/render/page"
)

// movedPages leave a line at the addresses that the spellings of people in
// people.yaml and former addresses of names would have.
func (s *shelf) movedPages() []*page.Page {
	var out []*page.Page
	taken := map[string]bool{}
	for k := range s.people {
		taken["people/"+k] = true
	}
	for _, t := range s.names {
		taken["names/"+t.slug] = true
	}
	put := func(from string, to page.Address, words string) {
		if !taken[from] && from != string(to) {
			taken[from] = true
			out = append(out, s.moved(page.Address(from), to, words))
		}
	}
	for _, k := range sorted(s.people) {
		p := s.people[k]
		if p.listed == nil || p.listed.Initials.Text == "yes" {
			continue
		}
		for _, sp := range p.listed.Spellings {
			if sl := page.Slug(sp.Text); sl != "" {
				put("people/"+sl, personAddress(p), p.name)
			}
		}
	}
	for _, k := range sorted(s.names) {
		put("names/"+nameSlug(k), taxonAddress(s.names[k]), k)
	}
	for _, e := range s.renumbered {
		if to := s.goesOn(e); to != nil {
			put(string(sheetAddress(e.Number)), sheetAddress(to.Number), string(to.Number))
		}
	}
	return out
}

// moved is a page of one line for an address that has another now.
func (s *shelf) moved(from, to page.Address, words string) *page.Page {
	p := s.newPage(from, page.Fill(s.lang.NowAtTitle, words), page.Quote{Words: page.Words(words)})
	p.Gone = true
	p.Lead = []page.Block{page.Para{Parts: page.FillParts(s.lang.NowAt, []page.Part{page.Link{To: to, Text: []page.Part{page.Person(words)}}})}}
	return p
}

// retired reports whether an entry is what is left of a number whose plant goes
// on under another.
func retired(e *book.Entry) bool {
	return e.Stage == ledger.Stub && e.Fate == "same-as" && len(e.Fates) == 1 && e.Collector == "" && e.Date == "" && e.Name == "" && len(e.Images) == 0 && ledger.Number(e.Fates[0].To).Valid()
}

// goesOn is the published sheet whose plant bore a number before; nil when it
// has no page.
func (s *shelf) goesOn(e *book.Entry) *book.Entry {
	for range len(s.renumbered) {
		n := ledger.Number(e.Fates[0].To)
		if to := s.number[n.Key()]; to != nil {
			return to
		}
		if e = s.in.Book.Find(n); e == nil || !retired(e) {
			return nil
		}
	}
	return nil
}
