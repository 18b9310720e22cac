package merge

import (
	"cmp"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/history"
)

// factsOf finds which entries of three versions of a list are one: those that
// became of an entry of the base, and what both sides added, wherever they put
// it.
func factsOf(path string, base, ours, theirs []ledger.Entry, opinions bool) []fact {
	key := keyOf(path)
	o, t := became(key, base, ours, opinions), became(key, base, theirs, opinions)
	facts := make([]fact, 0, len(ours)+len(theirs))
	metO, metT := make([]bool, len(ours)), make([]bool, len(theirs))
	for g := range base {
		x, y := o[g], t[g]
		if x >= 0 {
			metO[x] = true
		}
		if y >= 0 {
			metT[y] = true
		}
		if x >= 0 || y >= 0 {
			facts = append(facts, fact{item: item{ours: x}, base: g, theirs: y})
		}
	}
	waiting := map[string][]int{} // facts that we added, by their words
	for k, met := range metO {
		if !met {
			w := known(ours[k], key)
			waiting[w] = append(waiting[w], len(facts))
			facts = append(facts, fact{item: item{ours: k}, base: -1, theirs: -1})
		}
	}
	for k, met := range metT {
		if met {
			continue
		}
		w := known(theirs[k], key)
		if mine := waiting[w]; len(mine) > 0 {
			facts[mine[0]].theirs, waiting[w] = k, mine[1:]
			continue
		}
		facts = append(facts, fact{item: item{ours: -1}, base: -1, theirs: k})
	}
	return facts
}

// became is, for each entry of the base, its place on one side; -1: it was
// taken out. An entry of opinions that another stands for is not it.
func became(key string, base, now []ledger.Entry, opinions bool) []int {
	out := make([]int, len(base))
	for g := range out {
		out[g] = -1
	}
	if len(base) == 0 || len(now) == 0 {
		return out
	}
	if key != "" {
		base, now = keysOnly(base, key), keysOnly(now, key)
	}
	pairs := history.Align(plainly(base), plainly(now))
	if !opinions {
		pairs = history.PairLeftovers(pairs)
	}
	for _, p := range pairs {
		if p.Old >= 0 {
			out[p.Old] = p.New
		}
	}
	return out
}

// weave puts the facts of two lists into one order, in which those of each
// stand as they stand there: what only one has before what both have, if it
// stands so; between what only one has and what only the other has, their dates
// decide. Where both have the same in two orders, that of ours stands.
func weave(facts []fact, ours, theirs int) []item {
	left, right := make([]*fact, ours), make([]*fact, theirs)
	for i := range facts {
		f := &facts[i]
		if f.ours >= 0 {
			left[f.ours] = f
		}
		if f.theirs >= 0 {
			right[f.theirs] = f
		}
	}
	out := make([]item, 0, len(facts))
	met := make(map[*fact]bool, len(facts))
	take := func(f *fact) {
		met[f] = true
		if f.ours >= 0 || !f.dropped {
			out = append(out, f.item)
		}
	}
	for len(left) > 0 || len(right) > 0 {
		switch {
		case len(right) > 0 && met[right[0]]:
			right = right[1:]
		case len(right) > 0 && right[0].ours < 0 && (len(left) == 0 || left[0].theirs >= 0 || right[0].before(left[0])):
			take(right[0])
			right = right[1:]
		case len(left) > 0:
			take(left[0])
			left = left[1:]
		}
	}
	return out
}

// place is where an entry belongs among others that nothing else orders.
type place struct {
	dated       bool
	first, last int
	clock       int
	words       string
}

// before reports whether a fact belongs before another: those without a day
// that can be read before those with one, then by their days, the hour where
// both have one, and their words, so that whoever joins them comes to the same
// order.
func (f *fact) before(g *fact) bool {
	a, b := f.place(), g.place()
	if a.dated != b.dated {
		return b.dated
	}
	return cmp.Or(cmp.Compare(a.first, b.first), cmp.Compare(a.last, b.last), cmp.Compare(a.clock, b.clock), cmp.Compare(a.words, b.words)) < 0
}

func (f *fact) place() *place {
	if f.key == nil {
		f.key = &place{words: history.EntryWords(history.Plainly(f.entry))}
		day, clock := dates.CutClock(f.entry.Get("date"))
		if r := dates.Read(day, dates.Ask); r.Known() && !r.OpenStart && !r.OpenEnd {
			f.key.dated, f.key.first, f.key.last, f.key.clock = true, int(r.First), int(r.Last), clock
		}
	}
	return f.key
}

func plainly(es []ledger.Entry) []ledger.Entry {
	out := make([]ledger.Entry, len(es))
	for i, e := range es {
		out[i] = history.Plainly(e)
	}
	return out
}
