package render

import (
	"blotter/ledger/reading"
	"blotter/render/page"
)

// midsElement is one information element of MIDS (Minimum Information about a
// Digital Specimen, TDWG; a draft, files of 30 April 2026) for plants: at which
// level it is asked for, and whether a page and its data give it. Its name is
// that of the standard.
type midsElement struct {
	level int
	name  string
	given func(*sheet) bool
}

// midsElements are those asked of biology. A ledger has no field yet for
// identifiers of the museum, of names, of places as things, and of pictures;
// they are lacking on every page.
var midsElements = []midsElement{
	{0, "PhysicalSpecimenID", func(x *sheet) bool { return x.e.Number != "" }},
	{0, "Organization", func(x *sheet) bool {
		m := &x.in.Book.Museum.Museum
		return m.Code.Set() || m.Name.Set()
	}},
	{1, "Name", func(x *sheet) bool { return !absent(x.e.Name) || !absent(x.r.CoverName.Text) }},
	{1, "ObjectType", func(x *sheet) bool { return !absent(x.r.KeptAs.Text) }},
	{1, "License", func(x *sheet) bool { return x.in.Book.Museum.Site.Licence.Set() }},
	{1, "Modified", func(x *sheet) bool { return x.story.Last.Known() }},
	{2, "QualitativeLocation", func(x *sheet) bool {
		p := &x.r.Place
		return !(absent(p.Country.Text) && absent(p.Province.Text) && absent(p.District.Text) && absent(p.Locality.Text) && absent(p.Position.Text))
	}},
	{2, "QuantitativeLocation", func(x *sheet) bool { return x.d.Position.Known }},
	{2, "CollectingAgent", func(x *sheet) bool { return !absent(x.r.Collector.Text) }},
	{2, "DateCollected", func(x *sheet) bool { return saysSo(x.r.Date.Text) }},
	{2, "CollectingNumber", func(x *sheet) bool { return saysSo(x.r.CollNo.Text) }},
	{2, "Media", func(x *sheet) bool { return len(x.r.Images) > 0 }},
	{3, "OrganizationID", lacking},
	{3, "CollectingAgentID", func(x *sheet) bool { return x.hasORCID(x.r.Collector.Text) }},
	{3, "IdentifiedAsID", lacking},
	{3, "GeographicalLocalityID", lacking},
	{3, "IdentifiedByID", func(x *sheet) bool { return x.hasORCID(x.e.By) }},
	{3, "MediaID", lacking},
}

func lacking(*sheet) bool { return false }

// saysSo reports whether there are words, or the word that the label has none:
// MIDS counts s.d. and s.n. as given.
func saysSo(words string) bool {
	a := reading.AbsenceOf(words)
	return a == reading.Present || a == reading.None
}

func (x *sheet) hasORCID(words string) bool {
	_, p := x.who(words)
	return p != nil && p.Initials.Text != "yes" && orcidShape.MatchString(p.ORCID.Text)
}

// mids is the level that the page reaches, -1 for none, and the names of what
// the next one lacks. A level holds only when all lower ones do.
func (x *sheet) mids() (level int, lacks []string) {
	level = 3
	for _, e := range midsElements { // in order of level
		if e.level > level+1 {
			break
		}
		if !e.given(x) {
			level = e.level - 1
			lacks = append(lacks, e.name)
		}
	}
	return level, lacks
}

// midsLine says the level and what the next one lacks.
func (x *sheet) midsLine() page.Block {
	level, lacks := x.mids()
	words := make([]string, len(lacks))
	for i, n := range lacks {
		words[i] = x.lang.MIDS[n]
	}
	text := x.lang.MIDSNone
	if level >= 0 {
		text = page.Fill(x.lang.MIDSLevel, itoa(level))
	}
	if len(words) > 0 {
		text += page.Fill(x.lang.MIDSLacks, itoa(level+1), x.shelf.list(words))
	}
	return page.Para{Parts: []page.Part{said(text + ".")}}
}
