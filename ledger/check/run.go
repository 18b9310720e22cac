package check

import (
	"hash/maphash"
	"slices"
	"sync"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/georeference"
	"blotter/ledger/reading"
	"blotter/ledger/work"
)

// Options are what the rules need to know besides the ledger.
type Options struct {
	Today  dates.Day                            // 0: dates to come are not looked for
	Former func(n ledger.Number) *ledger.Record // see Around; nil: numbers used before are not looked for
	Sum    func(path string) string             // see Around; nil: pictures are not read
	Works  *work.Works                          // of Whole: the files of work/ of the same version; nil: they are not judged
}

// around is what the records of a museum are judged against.
func (o Options) around(m *book.Museum, has func(string) bool) *Around {
	return &Around{Museum: m, Settings: SettingsOf(&m.Museum), Today: o.Today, Works: o.Works, Former: o.Former, Has: has, Sum: o.Sum,
		places: sync.OnceValue(func() *georeference.Gazetteer { return reading.Gazetteer(m.Places) })}
}

// isNew reports whether rules for new material hold for a record.
func (a *Around) isNew(e *book.Entry) bool { return e.Dated && e.First >= a.Settings.newDay() }

// Run gives the findings of Whole.
func Run(b *book.Book, o Options) []ledger.Finding { return Whole(b, o).Findings }

// Whole judges a whole ledger.
func Whole(b *book.Book, o Options) *Report {
	j := newJudging(o.around(b.Museum, b.Has))
	j.open = append(j.open, b.Findings...)
	j.museum(b.Museum)
	for e := range b.All() {
		j.record(e)
	}
	for _, g := range sorted().groupings {
		j.groups(b, g)
	}
	for _, t := range sorted().tallyings {
		j.tallies(b, t)
	}
	for e := range b.All() {
		j.idle(e)
	}
	j.works(o.Works, nil)
	r := j.report(b.Museum)
	r.Whole, r.Judged = true, b.Len()
	return r
}

// museum judges the museum's files.
func (j *judging) museum(m *book.Museum) {
	j.open = append(j.open, m.Findings...)
	for _, r := range sorted().files {
		say := func(p place, w words) { j.open = append(j.open, r.finding("", p, w)) }
		switch {
		case r.Files != nil:
			r.Files(m, say)
		case j.around.Today != 0:
			r.Due(m, j.around.Today, say)
		}
	}
}

// groups judges all groups of one Grouping. Keys are compared by hash first: a
// million short-lived texts in a map would cost far more.
func (j *judging) groups(b *book.Book, g *grouped) {
	type keyed struct {
		hash  uint64
		place int32
	}
	seed := maphash.MakeSeed()
	keys := make([]keyed, 0, b.Len())
	var of, texts []string
	var same []*book.Entry
	for i := range b.Len() {
		of = g.Keys(of[:0], b.At(i))
		for _, k := range of {
			keys = append(keys, keyed{maphash.String(seed, k), int32(i)})
		}
	}
	slices.SortFunc(keys, func(a, b keyed) int {
		switch {
		case a.hash < b.hash:
			return -1
		case a.hash > b.hash:
			return 1
		}
		return int(a.place - b.place)
	})
	for len(keys) > 0 {
		n := 1
		for n < len(keys) && keys[n].hash == keys[0].hash {
			n++
		}
		if n > 1 || g.alone(b.At(int(keys[0].place))) {
			same, texts = same[:0], texts[:0]
			for _, k := range keys[:n] {
				e := b.At(int(k.place))
				of = g.Keys(of[:0], e)
				i := 0
				for len(of) > 1 && maphash.String(seed, of[i]) != k.hash {
					i++
				}
				same, texts = append(same, e), append(texts, of[i])
			}
			for _, part := range byText(same, texts) {
				part.around = j.around
				j.group(g, part)
			}
		}
		keys = keys[n:]
	}
}

// byText parts records by the texts of their keys, whose hashes are equal: as
// good as always they are all the same.
func byText(same []*book.Entry, texts []string) []*group {
	first := &group{key: texts[0], same: make([]*book.Entry, 0, len(same))}
	out := []*group{first}
	for i, e := range same {
		at := first
		if texts[i] != first.key {
			n := slices.IndexFunc(out, func(g *group) bool { return g.key == texts[i] })
			if n < 0 {
				n = len(out)
				out = append(out, &group{key: texts[i]})
			}
			at = out[n]
		}
		at.same = append(at.same, e)
	}
	return out
}
