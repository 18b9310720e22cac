package gitrepo

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"slices"
	"sync"

	"blotter/ledger"
)

// objects is the border to the store of a repository: any object by its id.
// go-git and the git program both stand behind it. One reader serves one
// goroutine at a time.
type objects interface {
	// read returns the kind (commit, tree, blob, tag) and the body of id. A
	// body longer than limit is errTooLarge, not an allocation; limit 0 is
	// none.
	read(id string, limit int64) (kind string, body []byte, err error)
	close()
}

// ErrNoObject is about an object that is not there.
var ErrNoObject = errors.New("object not found")

var (
	errNoObject = ErrNoObject
	errTooLarge = ledger.ErrLarge
)

// pool keeps readers for use by several goroutines.
type pool struct {
	open func() (objects, error)
	mu   sync.Mutex
	free []objects
}

func (p *pool) get() (objects, error) {
	p.mu.Lock()
	if n := len(p.free); n > 0 {
		o := p.free[n-1]
		p.free = p.free[:n-1]
		p.mu.Unlock()
		return o, nil
	}
	p.mu.Unlock()
	return p.open()
}

func (p *pool) put(o objects) {
	p.mu.Lock()
	keep := len(p.free) < runtime.GOMAXPROCS(0)
	if keep {
		p.free = append(p.free, o)
	}
	p.mu.Unlock()
	if !keep {
		o.close()
	}
}

// drop closes all readers that are not in use.
func (p *pool) drop() {
	p.mu.Lock()
	free := p.free
	p.free = nil
	p.mu.Unlock()
	for _, o := range free {
		o.close()
	}
}

// stale closes the readers that are not in use and know only what was there when
// they were opened. The git program looks again for what it does not know.
func (p *pool) stale() {
	p.mu.Lock()
	var gone []objects
	p.free = slices.DeleteFunc(p.free, func(o objects) bool {
		if x, ok := o.(*patient); ok {
			o = x.objects
		}
		if _, program := o.(*batch); program {
			return false
		}
		gone = append(gone, o)
		return true
	})
	p.mu.Unlock()
	for _, o := range gone {
		o.close()
	}
}

// read reads one object through the pool. A reader that misses an object may
// have been opened before git packed the repository anew, so a fresh one is
// asked once more.
func (p *pool) read(ctx context.Context, id string, limit int64) (string, []byte, error) {
	if err := ctx.Err(); err != nil {
		return "", nil, err
	}
	o, err := p.get()
	if err != nil {
		return "", nil, err
	}
	kind, body, err := o.read(id, limit)
	if err == nil || errors.Is(err, errTooLarge) {
		p.put(o)
		return kind, body, err
	}
	o.close()
	p.drop()
	if o, err = p.open(); err != nil {
		return "", nil, err
	}
	if kind, body, err = o.read(id, limit); err != nil {
		o.close()
		return "", nil, err
	}
	p.put(o)
	return kind, body, nil
}

// openObjects opens a reader. The whole index of a pack is read before its
// first object, the git program costs a process and 25 us more for each: so
// the program begins, and this process takes over when many are read. What
// go-git does not open, and a quarantine, stay with the program.
func (r *Repo) openObjects() (objects, error) {
	if r.git == "" {
		return r.openPacked()
	}
	first, err := r.openBatch()
	if err != nil || r.refused != nil || r.quarantined() {
		return first, err
	}
	return &patient{objects: first, r: r}, nil
}

// patience is how many objects the git program reads before opening the packs
// is worth while.
const patience = 2000

// patient is a reader that changes from the git program to this process.
type patient struct {
	objects
	r     *Repo
	reads int
}

func (p *patient) read(id string, limit int64) (string, []byte, error) {
	if p.reads++; p.reads == patience {
		if n, err := p.r.openPacked(); err == nil {
			p.objects.close()
			p.objects = n
		}
	}
	return p.objects.read(id, limit)
}

// quarantined reports whether a push is being received: its objects lie
// apart until the hooks have agreed.
func (r *Repo) quarantined() bool {
	return getenv(r.environ, "GIT_OBJECT_DIRECTORY") != "" || getenv(r.environ, "GIT_QUARANTINE_PATH") != ""
}

// readAs reads an object that must be of one kind; tags are followed.
func (r *Repo) readAs(ctx context.Context, want, id string) ([]byte, error) {
	for range 8 {
		kind, body, err := r.pool.read(ctx, id, 0)
		if err != nil {
			return nil, fmt.Errorf("read %s %s: %w", want, id, err)
		}
		if kind == want {
			return body, nil
		}
		if kind != "tag" {
			return nil, fmt.Errorf("read %s %s: it is a %s", want, id, kind)
		}
		id = headerValue(body, "object")
	}
	return nil, fmt.Errorf("read %s %s: too many tags of tags", want, id)
}
