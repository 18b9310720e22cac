package render

import (
	"strings"

	"blotter/ledger/book"
	"blotter/render/page"
)

// taxonHolder is the page of a name or a genus as one that lists sheets.
func (s *shelf) taxonHolder(t *taxon) holder {
	heading := s.lang.SoNamedNow
	if t.genus == "" && len(t.under) > 0 {
		heading = s.lang.NamedNoFurther
	}
	return holder{func() *page.Page { return s.taxonHead(t) }, []holding{{"now", heading, t.now, "", nil}, {"once", s.lang.SoNamedOnce, t.once, t.key, nil}}}
}

// taxonHead is the heading and the trail of the page of a name.
func (s *shelf) taxonHead(t *taxon) *page.Page {
	head := s.headName(t)
	p := s.newPage(taxonAddress(t), head.Plain(), head)
	if f := s.families[t.fam]; f != nil {
		p.Trail = append(p.Trail, page.Link{To: page.Address("families/" + f.slug), Text: []page.Part{s.name(t.fam)}})
	}
	if g := s.names[t.genus]; g != nil {
		p.Trail = append(p.Trail, page.Link{To: taxonAddress(g), Text: []page.Part{s.name(g.key)}})
	}
	return p
}

// taxonPage is the page of a name or a genus.
func (s *shelf) taxonPage(t *taxon) *page.Page {
	p := s.taxonHead(t)
	p.Standing = append(s.status(t), said(" "+s.bears(t)))
	p.Notices = s.heldNotice(t.now, t.once)
	if len(t.under) > 0 {
		section(p, "names", s.lang.NamesWord, s.children(t.under))
	}
	s.shelve(p, s.taxonHolder(t).lists...)
	s.synonyms(p, t)
	all := s.allNow(t)
	section(p, "months", s.lang.ByMonth, s.monthChart(all)...)
	section(p, "map", s.lang.MapHeading, s.distribution(all)...)
	section(p, "years", s.lang.ByYear, s.yearChart(all)...)
	return p
}

// headName is the name with its authors: as names/ has it, else as the first
// sheet that bears it so does.
func (s *shelf) headName(t *taxon) page.Name {
	if n := s.in.Book.Museum.Names.Find(t.key); n != nil {
		return s.name(n.Given.Name.Text)
	}
	best := s.name(t.key)
	for _, e := range t.now {
		n := s.name(e.Name)
		if len(n.Pieces) > len(best.Pieces) && plainHead(n, t.key) {
			return n
		}
	}
	return best
}

// plainHead reports whether n is key and its authors, without doubt or note.
func plainHead(n page.Name, key string) bool {
	var latin []string
	for _, p := range n.Pieces {
		if p.Kind != page.Author {
			latin = append(latin, p.Text)
		}
	}
	return strings.ReplaceAll(strings.Join(latin, " "), "× ", "×") == strings.ReplaceAll(key, "× ", "×")
}

// status says whether the name is accepted in the museum's list.
func (s *shelf) status(t *taxon) []page.Part {
	ns := &s.in.Book.Museum.Names
	n := ns.Find(t.key)
	switch {
	case ns.Empty() || n == nil && t.genus == "":
		return nil
	case n == nil:
		return []page.Part{said(s.lang.StatusNotListed + ".")}
	case n.Given.Of.Set():
		of := []page.Part{s.name(n.Given.Of.Text)}
		if n.Of != nil && s.names[n.Of.Key()] != nil {
			of = []page.Part{page.Link{To: taxonAddress(s.names[n.Of.Key()]), Text: of}}
		}
		out := append(page.FillParts(s.lang.StatusSynonym, of), said("."))
		if n.Given.Source.Set() {
			out = append(out, said(" "), page.Person(n.Given.Source.Text+"."))
		}
		return out
	}
	return []page.Part{said(s.lang.StatusAccepted + ".")}
}

// bears is "14 sheets bear this name now, 6 more bore it once."
func (s *shelf) bears(t *taxon) string {
	n, out := t.total(), s.lang.BearsNone
	switch {
	case n == 1:
		out = s.lang.BearsNow1
	case n > 1:
		out = page.Fill(s.lang.BearsNow, s.sheetsWord(n))
	}
	if o := len(t.once); o == 1 && n > 0 {
		out += ", " + s.lang.BearsOnce1
	} else if o > 0 && n > 0 {
		out += ", " + page.Fill(s.lang.BearsOnce, itoa(o))
	} else if o > 0 {
		out += "; " + page.Fill(s.lang.BoreOnce, s.sheetsWord(o))
	}
	return out + "."
}

func (s *shelf) children(under []*taxon) page.Tally {
	var out page.Tally
	for _, u := range under {
		note := s.sheetsWord(u.total())
		if u.total() == 0 {
			note = s.lang.FormerOnly
		}
		out.List = append(out.List, page.TallyLine{Link: page.Link{To: taxonAddress(u), Text: []page.Part{s.name(u.key)}}, Note: page.Said(note)})
	}
	return out
}

// synonyms are the other names that the museum's list refers here.
func (s *shelf) synonyms(p *page.Page, t *taxon) {
	var out page.Lines
	for _, n := range s.synonymsOf[t.key] {
		name := s.name(n.Given.Name.Text)
		line := []page.Part{name}
		if x := s.names[n.Key()]; x != nil {
			line = []page.Part{page.Link{To: taxonAddress(x), Text: []page.Part{name}}}
		}
		out.List = append(out.List, line)
	}
	if len(out.List) > 0 {
		section(p, "synonyms", s.lang.Synonyms, out)
	}
}

// allNow are the sheets of a taxon and of all below it.
func (s *shelf) allNow(t *taxon) []*book.Entry {
	if len(t.under) == 0 {
		return t.now
	}
	out := append([]*book.Entry{}, t.now...)
	for _, u := range t.under {
		out = append(out, s.allNow(u)...)
	}
	return out
}

// familyHolder is the page of a family as one that lists sheets: those that
// are named to the family alone.
func (s *shelf) familyHolder(f *taxon) holder {
	h := holder{head: func() *page.Page { return s.familyHead(f) }}
	if t := s.names[f.key]; t != nil {
		h.lists = []holding{{"now", s.lang.NamedNoFurther, t.now, "", nil}}
	}
	return h
}

// familyHead is the heading and the trail of the page of a family.
func (s *shelf) familyHead(f *taxon) *page.Page {
	p := s.newPage(page.Address("families/"+f.slug), f.key, s.name(f.key))
	p.Trail = []page.Link{{To: "families/index", Text: []page.Part{said(s.lang.Families)}}}
	return p
}

// familyPage is the page of a family: its genera.
func (s *shelf) familyPage(f *taxon) *page.Page {
	p := s.familyHead(f)
	n := f.total()
	if t := s.names[f.key]; t != nil {
		n += len(t.now)
	}
	p.Standing = []page.Part{said(upperFirst(page.Fill(s.lang.InGenera, s.sheetsWord(n), page.Count(len(f.under), s.lang.Genus1, s.lang.GenusN))))}
	all := s.allNow(f)
	p.Notices = s.heldNotice(all)
	if len(f.under) > 0 {
		section(p, "genera", s.lang.Genera, s.children(f.under))
	}
	s.shelve(p, s.familyHolder(f).lists...)
	section(p, "months", s.lang.ByMonth, s.monthChart(all)...)
	section(p, "map", s.lang.MapHeading, s.distribution(all)...)
	section(p, "years", s.lang.ByYear, s.yearChart(all)...)
	return p
}
