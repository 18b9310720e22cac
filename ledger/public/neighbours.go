package public

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/geodesy"
)

// Neighbour is a record that would tell where a withheld one grew: it is shown
// with a finer place than that one, its place is that one's, and what is shown
// of the two ties them together.
type Neighbour struct {
	Number ledger.Number // of the record that tells
	Of     ledger.Number // of the withheld one
	Class  Class         // of the withheld one: as strictly the other would have to be held
	Tie    Tie
}

// Tie is what ties a record to a withheld one in the eyes of everybody.
type Tie uint8

const (
	SameGathering Tie = iota // the same gathering, by a link or by the collector's number
	SameDay                  // the same collector on the same day
	NextNumber               // the collector's number before or behind
	Between                  // the withheld one stands in the catalogue between two of the same collector, day and place
)

// String is the tie in words: "of the same gathering".
func (t Tie) String() string {
	return [...]string{"of the same gathering", "of the same collector and day", "of the collector's next number", "next to it in the catalogue, of the same collector and day"}[t]
}

// Neighbours are the records that nobody released and that would give away the
// place of a withheld one. A record gives it away when all of this holds:
//
//   - Its own place is shown finer: it is not withheld and has a locality or a
//     position, or it is withheld less strictly.
//   - That place is the withheld one's: the same words, or nearer than the
//     corners of the published square are to its centre, so that whoever takes
//     one for the other errs less than by taking the centre.
//   - They are tied: the same gathering; the same collector on the same day or
//     with the next number; or the withheld one stands in the catalogue between
//     two of the same collector, day and place, since sheets of a day are entered
//     one after another. Where day or number of the withheld one are not shown
//     (High and Extreme), they may still be known from a duplicate elsewhere
//     (Chapman 2020 names duplicates as one of the two usual leaks), so they tie
//     what grew on one spot (oneSpot).
//
// A record released with a reason (sensitive.released) is passed over. They
// stand in order of number, each once for each withheld one.
func (v *View) Neighbours() []Neighbour {
	f := &finder{view: v, days: map[string][]*book.Entry{}, numbers: map[string][]*book.Entry{}, links: map[string][]*book.Entry{}}
	if len(v.withheld)+len(v.held) == 0 || v.staff {
		return nil
	}
	var before, at *book.Entry
	for e := range v.full.All() {
		f.hidden(e)
		f.between(before, at, e)
		before, at = at, e
	}
	if f.any {
		for e := range v.full.All() {
			f.look(e)
		}
	}
	slices.SortFunc(f.out, func(a, b Neighbour) int {
		return cmp.Or(cmp.Compare(a.Number, b.Number), cmp.Compare(a.Of, b.Of), cmp.Compare(a.Tie, b.Tie))
	})
	return slices.CompactFunc(f.out, func(a, b Neighbour) bool { return a.Number == b.Number && a.Of == b.Of })
}

// finder looks for neighbours.
type finder struct {
	view    *View
	any     bool
	days    map[string][]*book.Entry // withheld ones by collector and day
	numbers map[string][]*book.Entry // and by collector and number
	links   map[string][]*book.Entry // and by the numbers that they link to
	out     []Neighbour
}

// hidden notes a withheld record under all by which others may be tied to it.
func (f *finder) hidden(e *book.Entry) {
	c := f.view.Class(e.Number)
	if c == Open || e.Stage != ledger.Full || e.Locality == "" && !e.Positioned {
		return
	}
	f.any = true
	for _, l := range e.Links {
		if l.Kind == book.SameGathering || l.Kind == book.SharesSheet {
			k := ledger.Number(l.To).Key()
			f.links[k] = append(f.links[k], e)
		}
	}
	if k, ok := numberKey(e, 0); ok {
		f.numbers[k] = append(f.numbers[k], e)
	}
	if k, ok := dayKey(e); ok && !f.view.hides("collector", c) {
		f.days[k] = append(f.days[k], e)
	}
}

// look finds what e gives away.
func (f *finder) look(e *book.Entry) {
	if !f.tells(e) {
		return
	}
	for _, l := range e.Links {
		if l.Kind == book.SameGathering || l.Kind == book.SharesSheet {
			if s := f.view.full.Find(ledger.Number(l.To)); s != nil {
				f.add(e, s, SameGathering, l.Kind == book.SameGathering)
			}
		}
	}
	for _, s := range f.links[e.Number.Key()] {
		f.add(e, s, SameGathering, false)
	}
	if k, ok := dayKey(e); ok {
		for _, s := range f.days[k] {
			if !f.view.hides("date", f.view.Class(s.Number)) || oneSpot(e, s) {
				f.add(e, s, SameDay, false)
			}
		}
	}
	for _, by := range []int{0, -1, 1} {
		k, ok := numberKey(e, by)
		if !ok {
			continue
		}
		for _, s := range f.numbers[k] {
			c := f.view.Class(s.Number)
			switch {
			case by == 0 && (!e.Dated || !s.Dated || e.First == s.First):
				f.add(e, s, SameGathering, true)
			case by != 0 && !f.view.hides("collector", c) && (!f.view.hides("coll_no", c) || oneSpot(e, s)):
				f.add(e, s, NextNumber, false)
			}
		}
	}
}

// between looks at a withheld record whose day is not shown and its two
// neighbours in the catalogue.
func (f *finder) between(a, s, b *book.Entry) {
	if a == nil || s == nil || s.Stage != ledger.Full {
		return
	}
	c := f.view.Class(s.Number)
	if c == Open || !f.view.hides("date", c) || f.view.hides("collector", c) {
		return
	}
	day, ok := dayKey(s)
	for _, n := range []*book.Entry{a, b} {
		k, has := dayKey(n)
		if !ok || !has || k != day || n.Stage != ledger.Full || f.view.Hidden(n.Number) || !samePlace(n, s, c) {
			return
		}
	}
	for _, n := range []*book.Entry{a, b} {
		if f.tells(n) {
			f.add(n, s, Between, false)
		}
	}
}

// tells reports whether a record is shown with a place that could give another
// one away, and nobody released it.
func (f *finder) tells(e *book.Entry) bool {
	c := f.view.Class(e.Number)
	return e.Stage == ledger.Full && c != Extreme && e.Mark.Released == 0 && (e.Positioned || c == Open && e.Locality != "")
}

// add notes that e gives s away, if it does; sure says that they grew at one
// place whatever the words say.
func (f *finder) add(e, s *book.Entry, t Tie, sure bool) {
	c := f.view.Class(s.Number)
	if c == Open || s.Stage != ledger.Full || f.view.Class(e.Number) >= c || e.Number == s.Number || !sure && !samePlace(e, s, c) {
		return
	}
	f.out = append(f.out, Neighbour{Number: e.Number, Of: s.Number, Class: c, Tie: t})
}

// samePlace reports whether e's place, taken for that of s, is nearer to it
// than a corner of the published square is to its centre.
func samePlace(e, s *book.Entry, c Class) bool {
	if sameWords(e, s) {
		return true
	}
	if !e.Positioned || !s.Positioned {
		return false
	}
	side := c.Degrees()
	if side == 0 {
		side = coarsest
	}
	reach := HalfDiagonal(s.Lat, side)
	return e.Uncertainty < reach && geodesy.Distance(e.Lat, e.Lon, s.Lat, s.Lon) < reach
}

// oneSpot reports whether two records are of one spot: the same words, or
// positions that their own uncertainties cannot tell apart.
func oneSpot(e, s *book.Entry) bool {
	return sameWords(e, s) || e.Positioned && s.Positioned && geodesy.Distance(e.Lat, e.Lon, s.Lat, s.Lon) < e.Uncertainty+s.Uncertainty
}

func sameWords(e, s *book.Entry) bool {
	return e.Locality != "" && s.Locality != "" && fold(e.Locality) == fold(s.Locality)
}

// dayKey is a record's collector and day; false when either is not known.
func dayKey(e *book.Entry) (string, bool) {
	if e.Who == "" || !e.Dated || e.First != e.Last {
		return "", false
	}
	return e.Who + "\x1f" + strconv.Itoa(int(e.First)), true
}

// numberKey is a record's collector and the number that is by more than its
// own; false when there is none.
func numberKey(e *book.Entry, by int) (string, bool) {
	digits := len(e.CollNo)
	for digits > 0 && isDigit(e.CollNo[digits-1]) {
		digits--
	}
	n, err := strconv.Atoi(e.CollNo[digits:])
	if err != nil || e.Who == "" {
		return "", false
	}
	return e.Who + "\x1f" + strings.ToLower(strings.TrimSpace(e.CollNo[:digits])) + "\x1f" + strconv.Itoa(n+by), true
}
