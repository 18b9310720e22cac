package hooks

import (
	"cmp"
	"context"
	"fmt"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"blotter/ledger"
	"blotter/ledger/check"
	"blotter/ledger/history"
)

// Breach is one promise that one entry of the history broke, or could not be
// held to.
type Breach struct {
	Commit  string // which entry
	Finding ledger.Finding
	Held    ledger.BlobID // the version before, of which it does not keep all
	Mended  string        // the later entry by which what vanished stands again; "" for none
}

// Proof is what a walk over the history found.
type Proof struct {
	Entries  int      // in the history that was looked at
	Anew     int      // of these held to the laws in this run; of the others that was kept
	Breaches []Breach // oldest entry first
}

// Prove holds every entry up to tip to the laws of shared entries: nothing
// that a parent says of opinions, notes, type status, fates, lines of work and
// numbers is altered or gone in its child without a correction. after leaves
// out entries; nil: none. What was proved is kept by commit, and a commit is
// judged by what it and its ancestors hold, so from scratch is the same.
func (b Bench) Prove(ctx context.Context, tip string, after func(id string) bool) (Proof, error) {
	view, err := b.Repo.History(ctx, b.Cache, tip)
	if err != nil {
		return Proof{}, err
	}
	w := &walk{Bench: b, ctx: ctx, view: view}
	kept, err := w.kept()
	if err != nil {
		return Proof{}, err
	}
	p := Proof{}
	var todo []int
	for place := range view.Len() {
		id := view.ID(place)
		if after != nil && after(id) {
			continue
		}
		p.Entries++
		if !kept.proved(id) {
			todo = append(todo, place)
		}
	}
	p.Anew = len(todo)
	if p.Breaches, err = w.judge(todo); err != nil {
		return Proof{}, err
	}
	for _, x := range kept.Breaches {
		if _, ok := view.Place(x.Commit); ok && (after == nil || !after(x.Commit)) {
			p.Breaches = append(p.Breaches, x)
		}
	}
	if after == nil && len(todo) > 0 {
		w.keep(tip, p.Breaches)
	}
	reused, err := w.reused(after)
	if err != nil {
		return Proof{}, err
	}
	p.Breaches = append(p.Breaches, reused...)
	slices.SortStableFunc(p.Breaches, w.order)
	for i := range p.Breaches {
		if p.Breaches[i].Mended, err = w.mended(p.Breaches[i]); err != nil {
			return Proof{}, err
		}
	}
	return p, nil
}

// walk is one walk over the history.
type walk struct {
	Bench
	ctx  context.Context
	view *history.View
}

func (w *walk) order(a, b Breach) int {
	p, _ := w.view.Place(a.Commit)
	q, _ := w.view.Place(b.Commit)
	return cmp.Or(cmp.Compare(p, q), strings.Compare(a.Finding.Path, b.Finding.Path), cmp.Compare(a.Finding.Line, b.Finding.Line), strings.Compare(a.Finding.Field, b.Finding.Field), strings.Compare(a.Finding.Code, b.Finding.Code))
}

// judge holds the entries at these places to the laws, a few at a time.
func (w *walk) judge(places []int) ([]Breach, error) {
	found := make([][]Breach, len(places))
	var next atomic.Int64
	var group sync.WaitGroup
	var told sync.Mutex
	done := 0
	var once sync.Once
	var failed error
	ctx, cancel := context.WithCancel(w.ctx)
	defer cancel()
	for range min(runtime.GOMAXPROCS(0), len(places)) {
		group.Go(func() {
			for {
				i := int(next.Add(1)) - 1
				if i >= len(places) || ctx.Err() != nil {
					return
				}
				var err error
				if found[i], err = w.entry(ctx, places[i]); err != nil {
					once.Do(func() { failed = err; cancel() })
					return
				}
				told.Lock()
				if done++; w.Progress != nil {
					w.Progress(done, len(places))
				}
				told.Unlock()
			}
		})
	}
	group.Wait()
	return slices.Concat(found...), cmp.Or(failed, w.ctx.Err())
}

// entry holds one entry to the laws. Most change one file and have one
// parent: the index of the log knows of both versions.
func (w *walk) entry(ctx context.Context, place int) ([]Breach, error) {
	parents := w.view.Parents(place)
	if parents == 0 || parents == 1 && !w.view.Replaces(place) && len(history.Moves(w.view.Message(place))) == 0 {
		return nil, nil
	}
	var v Verdict
	var err error
	var changes []ledger.Change
	c := w.view.Commit(place)
	if parents > 1 {
		v, err = w.lawsOfCommit(ctx, c)
	} else {
		for _, f := range w.view.Files(place) {
			change := ledger.Change{Path: f.Path, New: f.Blob}
			if len(f.Olds) == 1 {
				change.Old = f.Olds[0]
			}
			changes = append(changes, change)
		}
		v, err = w.laws(ctx, c.Parents, w.Repo.Stored(), changes, c.Message)
	}
	if err != nil {
		return nil, fmt.Errorf("judge revision %.7s: %w", c.ID, err)
	}
	var out []Breach
	for _, f := range v.Findings {
		x := Breach{Commit: c.ID, Finding: f}
		if f.Code == history.CodeUnread {
			over, err := w.over(ctx, c, x)
			if err != nil {
				return nil, err
			}
			out = append(out, over...)
			continue
		}
		if i := slices.IndexFunc(changes, func(c ledger.Change) bool { return c.Path == f.Path }); i >= 0 {
			x.Held = changes[i].Old
		} else if x.Held, err = w.held(ctx, c, f); err != nil {
			return nil, err
		}
		out = append(out, x)
	}
	return out, nil
}

// held is the version of a merge's parents of which the merge does not keep
// all.
func (w *walk) held(ctx context.Context, c history.Commit, f ledger.Finding) (ledger.BlobID, error) {
	s := subjectOf(f.Path)
	child, err := w.versionAt(ctx, s, c.ID)
	if err != nil {
		return "", err
	}
	for _, p := range c.Parents {
		blob, err := w.blobAt(ctx, s, p)
		if err != nil {
			return "", err
		}
		old, err := s.version(ctx, w.Repo, blob)
		if err != nil {
			return "", err
		}
		if slices.ContainsFunc(s.judge(old, child, nil), func(g ledger.Finding) bool { return g.Code == f.Code && g.Field == f.Field }) {
			return blob, nil
		}
	}
	return "", nil
}

// over holds an entry whose parent could not be read to the last version
// before that could: breaking a file and mending it again takes nothing away
// unseen. Corrections on the way count.
func (w *walk) over(ctx context.Context, c history.Commit, unread Breach) ([]Breach, error) {
	s := subjectOf(unread.Finding.Path)
	before, err := w.Repo.History(ctx, w.Cache, c.Parents[0])
	if err != nil {
		return nil, err
	}
	child, err := w.versionAt(ctx, s, c.ID)
	if err != nil {
		return nil, err
	}
	corrections := history.Corrections(c.Message)
	for _, r := range slices.Backward(s.revisions(before)) {
		old, err := s.version(ctx, w.Repo, r.Blob)
		if err != nil {
			return nil, err
		}
		if !old.broken && r.Blob != "" {
			var out []Breach
			for _, f := range s.judge(old, child, corrections) {
				out = append(out, Breach{Commit: c.ID, Finding: f, Held: r.Blob})
			}
			return out, nil
		}
		corrections = append(corrections, history.Corrections(before.Message(r.Place))...)
	}
	return []Breach{unread}, nil
}

// reused finds numbers that were taken away and given to another specimen.
func (w *walk) reused(after func(string) bool) ([]Breach, error) {
	var out []Breach
	numbers := w.view.TakenAway()
	slices.Sort(numbers)
	for _, n := range numbers {
		s := subject{number: n, path: n.Path()}
		var last version
		gone := false
		for _, r := range w.view.Borne(n) {
			if r.Blob == "" {
				_, on := history.MovedTo(history.Moves(w.view.Message(r.Place)), n)
				gone = !on // its plant goes on under another number
				continue
			}
			now, err := s.version(w.ctx, w.Repo, r.Blob)
			if err != nil {
				return nil, err
			}
			if gone && last.record != nil && now.record != nil && len(r.Olds) == 0 && check.AnotherSpecimen(now.record, last.record) {
				if id := w.view.ID(r.Place); after == nil || !after(id) {
					out = append(out, Breach{Commit: id, Finding: ledger.Finding{Path: s.path, Line: 1, Severity: ledger.Error, Code: "number-used", Field: "specimen",
						Message: fmt.Sprintf("the number %s was borne by another specimen, whose record was taken away; a number is never used twice", n),
						Hint:    "Give this one the next free number, which blotter new takes by itself, and bring the old record back."}})
				}
			}
			last, gone = now, false
		}
	}
	return out, nil
}

// mended is the first later entry in which all that an entry took away stands
// again, as it stood before.
func (w *walk) mended(x Breach) (string, error) {
	if x.Finding.Severity != ledger.Error || x.Held == "" {
		return "", nil
	}
	s := subjectOf(x.Finding.Path)
	place, ok := w.view.Place(x.Commit)
	if !ok {
		return "", nil
	}
	old, err := s.version(w.ctx, w.Repo, x.Held)
	if err != nil {
		return "", err
	}
	same := func(f ledger.Finding) bool { return f.Code == x.Finding.Code && f.Field == x.Finding.Field }
	for _, r := range s.since(w.view, place) {
		if r.Blob == "" {
			continue
		}
		now, err := s.version(w.ctx, w.Repo, r.Blob)
		if err != nil {
			return "", err
		}
		if !now.broken && !slices.ContainsFunc(s.judge(old, now, nil), same) {
			return w.view.ID(r.Place), nil
		}
	}
	return "", nil
}
