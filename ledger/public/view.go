// Package public decides what of a ledger may be seen by everybody. Site,
// exports and mirror take every record, in every version, through it.
//
// A record is withheld for its own mark, for a place in places.yaml that it
// names or lies in, or for any name on it that names/ marks, by the strictest
// of their categories; a release ends marks that are not younger. How much of
// it is shown is decided for every field (decisions.go), so that a field that
// nobody thought of is withheld. A person who asked for it is shown by
// initials everywhere; addresses of mail, birth dates of the living, and what
// is the staff's are shown nowhere.
package public

import (
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/opinion"
	"blotter/ledger/reading"
)

// View is one version of a ledger as everybody may see it.
type View struct {
	// Book is the public Book. Its entries have no findings; those that are
	// withheld have no locality and pictures, the centre of a square for a
	// position or none, and of the stricter classes no day and number.
	Book *Book

	staff    bool // everything is shown
	full     *book.Book
	initials *initials
	taxa     *taxa
	spots    []spot
	more     []string             // fields that this museum withholds besides
	withheld map[string]*mark     // by number key
	released map[string]dates.Day // by number key: since when
	held     map[string]*Withheld // by number key: at least so; see Hold
	today    *View                // of the ledger as it is now, when b is older; see At
}

// Of is the public view of b.
func Of(b *book.Book) *View { return At(b, nil) }

// At is the public view of b, a former version of the ledger that is now as
// in today: what is withheld of either is withheld, and what was released
// since is free. A today of nil is b itself.
func At(b, today *book.Book) *View {
	v := newView(b)
	if today != nil && today != b {
		v.hasten(Of(today))
	}
	v.Book = &Book{inner: b.Map(v.museum(), v.entry), view: v}
	v.Book.Museum.Places = v.places()
	return v
}

// ForStaff is a view in which everything is shown, for the museum's own staff
// and for a named partner: what is made of it is not for the public.
func ForStaff(b *book.Book) *View {
	v := newView(b)
	v.staff = true
	v.Book = &Book{inner: b.Map(b.Museum, func(e book.Entry) book.Entry {
		if !e.Flags.Has(book.Sensitive) {
			return e
		}
		shown := *e.Shown
		shown.Flags &^= book.Sensitive // nothing of it is withheld
		return book.Entry{Shown: &shown, Judged: e.Judged}
	}), view: v}
	return v
}

func newView(b *book.Book) *View {
	v := &View{full: b, initials: newInitials(&b.Museum.People), withheld: map[string]*mark{}, released: map[string]dates.Day{}}
	for _, l := range b.Museum.Sensitive.Withhold {
		v.more = append(v.more, l.Text)
	}
	v.taxa = v.newTaxa(&b.Museum.Names)
	v.spots = v.spotsIn(b.Museum.Places)
	return v
}

// Class is how strictly a record of this number is withheld now.
func (v *View) Class(n ledger.Number) Class {
	c := Open
	if m := v.withheld[n.Key()]; m != nil {
		c = m.class
	}
	if h := v.held[n.Key()]; h != nil {
		c = max(c, h.Class)
	}
	return c
}

// Hidden reports whether a record of this number is withheld now.
func (v *View) Hidden(n ledger.Number) bool { return v.Class(n) != Open }

// facts are what of a record decides whether it is withheld.
type facts struct {
	mark    book.Mark
	words   *ledger.Sensitive // of the mark; nil: not at hand
	private bool
	names   []string // in any words
	since   []string // of these, those given after the release
	family  string
	where
}

// judge is the strictest mark of a record that no release ended; nil when it
// is not withheld.
func (v *View) judge(f *facts, released dates.Day) *mark {
	var m *mark
	if f.mark.Set && (released == 0 || f.mark.On > released) {
		m = &mark{class: v.classOf(f.mark.Category), on: f.mark.On, written: f.mark.Category}
		if f.words != nil {
			m.why, m.review = f.words.Why.Text, f.words.Review.Text
		}
	}
	m = stricter(m, v.taxa.unreleased(f.names, f.family, released, f.since))
	m = stricter(m, v.spotted(f.where, released))
	if f.private {
		m = stricter(m, &mark{class: privateClass, private: true})
	}
	return m
}

// ofEntry is the facts of a record's digest.
func ofEntry(e *book.Entry) *facts {
	f := &facts{mark: e.Mark, private: e.Flags.Has(book.Private), since: e.Since, family: e.Family,
		where: where{e.Locality, e.District, e.Positioned, e.Lat, e.Lon, e.Uncertainty}}
	f.names = append(append(append(f.names, e.NameKey), e.Once...), e.Beside...)
	return f
}

// ofRecord is the facts of one version of a record.
func (v *View) ofRecord(r *ledger.Record, released dates.Day) *facts {
	f := &facts{mark: book.MarkOf(r.Sensitive), words: &r.Sensitive, private: r.Place.Private.Text == "yes", family: r.Family.Text}
	f.names = []string{r.CoverName.Text, r.FiledUnder.Name.Text}
	order := v.full.Museum.Conventions.Order
	for i := range r.Determinations {
		d := &r.Determinations[i]
		if d.Mistake.Set() || opinion.KindOf(d.Kind.Text) == opinion.Not {
			continue
		}
		f.names = append(f.names, d.Name.Text)
		if released != 0 {
			if on := dates.Read(d.Date.Text, order); on.Known() && on.Last > released {
				f.since = append(f.since, d.Name.Text)
			}
		}
	}
	for i := range r.Types {
		if !r.Types[i].Mistake.Set() {
			f.names = append(f.names, r.Types[i].Of.Text)
		}
	}
	if len(v.spots) > 0 || v.today != nil && len(v.today.spots) > 0 {
		_, p := reading.PositionOf(r, v.full.Museum.Conventions)
		f.where = where{r.Place.Locality.Text, r.Place.District.Text, p.Known, p.Lat, p.Lon, p.Radius()}
	}
	return f
}

// why is why a version of a record is withheld; nil when it is not. The
// release that counts is that of the present version: what was marked before
// it is free in every version.
func (v *View) why(r *ledger.Record) *Withheld {
	if v.staff {
		return nil
	}
	n, ok := ledger.NumberOfPath(r.Path)
	if !ok {
		n = ledger.Number(r.Specimen.Text)
	}
	released := book.MarkOf(r.Sensitive).Released
	if v.full.Find(n) != nil {
		released = v.released[n.Key()]
	} else {
		released = v.today.since(n, released)
	}
	f := v.ofRecord(r, released)
	m := stricter(v.judge(f, released), v.withheld[n.Key()])
	m = stricter(m, v.today.onto(n, f, released))
	if m == nil {
		return nil
	}
	return &Withheld{Class: m.class, Why: m.why, Category: m.written, Review: m.review, Name: m.name, Private: m.private}
}

// entry is the public form of an entry: with the same Shown, unless something
// of that may not be seen.
func (v *View) entry(e book.Entry) book.Entry {
	released := v.today.since(e.Number, e.Mark.Released)
	if released != 0 {
		v.released[e.Number.Key()] = released
	}
	f := ofEntry(&e)
	m := stricter(v.judge(f, released), v.today.onto(e.Number, f, released))
	shown := *e.Shown
	changed := v.nameless(&shown)
	if v.aside(e.Number) {
		shown.Stage, changed = ledger.Draft, true // nobody sees a draft
	}
	if shown.Flags.Has(book.Sensitive) {
		shown.Flags, changed = shown.Flags&^book.Sensitive, true
	}
	if m != nil {
		v.withheld[e.Number.Key()] = m
		v.withhold(&shown, m.class)
		changed = true
	}
	if changed {
		own := shown
		return own.Entry()
	}
	return e.Shown.Entry()
}

// nameless shows those by initials who asked for it; false when nobody on e
// did.
func (v *View) nameless(e *book.Shown) (changed bool) {
	put := func(words *string, to string) {
		if to != *words {
			*words, changed = to, true
		}
	}
	put(&e.Collector, v.initials.names(e.Collector))
	put(&e.With, v.initials.list(e.With))
	put(&e.By, v.initials.names(e.By))
	for i, p := range e.People {
		if to := v.initials.names(p); to != p {
			e.People, changed = slices.Clone(e.People), true
			e.People[i] = to
		}
	}
	return changed
}

// aside reports whether a specimen is teaching or student material, then or
// now: as little of it is public as of a draft.
func (v *View) aside(n ledger.Number) bool {
	return v.full.Aside(n) || v.today != nil && v.today.full.Aside(n)
}

// withhold takes out of an entry what is withheld of its class.
func (v *View) withhold(e *book.Shown, c Class) {
	e.Flags |= book.Sensitive
	e.Locality = ""
	seldom := *e.Seldom
	seldom.Images, seldom.Sums = nil, nil
	e.Seldom = &seldom
	e.Flags &^= book.Imaged | book.Told | book.PositionSaid
	cell := (*Cell)(nil)
	if e.Positioned {
		cell = CellOf(e.Lat, e.Lon, e.Uncertainty, c)
	}
	if e.Positioned = cell != nil; cell != nil {
		e.Lat, e.Lon, e.Uncertainty = cell.Lat, cell.Lon, cell.Metres
	} else {
		e.Lat, e.Lon, e.Uncertainty = 0, 0, 0
	}
	if c.Dated() {
		return
	}
	if e.Flags.Has(book.NamedDated) && (e.Flags.Has(book.LabelDate) || !e.Dated || int(e.NamedFirst)-int(e.Last) < aboutThen) {
		e.Flags &^= book.NamedDated
		e.NamedFirst, e.NamedOn = 0, 0
	}
	e.Flags &^= book.LabelDate
	e.CollNo, e.Date, e.District, e.With = "", "", "", ""
	year := e.First.Year()
	if e.Dated = c == High && e.Dated && year == e.Last.Year(); e.Dated {
		e.First, e.Last = dates.DayOf(year, 1, 1), dates.DayOf(year, 12, 31)
	} else {
		e.First, e.Last, e.Uncertain = 0, 0, false
	}
}

// places are the standing localities but those that are sensitive or private,
// and those that only withheld records name.
func (v *View) places() []ledger.NamedPlace {
	all := v.full.Museum.Places
	out := make([]ledger.NamedPlace, 0, len(all))
	secret := v.namedInSecret(all)
	for i := range all {
		marked := slices.ContainsFunc(v.spots, func(s spot) bool { return s.listing == i })
		if !secret[i] && !marked && !v.today.conceals(&all[i]) {
			p := all[i]
			p.Sensitive = ledger.Sensitive{}
			out = append(out, p)
		}
	}
	return out
}

// namedInSecret are the places of a list that withheld records name and no
// other does.
func (v *View) namedInSecret(all []ledger.NamedPlace) map[int]bool {
	named := map[int]bool{}
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
	return named
}
