package render

import (
	"slices"
	"strings"
	"unicode"

	"blotter/render/page"
)

// maxIndex is how many lines an index holds before it is split by letter.
const maxIndex = 1500

// plainIndex is how many lines an index holds without headings.
const plainIndex = 60

// indexes are the pages that list families, people, places, years and names.
func (s *shelf) indexes() []*page.Page {
	out := []*page.Page{s.placeIndex(), s.yearIndex()}
	out = append(out, s.lettered("families", s.lang.Families, s.familyLines())...)
	out = append(out, s.lettered("people", s.lang.Collectors, s.personLines())...)
	return append(out, s.lettered("names", s.lang.AtoZ, s.nameLines())...)
}

// entry is one line of an index and the words that it is sorted by.
type entry struct {
	by   string
	line page.TallyLine
}

func (s *shelf) familyLines() []entry {
	var out []entry
	for _, k := range sorted(s.families) {
		f := s.families[k]
		n := f.total()
		if t := s.names[k]; t != nil {
			n += len(t.now)
		}
		out = append(out, entry{k, page.TallyLine{Link: page.Link{To: page.Address("families/" + f.slug), Text: []page.Part{s.name(k)}}, Note: page.Said(s.sheetsWord(n))}})
	}
	return out
}

func (s *shelf) personLines() []entry {
	var out []entry
	for _, k := range sorted(s.people) {
		p := s.people[k]
		note := s.sheetsWord(len(p.collected))
		switch {
		case len(p.collected) == 0 && len(p.named) > 0:
			note = page.Fill(s.lang.NamedN, s.sheetsWord(len(p.named)))
		case len(p.collected) == 0 && len(p.earlier) > 0:
			note = page.Fill(s.lang.EarlierN, s.sheetsWord(len(p.earlier)))
		case len(p.collected) == 0:
			note = page.Fill(s.lang.PartyN, s.sheetsWord(len(p.with)))
		case len(p.named) > 0:
			note += ", " + page.Fill(s.lang.NamedN, itoa(len(p.named)))
		}
		out = append(out, entry{lastName(p.name), page.TallyLine{Link: page.Link{To: personAddress(p), Text: []page.Part{page.Person(p.name)}}, Note: page.Said(note)}})
	}
	return out
}

// lastName is what a person is sorted by: the last word that is no addition.
func lastName(name string) string {
	f := strings.Fields(name)
	if len(f) == 0 {
		return name
	}
	return f[len(f)-1] + " " + name
}

func (s *shelf) nameLines() []entry {
	var out []entry
	for _, k := range sorted(s.names) {
		t := s.names[k]
		note := s.sheetsWord(t.total())
		if t.total() == 0 {
			note = s.lang.FormerOnly
		}
		out = append(out, entry{strings.TrimPrefix(k, "×"), page.TallyLine{Link: page.Link{To: taxonAddress(t), Text: []page.Part{s.name(k)}}, Note: page.Said(note)}})
	}
	return out
}

// lettered makes an index by first letter, on one page when it is short, else
// on a page a letter.
func (s *shelf) lettered(folder, title string, list []entry) []*page.Page {
	slices.SortStableFunc(list, func(a, b entry) int { return strings.Compare(page.Slug(a.by), page.Slug(b.by)) })
	p := s.newPage(page.Address(folder+"/index"), title, said(title))
	pages := []*page.Page{p}
	p.Standing = []page.Part{said(page.Fill(s.lang.InAll, page.Number(len(list))))}
	if len(list) == 0 {
		p.Standing = []page.Part{said(s.lang.FrontEmpty)}
	}
	if len(list) <= plainIndex {
		if t := tallyOf(list); len(list) > 0 {
			p.Lead = []page.Block{t}
		}
		return pages
	}
	p.Letters = true
	split := len(list) > maxIndex
	var letters page.Tally
	for len(list) > 0 {
		l := letterOf(list[0].by)
		n := 1
		for n < len(list) && letterOf(list[n].by) == l {
			n++
		}
		t := tallyOf(list[:n])
		if !split {
			p.Sections = append(p.Sections, page.Section{ID: "letter-" + page.Slug(l), Heading: page.Said(l), Blocks: []page.Block{t}})
		} else {
			q := s.newPage(page.Address(folder+"/letter-"+page.Slug(l)), title+": "+l, said(title+": "+l))
			q.Trail = []page.Link{{To: p.Address, Text: []page.Part{said(title)}}}
			q.Lead = []page.Block{t}
			pages = append(pages, q)
			letters.List = append(letters.List, page.TallyLine{Link: page.Link{To: q.Address, Text: []page.Part{said(l)}}, Note: page.Said(page.Number(n))})
		}
		list = list[n:]
	}
	if len(letters.List) > 0 {
		p.Lead = []page.Block{letters}
	}
	return pages
}

func tallyOf(list []entry) page.Tally {
	var t page.Tally
	for _, e := range list {
		t.List = append(t.List, e.line)
	}
	return t
}

// letterOf is the first letter, folded: Å stands with A.
func letterOf(words string) string {
	slug := page.Slug(words)
	if slug != "" && unicode.IsLetter(rune(slug[0])) { // a slug is ASCII
		return strings.ToUpper(slug[:1])
	}
	return "0-9"
}

func (s *shelf) placeIndex() *page.Page {
	p := s.newPage("places/index", s.lang.Places, said(s.lang.Places))
	var top []*region
	for _, k := range sorted(s.places) {
		if !strings.Contains(k, "/") {
			top = append(top, s.places[k])
		}
	}
	if len(top) == 0 {
		p.Standing = []page.Part{said(s.lang.FrontEmpty)}
		return p
	}
	for _, r := range top {
		blocks := []page.Block{page.Para{Parts: []page.Part{page.Link{To: regionAddress(r.path), Text: []page.Part{page.Person(r.words[0])}}, said(" " + s.sheetsWord(len(r.sheets)))}}}
		if len(r.parts) > 0 {
			blocks = append(blocks, s.regions(r.parts))
		}
		section(p, "in-"+r.path, string(page.Visible(r.words[0])), blocks...)
	}
	return p
}

func (s *shelf) yearIndex() *page.Page {
	p := s.newPage("years/index", s.lang.Years, said(s.lang.Years))
	if len(s.sheets) == 0 {
		p.Standing = []page.Part{said(s.lang.FrontEmpty)}
	}
	years := sorted(s.years)
	for len(years) > 0 {
		d := years[0] / 10 * 10
		var t page.Tally
		n := 0
		for n < len(years) && years[n]/10*10 == d {
			y := years[n]
			t.List = append(t.List, page.TallyLine{Link: page.Link{To: page.Address("years/" + itoa(y)), Text: []page.Part{said(itoa(y))}}, Note: page.Said(s.sheetsWord(len(s.years[y])))})
			n++
		}
		section(p, "from-"+itoa(d), page.Fill(s.lang.FromTo, itoa(d), itoa(d+9)), t)
		years = years[n:]
	}
	if len(s.undated) > 0 {
		line := page.TallyLine{Link: page.Link{To: "years/not-known", Text: []page.Part{said(s.lang.DateNotKnown)}}, Note: page.Said(s.sheetsWord(len(s.undated)))}
		section(p, "not-known", upperFirst(s.lang.DateNotKnown), page.Tally{List: []page.TallyLine{line}})
	}
	return p
}

// undatedPage lists the sheets of no sure year.
func (s *shelf) undatedPage() *page.Page {
	h := s.undatedHolder()
	p := h.head()
	p.Notices = s.heldNotice(s.undated)
	if len(s.undated) > manyRows {
		s.shelve(p, h.lists...)
	} else {
		p.Lead = s.rows(s.undated, "")
	}
	return p
}

// undatedHolder is that page. Where only the decade is known the sheets stand
// here too, so they are parted by number alone.
func (s *shelf) undatedHolder() holder {
	return holder{head: func() *page.Page {
		title := upperFirst(s.lang.DateNotKnown)
		p := s.newPage("years/not-known", title, said(title))
		p.Trail = []page.Link{{To: "years/index", Text: []page.Part{said(s.lang.Years)}}}
		return p
	}, lists: []holding{{id: "sheets", heading: s.lang.AllSheets, sheets: s.undated, within: &span{from: -1}}}}
}
