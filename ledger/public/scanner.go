package public

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"io"
	"slices"
	"strings"
	"sync"

	"blotter/ledger"
)

// Scanner looks through files that are about to become public, whatever makes
// them: pages, exports, objects of the mirror. Every file is given to it before
// any is put in place, then Finish says what was found. It may be used by
// several goroutines.
type Scanner struct {
	secrets  *Secrets
	state    scanState
	active   []uint64            // hashes of the values looked for, in order
	known    map[uint64]bool     // the same
	places   map[string][]int    // file -> places in reviewed
	reviewed []ledger.Reviewed   //
	whole    bool                //
	engines  []func() *engine    // for files of each generation of state; nil: nothing is new since
	public   func() *publicPlace // positions of the records that are not withheld

	mu      sync.Mutex
	found   []Leak
	maybe   []maybe
	seen    map[string]bool // reviewed files that were given
	clean   fileSums        // of files without any hit that state does not know; those that it does are marked there
	dirty   fileSums
	skipped int
	files   int
	err     error
}

// maybe is a hit that a public record may hold as well.
type maybe struct {
	value int32
	leak  Leak
}

// ScanOptions are what a Scanner knows besides the secrets.
type ScanOptions struct {
	// State is what the last Scanner of the same output gave; files that it
	// knows are looked through for new values only. Nil: all are.
	State []byte
	// Reviewed are the hits that a person let stand: public.yaml.
	Reviewed []ledger.Reviewed
	// Whole says that every file of a site is given, so that a reviewed hit in
	// none of them occurs no more.
	Whole bool
}

// ScanReport is what a Scanner found.
type ScanReport struct {
	Leaks    []Leak            // in order of file and line; nothing may be published when there is any
	Stale    []ledger.Reviewed // reviewed hits that occur no more
	Reviewed int               // hits that stand since somebody reviewed them
	Files    int               // looked through now
	Skipped  int               // known and looked through before
}

// Scanner is a new Scanner for the secrets; of options the first counts, none
// are those of an output of which nothing is known.
func (s *Secrets) Scanner(options ...ScanOptions) *Scanner {
	o := append(options, ScanOptions{})[0]
	x := &Scanner{secrets: s, reviewed: o.Reviewed, whole: o.Whole, known: map[uint64]bool{}, places: map[string][]int{},
		seen: map[string]bool{}}
	x.state = parseScanState(o.State, s.view.policyKey())
	for i := range o.Reviewed {
		f := o.Reviewed[i].File.Text
		x.places[f] = append(x.places[f], i)
	}
	held := x.state.stillHeld(s.view)
	for _, h := range s.hashes() {
		if _, ok := held[h]; !ok {
			x.active = append(x.active, h)
			x.known[h] = true
		}
	}
	x.state.held = held
	for _, g := range x.state.generations {
		x.engines = append(x.engines, sync.OnceValue(func() *engine { return x.newSince(g) }))
	}
	all := sync.OnceValue(func() *engine {
		if len(held) == 0 {
			return s.all
		}
		return s.engine(x.known)
	})
	x.engines = append(x.engines, all)
	x.public = sync.OnceValue(s.view.publicPlaces)
	return x
}

// newSince looks for the values that are not among those of a generation; nil
// when there is none.
func (x *Scanner) newSince(generation []uint64) *engine {
	fresh := map[uint64]bool{}
	for _, h := range x.active {
		if _, old := slices.BinarySearch(generation, h); !old {
			fresh[h] = true
		}
	}
	if len(fresh) == 0 {
		return nil
	}
	return x.secrets.engine(fresh)
}

// Empty reports whether there is nothing to look for.
func (x *Scanner) Empty() bool { return len(x.active) == 0 }

// Known reports whether a file of this checksum, any text that names its
// bytes, has been looked through for every value already; then it need not be
// given.
func (x *Scanner) Known(name, sum string) bool {
	g, ok := x.generation(sum)
	if !ok || x.places[name] != nil || x.engines[g]() != nil {
		return false
	}
	x.name(name)
	x.mu.Lock()
	defer x.mu.Unlock()
	x.state.files.mark(sum)
	x.skipped++
	return true
}

// generation is the one in which a file of this checksum was looked through
// last; false: never.
func (x *Scanner) generation(sum string) (int32, bool) {
	x.mu.Lock()
	defer x.mu.Unlock()
	return x.state.files.get(sum)
}

// ScanBytes looks through one file; name is its path in the output.
func (x *Scanner) ScanBytes(name string, data []byte) { x.ScanSum(name, "", data) }

// ScanSum is ScanBytes of a file with a checksum by which it is known again.
func (x *Scanner) ScanSum(name, sum string, data []byte) {
	if sum != "" && x.Known(name, sum) {
		return
	}
	x.name(name)
	l := x.looking(name, sum)
	err := l.bytes(data, 0)
	x.mu.Lock()
	defer x.mu.Unlock()
	x.files++
	x.err = cmp.Or(x.err, err)
	switch {
	case sum == "":
	case l.hits > 0 || x.places[name] != nil:
		x.dirty.put(sum, 0)
	default:
		x.clean.put(sum, 0)
	}
}

// Clean reports whether a file that stands since an earlier publication has
// nothing in it; if it has, nothing is noted: it may be made anew without.
func (x *Scanner) Clean(name, sum string, data []byte) bool {
	if x.Known(name, sum) {
		return true
	}
	l := x.looking(name, sum)
	l.only = true
	err := l.bytes(data, 0)
	l.text([]byte(name), 0)
	if err != nil || l.hits > 0 || x.places[name] != nil {
		return false
	}
	x.mu.Lock()
	defer x.mu.Unlock()
	x.files++
	x.clean.put(sum, 0)
	return true
}

// looking is an eye on a file: for what is new since it was looked through.
func (x *Scanner) looking(name, sum string) *looking {
	l := &looking{x: x, engine: x.engines[len(x.engines)-1](), file: name}
	if g, ok := x.generation(sum); ok && sum != "" && x.places[name] == nil {
		l.engine = x.engines[g]()
	}
	return l
}

// Scan is ScanBytes of a file of size bytes that need not be in memory.
func (x *Scanner) Scan(ctx context.Context, name string, r io.ReaderAt, size int64) error {
	x.name(name)
	l := &looking{x: x, ctx: ctx, engine: x.engines[len(x.engines)-1](), file: name}
	err := l.readerAt(r, size, 0)
	x.mu.Lock()
	defer x.mu.Unlock()
	x.files++
	x.err = cmp.Or(x.err, err)
	return err
}

// name looks through the name of a file.
func (x *Scanner) name(name string) {
	if x.places[name] != nil {
		x.mu.Lock()
		x.seen[name] = true
		x.mu.Unlock()
	}
	if e := x.engines[len(x.engines)-1](); e != nil {
		(&looking{x: x, engine: e, file: name}).text([]byte(name), -1)
	}
}

// add takes the hits of one piece of a file.
func (x *Scanner) add(file string, base int, raw []byte, hits []hit) {
	var sure, unsure []hit
	for _, h := range hits {
		switch {
		case h.sighting.end > 0 && x.public().holds(h.sighting):
		case x.secrets.values[h.value].kind == otherWords:
			unsure = append(unsure, h)
		default:
			sure = append(sure, h)
		}
	}
	leaks := x.secrets.leaksOf(sure, raw)
	lines := linesOf(raw, unsure)
	x.mu.Lock()
	defer x.mu.Unlock()
	for _, l := range leaks {
		l.File, l.Line = file, l.Line+base
		x.found = append(x.found, l)
	}
	for i, h := range unsure {
		v := &x.secrets.values[h.value]
		x.maybe = append(x.maybe, maybe{h.value, Leak{File: file, Number: x.secrets.numbers[v.record], Field: v.field, Line: lines[i] + base, text: h.text}})
	}
}

// Finish says what was found, in order of file and line; nothing may be put in
// place when there is anything, or an error.
func (x *Scanner) Finish(ctx context.Context) ([]Leak, error) {
	r, err := x.Report(ctx)
	return r.Leaks, err
}

// Report is Finish with all that there is to say.
func (x *Scanner) Report(ctx context.Context) (ScanReport, error) {
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.err != nil {
		return ScanReport{}, x.err
	}
	leaks := x.found
	if len(x.maybe) > 0 {
		held, err := x.secrets.heldByRecords(ctx)
		if err != nil {
			return ScanReport{}, err
		}
		for h, w := range held {
			x.state.held[h] = w
		}
		for _, m := range x.maybe {
			if _, ok := held[x.secrets.values[m.value].hash]; !ok {
				leaks = append(leaks, m.leak)
			}
		}
	}
	r := ScanReport{Files: x.files, Skipped: x.skipped}
	used := make([]bool, len(x.reviewed))
	for _, l := range leaks {
		if at := x.review(l); at >= 0 {
			used[at] = true
			r.Reviewed++
			continue
		}
		l.text = ""
		r.Leaks = append(r.Leaks, l)
	}
	for i, y := range x.reviewed {
		elsewhere := strings.HasPrefix(y.File.Text, "export:") || strings.HasPrefix(y.File.Text, "mirror:")
		if !used[i] && (x.seen[y.File.Text] || x.whole && !elsewhere) {
			r.Stale = append(r.Stale, y)
		}
	}
	slices.SortFunc(r.Leaks, func(a, b Leak) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Number, b.Number), cmp.Compare(a.Field, b.Field))
	})
	r.Leaks = slices.Compact(r.Leaks)
	return r, ctx.Err()
}

// review is the place of the reviewed hit that a leak is; -1: nobody let it
// stand. The reviewed text has the words of the hit in it.
func (x *Scanner) review(l Leak) int {
	words := hashesOf(l.text)
	for _, i := range x.places[l.File] {
		if len(words) > 0 && holds(hashesOf(x.reviewed[i].Text.Text), words) {
			return i
		}
	}
	return -1
}

// State is what the next Scanner of the same output takes. It names values and
// files by checksums, and is kept where nobody publishes it.
func (x *Scanner) State() []byte {
	x.mu.Lock()
	defer x.mu.Unlock()
	var values []uint64
	for _, h := range x.active {
		if _, held := x.state.held[h]; !held {
			values = append(values, h)
		}
	}
	x.state.files.keepMarked()
	x.clean.each(func(sum string, _ int32) { x.state.files.put(sum, ^0) })
	x.state.files.without(&x.dirty)
	next := scanState{generations: [][]uint64{values}, held: x.state.held, files: x.state.files}
	return next.format(x.secrets.view.policyKey())
}

var errTooDeep = errors.New("archives lie in archives more than three deep")

// looking is one file under the Scanner's eye.
type looking struct {
	x      *Scanner
	ctx    context.Context
	engine *engine
	file   string
	hits   int
	only   bool // hits are counted, not kept
}

// text looks through a piece of text of which base lines came before.
func (l *looking) text(raw []byte, base int) {
	if l.engine == nil {
		return
	}
	name := l.file
	if i := strings.LastIndexByte(name, '!'); i >= 0 {
		name = name[i+1:]
	}
	lines := strings.HasSuffix(name, ".csv") || strings.HasSuffix(name, ".tsv") || strings.HasSuffix(name, ".txt")
	switch hits := l.engine.look(raw, lines); {
	case l.only:
		l.hits += len(hits)
	case len(hits) > 0:
		l.hits += len(hits)
		l.x.add(l.file, base, raw, hits)
	}
}

// pieceSize is how much of a long text is looked through at once; overlap is
// repeated, so that nothing is missed where two pieces meet.
const (
	pieceSize = 1 << 20
	overlap   = 8 << 10
)

// stream looks through a long text.
func (l *looking) stream(r io.Reader) error {
	buf := make([]byte, 0, pieceSize+overlap)
	base := 0
	for {
		n, err := io.ReadFull(r, buf[len(buf):cap(buf)])
		buf = buf[:len(buf)+n]
		if len(buf) > 0 {
			l.text(buf, base)
		}
		if err == io.EOF || err == io.ErrUnexpectedEOF {
			return nil
		}
		if err != nil {
			return err
		}
		if l.ctx != nil && l.ctx.Err() != nil {
			return l.ctx.Err()
		}
		keep := len(buf) - overlap
		base += bytes.Count(buf[:keep], []byte{'\n'})
		buf = buf[:copy(buf, buf[keep:])]
	}
}
