// Package public decides what of a ledger may be seen by everybody. Site and
// exports take every record, in every version, through it.
//
// For now the rule is the strict one: a record that is marked sensitive, or
// bears or bore a name that is, is shown without its place (anything finer
// than country and province), date, collector's number, pictures and every
// word from which they follow. What may be shown of it is a list (shown), so
// that a field that nobody thought of is withheld. A person who asked for it
// is shown by initials everywhere; addresses of mail and open questions are
// shown nowhere.
package public

import (
	"cmp"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/names"
	"blotter/ledger/opinion"
	"blotter/ledger/reading"
)

// View is one version of a ledger as everybody may see it.
type View struct {
	// Book is the public Book. Its entries have no findings; those that are
	// withheld have no place, date, number or pictures.
	Book *Book

	full      *book.Book
	initials  *initials
	sensitive []*book.Name         // names of names/ that are marked
	byGenus   map[string][]int     // places in sensitive, by genus
	withheld  map[string]string    // number key -> key of the name that it is withheld for; "" its own mark
	held      map[string]*Withheld // number key -> at least so; see Hold
}

// Of is the public view of b.
func Of(b *book.Book) *View {
	v := &View{full: b, initials: newInitials(&b.Museum.People), byGenus: map[string][]int{}, withheld: map[string]string{}}
	for _, n := range b.Museum.Names.All {
		if book.MarkedSensitive(n.Given.Sensitive) && n.Key() != "" {
			g := genusOf(n.Key())
			v.byGenus[g] = append(v.byGenus[g], len(v.sensitive))
			v.sensitive = append(v.sensitive, n)
		}
	}
	v.Book = &Book{inner: b.Map(v.museum(), v.entry)}
	v.Book.Museum.Places = v.places()
	return v
}

// places are the standing localities but those that only withheld records
// name.
func (v *View) places() []ledger.NamedPlace {
	named := map[int]bool{} // places in the list that a withheld record names
	all := v.full.Museum.Places
	for e := range v.full.All() {
		if !v.Hidden(e.Number) {
			continue
		}
		for i := range all {
			named[i] = named[i] || strings.Contains(e.Locality, all[i].Name.Text)
		}
	}
	for e := range v.Book.All() {
		for i, secret := range named {
			if secret && strings.Contains(e.Locality, all[i].Name.Text) {
				named[i] = false
			}
		}
	}
	var out []ledger.NamedPlace
	for i := range all {
		if !named[i] {
			out = append(out, all[i])
		}
	}
	return out
}

func genusOf(key string) string {
	n, err := names.Read(key)
	if err != nil || n.Genus == "" {
		return key
	}
	return n.Genus
}

// marked is the sensitive name that a name is, lies below or is a synonym of;
// nil when there is none.
func (v *View) marked(key string) *book.Name {
	if key == "" || len(v.sensitive) == 0 {
		return nil
	}
	try := []string{key}
	if a := v.full.Museum.Names.Accepted(key); a != nil && a.Key() != key {
		try = append(try, a.Key())
	}
	for _, k := range try {
		for _, i := range v.byGenus[genusOf(k)] {
			n := v.sensitive[i]
			if opinion.Within(k, n.Key()) {
				return n
			}
			if a := v.full.Museum.Names.Accepted(n.Key()); a != nil && opinion.Within(k, a.Key()) {
				return n
			}
		}
	}
	return nil
}

// markedWords is marked of any name that words give.
func (v *View) markedWords(words string) *book.Name {
	for _, k := range reading.ReadName(words).Keys {
		if n := v.marked(k); n != nil {
			return n
		}
	}
	return nil
}

// entry is the public form of an entry.
func (v *View) entry(e book.Entry) book.Entry {
	e.Findings, e.Sic = nil, nil
	e.Who, e.Links, e.Latest, e.LatestIn = "", nil, 0, "" // the checks alone look at them
	e.Collector, e.With, e.By = v.initials.names(e.Collector), v.initials.list(e.With), v.initials.names(e.By)
	if len(e.People) > 0 {
		e.People = slices.Clone(e.People)
		for i := range e.People {
			e.People[i] = v.initials.names(e.People[i])
		}
	}
	hide := e.Flags.Has(book.Sensitive)
	name := ""
	for _, k := range append([]string{e.NameKey}, e.Once...) {
		if n := v.marked(k); n != nil && !hide {
			hide, name = true, n.Key()
		}
	}
	if !hide {
		return e
	}
	v.withheld[e.Number.Key()] = name
	e.Flags |= book.Sensitive
	e.CollNo, e.Date, e.First, e.Last, e.Dated, e.Uncertain = "", "", 0, 0, false, false
	e.District, e.Locality, e.Positioned, e.Lat, e.Lon, e.Uncertainty = "", "", false, 0, 0, 0
	e.Images = nil
	if e.Flags.Has(book.LabelDate) {
		e.Flags &^= book.NamedDated
		e.NamedFirst, e.NamedOn = 0, 0
	}
	e.Flags &^= book.Imaged | book.LabelDate
	return e
}

// Hidden reports whether a record of this number is withheld now.
func (v *View) Hidden(n ledger.Number) bool {
	_, ok := v.withheld[n.Key()]
	return ok || v.held[n.Key()] != nil
}

// Record is what everybody may see of one version of a record, which may be
// any version in its history: it is withheld when the present record is, or
// when that version itself is marked or has a marked name. Withheld is nil
// when all of it may be seen. r stays as it is.
func (v *View) Record(r *ledger.Record) (*ledger.Record, *Withheld) {
	w := v.Why(r)
	out := v.rewrite(r, w)
	return out, w
}

// Published is Record as a file that may be public: words that are withheld
// are replaced by their sentence, so that none is blank.
func (v *View) Published(r *ledger.Record) (*ledger.Record, *Withheld) {
	out, w := v.Record(r)
	if w != nil && w.filled != nil {
		out = w.filled
	}
	return out, w
}

// why is why a version of a record is withheld; nil when it is not.
func (v *View) why(r *ledger.Record) *Withheld {
	if s := r.Sensitive; book.MarkedSensitive(s) {
		return &Withheld{Class: ClassOf(s.Category.Text), Why: s.Why.Text, Category: s.Category.Text, Review: s.Review.Text}
	}
	n, _ := ledger.NumberOfPath(r.Path)
	n = cmp.Or(n, ledger.Number(r.Specimen.Text))
	key, hidden := v.withheld[n.Key()]
	name := v.full.Museum.Names.Find(key)
	if len(v.sensitive) > 0 && name == nil {
		for i := range r.Determinations {
			if d := &r.Determinations[i]; d.Mistake.Set() || opinion.KindOf(d.Kind.Text) == opinion.Not {
				continue
			}
			name = cmp.Or(name, v.markedWords(r.Determinations[i].Name.Text))
		}
		name = cmp.Or(name, v.markedWords(r.FiledUnder.Name.Text))
	}
	switch {
	case name != nil:
		s := name.Given.Sensitive
		return &Withheld{Class: ClassOf(s.Category.Text), Why: s.Why.Text, Category: s.Category.Text, Review: s.Review.Text, Name: name.Given.Name.Text}
	case hidden:
		return &Withheld{Class: Extreme}
	}
	return nil
}

// museum is the museum's files without what nobody may see.
func (v *View) museum() *book.Museum {
	m := *v.full.Museum
	m.Findings = nil
	m.People = m.People.Map(func(p ledger.Person) ledger.Person {
		p.Email = ledger.Leaf{}
		if p.Initials.Text == "yes" {
			in := ledger.Leaf{Text: v.initials.of(p.Name.Text)}
			p = ledger.Person{Name: in, Initials: p.Initials}
		}
		return p
	})
	if !v.initials.none() {
		m.Names = m.Names.Map(func(n ledger.NameEntry) ledger.NameEntry {
			n.By.Text, n.Source.Text = v.initials.names(n.By.Text), v.initials.text(n.Source.Text)
			return n
		})
	}
	return &m
}
