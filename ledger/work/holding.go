package work

import (
	"slices"
	"strconv"
	"strings"
)

// holding is what one work holds while its events are gone through in order.
type holding struct {
	w    *Works
	f    *File
	in   []int32        // in the order in which they came; -1 in the place of one that went
	held map[int32]held // those of in
	same []int32        // what is held, as it was given last; nil: it has changed
	out  []int32        // what was unpacked or came back, and is still to be filed
}

// held is how a thing came into a work.
type held struct {
	by   *Event
	item Item // as named there; of a bundle with what is left
	at   int  // place in holding.in
}

func newHolding(w *Works, f *File) *holding { return &holding{w: w, f: f, held: map[int32]held{}} }

// take goes on by one event, and gives the things that it is about.
func (h *holding) take(e *Event) []int32 {
	if e.All() {
		on := h.now()
		if e.Verb == "filed" && len(h.out) > 0 {
			on = unique(append(slices.Clip(on), h.out...))
			h.out = nil
		}
		if e.move.leaves {
			h.outside(e, on)
			h.in, h.held, h.same = nil, map[int32]held{}, nil
		}
		return on
	}
	var on []int32
	for i := range e.Items {
		for _, x := range h.w.join.things(h, &e.Items[i]) {
			if e.turns() != nil || h.part(e, x) {
				on = append(on, x.id)
			}
		}
	}
	if len(e.Items) == 1 {
		return on // no item names a thing twice
	}
	return unique(on)
}

// outside remembers what a work let go of before it was filed: a line filed
// that names nothing is about that too.
func (h *holding) outside(e *Event, on []int32) {
	if e.Verb == "unpacked" || e.Verb == "returned" {
		h.out = append(h.out, on...)
	}
}

// now is all that is held.
func (h *holding) now() []int32 {
	if h.same == nil {
		h.same = make([]int32, 0, len(h.held))
		for _, id := range h.in {
			if id >= 0 {
				h.same = append(h.same, id)
			}
		}
	}
	return h.same
}

// part lets one thing in or out. It is false when only a part of a bundle
// goes: then the rest stays where it is.
func (h *holding) part(e *Event, x joined) bool {
	was, in := h.held[x.id]
	switch {
	case !e.move.leaves && in:
		if x.item.Bundle() && x.item.Count > was.item.Count {
			was.item.Count = x.item.Count
			h.held[x.id] = was
		}
	case e.Verb == "acknowledged" && x.item.Bundle():
		return false // so many came, it says: they are what was sent
	case !e.move.leaves:
		h.held[x.id] = held{e, x.item, len(h.in)}
		h.in = append(h.in, x.id)
		h.same = nil
	case in && x.item.Bundle() && x.item.Count < was.item.Count:
		was.item.Count -= x.item.Count
		h.held[x.id] = was
		return false
	case in:
		h.outside(e, []int32{x.id})
		delete(h.held, x.id)
		h.in[was.at] = -1
		h.same = nil
	}
	return true
}

// bundle is the one bundle that is held; false when there is none, or several.
func (h *holding) bundle() (int32, bool) {
	found, n := int32(0), 0
	for _, id := range h.now() {
		if h.held[id].item.Bundle() {
			found, n = id, n+1
		}
	}
	return found, n == 1
}

// all is what is held, as things.
func (h *holding) all() []Thing {
	out := make([]Thing, 0, len(h.held))
	for _, id := range h.now() {
		t := h.w.thing(id)
		t.Item, t.Event = h.held[id].item, h.held[id].by
		out = append(out, t)
	}
	return out
}

// unique drops what stands in a list a second time.
func unique(on []int32) []int32 {
	seen := make(map[int32]bool, len(on))
	return slices.DeleteFunc(on, func(id int32) bool {
		was := seen[id]
		seen[id] = true
		return was
	})
}

// bundleWords is a bundle in words: 120 folds, Carex, box 3.
func bundleWords(i Item) string {
	words := strconv.Itoa(i.Count) + " " + i.Of
	if i.About {
		words = "about " + words
	}
	return strings.TrimSuffix(words+", "+i.What, ", ")
}
