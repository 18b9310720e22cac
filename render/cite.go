package render

import (
	"encoding/json"
	"strings"

	"blotter/ledger/reading"
	"blotter/render/page"
)

// cite is how to cite the sheet, as it stood at its own last revision, and
// under which licence it is shown.
func (x *sheet) cite(name reading.Name) []page.Block {
	m := &x.in.Book.Museum.Museum
	parts := []page.Part{page.Person(m.Name.Text)}
	if m.Code.Set() {
		parts = append(parts, said(" ("), page.Person(m.Code.Text), said(")"))
	}
	parts = append(parts, said(", "+page.Fill(x.lang.SpecimenWord, string(x.e.Number))+": "))
	if name.Words != "" {
		parts = append(parts, readName(name))
	} else {
		parts = append(parts, said(x.lang.NotYetNamed))
	}
	if who, _ := x.who(x.r.Collector.Text); who != "" {
		no := ""
		if !x.held && !absent(x.r.CollNo.Text) {
			no = " " + x.r.CollNo.Text
		}
		parts = append(parts, said("; "), page.Person(who+no))
	}
	parts = stop(parts, x.lang)
	if rv := x.story.Last; rv.Known() {
		parts = append(parts, said(" "+page.Fill(x.lang.CiteRevision, rv.Short(), x.day(rv.When))+"."))
	}
	if x.site.Base != "" {
		parts = append(parts, said(" "), page.Person(x.site.Base+string(x.self)+".html"))
	}
	out := []page.Block{page.Para{Parts: parts}}
	if m.Site.Licence.Set() {
		out = append(out, page.Para{Parts: page.FillParts(x.lang.LicenceLine, []page.Part{page.Person(m.Site.Licence.Text)})})
	}
	return out
}

// stop ends a sentence that does not end already.
func stop(ps []page.Part, l *page.Language) []page.Part {
	if strings.HasSuffix(plain(l, ps), ".") {
		return ps
	}
	return append(ps, said("."))
}

// thing is the part of schema.org's vocabulary that a specimen page gives.
type thing struct {
	Context    string   `json:"@context"`
	Type       string   `json:"@type"`
	ID         string   `json:"@id,omitempty"`
	Name       string   `json:"name"`
	Identifier string   `json:"identifier"`
	About      *taxonLD `json:"about,omitempty"`
	Creator    string   `json:"creator,omitempty"`
	Created    string   `json:"temporalCoverage,omitempty"`
	Modified   string   `json:"dateModified,omitempty"`
	License    string   `json:"license,omitempty"`
	Part       *partLD  `json:"isPartOf"`
}

type taxonLD struct {
	Type string `json:"@type"`
	Name string `json:"name"`
}

type partLD struct {
	Type string `json:"@type"`
	Name string `json:"name"`
}

// linked is the page's schema.org data: a CreativeWork about a Taxon, in a
// Collection (schema.org 29 has no type of its own for a specimen; from
// memory).
func (x *sheet) linked(name reading.Name) []byte {
	m := &x.in.Book.Museum.Museum
	t := thing{Context: "https://schema.org", Type: "CreativeWork", Identifier: string(x.e.Number), License: m.Site.Licence.Text,
		Part: &partLD{"Collection", string(x.site.Title)}, Name: string(x.e.Number)}
	if x.site.Base != "" {
		t.ID = x.site.Base + string(x.self) + ".html"
	}
	if name.Words != "" {
		t.About = &taxonLD{"Taxon", name.Words}
		t.Name += ": " + name.Words
	}
	if who, _ := x.who(x.r.Collector.Text); who != "" {
		t.Creator = who
	}
	if !x.held && x.d.Date.Known {
		t.Created = x.d.Date.Read.ISO()
	}
	if x.story.Last.Known() {
		t.Modified = x.story.Last.When.Format("2006-01-02")
	}
	t.Name, t.Creator, t.License, t.Identifier = page.Visible(t.Name), page.Visible(t.Creator), page.Visible(t.License), page.Visible(t.Identifier)
	t.Part.Name = page.Visible(t.Part.Name)
	if t.About != nil {
		t.About.Name = page.Visible(t.About.Name)
	}
	b, err := json.Marshal(t)
	if err != nil {
		return nil
	}
	return b
}

// fieldWords is the name of a field as shown, by its dotted path.
func (s *shelf) fieldWords(path string) string {
	if n, ok := s.lang.FieldName[path]; ok {
		return n
	}
	last := path[strings.LastIndexByte(path, '.')+1:]
	if n, ok := s.lang.FieldName[last]; ok && !strings.HasPrefix(path, "determinations") {
		return n
	}
	return strings.ReplaceAll(path, "_", " ")
}
