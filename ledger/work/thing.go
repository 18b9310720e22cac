package work

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
)

// Thing is one specimen, gathering, sheet of others or bundle that works speak
// of.
type Thing struct {
	Item  Item          // as the line names it: of a span this one alone; of a bundle what is left of the count
	Sheet ledger.Number // the specimen: named, or joined to a gathering by collector and number; "" for others
	Key   string        // equal for one thing, wherever it is named
	Event *Event        // that put it into the work; nil when nothing did

	id int32
}

// thing is what a Works keeps of a thing that is no record of the book.
type thing struct {
	key   string
	item  Item
	spare bool // duplicates of a gathering, sent or received without a specimen number
}

// thingAt is the place of a thing of a key, made when it is not yet there.
func (w *Works) thingAt(key string, item Item) int32 {
	if id, ok := w.byKey[key]; ok {
		return id
	}
	id := int32(w.book.Len() + len(w.things))
	w.things = append(w.things, thing{key: key, item: item})
	w.byKey[key] = id
	return id
}

// record reports whether a thing is a record of the book.
func (w *Works) record(id int32) bool { return int(id) < w.book.Len() }

// thing is what is known of a thing besides its state.
func (w *Works) thing(id int32) Thing {
	if w.record(id) {
		n := w.book.At(int(id)).Number
		return Thing{Item: Item{Sheet: n}, Sheet: n, Key: n.Key(), id: id}
	}
	t := w.things[int(id)-w.book.Len()]
	return Thing{Item: t.item, Sheet: t.item.Sheet, Key: t.key, id: id}
}

// find is the place of a specimen that the book has or a work names.
func (w *Works) find(n ledger.Number) (int32, bool) {
	if i, ok := w.book.Place(n); ok {
		return int32(i), true
	}
	id, ok := w.byKey[n.Key()]
	return id, ok
}

// String is the thing as a list names it: its number, collector and number,
// or what is counted.
func (t Thing) String() string {
	switch i := t.Item; {
	case t.Sheet != "":
		return string(t.Sheet)
	case i.Who != "":
		return strings.TrimSpace(i.Who + " " + i.No)
	case i.Other != "":
		return i.Other
	default:
		return bundleWords(i)
	}
}

// About are the things that an event is about: what it names, a span one by
// one, or all that its work held then.
func (w *Works) About(e *Event) []Thing {
	out := make([]Thing, len(e.on))
	for i, id := range e.on {
		out[i] = w.thing(id)
	}
	return out
}

// HistoryOf are the events that are about a specimen, in the order in which
// they count; of a gift of spare duplicates those of its gathering.
func (w *Works) HistoryOf(n ledger.Number) []*Event {
	id, ok := w.find(n)
	if !ok {
		return nil
	}
	return w.eventsOf(id)
}

// EventsOf are the events that are about a thing.
func (w *Works) EventsOf(t Thing) []*Event {
	id, ok := w.byKey[t.Key]
	if t.Sheet != "" {
		id, ok = w.find(t.Sheet)
	}
	if !ok {
		return nil
	}
	return w.eventsOf(id)
}

// eventsOf are the events that are about a thing.
func (w *Works) eventsOf(id int32) []*Event {
	list := w.placesOf(id)
	out := make([]*Event, len(list))
	for i, n := range list {
		out[i] = w.events[n]
	}
	return out
}

// placesOf are their places in Works.events.
func (w *Works) placesOf(id int32) []int32 {
	w.touches.once.Do(func() { w.touches.fill(w) })
	return w.touches.list[w.touches.from[id]:w.touches.from[id+1]]
}

// Holds is what a work holds at the end of a day: what its lines named and
// none has taken out.
func (w *Works) Holds(f *File, on dates.Day) []Thing {
	h := newHolding(w, f)
	for _, e := range f.ordered {
		if e.Day <= on {
			h.take(e)
		}
	}
	return h.all()
}
