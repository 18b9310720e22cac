package render

import (
	"context"
	"runtime"
	"sync/atomic"
	"testing"

	"blotter/render/page"
)

// TestOneLargePage: of the pages that take very much memory no two are made at
// once, however many workers there are.
func TestOneLargePage(t *testing.T) {
	in := inputOf(t, smallDemo(t))
	in.Look, in.Options.Workers = nil, 4
	b := &build{in: in, out: openTree(t, t.TempDir()), made: map[string]packed{}, images: map[string]bool{}}
	b.shelf = newShelf(in)
	var now, most atomic.Int64
	var jobs []job
	for i := range 4 * 64 { // each worker takes 64 at a time
		jobs = append(jobs, job{name: "large/" + itoa(i), rows: largeRows + 1, page: func() (*page.Page, error) {
			n := now.Add(1)
			defer now.Add(-1)
			most.Store(max(most.Load(), n))
			for range 100 {
				runtime.Gosched()
			}
			return b.shelf.newPage(page.Address("large/"+itoa(i)), "large"), nil
		}})
	}
	if err := b.run(context.Background(), jobs); err != nil {
		t.Fatal(err)
	}
	if most.Load() != 1 {
		t.Errorf("%d large pages were made at once", most.Load())
	}
}
