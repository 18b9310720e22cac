package book

import (
	"context"
	"iter"
	"slices"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger"
	"blotter/ledger/disk"
	"blotter/ledger/reading"
)

// Judge is the rules about one record and the keys of the rules about
// several, as ledger/check has them; the Book keeps what they gave with the
// entry. The zero Judge judges nothing and must not share a cache with
// another: its entries have no findings.
type Judge struct {
	Version int // raised whenever One gives another answer
	// For gives the rules about one record as a museum's settings have them,
	// and a text that differs whenever those settings do.
	For  func(*ledger.Museum) (one One, key string)
	Keys func(*Entry) []string
	// Tallies are what a record counts for; nil: nothing.
	Tallies func(*Entry) []Tally
}

// One gives the findings of one record as read.
type One func(*reading.Reading) []ledger.Finding

// of is For, also of the zero Judge.
func (j Judge) of(m *Museum) (One, string) {
	if j.For == nil {
		return func(*reading.Reading) []ledger.Finding { return nil }, ""
	}
	return j.For(&m.Museum)
}

// Options are how a Book is loaded.
type Options struct {
	Cache    *disk.Cache           // nil: everything from scratch
	Judge    Judge                 //
	Workers  int                   // that decode at once; 0: two
	Progress func(done, total int) // records read so far; called by one goroutine at a time; nil: nobody watches
	// Aside gives the keys of the numbers that are kept out of everything
	// public for what work/ says of them; nil: none.
	Aside func(context.Context, ledger.Source, *Book) (map[string]bool, error)
}

// stamp names everything besides its bytes that an entry depends on.
func (o Options) stamp(m *Museum) string {
	_, settings := o.Judge.of(m)
	return "reading=" + strconv.Itoa(reading.Version) + " decode=" + strconv.Itoa(ledger.DecodeVersion) +
		" judge=" + strconv.Itoa(o.Judge.Version) + " " + m.Conventions.Key() + " " + settings
}

// Load reads the version of a ledger that src holds. Only records that the
// cache does not have are decoded.
func Load(ctx context.Context, src ledger.Source, o Options) (*Book, error) {
	return (&Book{}).Update(ctx, src, o)
}

// Update is the Book of the version that src holds, made with less work where
// files are as they were in b; it equals Load's. b stays as it is.
func (b *Book) Update(ctx context.Context, src ledger.Source, o Options) (*Book, error) {
	files, err := src.Files(ctx)
	if err != nil {
		return nil, err
	}
	next := &Book{}
	if next.Museum, err = b.museum(ctx, src, files, o.Cache); err != nil {
		return nil, err
	}
	next.stamp = o.stamp(next.Museum)
	records := next.sort(files)
	next.entries = make([]Entry, len(records))
	l := &load{src: src, o: o, stamp: next.stamp, museum: next.Museum, records: records, entries: next.entries}
	if b.stamp == next.stamp {
		l.old = b
	}
	if err := l.run(ctx); err != nil {
		return nil, err
	}
	next.index()
	if o.Aside != nil && len(next.works) > 0 {
		if next.aside, err = o.Aside(ctx, src, next); err != nil {
			return nil, err
		}
	}
	return next, nil
}

// museum reads the museum's files, or takes them over when none has changed.
func (b *Book) museum(ctx context.Context, src ledger.Source, files []ledger.File, c *disk.Cache) (*Museum, error) {
	if b.Museum != nil && b.Museum.sameFiles(files) {
		return b.Museum, nil
	}
	return LoadMuseum(ctx, src, files, c)
}

// load is one loading of all records.
type load struct {
	src     ledger.Source
	o       Options
	stamp   string
	museum  *Museum
	records []ledger.File
	entries []Entry // one for each of records
	old     *Book   // nil: nothing to take over

	mu     sync.Mutex // guards done and Progress
	done   int
	chunks chunkWriter
}

// job is the records that share one chunk of the cache.
type job struct {
	key     string
	files   []int  // places in records
	missing []int  // those of them still to be read
	chunk   *chunk // what the cache has, when something is missing
	words   []byte // the records that the cache has, when some but not all are missing
}

// run fills the entries: from the older Book, then from the cache, then by
// decoding.
func (l *load) run(ctx context.Context) error {
	jobs := l.jobs()
	jobs = l.takeOver(jobs)
	if l.o.Cache != nil {
		if err := l.fromCache(ctx, jobs); err != nil {
			return err
		}
		jobs = slices.DeleteFunc(jobs, func(j *job) bool { return len(j.missing) == 0 })
		l.oldWords(jobs)
	}
	l.chunks.cache = l.o.Cache
	if err := l.each(ctx, slices.Values(jobs), l.decode); err != nil {
		return err
	}
	l.chunks.flush()
	return nil
}

func (l *load) workers() int {
	if l.o.Workers <= 0 {
		return 2
	}
	return l.o.Workers
}

// worker is what one goroutine uses again and again.
type worker struct {
	in     *Intern
	reader *reading.Reader
	one    One
}

func newWorker(m *Museum, j Judge) *worker {
	one, _ := j.of(m)
	return &worker{in: &Intern{}, reader: reading.NewReader(m.Conventions), one: one}
}

// each calls work for every job that next yields, by several workers, and
// stops at the first error. next runs in the goroutine of the caller.
func (l *load) each(ctx context.Context, next iter.Seq[*job], work func(context.Context, *job, *worker) error) error {
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	queue := make(chan *job, 2*l.workers())
	var wg sync.WaitGroup
	for range l.workers() {
		wg.Go(func() {
			w := newWorker(l.museum, l.o.Judge)
			for j := range queue {
				if ctx.Err() == nil {
					if err := work(ctx, j, w); err != nil {
						cancel(err)
					}
				}
			}
		})
	}
	for j := range next {
		if ctx.Err() != nil {
			break
		}
		queue <- j
	}
	close(queue)
	wg.Wait()
	return context.Cause(ctx)
}

// jobs groups the records by chunk, in order of path.
func (l *load) jobs() []*job {
	var out []*job
	odd := map[string]int{}
	for i, f := range l.records {
		key, regular := chunkKey(f.Path)
		at := len(out) - 1
		if !regular {
			if j, ok := odd[key]; ok {
				at = j
			} else {
				odd[key] = len(out)
				at = -1
			}
		}
		if at < 0 || out[at].key != key {
			out = append(out, &job{key: key})
			at = len(out) - 1
		}
		out[at].files = append(out[at].files, i)
	}
	return out
}

// chunkKey is the chunk of the cache that the entry of a record is kept in:
// one for each folder of the regular form, which holds few; one of 256 for
// records elsewhere, however many a folder has.
func chunkKey(path string) (key string, regular bool) {
	slash := strings.LastIndexByte(path, '/')
	dir := strings.TrimPrefix(path[:max(slash, 0)], ledger.SpecimensDir+"/")
	if n := len(dir); n >= 6 && dir[n-3] == '/' && digits(dir[:n-3]) && digits(dir[n-2:]) {
		return dir, true
	}
	h := fnv(path[slash+1:])
	return "other-" + strconv.FormatUint(h%256, 16), false
}

func digits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return true
}

// fnv is the 64 bit FNV-1a hash.
func fnv(s string) uint64 {
	h := uint64(14695981039346656037)
	for i := range len(s) {
		h = (h ^ uint64(s[i])) * 1099511628211
	}
	return h
}
