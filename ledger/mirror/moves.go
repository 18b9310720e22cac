package mirror

import (
	"context"
	"maps"
	"slices"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
)

// move is one file of the mirror that a commit makes another: the versions of
// it before and after, "" for none.
type move struct {
	name     string // see versionOf
	to       string // path in the mirror
	old, now ledger.BlobID
}

// moves are what a commit does to the mirror's files, in order of path. A
// number has one file there; when the ledger has several of it, that in the
// folder of its number counts, else the first by path.
func (w *writer) moves(ctx context.Context, s gitrepo.Step) ([]move, error) {
	before, err := w.straysBefore(ctx, s.Commit.Parents)
	if err != nil {
		return nil, err
	}
	after := before
	byPath := map[string]*move{}
	odd := map[ledger.Number]bool{} // numbers that lie in another folder, before or after
	for _, c := range s.Changes {
		name, to, ok := admitted(c.Path)
		if !ok {
			continue
		}
		if c.Link {
			c.New = ""
		}
		m := byPath[to]
		if m == nil {
			m = &move{name: name, to: to}
			byPath[to] = m
		}
		if c.Path == to {
			m.old, m.now = c.Old, c.New
		} else {
			n := ledger.Number(name)
			after = after.with(n, c.Path, c.New)
			odd[n] = true
		}
		if name[0] != '/' && before[ledger.Number(name)] != nil {
			odd[ledger.Number(name)] = true
		}
	}
	for n := range odd {
		m := byPath[n.Path()]
		if m.old, err = w.standing(ctx, s.Commit.Parents, n, before); err != nil {
			return nil, err
		}
		if m.now, err = w.standing(ctx, []string{s.Commit.ID}, n, after); err != nil {
			return nil, err
		}
	}
	w.walked[s.Commit.ID] = true
	if len(after) > 0 {
		w.strays[s.Commit.ID] = after
	}
	var out []move
	for _, to := range slices.Sorted(maps.Keys(byPath)) {
		if m := byPath[to]; m.old != m.now {
			out = append(out, *m)
		}
	}
	return out, nil
}

// standing is the version of a number that counts in a commit (the first of
// commits).
func (w *writer) standing(ctx context.Context, commits []string, n ledger.Number, astray strays) (ledger.BlobID, error) {
	if len(commits) == 0 {
		return "", nil
	}
	id, err := w.Source.BlobAt(ctx, commits[0], n.Path())
	if err != nil || id != "" {
		return id, err
	}
	for _, p := range slices.Sorted(maps.Keys(astray[n])) {
		return astray[n][p], nil
	}
	return "", nil
}

// with is the strays once a file of number n at path has the content id.
func (s strays) with(n ledger.Number, path string, id ledger.BlobID) strays {
	out := maps.Clone(s)
	if out == nil {
		out = strays{}
	}
	paths := maps.Clone(out[n])
	if paths == nil {
		paths = map[string]ledger.BlobID{}
	}
	if id == "" {
		delete(paths, path)
	} else {
		paths[path] = id
	}
	if out[n] = paths; len(paths) == 0 {
		delete(out, n)
	}
	return out
}

// straysBefore are those of the first parent; of one that an earlier run
// wrote, its files are walked.
func (w *writer) straysBefore(ctx context.Context, parents []string) (strays, error) {
	if len(parents) == 0 {
		return nil, nil
	}
	p := parents[0]
	if w.walked[p] {
		return w.strays[p], nil
	}
	var out strays
	err := w.Source.Walk(ctx, p, func(path string, id ledger.BlobID) {
		if n, ok := ledger.NumberOfPath(path); ok && n.Valid() && path != n.Path() {
			out = out.with(n, path, id)
		}
	})
	if err != nil {
		return nil, err
	}
	w.walked[p] = true
	if len(out) > 0 {
		w.strays[p] = out
	}
	return out, nil
}
