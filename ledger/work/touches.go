package work

import "sync"

// touches is which events are about which thing: places in Works.events, those
// of one thing together, made when first asked for.
type touches struct {
	once sync.Once
	from []int32 // by thing: where its events begin in list; one more at the end
	list []int32
}

func (t *touches) fill(w *Works) {
	t.from = make([]int32, w.book.Len()+len(w.things)+1)
	for _, e := range w.events {
		for _, id := range e.on {
			t.from[id+1]++
		}
	}
	for i := range len(t.from) - 1 {
		t.from[i+1] += t.from[i]
	}
	t.list = make([]int32, t.from[len(t.from)-1])
	next := make([]int32, len(t.from)-1)
	copy(next, t.from)
	for n, e := range w.events {
		for _, id := range e.on {
			t.list[next[id]] = int32(n)
			next[id]++
		}
	}
}
