package public

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/places"
)

// hasten makes a view of a former version obey what the museum says today:
// who is shown by initials and which fields are withheld besides. What records
// say today is asked for with onto.
func (v *View) hasten(today *View) {
	v.today = today
	v.more = append(v.more, today.more...)
	v.initials.join(today.initials)
}

// since is from when a record of a number is free, which was released on then
// in the version that is looked at: today's word counts, where it has the
// number.
func (v *View) since(n ledger.Number, then dates.Day) dates.Day {
	if v == nil || v.full.Find(n) == nil {
		return then
	}
	return v.released[n.Key()]
}

// onto is the strictest mark that today's names, places and records lay on a
// former version with the facts f; v may be nil.
func (v *View) onto(n ledger.Number, f *facts, released dates.Day) *mark {
	if v == nil {
		return nil
	}
	g := *f
	g.mark.Set = false // its own is judged with its own version
	return stricter(v.judge(&g, released), v.withheld[n.Key()])
}

// conceals reports whether a standing locality of a former version may not be
// shown today: it has the name of one that is not public now, or names one
// that is sensitive or private or lies in it.
func (v *View) conceals(p *ledger.NamedPlace) bool {
	if v == nil {
		return false
	}
	w := where{locality: p.Name.Text + " | " + p.Place.Locality.Text, district: p.Place.District.Text}
	if r := places.ReadPosition(p.Place.Position.Text); r.Known() {
		w.known = true
		w.lat, w.lon, _, _ = r.OnWGS84(p.Place.Datum.Text)
	}
	return v.spotted(w, 0) != nil || named(v.full.Museum.Places, p) && !named(v.Book.Museum.Places, p)
}

// named reports whether a list has a place of the name of p.
func named(list []ledger.NamedPlace, p *ledger.NamedPlace) bool {
	for i := range list {
		if strings.EqualFold(list[i].Name.Text, p.Name.Text) {
			return true
		}
	}
	return false
}

// join adds those who asked for initials in another version.
func (in *initials) join(other *initials) {
	known := map[string]bool{}
	for _, s := range in.spoken {
		known[s.words] = true
	}
	for _, s := range other.spoken {
		if !known[s.words] {
			in.spoken = append(in.spoken, s)
		}
	}
	in.sort()
	in.later = other.people
}

// asked is the person that words name, when they asked for initials in either
// version; nil otherwise.
func (in *initials) asked(words string) *ledger.Person {
	for _, list := range []*book.People{in.people, in.later} {
		if list == nil {
			continue
		}
		if who := list.Find(words); who != nil && who.Initials.Text == "yes" {
			return who
		}
	}
	return nil
}
