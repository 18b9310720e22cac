package work

import (
	"cmp"
	"slices"
	"strings"

	"blotter/ledger"
)

// turn lets the events of a file name sheets by the numbers that these bear
// now: a line renumbered or swapped says of all lines up to it which sheets
// they meant.
func (f *File) turn() {
	for k, e := range f.Events {
		to := e.turns()
		if to == nil {
			continue
		}
		for _, before := range f.Events[:k+1] {
			before.Items = turned(before.Items, to)
		}
	}
}

// turns are the numbers, by the keys of those before, that an event gives to
// sheets; nil for an event of another kind.
func (e *Event) turns() map[string]ledger.Number {
	sheets := e.Line.Sheets
	switch {
	case e.Verb == ledger.EventRenumbered && len(sheets) == 1 && e.Line.To.Set():
		return map[string]ledger.Number{numberAt(sheets[0]).Key(): numberAt(e.Line.To)}
	case e.Verb == ledger.EventSwapped && len(sheets) == 2:
		a, b := numberAt(sheets[0]), numberAt(sheets[1])
		return map[string]ledger.Number{a.Key(): b, b.Key(): a}
	}
	return nil
}

// Bore is the number that a sheet bore when the event came to pass, of the
// number that it bears now.
func (e *Event) Bore(n ledger.Number) ledger.Number {
	events := e.File.Events
	for k := len(events) - 1; k >= 0 && events[k] != e; k-- {
		for before, after := range events[k].turns() {
			if after.Key() == n.Key() {
				n = events[k].numberOf(before)
				break
			}
		}
	}
	return n
}

// numberOf is the number, as the line has it, that has this key.
func (e *Event) numberOf(key string) ledger.Number {
	for _, l := range e.Line.Sheets {
		if n := numberAt(l); n.Key() == key {
			return n
		}
	}
	return ""
}

func numberAt(l ledger.Leaf) ledger.Number { return ledger.Number(strings.TrimSpace(l.Text)) }

// turned are items with the new numbers; a span is parted round them.
func turned(items []Item, to map[string]ledger.Number) []Item {
	out := make([]Item, 0, len(items))
	for _, i := range items {
		if i.Sheet == "" {
			out = append(out, i)
			continue
		}
		out = append(out, i.turned(to)...)
	}
	return out
}

func (i Item) turned(to map[string]ledger.Number) []Item {
	if i.Last == "" {
		if n, ok := to[i.Sheet.Key()]; ok {
			i.Sheet = n
		}
		return []Item{i}
	}
	var out, moved []Item
	rest := []string{string(i.Sheet) + ".." + string(i.Last)}
	for len(rest) > 0 {
		s := rest[0]
		rest = rest[1:]
		cut := false
		for key, n := range to {
			before, after, ok := ledger.CutSpan(s, key)
			if !ok {
				continue
			}
			for _, part := range []string{after, before} {
				if part != "" {
					rest = append([]string{part}, rest...)
				}
			}
			one := i
			one.Sheet, one.Last = n, ""
			moved, cut = append(moved, one), true
			break
		}
		if cut {
			continue
		}
		one := i
		first, last, _ := strings.Cut(s, "..")
		one.Sheet, one.Last = ledger.Number(first), ledger.Number(last)
		out = append(out, one)
	}
	slices.SortFunc(moved, func(a, b Item) int { return cmp.Compare(a.Sheet, b.Sheet) })
	return append(out, moved...)
}

// Names reports whether a line of the file names a sheet by its number, by
// itself or within a span.
func (f *File) Names(n ledger.Number) bool {
	for _, e := range f.Events {
		for _, i := range e.Items {
			words := string(i.Sheet)
			if i.Last != "" {
				words += ".." + string(i.Last)
			}
			if _, _, ok := ledger.CutSpan(words, n.Key()); ok {
				return true
			}
		}
	}
	return false
}
