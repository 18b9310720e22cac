package public

import (
	"context"
	"math"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/places"
)

// heldByEntries are the values that the public part of the ledger has as well,
// as far as its entries and the museum's own files say: words of a place that
// is also that of a record which is not withheld, names of people and plants,
// a collector's number that another gathering of the same collector has. They
// tell nothing of the withheld record; what its neighbours tell is the
// business of Neighbours.
func (v *View) heldByEntries(s *Secrets) map[int32]bool {
	held := map[int32]bool{}
	if len(s.values) == 0 {
		return held
	}
	words := s.engine(nil).phrases
	drop := func(text string) {
		words.scan([]byte(text), func(x int32, _, _ int) {
			if k := s.values[x].kind; k == placeWords || k == otherWords {
				held[x] = true
			}
		})
	}
	for e := range v.Book.All() {
		for _, text := range []string{e.Country, e.Province, e.District, e.Locality, e.Name, e.Collector, e.With, e.Family} {
			if text != "" {
				drop(text)
			}
		}
	}
	m := v.Book.Museum
	for _, text := range []string{m.Name.Text, m.Code.Text, m.Site.Title.Text} {
		drop(text)
	}
	for i := range m.Places {
		drop(m.Places[i].Name.Text)
		drop(m.Places[i].Place.Locality.Text)
	}
	for i := range m.People.All {
		drop(m.People.All[i].Name.Text)
	}
	v.heldNumbers(s, held)
	return held
}

// heldNumbers are the collector's numbers that a public record of the same
// collector has as well.
func (v *View) heldNumbers(s *Secrets, held map[int32]bool) {
	byNumber := map[uint64][]int32{}
	for i := range s.values {
		if x := &s.values[i]; x.kind == gathering && x.near != nil {
			byNumber[runOf(x.words)] = append(byNumber[runOf(x.words)], int32(i))
		}
	}
	if len(byNumber) == 0 {
		return
	}
	for e := range v.Book.All() {
		if e.CollNo == "" || v.Hidden(e.Number) {
			continue
		}
		for _, i := range byNumber[runOf(hashesOf(e.CollNo))] {
			x := &s.values[i]
			if x.near.family == familyOf(e.Collector) {
				held[i] = true
				continue
			}
			if h := hashesOf(e.Date); len(h) > 0 && slices.ContainsFunc(x.near.dates, func(d []uint64) bool { return slices.Equal(d, h) }) {
				x.near.dates = nil // another's gathering of that number and day
			}
		}
	}
}

// publicPlace is the positions of the records that are not withheld.
type publicPlace struct{ *figures }

func (v *View) publicPlaces() *publicPlace {
	var points []point
	for e := range v.full.All() {
		if e.Positioned && !v.Hidden(e.Number) {
			points = append(points, pointOf(e.Lat, e.Lon, nil))
		}
	}
	for _, p := range v.Book.Museum.Places {
		if r := places.ReadPosition(p.Place.Position.Text); r.Known() {
			lat, lon, _, _ := r.OnWGS84(p.Place.Datum.Text)
			points = append(points, pointOf(lat, lon, nil))
		}
	}
	return &publicPlace{makeFigures(points)}
}

// holds reports whether a public record's own place is what a text was found
// to tell, so that it tells nothing of the withheld one.
func (f *publicPlace) holds(x sighting) bool {
	if x.inSquare {
		return slices.ContainsFunc(f.square[x.square], func(at int32) bool {
			p := &f.points[at]
			return x.east.is(math.Mod(p.east, 1e5)) && x.north.is(math.Mod(p.north, 1e5))
		})
	}
	if x.metres {
		near := within(f.north, x.north.value-x.north.step-metricSlip, x.north.value+x.north.step+metricSlip)
		return slices.ContainsFunc(near, func(a axis) bool {
			p := &f.points[a.at]
			return x.north.is(p.north) && (!x.both || x.east.is(p.east))
		})
	}
	list, c := f.lat, x.lat
	if c.scale == 0 {
		list, c = f.lon, x.lon
	}
	for _, a := range within(list, c.value-c.step(), c.value+c.step()) {
		if c.is(a.value) && (!x.both || x.lon.is(f.points[a.at].lon)) {
			return true
		}
	}
	return false
}

// heldByRecords are the values of labels, remarks and habitats that a public
// record says in the same field, or in one that names its place.
func (s *Secrets) heldByRecords(ctx context.Context) (map[uint64]witness, error) {
	only := map[uint64]bool{}
	for i := range s.values {
		if s.values[i].kind == otherWords {
			only[s.values[i].hash] = true
		}
	}
	e, out := s.engine(only), map[uint64]witness{}
	for entry := range s.view.full.All() {
		if s.view.Hidden(entry.Number) {
			continue
		}
		r, err := s.load.Record(ctx, entry)
		if err != nil {
			return nil, err
		}
		for _, kv := range ledger.Flatten(r) {
			key := withoutNumbers(kv.Key)
			_, runs := runFields[key]
			_, whole := wholeFields[key]
			if !runs && !whole && !strings.HasPrefix(key, "import.") {
				continue
			}
			e.phrases.scan([]byte(kv.Value), func(i int32, _, _ int) {
				x := &s.values[i]
				if _, ok := out[x.hash]; !ok && (x.field == key || runFields[key] || x.field == "import") {
					out[x.hash] = witness{string(entry.Number), string(entry.Blob)}
				}
			})
		}
	}
	return out, nil
}
