package public

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"slices"
	"sync"
)

// Scanner looks through files that are about to become public, whatever
// makes them: pages, exports, objects of the mirror. Every file is given to it
// before any is put in place, then Finish says what was found. It may be used
// by several goroutines.
type Scanner struct {
	secrets *Secrets

	mu    sync.Mutex
	found []Leak
}

// Scanner is a new Scanner for the secrets.
func (s *Secrets) Scanner() *Scanner { return &Scanner{secrets: s} }

// Scan looks through one file of size bytes; name is its path in the output.
func (x *Scanner) Scan(ctx context.Context, name string, r io.ReaderAt, size int64) error {
	data := make([]byte, size)
	if n, err := r.ReadAt(data, 0); err != nil && !(err == io.EOF && int64(n) == size) {
		return fmt.Errorf("look through %s: %w", name, err)
	}
	x.ScanBytes(name, data)
	return ctx.Err()
}

// ScanBytes is Scan of a file that is in memory.
func (x *Scanner) ScanBytes(name string, data []byte) {
	found := x.secrets.Find(data)
	for i := range found {
		found[i].File = name
	}
	x.mu.Lock()
	defer x.mu.Unlock()
	x.found = append(x.found, found...)
}

// Finish is what was found, in order of file and line; nothing may be put in
// place when there is any.
func (x *Scanner) Finish(ctx context.Context) ([]Leak, error) {
	x.mu.Lock()
	defer x.mu.Unlock()
	slices.SortFunc(x.found, func(a, b Leak) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Number, b.Number), cmp.Compare(a.Field, b.Field))
	})
	return x.found, ctx.Err()
}
