package public

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"iter"
	"math"
	"slices"

	"blotter/ledger"
	"blotter/ledger/book"
)

// Secrets is what a ledger withholds, made ready to be looked for in whatever
// is about to become public: exact positions in every usual form that is finer
// than the published square, runs of four words of the words that tell a place
// (or all of them), the collector's number where class or museum withholds it,
// the names of people who are shown by initials, addresses of mail. It may be
// asked by several goroutines.
//
// What stands in the public part of the ledger as well is not looked for: it
// tells nothing. See FORMAT.md, "The leak test".
type Secrets struct {
	view    *View
	load    *book.Loader
	numbers []ledger.Number // of the records whose values these are
	values  []value
	points  []point
	all     *engine
}

// value is one thing to be looked for.
type value struct {
	kind   valueKind
	record int32 // place in numbers; -1: of a person
	field  string
	hash   uint64   // names it, whoever holds it
	words  []uint64 // by which it is found; none of a position
	near   *near    // what must stand near the words; nil: nothing
}

type valueKind uint8

const (
	placeWords valueKind = iota // of the place; a public record holds them by its own place
	otherWords                  // of labels, remarks, habitat; a public record holds them in the same field as well
	position
	gathering // collector's number
	person
	mail
)

// Leak is one withheld value found in an output.
type Leak struct {
	File   string        // of the output; a member of an archive stands behind "!"
	Number ledger.Number // the record it is withheld for; "" for a person
	Field  string
	Line   int // of the output, from 1

	text string // what stands there; never shown
}

// SecretsFrom is where the values of a ledger come from.
type SecretsFrom struct {
	Load *book.Loader // brings the full records
	// Versions are the other versions that a record had, which may reach an
	// output; nil: none can.
	Versions func(ctx context.Context, n ledger.Number) iter.Seq2[*ledger.Record, error]
	Earlier  []iter.Seq2[*ledger.Record, error] // the same, where they come by themselves
	Mails    []string                           // addresses of mail besides those of people.yaml: of who entered something
}

// Secrets gathers what is withheld. load brings the full records; earlier, for
// whatever shows the history, brings former versions of withheld ones.
func (v *View) Secrets(ctx context.Context, load *book.Loader, earlier ...iter.Seq2[*ledger.Record, error]) (*Secrets, error) {
	return v.SecretsOf(ctx, SecretsFrom{Load: load, Earlier: earlier})
}

// SecretsOf gathers what is withheld.
func (v *View) SecretsOf(ctx context.Context, from SecretsFrom) (*Secrets, error) {
	g := &gatherer{view: v, out: &Secrets{view: v, load: from.Load}, seen: map[uint64]bool{}}
	for _, versions := range from.Earlier {
		for r, err := range versions {
			if err != nil {
				return nil, err
			}
			g.record(r, ledger.Number(r.Specimen.Text), present{})
		}
	}
	for e := range v.full.All() {
		if !v.Hidden(e.Number) {
			continue
		}
		r, err := from.Load.Record(ctx, e)
		if err != nil {
			return nil, err
		}
		g.record(r, e.Number, present{})
		if from.Versions == nil {
			continue
		}
		now := v.present(r)
		for r, err := range from.Versions(ctx, e.Number) {
			if err != nil {
				return nil, err
			}
			if r.Path == "" {
				r.Path = e.Path
			}
			g.record(r, e.Number, now)
		}
	}
	if !v.staff {
		g.people(from.Mails)
	}
	g.out.drop(v.heldByEntries(g.out))
	return g.out, nil
}

// Empty reports whether there is nothing to look for.
func (s *Secrets) Empty() bool { return len(s.values) == 0 }

// Reviewed are the hits that somebody let stand: public.yaml.
func (s *Secrets) Reviewed() []ledger.Reviewed {
	if s.view.today != nil { // what was let stand then may not be any more
		return s.view.today.full.Museum.Reviewed
	}
	return s.view.full.Museum.Reviewed
}

// Key is a text that changes whenever what is looked for does.
func (s *Secrets) Key() string {
	h := sha256.New()
	for _, x := range s.hashes() {
		var b [8]byte
		binary.BigEndian.PutUint64(b[:], x)
		h.Write(b[:])
	}
	return hex.EncodeToString(h.Sum(nil)[:12])
}

// hashes are those of all values, in order.
func (s *Secrets) hashes() []uint64 {
	out := make([]uint64, len(s.values))
	for i := range s.values {
		out[i] = s.values[i].hash
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// Find looks for every secret in a text that is about to become public; nil
// when there is none. It knows nothing of reviewed hits nor of what other
// records say in their labels: a Scanner does.
func (s *Secrets) Find(text []byte) []Leak { return s.leaksOf(s.all.look(text, false), text) }

// leaksOf are hits in raw as they are told: those of one field of a record that
// stand in each other are one.
func (s *Secrets) leaksOf(hits []hit, raw []byte) []Leak {
	type told struct {
		hit
		record int32
		field  string
	}
	var list []told
	for _, h := range hits {
		v := &s.values[h.value]
		list = append(list, told{h, v.record, v.field})
	}
	slices.SortStableFunc(list, func(a, b told) int {
		return cmp.Or(cmp.Compare(a.record, b.record), cmp.Compare(a.field, b.field), boolOrder(a.aside, b.aside), cmp.Compare(a.start, b.start))
	})
	var out []Leak
	var ends []hit
	for i := 0; i < len(list); {
		x := list[i]
		for i++; i < len(list) && list[i].record == x.record && list[i].field == x.field && list[i].aside == x.aside && list[i].start < x.end; i++ {
			if y := list[i]; y.end > x.end {
				x.text, x.end = x.text+y.text[len(y.text)-(y.end-x.end):], y.end
			}
		}
		l := Leak{Field: x.field, text: x.text}
		ends = append(ends, x.hit)
		if x.record >= 0 {
			l.Number = s.numbers[x.record]
		}
		out = append(out, l)
	}
	if len(out) > 0 {
		for i, line := range linesOf(raw, ends) {
			out[i].Line = line
		}
	}
	return out
}

func boolOrder(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	}
	return 1
}

// drop leaves out the values whose place is in gone, and makes the rest ready.
func (s *Secrets) drop(gone map[int32]bool) {
	if len(gone) > 0 {
		place := make([]int32, len(s.values))
		var left []value
		for i := range s.values {
			place[i] = int32(len(left))
			if !gone[int32(i)] {
				left = append(left, s.values[i])
			}
		}
		s.values = left
		for i := range s.points {
			s.points[i].value = place[s.points[i].value] // a position is never dropped here
		}
	}
	s.all = s.engine(nil)
}

// engine looks for some of the values.
type engine struct {
	secrets *Secrets
	phrases *phrases
	figures *figures
}

// engine is one for the values whose hash only has; nil: for all.
func (s *Secrets) engine(only map[uint64]bool) *engine {
	n := len(s.values)
	if only != nil {
		n = len(only)
	}
	e := &engine{secrets: s, phrases: makePhrases(n)}
	for i := range s.values {
		v := &s.values[i]
		if len(v.words) > 0 && (only == nil || only[v.hash]) {
			e.phrases.add(int32(i), v.words)
		}
	}
	var points []point
	for _, p := range s.points {
		if only == nil || only[s.values[p.value].hash] {
			points = append(points, p)
		}
	}
	e.figures = makeFigures(points)
	return e
}

// hit is one value found.
type hit struct {
	value    int32
	start    int // in the plain text
	end      int
	aside    bool // in the part of it that stood in tags
	sighting sighting
	text     string
}

// look is every value that stands in raw, each once. With lines a row of the
// text ends at the end of a line.
func (e *engine) look(raw []byte, lines bool) []hit {
	if len(e.phrases.list) == 0 && len(e.figures.points) == 0 {
		return nil
	}
	p := plains.Get().(*plain)
	defer plains.Put(p)
	p.decode(raw)
	var out []hit
	for k, text := range [][]byte{p.text, p.aside} {
		out = e.lookIn(text, k == 1, lines, out)
	}
	return out
}

func (e *engine) lookIn(text []byte, aside, lines bool, out []hit) []hit {
	s := e.secrets
	add := func(h hit) {
		if !slices.ContainsFunc(out, func(o hit) bool { return o.value == h.value && o.text == h.text }) {
			out = append(out, h)
		}
	}
	e.phrases.scan(text, func(v int32, start, end int) {
		if near := s.values[v].near; near != nil && !near.stands(text, start, end, lines) {
			return
		}
		add(hit{value: v, start: start, end: end, aside: aside, text: string(text[start:end])})
	})
	e.figures.scan(text, func(x sighting) {
		add(hit{value: e.figures.points[x.at].value, start: x.start, end: x.end, aside: aside, sighting: x, text: string(text[x.start:x.end])})
	})
	return out
}

// hashPoint names a position with the square that it is shown in.
func hashPoint(p point) uint64 {
	h := uint64(hashStart)
	for _, v := range []float64{p.lat, p.lon, p.cell} {
		h = (h ^ math.Float64bits(v)) * runFactor
	}
	return cmp.Or(mix(h), 1)
}
