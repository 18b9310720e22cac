package render

import (
	"cmp"
	"slices"
	"strings"

	"blotter/ledger/book"
	"blotter/render/page"
)

// regionHolder is the page of a region as one that lists sheets.
func (s *shelf) regionHolder(r *region) holder {
	return holder{func() *page.Page { return s.regionHead(r) }, []holding{{"sheets", s.lang.CollectedHere, r.sheets, "", nil}}}
}

// regionHead is the heading and the trail of a region's page.
func (s *shelf) regionHead(r *region) *page.Page {
	name := strings.Join(r.words, ", ")
	p := s.newPage(regionAddress(r.path), name, page.Quote{Words: page.Words(name)})
	p.Trail = []page.Link{{To: "places/index", Text: []page.Part{said(s.lang.Places)}}}
	path := r.path
	var above []page.Link
	for i := len(r.words) - 2; i >= 0; i-- {
		path = path[:max(strings.LastIndexByte(path, '/'), 0)]
		above = append(above, page.Link{To: regionAddress(path), Text: []page.Part{page.Person(r.words[i])}})
	}
	slices.Reverse(above)
	p.Trail = append(p.Trail, above...)
	return p
}

// regionPage is the page of a country, province or district.
func (s *shelf) regionPage(r *region) *page.Page {
	p := s.regionHead(r)
	text := page.Fill(s.lang.FromHere, s.sheetsWord(len(r.sheets)))
	if len(r.sheets) == 1 {
		text = s.lang.FromHere1
	}
	if y := s.yearsOf(r.sheets); y != "" {
		text += ", " + y
	}
	p.Standing = []page.Part{said(text + ".")}
	if where := s.standing(r); where != nil {
		p.Lead = append(p.Lead, page.Para{Parts: where})
	}
	if len(r.parts) > 0 {
		section(p, "parts", s.lang.PartsOf, s.regions(r.parts))
	}
	section(p, "map", s.lang.MapHeading, s.distribution(r.sheets)...)
	s.shelve(p, s.regionHolder(r).lists...)
	if people := s.collectorsOf(r.sheets); len(people.List) > 0 {
		section(p, "collectors", s.lang.CollectorsHere, people)
	}
	section(p, "years", s.lang.ByYear, s.yearChart(r.sheets)...)
	return p
}

// standing is the position and extent of a region, when places.yaml has it
// under its own name; nil when not.
func (s *shelf) standing(r *region) []page.Part {
	for i := range s.in.Book.Museum.Places {
		p := &s.in.Book.Museum.Places[i]
		path := ""
		for _, w := range []string{p.Place.Country.Text, p.Place.Province.Text, p.Place.District.Text} {
			if sl := s.slug(w); !absent(w) && sl != "" {
				path += "/" + sl
			}
		}
		if path != "/"+r.path || s.slug(p.Name.Text) != s.slug(r.words[len(r.words)-1]) || absent(p.Place.Position.Text) {
			continue
		}
		out := page.FillParts(s.lang.PlaceMiddle, []page.Part{page.Person(p.Place.Position.Text)})
		if p.Extent.Set() {
			out = append(append(out, said("; ")), page.FillParts(s.lang.PlaceExtent, []page.Part{page.Person(p.Extent.Text)})...)
		}
		return append(out, said("."))
	}
	return nil
}

func (s *shelf) regions(list []*region) page.Tally {
	var out page.Tally
	for _, r := range list {
		out.List = append(out.List, page.TallyLine{Link: page.Link{To: regionAddress(r.path), Text: []page.Part{page.Person(r.words[len(r.words)-1])}}, Note: page.Said(s.sheetsWord(len(r.sheets)))})
	}
	return out
}

// collectorsOf are those who collected the sheets of a list, the busiest
// first.
func (s *shelf) collectorsOf(list []*book.Entry) page.Tally {
	count := map[string]int{}
	for _, e := range list {
		if name, _ := s.who(s.party(e.Collector)[0]); name != "" {
			count[name]++
		}
	}
	names := sorted(count)
	slices.SortStableFunc(names, func(a, b string) int { return cmp.Compare(count[b], count[a]) })
	var out page.Tally
	for _, n := range names {
		out.List = append(out.List, page.TallyLine{Link: page.Link{To: page.Address("people/" + s.slug(n)), Text: []page.Part{page.Person(n)}}, Note: page.Said(s.sheetsWord(count[n]))})
	}
	return out
}

// yearPage is the page of one year of collecting.
func (s *shelf) yearPage(y int) *page.Page {
	list := s.years[y]
	h := s.yearHolder(y)
	p := h.head()
	p.Standing = []page.Part{said(page.Fill(s.lang.CollectedThatYear, s.sheetsWord(len(list))))}
	section(p, "months", s.lang.ByMonth, s.monthChart(list)...)
	s.shelve(p, h.lists...)
	if people := s.collectorsOf(list); len(people.List) > 0 {
		section(p, "collectors", s.lang.Collectors, people)
	}
	return p
}

// yearHolder is the page of a year.
func (s *shelf) yearHolder(y int) holder {
	return holder{head: func() *page.Page {
		p := s.newPage(page.Address("years/"+itoa(y)), itoa(y), said(itoa(y)))
		p.Trail = []page.Link{{To: "years/index", Text: []page.Part{said(s.lang.Years)}}}
		return p
	}, lists: []holding{{id: "sheets", heading: s.lang.AllSheets, sheets: s.years[y], within: &span{from: y, years: 1}}}}
}
