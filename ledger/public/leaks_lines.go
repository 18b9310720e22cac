package public

import (
	"bytes"
	"cmp"
	"slices"
	"sync"
)

var plains = sync.Pool{New: func() any { return &plain{} }}

// place is where in a text its plain form goes on: at has raw the offset of
// what became text and aside from there.
type place struct{ raw, text, aside int }

// linesOf are the lines of raw, from 1, on which hits end.
func linesOf(raw []byte, hits []hit) []int {
	p := plains.Get().(*plain)
	defer plains.Put(p)
	p.track = true
	p.decode(raw)
	p.track = false
	out := make([]int, len(hits))
	for i, h := range hits {
		last := h.end - 1
		at, found := slices.BinarySearchFunc(p.places, last, func(x place, end int) int {
			if h.aside {
				return cmp.Compare(x.aside, end)
			}
			return cmp.Compare(x.text, end)
		})
		if !found {
			at--
		}
		offset := 0
		if at >= 0 {
			x := p.places[at]
			if offset = x.raw; !h.aside {
				offset += last - x.text
			}
		}
		out[i] = bytes.Count(raw[:max(0, min(offset, len(raw)))], []byte{'\n'}) + 1
	}
	return out
}
