package render

import (
	"cmp"
	"strings"

	"blotter/ledger"
	"blotter/ledger/reading"
	"blotter/render/page"
)

// notices are what must be read first: caution, withdrawn, type, disputed,
// withheld, not yet named.
func (x *sheet) notices(name reading.Name) []page.Notice {
	var out []page.Notice
	put := func(kind page.NoticeKind, word string, text ...page.Part) {
		out = append(out, page.Notice{Kind: kind, Word: page.Said(word), Text: text})
	}
	for _, c := range x.d.Cautions {
		put(page.CautionNotice, x.lang.CautionWord, x.caution(c)...)
	}
	if x.d.Fate != "" {
		put(page.WithdrawnNotice, x.lang.WithdrawnWord, x.fate(&x.r.Fate[len(x.r.Fate)-1])...)
	}
	for _, t := range x.d.Types {
		if !t.Mistake {
			put(page.TypeNotice, x.lang.TypeNoticeWord, x.typeStatus(t)...)
		}
	}
	if x.d.Chain.Disputed {
		if x.d.Chain.Filed {
			put(page.DisputedNotice, "", page.FillParts(x.lang.DisputedNotice, []page.Part{readName(name)})...)
		} else {
			put(page.DisputedNotice, "", said(x.lang.DisputedOpen))
		}
	}
	if x.held {
		put(page.WithheldNotice, x.lang.WithheldWord, x.withheldNotice()...)
	}
	if mark := x.mark(); mark != nil {
		put(page.WithheldNotice, x.lang.WithheldWord, mark...)
	}
	if name.Words == "" && len(x.d.Opinions) > 0 {
		put(page.NotNamedNotice, "", said(x.lang.NotNamedStands))
	}
	return out
}

// caution gives the usual words for a danger, the museum's own rules first.
func (x *sheet) caution(c reading.Caution) []page.Part {
	switch {
	case c.Assumed:
		words := x.lang.CautionTreated
		if c.Perhaps {
			words = x.lang.CautionPerhaps
		}
		return []page.Part{said(page.Fill(words, itoa(x.in.Book.Museum.Conventions.TreatedBefore)) + " " + x.lang.CautionOwn)}
	case c.Treated():
		return []page.Part{page.Quote{Words: page.Words(c.Words)}, said(". " + x.lang.CautionPoison + " " + x.lang.CautionOwn)}
	}
	return []page.Part{page.Quote{Words: page.Words(strings.TrimRight(c.Words, "."))}, said(". " + x.lang.CautionOwn)}
}

func (x *sheet) fate(f *ledger.Fate) []page.Part {
	out := []page.Part{said(upperFirst(x.lang.Kind(f.Is.Text)))}
	if f.To.Set() {
		x.related = true
		out = append(out, said(": "), x.sheetLink(ledger.Number(f.To.Text)))
	}
	if f.Date.Set() {
		out = append(out, said(", "+x.dayOf(f.Date.Text)))
	}
	if f.By.Set() {
		out = append(out, said(", "), x.personName(f.By.Text))
	}
	out = append(out, said("."))
	if f.Why.Set() {
		out = append(out, said(" "), page.Quote{Words: page.Words(f.Why.Text)})
	}
	return out
}

// typeStatus is "Holotype of NAME, CITATION", with what is not sure of it.
func (x *sheet) typeStatus(t reading.Type) []page.Part {
	of := []page.Part{readName(t.Of)}
	if t.Given.Published.Set() {
		of = append(of, said(", "), page.Quote{Words: page.Words(t.Given.Published.Text)})
	}
	switch {
	case t.Suspected:
		return page.FillParts(x.lang.TypePossible, of)
	case t.Given.Basis.Text == "verified":
		return page.FillParts(x.lang.TypeOf, []page.Part{said(upperFirst(t.Status))}, of)
	}
	return page.FillParts(x.lang.TypeSaid, []page.Part{said(article(t.Status))}, of)
}

func article(word string) string {
	if word != "" && strings.ContainsRune("aeiou", rune(word[0])) {
		return "an " + word
	}
	return "a " + word
}

// pictures are those that have a copy that may be shown.
func (x *sheet) pictures() []page.Picture {
	var out []page.Picture
	for i := range x.r.Images {
		im := &x.r.Images[i]
		path, ok := x.pictureFile(im)
		if x.holds(path) {
			continue
		}
		p := page.Picture{Shows: page.Words(im.Shows.Text), Alt: page.Fill(x.lang.ImageOf, string(x.e.Number))}
		if ok {
			p.File = page.Address(path)
		} else {
			p.Words = page.Words(cmp.Or(im.Public.Text, im.File.Text))
		}
		if im.Shows.Set() {
			p.Alt += ": " + im.Shows.Text
		}
		p.Credit = x.credit(im)
		out = append(out, p)
	}
	return out
}

func (x *sheet) credit(im *ledger.Image) []page.Part {
	var out []page.Part
	if im.Photographer.Set() {
		name, _ := x.who(im.Photographer.Text)
		out = append(out, page.FillParts(x.lang.PhotographBy, []page.Part{page.Person(name)})...)
	}
	if im.Date.Set() {
		out = append(out, said(", "+x.dayOf(im.Date.Text)))
	}
	if im.Licence.Set() {
		out = append(out, said("; "), page.Quote{Words: page.Words(im.Licence.Text)})
	}
	return out
}
