package render

import (
	"fmt"
	"strings"
	"unicode/utf8"

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
		parts = append(parts, x.shown(name)...)
	} else {
		parts = append(parts, said(x.lang.NotYetNamed))
	}
	if who, _ := x.who(x.r.Collector.Text); who != "" {
		no := ""
		if !absent(x.r.CollNo.Text) {
			no = " " + x.r.CollNo.Text
		}
		parts = append(parts, said("; "), page.Person(who+no))
	}
	parts = stop(parts, x.lang)
	if rv := x.story.Last; rv.Known() {
		parts = append(parts, said(" "+x.citedAs(rv)+"."))
	}
	if x.site.Base != "" {
		parts = append(parts, said(" "), page.Person(x.site.Base+string(x.self)+".html"))
	}
	out := []page.Block{page.Para{Parts: parts}}
	if m.Site.Licence.Set() {
		out = append(out, page.Para{Parts: page.FillParts(x.lang.LicenceLine, []page.Part{page.Person(m.Site.Licence.Text)})})
	}
	return append(out, x.midsLine())
}

// citedAs names a revision in a citation: by its id, where there is one that
// everybody may know, and its day.
func (s *shelf) citedAs(rv Revision) string {
	if rv.ID == "" {
		return page.Fill(s.lang.CiteDay, s.day(rv.When))
	}
	return page.Fill(s.lang.CiteRevision, rv.Short(), s.day(rv.When))
}

// footShown says of which revision a page is.
func (s *shelf) footShown(rv Revision) string {
	if rv.ID == "" {
		return page.Fill(s.lang.FootShownDay, s.day(rv.When))
	}
	return page.Fill(s.lang.FootShown, s.day(rv.When), rv.Short())
}

// enteredBy says who entered something with which revision.
func (s *shelf) enteredBy(rv Revision) string {
	if rv.ID == "" {
		return page.Fill(s.lang.EnteredByOn, s.clerk(rv.By), s.day(rv.When))
	}
	return page.Fill(s.lang.EnteredBy, s.clerk(rv.By), s.day(rv.When), rv.Short())
}

// stop ends a sentence that does not end already.
func stop(ps []page.Part, l *page.Language) []page.Part {
	if strings.HasSuffix(plain(l, ps), ".") {
		return ps
	}
	return append(ps, said("."))
}

// linked is the page's schema.org data: a CreativeWork about a Taxon, in a
// Collection (schema.org 29 has no type of its own for a specimen; from
// memory).
func (x *sheet) linked(name reading.Name) []byte {
	m := &x.in.Book.Museum.Museum
	b := make(jsonText, 0, 400)
	b = append(b, `{"@context":"https://schema.org","@type":"CreativeWork"`...)
	if x.site.Base != "" {
		b.member("@id", x.site.Base+string(x.self)+".html")
	}
	title := string(x.e.Number)
	if name.Words != "" {
		title += ": " + x.accepted(name)
	}
	b.member("name", title)
	b.member("identifier", string(x.e.Number))
	if name.Words != "" {
		b = append(b, `,"about":{"@type":"Taxon"`...)
		b.member("name", x.accepted(name))
		b = append(b, '}')
	}
	who, _ := x.who(x.r.Collector.Text)
	b.member("creator", who)
	if x.d.Date.Known {
		b.member("temporalCoverage", x.d.Date.Read.ISO())
	}
	if x.story.Last.Known() {
		b.member("dateModified", x.story.Last.When.Format("2006-01-02"))
	}
	b.member("license", m.Site.Licence.Text)
	b = append(b, `,"isPartOf":{"@type":"Collection"`...)
	b.member("name", string(x.site.Title))
	return append(b, "}}"...)
}

// jsonText is JSON being written.
type jsonText []byte

// member adds a member whose value is a text; an empty one is left out.
func (b *jsonText) member(key, value string) {
	if value == "" {
		return
	}
	*b = append(append(append(*b, `,"`...), key...), `":"`...)
	for _, r := range page.Visible(value) {
		switch {
		case r == '"' || r == '\\':
			*b = append(*b, '\\', byte(r))
		case r < ' ':
			*b = fmt.Appendf(*b, `\u%04x`, r)
		default:
			*b = utf8.AppendRune(*b, r)
		}
	}
	*b = append(*b, '"')
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
