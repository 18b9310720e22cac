package render

import (
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/opinion"
	"blotter/ledger/public"
	"blotter/ledger/reading"
	"blotter/render/page"
)

// sheet is one specimen on its way to a page.
type sheet struct {
	*shelf
	e     *book.Entry
	d     *reading.Reading
	r     *ledger.Record
	story Story
	held  bool             // its exact place is withheld, and what else why says
	hold  page.Absence     // the phrase for what is
	why   *public.Withheld // nil: nothing is
	self  page.Address     // of the page

	related bool            // the page shows which other sheets are published
	refused map[string]bool // files of pictures that may not be shown
}

func (s *shelf) sheetOf(e *book.Entry, d *reading.Reading, w *public.Withheld, st Story) *sheet {
	x := &sheet{shelf: s, e: e, d: d, r: d.Record, story: st, why: w, held: w != nil}
	x.self = sheetAddress(e.Number)
	if w != nil {
		x.hold = page.Absence{Kind: page.WithheldWord, Reason: page.Said(w.Reason())}
	}
	return x
}

// page is the page of the specimen; read downwards it is like the lower right
// of a mounted sheet, slips above the label.
func (x *sheet) page() *page.Page {
	s, e, d := x.shelf, x.e, x.d
	p := &page.Page{Address: x.self, Number: page.Words(e.Number), Withdrawn: d.Fate != "", JSON: x.self + ".json"}
	if s.in.Options.HTMLOnly {
		p.JSON, p.Twinless = "", true
	}
	name, at := d.Current()
	p.Heading, p.Title = x.heading(name)
	p.Trail = x.trail()
	p.Standing = x.standing(name, at)
	p.Notices = x.notices(name)
	p.Pictures = x.pictures()
	x.section(p, "names", s.lang.NamesGiven, x.names()...)
	x.section(p, "label", s.lang.TheLabel, x.label()...)
	x.section(p, "place", s.lang.ThePlace, x.place()...)
	x.section(p, "gathering", s.lang.SameGathering, x.gathering()...)
	x.section(p, "state", "Where it is", x.state()...)
	x.section(p, "corrections", s.lang.Corrections, x.corrections()...)
	x.section(p, "cite", s.lang.Cite, x.cite(name)...)
	p.Jumps = x.jumps(p)
	if rv := x.story.Last; rv.Known() {
		p.Shown = []page.Part{said(s.footShown(rv))}
	}
	p.LD = x.linked(name)
	return p
}

// section adds a block with its heading; one that has nothing to say is left
// out.
func (x *sheet) section(p *page.Page, id, heading string, blocks ...page.Block) {
	if len(blocks) > 0 {
		p.Sections = append(p.Sections, page.Section{ID: id, Heading: page.Said(heading), Blocks: blocks})
	}
}

func (x *sheet) jumps(p *page.Page) []page.Link {
	var out []page.Link
	for _, s := range p.Sections {
		text := strings.ToLower(string(s.Heading))
		switch s.ID {
		case "names":
			text = page.Count(len(x.d.Opinions), x.lang.Name1, x.lang.NameN)
		case "label":
			text = x.lang.JumpLabelBlock
		case "place":
			text = x.lang.JumpPlace
		case "gathering":
			text = x.lang.JumpGathering
		case "cite":
			text = x.lang.JumpCite
		}
		out = append(out, page.Link{To: page.Address("#" + s.ID), Text: []page.Part{said(text)}})
	}
	return out
}

func (x *sheet) heading(name reading.Name) ([]page.Part, string) {
	if name.Words != "" {
		title := x.accepted(name)
		if title != name.Words {
			title += " (" + page.Fill(x.lang.DetAs, name.Words) + ")"
		}
		return x.shown(name), page.Fill(x.lang.SpecimenTitle, string(x.e.Number), title)
	}
	text := x.lang.NotYetNamed
	if f := x.e.Family; !absent(f) {
		text = page.Fill(x.lang.NotYetNamedFamily, f)
	}
	return []page.Part{said(text)}, page.Fill(x.lang.SpecimenTitle, string(x.e.Number), text)
}

func (x *sheet) trail() []page.Link {
	var out []page.Link
	key := x.currentKey(x.e)
	fam := x.in.Book.Museum.FamilyOf(key, x.e.Family)
	if f := x.families[fam]; f != nil {
		out = append(out, page.Link{To: page.Address("families/" + f.slug), Text: []page.Part{x.name(fam)}})
	}
	t := x.shelf.names[key]
	if t == nil {
		return out
	}
	if g := x.shelf.names[t.genus]; g != nil {
		out = append(out, page.Link{To: taxonAddress(g), Text: []page.Part{x.name(g.key)}})
	}
	return append(out, page.Link{To: taxonAddress(t), Text: []page.Part{x.name(key)}})
}

// standing says who named it so, when, and in words what a qualifier means.
func (x *sheet) standing(name reading.Name, at int) []page.Part {
	if x.d.Chain.Opinion < 0 {
		if x.d.Chain.Filed {
			return page.FillParts(x.lang.FiledBy, []page.Part{x.personName(x.r.FiledUnder.By.Text)})
		}
		if x.r.CoverName.Set() {
			return page.FillParts(x.lang.CoverName, []page.Part{page.Quote{Words: page.Words(x.r.CoverName.Text)}})
		}
		return nil
	}
	o := &x.d.Opinions[x.d.Chain.Opinion]
	who := []page.Part{x.personPart(o.Given.By.Text)}
	so, as := x.lang.NamedSoBy, x.lang.NamedAsBy
	if name, _ := x.who(o.Given.By.Text); name == "" {
		so, as = x.lang.NamedSo, x.lang.NamedAs
	}
	out := page.FillParts(so, who, []page.Part{said(x.opinionDay(o))})
	if len(x.renamings()) > 0 {
		out = page.FillParts(as, who, []page.Part{said(x.opinionDay(o))}, []page.Part{readName(name)})
		out = append(out, said("; "+x.lang.RenamedBar))
	}
	if at >= 0 && at != x.d.Chain.Opinion {
		out = append(out, said("; "+x.lang.RenamedSince))
	}
	for i := len(x.d.Chain.Order) - 1; i >= 0; i-- {
		c := &x.d.Opinions[x.d.Chain.Order[i]]
		if c.Kind == opinion.Conf && c.State == opinion.Stands {
			out = append(out, said("; "))
			out = append(out, page.FillParts(x.lang.AgreedBy, []page.Part{x.personPart(c.Given.By.Text)}, []page.Part{said(x.opinionDay(c))})...)
			break
		}
	}
	for _, q := range name.Read.Qualifiers {
		out = append(out, said("; "+page.Fill(x.lang.QualifierLine, q.Word, x.qualifier(q.Word, q.Governs))))
	}
	return append(out, said("."))
}

// qualifier is what a qualifier means, by the museum's setting or in the
// usual sense (common practice, no source: usage differs).
func (x *sheet) qualifier(word, governs string) string {
	for _, q := range x.in.Book.Museum.Qualifiers {
		if q.Word.Text == word && q.Means.Set() {
			return q.Means.Text
		}
	}
	what := x.lang.Ranks["species"]
	first, _, more := strings.Cut(governs, " ")
	switch {
	case x.lang.Ranks[first] != "":
		what = x.lang.Ranks[first]
	case governs != "" && !more && governs[0] >= 'A' && governs[0] <= 'Z':
		what = x.lang.Ranks["genus"]
	}
	if text, ok := x.lang.Qualifiers[word]; ok {
		return page.Fill(text, what)
	}
	return page.Fill(x.lang.QualifierAs, word)
}

// opinionDay is the day of a determination in words. Of a withheld sheet it may
// have been taken out: it would be the day of collecting.
func (x *sheet) opinionDay(o *reading.Opinion) string {
	if o.Date.Read.Known() {
		return o.Date.Read.String()
	}
	if x.held && !o.Given.Date.Set() {
		return x.lang.DayWithheld
	}
	return x.lang.NoDay
}

// withholds reports whether the record says something in a field, or in any
// below it, that is not shown.
func (x *sheet) withholds(path string) bool {
	return x.why != nil && slices.ContainsFunc(x.why.Fields, func(f string) bool {
		rest, ok := strings.CutPrefix(f, path)
		return ok && (rest == "" || rest[0] == '.')
	})
}
