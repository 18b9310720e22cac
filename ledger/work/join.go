package work

import (
	"cmp"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/reading"
)

// join brings what lines name together with the records of the book.
type join struct {
	w      *Works
	spans  map[string][]place // by what stands before the figures of a number, folded; in order of the figures
	series map[string]*series // by collector's words in works
}

// joined is one thing that an item names.
type joined struct {
	id   int32
	item Item // of a span this one alone
}

// place is a record's number without what stands before its figures.
type place struct {
	serial uint64
	at     int32
}

// longestSpan is the most gatherings that one span names: a collector's book,
// not a slip of the pen. Our choice, no source.
const longestSpan = 1000

// things are the things that an item names.
func (j *join) things(h *holding, i *Item) []joined {
	switch {
	case i.Sheet != "" && i.Last == "":
		return []joined{{j.sheet(h, i), *i}}
	case i.Sheet != "":
		return j.span(i)
	case i.Who != "":
		return j.gatherings(h.f, i)
	case i.Other != "":
		return []joined{{j.w.thingAt("o|"+folded(i.Other), *i), *i}}
	}
	if i.What == "" {
		if id, ok := h.bundle(); ok {
			return []joined{{id, *i}}
		}
		return []joined{{j.w.thingAt("b|"+string(h.f.Number), *i), *i}}
	}
	return []joined{{j.w.thingAt("b||"+folded(i.What), *i), *i}}
}

func folded(words string) string { return strings.ToLower(strings.Join(strings.Fields(words), " ")) }

func (j *join) sheet(h *holding, i *Item) int32 {
	if at, ok := j.w.book.Place(i.Sheet); ok {
		return int32(at)
	}
	return j.w.thingAt(i.Sheet.Key(), *i)
}

// span are the records whose numbers lie in a span.
func (j *join) span(i *Item) []joined {
	before, from, to, ok := spanOf(i)
	if !ok {
		return nil
	}
	list := j.numbers()[before]
	at, _ := slices.BinarySearchFunc(list, from, func(p place, n uint64) int { return cmp.Compare(p.serial, n) })
	var out []joined
	for ; at < len(list) && list[at].serial <= to; at++ {
		one := *i
		one.Sheet, one.Last = j.w.book.At(int(list[at].at)).Number, ""
		out = append(out, joined{list[at].at, one})
	}
	return out
}

// spanOf reads a span of numbers; of the last one what stands before its
// figures may be left out.
func spanOf(i *Item) (before string, from, to uint64, ok bool) {
	before, from, ok = parts(string(i.Sheet))
	last, to, ok2 := parts(string(i.Last))
	return before, from, to, ok && ok2 && (last == before || last == "") && from <= to
}

// parts are a number's figures, and what stands before them, folded.
func parts(n string) (before string, serial uint64, ok bool) {
	serial, ok = ledger.Number(n).Serial()
	return strings.ToLower(strings.TrimRight(n, "0123456789")), serial, ok
}

// numbers are the records by number.
func (j *join) numbers() map[string][]place {
	if j.spans != nil {
		return j.spans
	}
	j.spans = map[string][]place{}
	var raw, before string // as in the last record: nearly all begin alike
	var list []place
	for at := range j.w.book.Len() {
		n := string(j.w.book.At(at).Number)
		serial, ok := ledger.Number(n).Serial()
		if !ok {
			continue
		}
		if b := strings.TrimRight(n, "0123456789"); b != raw || list == nil {
			if list != nil {
				j.spans[before] = list
			}
			raw, before = b, strings.ToLower(b)
			list = j.spans[before]
		}
		list = append(list, place{serial, int32(at)})
	}
	if list != nil {
		j.spans[before] = list
	}
	for _, list := range j.spans {
		order := func(a, b place) int { return cmp.Or(cmp.Compare(a.serial, b.serial), cmp.Compare(a.at, b.at)) }
		if !slices.IsSortedFunc(list, order) {
			slices.SortFunc(list, order)
		}
	}
	return j.spans
}

// gatherings are the specimens of a gathering, or of a span of them; where a
// number has no record yet, the gathering. What is given or exchanged by
// collector and number are spare duplicates: they are not the specimens.
func (j *join) gatherings(f *File, i *Item) []joined {
	s := j.series[i.Who]
	first, last, ok := numbersOf(i)
	if !ok {
		one := *i
		one.LastN = ""
		if i.LastN != "" {
			one.No = i.No + ".." + i.LastN
		}
		return j.gathering(f, s, one, number{prefix: folded(one.No)})
	}
	var out []joined
	for n := first.serial; n <= last && n-first.serial < longestSpan; n++ {
		one, no := *i, first
		no.serial = n
		if i.LastN != "" {
			one.No, one.LastN, no.suffix = no.words(), "", ""
		}
		out = append(out, j.gathering(f, s, one, no)...)
	}
	return out
}

func (j *join) gathering(f *File, s *series, one Item, no number) []joined {
	if f.Kind.Name == "gift" || f.Kind.Name == "exchange" {
		id := j.w.thingAt("d|"+s.is+"|"+no.words(), one)
		j.w.things[int(id)-j.w.book.Len()].spare = true
		return []joined{{id, one}}
	}
	var out []joined
	for _, at := range s.find(no) {
		one.Sheet = ""
		out = append(out, joined{at, one})
	}
	if out == nil {
		out = []joined{{j.w.thingAt("g|"+s.is+"|"+no.words(), one), one}}
	}
	return out
}

// numbersOf reads the number of a gathering, or a span of them: 97-12..97-20,
// 97-12..20.
func numbersOf(i *Item) (first number, last uint32, ok bool) {
	a, ok := readNumber(i.No)
	if !ok || i.LastN == "" {
		return a, a.serial, ok
	}
	b, ok := readNumber(i.LastN)
	return a, b.serial, ok && (b.prefix == a.prefix || b.prefix == "") && a.suffix == "" && b.suffix == "" && a.serial <= b.serial
}

func readNumber(words string) (number, bool) {
	n, ok := reading.ReadCollNo(words)
	return number{n.Prefix, n.Serial, n.Suffix}, ok
}
