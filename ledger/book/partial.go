package book

import (
	"context"
	"errors"
	"maps"
	"slices"
	"strings"

	"blotter/ledger"
)

// Partial is as much of a Book as is needed to judge some changes: the
// entries of the changed records after and before, and the records that share
// a key with them.
type Partial struct {
	Museum *Museum
	After  []*Entry // changed or new records, in order of path
	Before []*Entry // what was at the changed paths, taken away included, in order of path

	groups map[string][]*Entry
	sums   map[string]Counts
}

// Keys lists the keys that a change touches, in order.
func (p *Partial) Keys() []string {
	out := make([]string, 0, len(p.groups))
	for k := range p.groups {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// Group is the records that have a touched key after the changes, in order of
// path.
func (p *Partial) Group(key string) []*Entry { return p.groups[key] }

// ErrMuseum is returned by LoadPartial when a file of the museum changed: then
// every record is judged anew, which takes a whole Book.
var ErrMuseum = errors.New("a file that all records are judged by has changed")

// LoadPartial loads what is needed to judge the changes from base to the
// version that src holds, which is asked for changed files only. The first
// time, and without a cache, it loads all of base.
func LoadPartial(ctx context.Context, base Base, src ledger.Source, changes []ledger.Change, o Options) (*Partial, error) {
	for _, c := range changes {
		if IsMuseumFile(c.Path) {
			return nil, ErrMuseum
		}
	}
	l := &partial{base: base, o: o}
	if err := l.open(ctx); err != nil {
		return nil, err
	}
	p := &Partial{Museum: l.museum, groups: map[string][]*Entry{}}
	var changed []string
	for _, c := range recordChanges(changes) {
		changed = append(changed, c.Path)
	}
	if l.whole == nil {
		l.fetch(changed)
	}
	for _, c := range recordChanges(changes) {
		if c.Old != "" {
			e, err := l.entry(ctx, base.Source, c.Path, c.Old)
			if err != nil {
				return nil, err
			}
			p.Before = append(p.Before, e)
		}
		if c.New != "" {
			e, err := l.entry(ctx, src, c.Path, c.New)
			if err != nil {
				return nil, err
			}
			p.After = append(p.After, e)
		}
	}
	if err := l.fill(ctx, p, changed); err != nil {
		return nil, err
	}
	l.keep()
	return p, nil
}

// recordChanges are the changes of records, in order of path.
func recordChanges(changes []ledger.Change) []ledger.Change {
	var out []ledger.Change
	for _, c := range changes {
		if _, ok := ledger.NumberOfPath(c.Path); ok {
			out = append(out, c)
		}
	}
	slices.SortFunc(out, func(a, b ledger.Change) int { return strings.Compare(a.Path, b.Path) })
	return out
}

// partial is one loading of a Partial.
type partial struct {
	base   Base
	o      Options
	w      *worker
	museum *Museum
	whole  *Book  // all of base; nil: the index in the cache is of base
	index  *index // of whole
	stamp  string
	chunks map[string]*chunk
	fresh  freshEntries
}

// open makes sure that there is an index of base.
func (l *partial) open(ctx context.Context) error {
	x, ok := loadIndex(l.o.Cache, nil, nil, nil)
	if ok && l.base.Tree != "" {
		if done, err := l.bring(ctx, x); done || err != nil {
			return err
		}
	}
	var err error
	if l.whole, err = Load(ctx, l.base.Source, l.o); err != nil {
		return err
	}
	l.museum, l.stamp = l.whole.Museum, l.whole.stamp
	l.w = newWorker(l.museum, l.o.Judge)
	l.index = indexOf(l.whole, l.base.Tree, l.o.Judge)
	if l.o.Cache != nil && l.base.Tree != "" {
		l.index.store(l.o.Cache, upTo(shardCount), upTo(tallyShards))
	}
	return nil
}

// bring makes the index x, of some version, one of base; false when that
// cannot be done by the changes alone.
func (l *partial) bring(ctx context.Context, x *index) (bool, error) {
	var changes []ledger.Change
	if x.tree != l.base.Tree {
		if l.base.Changed == nil {
			return false, nil
		}
		var err error
		if changes, err = l.base.Changed(ctx, x.tree); err != nil {
			return false, ctx.Err()
		}
	}
	museum, err := LoadMuseum(ctx, l.base.Source, museumAfter(x.museum, changes), l.o.Cache)
	if err != nil {
		return false, ctx.Err()
	}
	l.museum, l.stamp = museum, l.o.stamp(museum)
	l.w = newWorker(museum, l.o.Judge)
	if l.stamp != x.stamp {
		return false, nil
	}
	if x.tree == l.base.Tree {
		return true, nil
	}
	return l.move(ctx, x.version, changes)
}

// move brings the index in the cache from one version to base.
func (l *partial) move(ctx context.Context, from version, changes []ledger.Change) (bool, error) {
	type moved struct {
		path         string
		old, new     *Entry
		before, then []string
	}
	var all []moved
	var olds, news []*Entry
	var keys, paths []string
	for _, c := range recordChanges(changes) {
		paths = append(paths, c.Path)
	}
	l.fetch(paths)
	for _, c := range recordChanges(changes) {
		m := moved{path: c.Path}
		var err error
		if c.Old != "" {
			if m.old, err = l.entry(ctx, l.base.Source, c.Path, c.Old); err != nil {
				return false, ctx.Err() // the old version may be gone
			}
			m.before = l.o.Judge.Keys(m.old)
			olds = append(olds, m.old)
		}
		if c.New != "" {
			if m.new, err = l.entry(ctx, l.base.Source, c.Path, c.New); err != nil {
				return false, err
			}
			m.then = l.o.Judge.Keys(m.new)
			news = append(news, m.new)
		}
		keys = append(append(keys, m.before...), m.then...)
		all = append(all, m)
	}
	x, ok := loadIndex(l.o.Cache, &from, keys, l.o.Judge.tallyKeys(olds, news))
	if !ok {
		return false, nil // somebody else moved it meanwhile
	}
	for _, m := range all {
		if m.old != nil {
			x.remove(m.path, m.before)
			x.tally(l.o.Judge.tallies(m.old), -1)
		}
		if m.new != nil {
			x.add(m.new, m.then)
			x.tally(l.o.Judge.tallies(m.new), 1)
		}
	}
	x.tree, x.museum = l.base.Tree, l.museum.Files
	var changed []uint64
	for n := range x.shards {
		changed = append(changed, n)
	}
	x.store(l.o.Cache, changed, slices.Sorted(maps.Keys(x.tallies)))
	return true, nil
}

// museumAfter is the museum's files after changes, in order of path.
func museumAfter(files []ledger.File, changes []ledger.Change) []ledger.File {
	out := slices.Clone(files)
	for _, c := range changes {
		if !IsMuseumFile(c.Path) {
			continue
		}
		out = slices.DeleteFunc(out, func(f ledger.File) bool { return f.Path == c.Path })
		if c.New != "" {
			out = append(out, ledger.File{Path: c.Path, Blob: c.New, Size: -1})
		}
	}
	slices.SortFunc(out, func(a, b ledger.File) int { return strings.Compare(a.Path, b.Path) })
	return out
}

// entry is the entry of one version of a record: from the cache, else read
// from src.
func (l *partial) entry(ctx context.Context, src ledger.Source, path string, blob ledger.BlobID) (*Entry, error) {
	f := ledger.File{Path: path, Blob: blob, Size: -1}
	if l.whole != nil {
		if w := l.whole.ByPath(path); w != nil && w.Blob == blob {
			return w, nil
		}
	} else if e := l.chunk(path).at(f); e != nil {
		return e, nil
	}
	if e := l.fresh.find(f); e != nil {
		return e, nil
	}
	e, r, err := read(ctx, src, f, l.w)
	if err != nil {
		return nil, err
	}
	return l.fresh.add(&e, r, l.o.Cache != nil), nil
}

// fetch brings the cache's chunks of the folders of records, all in one
// opening of the cache.
func (l *partial) fetch(paths []string) {
	if l.chunks == nil {
		l.chunks = map[string]*chunk{}
	}
	var keys []string
	for _, p := range paths {
		key, _ := chunkKey(p)
		if _, have := l.chunks[key]; !have {
			l.chunks[key] = &chunk{}
			keys = append(keys, key)
		}
	}
	if len(keys) == 0 {
		return
	}
	slices.Sort(keys)
	l.o.Cache.View(entriesBucket, func(get func([]byte) []byte) {
		for _, key := range keys {
			l.chunks[key].kept = string(get([]byte(key)))
		}
	})
}

// chunk is the cache's entries of the folder of a record.
func (l *partial) chunk(path string) *chunk {
	l.fetch([]string{path})
	key, _ := chunkKey(path)
	c := l.chunks[key]
	if c.kept != "" {
		c.open(l.stamp, l.w.in)
	}
	return c
}

// fill finds, for every key of a changed record, the records that have it
// after the changes.
func (l *partial) fill(ctx context.Context, p *Partial, changed []string) error {
	var touched []string
	for _, list := range [][]*Entry{p.Before, p.After} {
		for _, e := range list {
			for _, k := range l.o.Judge.Keys(e) {
				if _, ok := p.groups[k]; !ok {
					p.groups[k] = nil
					touched = append(touched, k)
				}
			}
		}
	}
	x := l.index
	if x == nil {
		want := version{stamp: l.stamp, tree: l.base.Tree}
		var ok bool
		if x, ok = loadIndex(l.o.Cache, &want, touched, l.o.Judge.tallyKeys(p.Before, p.After)); !ok {
			return l.fillFromAll(ctx, p, changed, touched)
		}
	}
	found := make([][]posting, len(touched))
	var paths []string
	for i, k := range touched {
		found[i] = x.find(k)
		for _, post := range found[i] {
			paths = append(paths, post.path)
		}
	}
	if l.whole == nil {
		l.fetch(paths)
	}
	for i, k := range touched {
		for _, post := range found[i] {
			if _, is := slices.BinarySearch(changed, post.path); is {
				continue
			}
			e, err := l.entry(ctx, l.base.Source, post.path, post.blob)
			if err != nil {
				return err
			}
			if slices.Contains(l.o.Judge.Keys(e), k) {
				p.groups[k] = append(p.groups[k], e)
			}
		}
	}
	l.addAfter(p)
	l.sum(p, x)
	return nil
}

// fillFromAll does what fill does when the index could not be kept.
func (l *partial) fillFromAll(ctx context.Context, p *Partial, changed, touched []string) error {
	whole, err := Load(ctx, l.base.Source, l.o)
	if err != nil {
		return err
	}
	l.whole, l.index = whole, indexOf(whole, l.base.Tree, l.o.Judge)
	return l.fill(ctx, p, changed)
}

// addAfter puts the changed records into their groups.
func (l *partial) addAfter(p *Partial) {
	for _, e := range p.After {
		for _, k := range l.o.Judge.Keys(e) {
			p.groups[k] = append(p.groups[k], e)
		}
	}
	for _, g := range p.groups {
		slices.SortFunc(g, func(a, b *Entry) int { return strings.Compare(a.Path, b.Path) })
	}
}
