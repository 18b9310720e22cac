package merge

import (
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/history"
)

// fact is one entry of the merged list: its places in the three versions, -1
// where a version has it not.
type fact struct {
	item
	base, theirs int
	key          *place // made when it is first compared
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
	facts := factsOf(path, base, ours, theirs, opinions)
	for i := range facts {
		f := &facts[i]
		switch {
		case f.base >= 0:
			f.ofBase(m, base[f.base], ours, theirs, opinions)
		case f.ours >= 0 && f.theirs >= 0 && opinions:
			f.entry = m.spelledEntry(ledger.Entry{}, ours[f.ours], theirs[f.theirs])
		case f.ours >= 0 && f.theirs >= 0:
			f.both(m, ledger.Entry{}, ours[f.ours], theirs[f.theirs])
		case f.ours >= 0:
			f.entry = ours[f.ours]
		default:
			f.entry = theirs[f.theirs]
		}
	}
	m.listOps(path, ours, weave(facts, len(ours), len(theirs)))
}

// ofBase merges what became of an entry of the base.
func (f *fact) ofBase(m *merger, base ledger.Entry, ours, theirs []ledger.Entry, opinions bool) {
	f.was = base
	switch {
	case f.ours < 0: // we took it out
		f.entry, f.restore = theirs[f.theirs], opinions || !base.Equal(theirs[f.theirs])
		f.dropped = !f.restore
	case f.theirs < 0: // they took it out
		f.entry, f.gone = ours[f.ours], opinions || !base.Equal(ours[f.ours])
		f.dropped = !f.gone
	case base.Equal(theirs[f.theirs]):
		f.entry = ours[f.ours]
	case base.Equal(ours[f.ours]):
		f.entry = theirs[f.theirs]
	default:
		f.both(m, base, ours[f.ours], theirs[f.theirs])
	}
}

// both merges two entries that are one, field by field.
func (f *fact) both(m *merger, base, ours, theirs ledger.Entry) {
	f.was = base
	done := map[string]bool{}
	for _, k := range keys(ours, theirs, base) {
		if list, n := cutNumber(k); n {
			if !done[list] {
				done[list] = true
				for i, w := range m.mergeLists(wordsOf(base, list), wordsOf(ours, list), wordsOf(theirs, list)) {
					f.entry.Fields = append(f.entry.Fields, ledger.KV{Key: list + "." + strconv.Itoa(i+1), Value: w})
				}
			}
			continue
		}
		b, mine, other := base.Get(k), ours.Get(k), theirs.Get(k)
		switch {
		case mine == b:
			mine = other
		case other == b:
		case alike(k, mine, other):
			mine = m.spelled(b, mine, other)
		default:
			f.torn = append(f.torn, ledger.KV{Key: k, Value: other})
		}
		if mine != "" {
			f.entry.Fields = append(f.entry.Fields, ledger.KV{Key: k, Value: mine})
		}
	}
}

// alike reports whether two people who typed these words in a field of an
// entry typed the same.
func alike(key, a, b string) bool {
	x := ledger.Entry{Fields: []ledger.KV{{Key: key, Value: a}}}
	return a == b || history.Plainly(x).Equal(history.Plainly(ledger.Entry{Fields: []ledger.KV{{Key: key, Value: b}}}))
}

// spelledEntry is spelled, of an entry.
func (m *merger) spelledEntry(was, a, b ledger.Entry) ledger.Entry {
	x, y := history.EntryWords(a), history.EntryWords(b)
	if m.spelled(history.EntryWords(was), x, y) == x {
		return a
	}
	return b
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
			if !done[list] {
				out = append(out, setWords(under(path, list), wordsOf(old, list), wordsOf(now, list))...)
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

// setWords makes one list of words of another, word by word, so that the
// comments between them stay.
func setWords(path string, old, now []string) []ledger.Op {
	switch {
	case slices.Equal(old, now):
		return nil
	case len(old) == 0, len(now) == 0:
		return []ledger.Op{ledger.SetList(path, now...)}
	}
	var out []ledger.Op
	at := 1
	for _, p := range history.PairLeftovers(history.Align(wordEntries(old), wordEntries(now))) {
		place := path + "." + strconv.Itoa(at)
		switch {
		case p.New < 0:
			out = append(out, ledger.Remove(place))
			continue
		case p.Old < 0:
			out = append(out, ledger.Insert(path, at, ledger.KV{Value: now[p.New]}))
		case !p.Same:
			out = append(out, ledger.Set(place, now[p.New]))
		}
		at++
	}
	return out
}

func under(path, key string) string {
	return strings.TrimSuffix(path+"."+key, ".")
}
