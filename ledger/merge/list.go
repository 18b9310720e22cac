package merge

import (
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/history"
)

// side is what one side made of a base list.
type side struct {
	became []int   // for each entry of the base, its place on this side; -1: taken out
	same   []bool  // for each entry of the base: its words are as they were
	added  [][]int // for each gap (before entry g of the base), the places of the entries added there
}

func sideOf(path string, base, now []ledger.Entry, opinions bool) side {
	var pairs []history.Pair
	switch key := keyOf(path); {
	case opinions:
		pairs = history.Align(base, now)
	case key != "":
		pairs = history.PairLeftovers(history.Align(keysOnly(base, key), keysOnly(now, key)))
	default:
		pairs = history.PairLeftovers(history.Align(base, now))
	}
	s := side{became: slices.Repeat([]int{-1}, len(base)), same: make([]bool, len(base)), added: make([][]int, len(base)+1)}
	gap := 0
	for _, p := range pairs {
		if p.Old < 0 {
			s.added[gap] = append(s.added[gap], p.New)
			continue
		}
		gap = p.Old + 1
		if s.became[p.Old] = p.New; p.New >= 0 {
			s.same[p.Old] = base[p.Old].Equal(now[p.New])
		}
	}
	return s
}

// item is one entry of the merged list.
type item struct {
	ours    int          // its place on our side; -1: it comes from theirs
	entry   ledger.Entry // as merged
	was     ledger.Entry // the entry of the base
	dropped bool         // taken out of ours
	torn    []ledger.KV  // fields that both sides changed, with their words
	gone    bool         // they took out what we changed
	restore bool         // we took out what they changed or kept: entry is theirs, and undecided
}

// list merges one list.
func (m *merger) list(path string, base, ours, theirs []ledger.Entry) {
	opinions := history.IsOpinions(path)
	o, t := sideOf(path, base, ours, opinions), sideOf(path, base, theirs, opinions)
	var both map[int]int
	if !opinions {
		both = twins(keyOf(path), ours, theirs, o, t)
	}
	var items []item
	for g := 0; g <= len(base); g++ {
		from := len(items)
		items = mergeGap(items, ours, theirs, o.added[g], t.added[g])
		for i := from; i < len(items); i++ {
			if k, ok := both[items[i].ours]; ok && items[i].ours >= 0 {
				items[i] = mergeWords(ledger.Entry{}, ours[items[i].ours], theirs[k], items[i].ours)
			}
		}
		if g < len(base) {
			items = append(items, mergeEntry(base[g], ours, theirs, o, t, g, opinions)...)
		}
	}
	m.listOps(path, ours, items)
}

// mergeEntry merges what became of entry g of the base.
func mergeEntry(base ledger.Entry, ours, theirs []ledger.Entry, o, t side, g int, opinions bool) []item {
	x, y := o.became[g], t.became[g]
	switch {
	case x < 0 && y < 0:
		return nil
	case x < 0: // we took it out
		if t.same[g] && !opinions {
			return nil
		}
		return []item{{ours: -1, was: base, entry: theirs[y], restore: true}}
	case y < 0: // they took it out
		if o.same[g] && !opinions {
			return []item{{ours: x, entry: ours[x], dropped: true}}
		}
		return []item{{ours: x, was: base, entry: ours[x], gone: true}}
	case t.same[g]:
		return []item{{ours: x, entry: ours[x]}}
	case o.same[g]:
		return []item{{ours: x, entry: theirs[y]}}
	}
	return []item{mergeWords(base, ours[x], theirs[y], x)}
}

// mergeWords merges two entries that are one, field by field; at is the place
// of ours.
func mergeWords(base, ours, theirs ledger.Entry, at int) item {
	it := item{ours: at, was: base}
	done := map[string]bool{}
	for _, k := range keys(ours, theirs, base) {
		if list, n := cutNumber(k); n {
			if !done[list] {
				done[list] = true
				for i, w := range mergeLists(wordsOf(base, list), wordsOf(ours, list), wordsOf(theirs, list)) {
					it.entry.Fields = append(it.entry.Fields, ledger.KV{Key: list + "." + strconv.Itoa(i+1), Value: w})
				}
			}
			continue
		}
		b, mine, other := base.Get(k), ours.Get(k), theirs.Get(k)
		switch {
		case fold1(mine) == fold1(other):
		case mine == b:
			mine = other
		case other != b:
			it.torn = append(it.torn, ledger.KV{Key: k, Value: other})
		}
		if mine != "" {
			it.entry.Fields = append(it.entry.Fields, ledger.KV{Key: k, Value: mine})
		}
	}
	return it
}

func keys(es ...ledger.Entry) []string {
	var out []string
	for _, e := range es {
		for _, kv := range e.Fields {
			if !slices.Contains(out, kv.Key) {
				out = append(out, kv.Key)
			}
		}
	}
	return out
}

// mergeGap puts the entries that both sides added in one place into the order
// of their dates, each side's own order kept; what both typed alike is one.
func mergeGap(items []item, ours, theirs []ledger.Entry, o, t []int) []item {
	a, b := pick(ours, o), pick(theirs, t)
	var left, right []int
	flush := func() {
		for len(left) > 0 || len(right) > 0 {
			if len(right) == 0 || len(left) > 0 && before(a[left[0]], b[right[0]]) {
				items = append(items, item{ours: o[left[0]], entry: a[left[0]]})
				left = left[1:]
			} else {
				items = append(items, item{ours: -1, entry: b[right[0]]})
				right = right[1:]
			}
		}
	}
	for _, p := range history.Align(plainly(a), plainly(b)) {
		if p.Same {
			flush()
			items = append(items, item{ours: o[p.Old], entry: a[p.Old]})
			continue
		}
		if p.Old >= 0 {
			left = append(left, p.Old)
		}
		if p.New >= 0 {
			right = append(right, p.New)
		}
	}
	flush()
	return items
}

func plainly(es []ledger.Entry) []ledger.Entry {
	out := make([]ledger.Entry, len(es))
	for i, e := range es {
		out[i] = history.Plainly(e)
	}
	return out
}

func pick(es []ledger.Entry, at []int) []ledger.Entry {
	out := make([]ledger.Entry, len(at))
	for i, k := range at {
		out[i] = es[k]
	}
	return out
}

// before reports whether entry x stands before y: by date where their dates
// decide, else by their words, so that both sides come to the same order.
func before(x, y ledger.Entry) bool {
	dayX, clockX := dates.CutClock(x.Get("date"))
	dayY, clockY := dates.CutClock(y.Get("date"))
	a, b := dates.Read(dayX, dates.Ask), dates.Read(dayY, dates.Ask)
	if a.Known() && b.Known() && !a.OpenStart && !a.OpenEnd && !b.OpenStart && !b.OpenEnd {
		switch {
		case a.Last < b.First:
			return true
		case b.Last < a.First:
			return false
		case clockX >= 0 && clockY >= 0 && clockX != clockY:
			return clockX < clockY
		}
	}
	return history.EntryWords(x) <= history.EntryWords(y)
}

// listOps writes down the merged list and how our text becomes it. Inserting
// from the end on leaves the places before it as they are.
func (m *merger) listOps(path string, ours []ledger.Entry, items []item) {
	numbered := func(at int) string { return path + "." + strconv.Itoa(at) }
	for _, it := range items {
		if it.ours >= 0 && !it.dropped {
			m.ops = append(m.ops, setFields(numbered(it.ours+1), ours[it.ours], it.entry)...)
		}
	}
	next := len(ours) + 1 // place of the next of our entries behind
	for _, it := range slices.Backward(items) {
		switch {
		case it.ours >= 0:
			next = it.ours + 1
		case !it.restore:
			m.ops = append(m.ops, ledger.Insert(path, next, it.entry.Fields...))
		}
	}
	m.ops = append(m.ops, removals(numbered, ours, items)...)
	m.openEntries(numbered, path, ours, items)
}

// openEntries writes down what of a list is undecided, from its end on.
func (m *merger) openEntries(numbered func(int) string, path string, ours []ledger.Entry, items []item) {
	at := 0
	var merged []ledger.Entry
	var open []func()
	for _, it := range items {
		switch {
		case it.dropped:
			continue
		case it.restore:
			place := at + 1
			open = append(open, func() {
				m.conflict(Conflict{Path: numbered(place), Kind: Entry, Base: brief(it.was), Theirs: brief(it.entry)}, ledger.Insert(path, place, it.entry.Fields...))
			})
			continue
		}
		at++
		place := at
		merged = append(merged, it.entry)
		if it.gone {
			open = append(open, func() {
				m.conflict(Conflict{Path: numbered(place), Kind: Entry, Base: brief(it.was), Ours: brief(it.entry)}, ledger.Remove(numbered(place)))
			})
		}
		for _, kv := range it.torn {
			field := under(numbered(place), kv.Key)
			open = append(open, func() {
				m.conflict(Conflict{Path: field, Base: it.was.Get(kv.Key), Ours: it.entry.Get(kv.Key), Theirs: kv.Value}, ledger.Set(field, kv.Value))
			})
		}
	}
	for _, f := range slices.Backward(open) {
		f()
	}
	if len(merged) > 0 {
		m.mine[path] = history.FieldList{Path: path, List: true, Entries: merged}
	}
}

// removals take out of ours what the merged list has no more, from the end
// on, when the insertions are made.
func removals(numbered func(int) string, ours []ledger.Entry, items []item) []ledger.Op {
	stays := make([]bool, len(ours))
	inserted := make([]int, len(ours)+1) // before our entry k
	next := len(ours)
	for _, it := range slices.Backward(items) {
		switch {
		case it.ours >= 0:
			next = it.ours
			stays[it.ours] = !it.dropped
		case !it.restore:
			inserted[next]++
		}
	}
	var out []ledger.Op
	shift := 0
	for _, n := range inserted {
		shift += n
	}
	for k := len(ours) - 1; k >= 0; k-- {
		shift -= inserted[k+1]
		if !stays[k] {
			out = append(out, ledger.Remove(numbered(k+1+shift)))
		}
	}
	return out
}

// setFields makes entry now of entry old.
func setFields(path string, old, now ledger.Entry) []ledger.Op {
	var out []ledger.Op
	done := map[string]bool{}
	for _, k := range keys(now, old) {
		if list, n := cutNumber(k); n {
			if words := wordsOf(now, list); !done[list] && !slices.Equal(words, wordsOf(old, list)) {
				out = append(out, ledger.SetList(under(path, list), words...))
			}
			done[list] = true
			continue
		}
		if v := now.Get(k); v != old.Get(k) {
			out = append(out, ledger.Set(under(path, k), v))
		}
	}
	return out
}

func under(path, key string) string {
	return strings.TrimSuffix(path+"."+key, ".")
}
