package render

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/reading"
	"blotter/render/page"
)

// label is the fields in label order, words with their readings below, then
// the old labels to the letter. A field that nobody filled in and that a
// label need not have is left out; those that every label has are never blank.
func (x *sheet) label() []page.Block {
	f := &page.Fields{}
	add := func(name string, words ...page.Run) {
		f.List = append(f.List, page.Field{Name: x.fieldName(name), Words: words})
	}
	f.List = append(f.List, x.collector(), x.date(), x.country(), x.locality())
	x.positionFields(f)
	r := x.r
	for _, v := range []struct {
		name string
		leaf ledger.Leaf
	}{
		{"habitat", r.Habitat}, {"substrate", r.Substrate}, {"host", r.Host},
	} {
		x.plain(f, v.name, v.leaf)
	}
	x.depth(f)
	if len(r.Associates) > 0 {
		add("associates", x.nameRuns(r.Associates)...)
	}
	x.heldField(f, "associates")
	x.plain(f, "description", r.Description)
	if len(r.Phenology) > 0 {
		add("phenology", page.Words(joinLeaves(r.Phenology, ", ")))
	}
	for _, v := range []struct {
		name string
		leaf ledger.Leaf
	}{
		{"abundance", r.Abundance}, {"population", r.Population}, {"taken", r.Taken}, {"origin", r.Origin},
		{"garden", r.Garden}, {"source_place", r.SourcePlace}, {"permit", r.Permit}, {"project", r.Project},
	} {
		x.plain(f, v.name, v.leaf)
	}
	x.collection(f)
	x.heldField(f, "writings")
	out := []page.Block{*f}
	for _, w := range r.Writings {
		out = append(out, page.Letters{On: page.Said(w.OnSheet.Text), Text: page.Words(w.Text.Text), Hand: page.Words(w.Hand.Text)})
	}
	return out
}

// heldField adds a field whose words are withheld, when they are.
func (x *sheet) heldField(f *page.Fields, name string) {
	if x.withholds(name) {
		f.List = append(f.List, page.Field{Name: x.fieldName(name), None: x.hold})
	}
}

// collection is what the museum and its forerunners added to the label.
func (x *sheet) collection(f *page.Fields) {
	r := x.r
	put := func(name string, parts ...string) {
		if w := strings.Join(nonEmpty(parts), ", "); w != "" {
			f.List = append(f.List, page.Field{Name: x.fieldName(name), Words: []page.Run{page.Words(w)}})
			return
		}
		x.heldField(f, name)
	}
	put("fieldbook", prefixed(x.lang.Volume, r.Fieldbook.Volume.Text), prefixed(x.lang.PageWord, r.Fieldbook.Page.Text))
	put("further_numbers", joinLeaves(r.FurtherNumbers, ", "))
	put("former_herbarium", r.FormerHerb.Text)
	put("exsiccata", r.Exsiccata.Series.Text, prefixed(x.lang.Fascicle, r.Exsiccata.Fascicle.Text), prefixed(x.lang.NoWord, r.Exsiccata.Number.Text))
	put("accession", r.Accession.Text)
	if r.KeptAs.Text != "sheet" {
		put("kept_as", r.KeptAs.Text)
	}
	var parts []string
	for _, p := range r.Parts {
		parts = append(parts, strings.Join(nonEmpty([]string{p.Part.Text, p.Number.Text, p.Where.Text, p.Fate.Text}), " "))
	}
	put("parts", parts...)
	put("remarks", r.Remarks.Text)
}

func (x *sheet) fieldName(path string) page.Said {
	if n, ok := x.lang.FieldName[path]; ok {
		return page.Said(n)
	}
	return page.Said(path)
}

// plain adds a field of words that are shown as they stand.
func (x *sheet) plain(f *page.Fields, name string, l ledger.Leaf) {
	if !l.Set() {
		x.heldField(f, name)
		return
	}
	out := page.Field{Name: x.fieldName(name)}
	if a := reading.AbsenceOf(l.Text); a != reading.Present {
		out.None = absence(a)
	} else {
		out.Words = []page.Run{page.Words(l.Text)}
	}
	f.List = append(f.List, out)
}

// collector is who collected it, the number, and with whom.
func (x *sheet) collector() page.Field {
	f := page.Field{Name: x.fieldName("collector")}
	if words := x.r.Collector.Text; absent(words) {
		f.None = absence(reading.AbsenceOf(words))
	} else {
		f.Words = x.partyWords(words)
	}
	no := x.r.CollNo.Text
	switch {
	case x.withholds("coll_no"):
		f.Readings = append(f.Readings, []page.Part{said(x.lang.NumberColon), x.hold})
	case absent(no):
		f.Readings = append(f.Readings, []page.Part{said(x.lang.NumberColon), absence(reading.AbsenceOf(no))})
	default:
		f.Words = append(f.Words, page.Words(" "+no))
	}
	for i, w := range x.with() {
		sep := ", "
		if i == 0 {
			sep = ", " + x.lang.With + " "
		}
		if shown, _ := x.who(w); shown != "" {
			f.Words = append(f.Words, page.Words(sep), page.WordsLink{To: page.Address("people/" + x.slug(shown)), Words: page.Words(x.shownAs(w))})
		}
	}
	if x.withholds("with") {
		f.Readings = append(f.Readings, []page.Part{said(upperFirst(x.lang.With) + ": "), x.hold})
	}
	return f
}

// with is the rest of the party, as the Book has it.
func (x *sheet) with() []string {
	if x.e.With == "" {
		return nil
	}
	return strings.Split(x.e.With, "; ")
}

// shownAs is a person's name as written, or the initials of one who asked
// for them.
func (s *shelf) shownAs(words string) string {
	if name, p := s.who(words); p == nil || p.Initials.Text == "yes" {
		return name
	}
	return words
}

func (x *sheet) date() page.Field {
	f := page.Field{Name: x.fieldName("date")}
	d := x.d.Date
	if x.withholds("date") {
		f.None = x.hold
		if y, ok := d.Read.Year(); ok {
			f.Readings = append(f.Readings, []page.Part{said(page.Fill(x.lang.ShownAsYear, itoa(y)))})
		}
		return f
	}
	if a := reading.AbsenceOf(d.Words); a == reading.Present {
		f.Words = []page.Run{page.Words(d.Words)}
	}
	switch {
	case d.FromHand():
		f.Readings = append(f.Readings, x.byHand(d.ByHand, d.Read.String()))
	case d.Read.Known():
		f.Readings = append(f.Readings, []page.Part{said(page.Fill(x.lang.ReadAs, d.Read.String()))})
	default:
		f.None = absence(d.Absence)
	}
	return f
}

// byHand says who read something, how, and from what.
func (x *sheet) byHand(v *ledger.ReadValue, as string) []page.Part {
	out := page.FillParts(x.lang.ReadBy, []page.Part{x.personName(v.By.Text)}, []page.Part{said(as)})
	if v.Uncertainty.Set() {
		out = append(out, said(", ± "), page.Quote{Words: page.Words(strings.TrimLeft(v.Uncertainty.Text, "± ")), Plain: true})
	}
	if v.From.Set() {
		out = append(out, page.FillParts(x.lang.ReadFrom, []page.Part{page.Person(v.From.Text)})...)
	}
	if v.Date.Set() {
		out = append(out, said(", "+x.dayOf(v.Date.Text)))
	}
	if v.Why.Set() {
		out = append(out, said(": "), page.Quote{Words: page.Words(v.Why.Text)})
	}
	return out
}

// country is the levels of the place, from large to small, each with its page.
func (x *sheet) country() page.Field {
	f := page.Field{Name: x.fieldName("place")}
	path := ""
	for _, l := range []ledger.Leaf{x.r.Place.Country, x.r.Place.Province, x.r.Place.District} {
		sl := x.slug(l.Text)
		if absent(l.Text) || sl == "" {
			continue
		}
		if path != "" {
			path += "/"
			f.Words = append(f.Words, page.Words(", "))
		}
		path += sl
		if x.places[path] == nil {
			f.Words = append(f.Words, page.Words(l.Text))
		} else {
			f.Words = append(f.Words, page.WordsLink{To: regionAddress(path), Words: page.Words(l.Text)})
		}
	}
	if len(f.Words) == 0 && x.withholds("place") {
		f.None = x.hold
	} else if len(f.Words) == 0 {
		f.None = absence(reading.AbsenceOf(x.r.Place.Country.Text))
	}
	if x.withholds("place.district") {
		f.Readings = append(f.Readings, []page.Part{said(lowerFirst(string(x.fieldName("district"))) + ": "), x.hold})
	}
	if h := x.d.Country.ByHand; h != nil {
		f.Readings = append(f.Readings, x.byHand(h, h.Is.Text))
	}
	return f
}

func regionAddress(path string) page.Address { return page.Address("places/" + path) }

func (x *sheet) locality() page.Field {
	f := page.Field{Name: x.fieldName("locality")}
	switch a := reading.AbsenceOf(x.r.Place.Locality.Text); {
	case x.withholds("place.locality"):
		f.None = x.hold
	case a != reading.Present:
		f.None = absence(a)
	default:
		f.Words = []page.Run{page.Words(x.r.Place.Locality.Text)}
	}
	return f
}

// nameRuns sets each of a list of plants as a name where it can be read.
func (x *sheet) nameRuns(ls []ledger.Leaf) []page.Run {
	var out []page.Run
	for i, l := range ls {
		if i > 0 {
			out = append(out, page.Words(", "))
		}
		if n := x.name(l.Text); n.Readable() {
			out = append(out, n)
		} else {
			out = append(out, page.Words(l.Text))
		}
	}
	return out
}

func joinLeaves(ls []ledger.Leaf, sep string) string {
	out := make([]string, len(ls))
	for i, l := range ls {
		out[i] = l.Text
	}
	return strings.Join(nonEmpty(out), sep)
}

func nonEmpty(in []string) []string {
	var out []string
	for _, s := range in {
		if s != "" {
			out = append(out, s)
		}
	}
	return out
}

func prefixed(word, s string) string {
	if s == "" {
		return ""
	}
	return word + " " + s
}
