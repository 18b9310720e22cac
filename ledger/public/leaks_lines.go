package public

import (
	"bytes"
	"sort"
	"sync"
)

var plains = sync.Pool{New: func() any { return &plain{} }}

// lineOf is the line of raw, from 1, on which a hit ends.
func lineOf(raw []byte, h hit) int {
	var ends []int
	for at := 0; at < len(raw); {
		n := bytes.IndexByte(raw[at:], '\n')
		if n < 0 {
			n = len(raw) - at - 1
		}
		at += n + 1
		ends = append(ends, at)
	}
	p := plains.Get().(*plain)
	defer plains.Put(p)
	n := sort.Search(len(ends), func(n int) bool {
		p.decode(raw[:ends[n]])
		if h.aside {
			return len(p.aside) >= h.end
		}
		return len(p.text) >= h.end
	})
	return min(n, max(len(ends)-1, 0)) + 1
}
