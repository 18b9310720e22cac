package render

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/names"
	"blotter/ledger/public"
	"blotter/ledger/reading"
	"blotter/render/page"
)

// setName sets the words of a name; words that cannot be read as one are one
// upright piece.
func setName(words string) page.Name {
	n, err := names.Read(words)
	if err != nil {
		return page.Name{Pieces: []page.Piece{{Kind: page.Unread, Text: words}}}
	}
	return nameOf(n)
}

// nameOf turns the reader's pieces, which hold the blanks between them, into
// those of a page, which say by their kinds where one stands.
func nameOf(n names.Name) page.Name {
	ps := n.Pieces()
	out := make([]page.Piece, 0, len(ps))
	for i, p := range ps {
		switch p.Kind {
		case names.Space:
		case names.Italic:
			out = append(out, page.Piece{Kind: page.Latin, Text: p.Text})
		case names.Author:
			out = append(out, page.Piece{Kind: page.Author, Text: p.Text})
		case names.Cross:
			kind := page.Cross
			if i+1 < len(ps) && ps[i+1].Kind == names.Space {
				kind = page.Between
			}
			out = append(out, page.Piece{Kind: kind, Text: p.Text})
		default:
			out = append(out, page.Piece{Kind: page.Marker, Text: p.Text})
		}
	}
	return page.Name{Pieces: out}
}

// name is the name of words, set once for the whole site.
func (s *shelf) name(words string) page.Name {
	return s.memo.names.get(words, func() page.Name { return setName(words) })
}

// readName is a name as the record's reading has it.
func readName(n reading.Name) page.Name {
	if n.Readable {
		return nameOf(n.Read)
	}
	if n.Words == "" {
		return page.Name{}
	}
	return page.Name{Pieces: []page.Piece{{Kind: page.Unread, Text: n.Words}}}
}

// absent reports whether words stand for no value.
func absent(words string) bool { return reading.AbsenceOf(words) != reading.Present }

// absence is the phrase for words that stand for no value.
func absence(a reading.Absence) page.Absence {
	switch a {
	case reading.None:
		return page.Absence{Kind: page.NoneOnLabel}
	case reading.Illegible:
		return page.Absence{Kind: page.NotLegible}
	case reading.Untyped:
		return page.Absence{Kind: page.NotYetTyped}
	case reading.Unread:
		return page.Absence{Kind: page.NotRead}
	}
	return page.Absence{}
}

// sheetAddress is where the page of a number stands: the path of its record,
// by the rule of the format, whatever the ledger does later.
func sheetAddress(n ledger.Number) page.Address {
	return page.Address(strings.TrimSuffix(n.Path(), ".yaml"))
}

func taxonAddress(t *taxon) page.Address { return page.Address("names/" + t.slug) }

func personAddress(p *person) page.Address { return page.Address("people/" + p.slug) }

// personName is a person in a line of the program's, without a link: pages
// are kept for those who collected or determined.
func (s *shelf) personName(words string) page.Part {
	if name, _ := s.who(words); name != "" {
		return page.Person(name)
	}
	return said(s.lang.Unsigned)
}

// personPart is a person in a line of the program's, with a link to the page.
func (s *shelf) personPart(words string) page.Part {
	name, _ := s.who(words)
	if name == "" {
		return said(s.lang.Unsigned)
	}
	return page.Link{To: page.Address("people/" + s.slug(name)), Text: []page.Part{page.Person(name)}}
}

// row is one sheet in a list. once, when not "", is the canonical form of the
// name under which the list has it though it is another now.
func (s *shelf) row(e *book.Entry, once string) page.Row {
	r := page.Row{Number: page.Words(e.Number), To: sheetAddress(e.Number), Name: s.name(e.Name)}
	if a := s.in.Book.Museum.Renamed(e); a != nil {
		r.Name, r.As = s.name(a.Given.Name.Text), s.detAs(s.name(e.Name))
	}
	if e.Name == "" {
		r.Name = page.Name{Pieces: []page.Piece{{Kind: page.Marker, Text: s.lang.NotYetNamed}}}
	}
	name, _ := s.who(e.Collector)
	r.Collector = page.Words(strings.TrimSpace(name + " " + e.CollNo))
	r.Place = placeParts(e)
	if c := s.class(e); c.Dated() || e.Dated {
		r.Date = page.Said(s.dateShort(e))
	}
	r.Tail = s.tail(e, once)
	return r
}

func placeParts(e *book.Entry) []page.Part {
	var words []string
	for _, w := range []string{e.District, e.Province, e.Country} {
		if !absent(w) {
			words = append(words, w)
		}
		if len(words) == 2 {
			break
		}
	}
	if len(words) == 0 {
		return nil
	}
	return []page.Part{page.Person(strings.Join(words, ", "))}
}

// tail is what a row says last: type, was, place withheld.
func (s *shelf) tail(e *book.Entry, once string) []page.Part {
	var out []page.Part
	add := func(ps ...page.Part) {
		if len(out) > 0 {
			out = append(out, said("; "))
		}
		out = append(out, ps...)
	}
	switch c := s.class(e); {
	case c == public.Open:
	case c.Dated() || e.Dated:
		add(said(s.lang.PlaceWithheldTail))
	default:
		add(said(s.lang.PlaceWithheldRow))
	}
	if e.Flags.Has(book.Typed) {
		add(said(s.lang.TypeWord))
	}
	if e.Fate != "" {
		add(said(s.lang.Withdrawn))
	}
	switch {
	case once != "" && once == e.NameKey:
		add(said(s.inList(e)))
	case once != "":
		if e.Flags.Has(book.NamedDated) {
			add(said(page.Fill(s.lang.SinceYear, itoa(e.NamedOn.Year()))))
		}
		if e.By != "" {
			name, _ := s.who(e.By)
			add(page.Person(name))
		}
	case len(e.Once) > 0 && e.Once[len(e.Once)-1] != s.currentKey(e):
		add(page.FillParts(s.lang.WasName, []page.Part{s.name(e.Once[len(e.Once)-1])})...)
	}
	return out
}
