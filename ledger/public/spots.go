package public

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/geodesy"
	"blotter/ledger/georeference"
	"blotter/ledger/places"
	"blotter/ledger/reading"
)

// spot is a standing locality that is sensitive or private.
type spot struct {
	mark
	words   string // its name, folded, a blank on both sides
	known   bool   // it has a position
	lat     float64
	lon     float64
	extent  float64 // metres
	listing int     // its place in places.yaml
}

// unsaidExtent is how far, in metres, a sensitive place reaches that does not
// say so: common practice, no source.
const unsaidExtent = 1000

// spots reads the marked places of places.yaml.
func (v *View) spotsIn(list []ledger.NamedPlace) []spot {
	var out []spot
	for i := range list {
		p := &list[i]
		given := book.MarkOf(p.Sensitive)
		private := p.Place.Private.Text == "yes"
		if !given.Holds() && !private {
			continue
		}
		s := spot{mark: *v.markOf(p.Sensitive, given, private), words: " " + fold(p.Name.Text) + " ", extent: unsaidExtent, listing: i}
		if l := places.ReadLength(p.Extent.Text); l.Known() && l.Max > 0 {
			s.extent = l.Max
		}
		if e := georeference.Of(reading.SaidOf(p.Place, places.ReadPosition(p.Place.Position.Text))); e.Known {
			s.known, s.lat, s.lon = true, e.Lat, e.Lon
		}
		out = append(out, s)
	}
	return out
}

// markOf is the mark that the words of s are, or that a private place is.
func (v *View) markOf(s ledger.Sensitive, given book.Mark, private bool) *mark {
	if !given.Holds() {
		return &mark{class: privateClass, private: private}
	}
	return &mark{class: v.classOf(given.Category), on: given.On, why: s.Why.Text, written: given.Category, review: s.Review.Text}
}

// privateClass is how strictly a private garden or house is withheld: within a
// square of about 1 km, its day and number shown.
const privateClass = Medium

// where is what is looked at of where a record grew.
type where struct {
	locality, district string
	known              bool
	lat, lon, metres   float64
}

// spotted is the strictest mark of the places that a record names or lies in;
// a mark is ended by a release that is not older.
func (v *View) spotted(w where, released dates.Day) *mark {
	if len(v.spots) == 0 {
		return nil
	}
	words := " " + fold(w.locality) + " | " + fold(w.district) + " "
	var out *mark
	for i := range v.spots {
		s := &v.spots[i]
		ended := released != 0 && s.on <= released && !s.private
		if !ended && (len(s.words) > 2 && strings.Contains(words, s.words) || s.holds(w)) {
			out = stricter(out, &s.mark)
		}
	}
	return out
}

// holds reports whether a position lies within the place, or so near that its
// error may put it there; an error larger than the place counts no more than
// the place is wide, since such a position does not tell it.
func (s *spot) holds(w where) bool {
	if !s.known || !w.known {
		return false
	}
	return geodesy.Distance(s.lat, s.lon, w.lat, w.lon) <= s.extent+min(w.metres, s.extent)
}
