package gitrepo

import (
	"cmp"
	"context"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/history"
)

// Log calls yield for every commit that can be reached from tips and not from
// known, children before their parents. A commit's touches are the files of
// the ledger whose content differs from that of every parent, or between whose
// versions a person decided in a merge, in byte order of path; a record is
// followed by its number, so a record that only moved to another folder is not
// touched, and one that moved and changed is touched once. Both back ends give
// the same. An error of yield ends the pass and is returned.
func (r *Repo) Log(ctx context.Context, tips, known []string, yield func(history.Commit) error) error {
	if len(tips) == 0 {
		return nil
	}
	if r.git != "" {
		return r.logProgram(ctx, tips, known, yield)
	}
	return r.logNative(ctx, tips, known, yield)
}

// touches turns the raw differences of one commit into touches. elsewhere
// finds, in a parent of a merge, the version of a number that lies at another
// path there.
func (r *Repo) touches(raw []rawChange, elsewhere func(parent int) (map[string]ledger.BlobID, error)) ([]history.Touch, error) {
	var removed map[string]int // key of a number -> where in raw it was removed
	for i, c := range raw {
		if c.now.blob() == "" {
			if key, ok := numberKey(c.path); ok {
				if removed == nil {
					removed = map[string]int{}
				}
				removed[key] = i
			}
		}
	}
	moved := map[int]bool{} // removals that are half of a move
	ts := make([]history.Touch, len(raw))
	var olds []ledger.BlobID // of all touches
	for i, c := range raw {
		from := len(olds)
		for _, o := range c.olds {
			olds = append(olds, o.blob())
		}
		ts[i] = history.Touch{Path: c.path, Blob: c.now.blob(), Olds: olds[from:len(olds):len(olds)]}
		if t := &ts[i]; t.Blob != "" && (removed != nil || len(t.Olds) > 1) && slices.Contains(t.Olds, "") {
			key, ok := numberKey(c.path)
			if !ok {
				continue
			}
			if at, ok := removed[key]; ok {
				moved[at] = true
				for p, o := range raw[at].olds {
					t.Olds[p] = cmp.Or(t.Olds[p], o.blob())
				}
			}
			if err := fillElsewhere(t, key, elsewhere); err != nil {
				return nil, err
			}
		}
	}
	kept := ts[:0]
	for i, t := range ts {
		if !moved[i] && !slices.Contains(t.Olds, t.Blob) {
			kept = append(kept, t)
		}
	}
	return kept, nil
}

// fillElsewhere completes the old versions of a record touched by a merge.
func fillElsewhere(t *history.Touch, key string, elsewhere func(int) (map[string]ledger.BlobID, error)) error {
	if len(t.Olds) < 2 {
		return nil // a move by a plain commit shows as a removal beside it
	}
	for p, o := range t.Olds {
		if o != "" {
			continue
		}
		gone, err := elsewhere(p)
		if err != nil {
			return err
		}
		t.Olds[p] = gone[key]
	}
	return nil
}

// numberKey is the key of the number whose record a path is.
func numberKey(path string) (string, bool) {
	n, ok := ledger.NumberOfPath(path)
	return n.Key(), ok
}

// removedRecords maps the key of every record that a parent has at a path
// where the commit has none to its content in the parent.
func (r *Repo) removedRecords(ctx context.Context, parent, commit string) (map[string]ledger.BlobID, error) {
	cs, err := r.Changed(ctx, parent, commit)
	if err != nil {
		return nil, err
	}
	gone := map[string]ledger.BlobID{}
	for _, c := range cs {
		if key, ok := numberKey(c.Path); ok && c.New == "" {
			gone[key] = c.Old
		}
	}
	return gone, nil
}

// withTouches completes c from its raw differences.
func (r *Repo) withTouches(ctx context.Context, c *history.Commit, raw []rawChange) (err error) {
	if len(c.Parents) == 0 {
		for i := range raw {
			raw[i].olds = nil // diff-tree shows a first commit against nothing
		}
	}
	c.Touches, err = r.touches(raw, func(p int) (map[string]ledger.BlobID, error) {
		return r.removedRecords(ctx, c.Parents[p], c.ID)
	})
	if err == nil && len(c.Parents) > 1 {
		err = r.addDecided(ctx, c)
	}
	return err
}

// addDecided adds the records between whose versions a person decided in a
// merge, and of which that made the version that one parent has.
func (r *Repo) addDecided(ctx context.Context, c *history.Commit) error {
	for _, d := range history.Decisions(c.Message) {
		path := d.Number.Path()
		if !d.Number.Valid() || slices.ContainsFunc(c.Touches, func(t history.Touch) bool { return t.Path == path }) {
			continue
		}
		t := history.Touch{Path: path, Olds: make([]ledger.BlobID, len(c.Parents))}
		var err error
		if t.Blob, err = r.BlobAt(ctx, c.ID, path); err != nil {
			return err
		}
		for i, p := range c.Parents {
			if t.Olds[i], err = r.BlobAt(ctx, p, path); err != nil {
				return err
			}
		}
		if t.Blob != "" && !slices.Contains(t.Olds, "") && slices.ContainsFunc(t.Olds, func(o ledger.BlobID) bool { return o != t.Blob }) {
			at, _ := slices.BinarySearchFunc(c.Touches, t, func(a, b history.Touch) int { return strings.Compare(a.Path, b.Path) })
			c.Touches = slices.Insert(c.Touches, at, t)
		}
	}
	return nil
}

// logNative is Log through the object reader alone.
func (r *Repo) logNative(ctx context.Context, tips, known []string, yield func(history.Commit) error) error {
	order, err := r.topoOrder(ctx, tips, known)
	if err != nil {
		return err
	}
	t := treeReader{r: r, ctx: ctx, kept: newBodies()}
	trees := map[string]string{} // commit -> ledger tree, of parents still to come
	treeOf := func(n *node) (tree string, err error) {
		tree, ok := trees[n.id]
		if ok {
			return tree, nil
		}
		if n.body == nil {
			tree, err = t.ledgerTree(n.id)
		} else if tree, err = rawID(headerValue(n.body, "tree")); err == nil {
			tree, err = t.below(tree)
		}
		trees[n.id] = tree
		return tree, err
	}
	for _, n := range order {
		c, _, err := parseCommit(n.id, n.body)
		if err != nil {
			return err
		}
		if len(n.parents) == 0 {
			c.Parents = nil // the first one, or where a shallow clone was cut
		}
		now, err := treeOf(n)
		if err != nil {
			return err
		}
		delete(trees, n.id)
		n.body = nil
		olds := make([]string, len(n.parents))
		for i, p := range n.parents {
			if olds[i], err = treeOf(p); err != nil {
				return err
			}
		}
		var raw []rawChange
		err = t.diff(now, olds, "", func(path string, now entry, olds []entry) error {
			raw = append(raw, nativeChange(path, now, olds))
			return nil
		})
		if err == nil {
			err = r.withTouches(ctx, &c, raw)
		}
		if err != nil {
			return fmt.Errorf("log of %s: %w", n.id, err)
		}
		if err := yield(c); err != nil {
			return err
		}
	}
	return nil
}

func nativeChange(path string, now entry, olds []entry) rawChange {
	side := func(e entry) rawSide {
		if e.id == "" {
			return rawSide{}
		}
		return rawSide{e.mode, hex.EncodeToString([]byte(e.id))}
	}
	c := rawChange{path: path, now: side(now), olds: make([]rawSide, len(olds))}
	for i, o := range olds {
		c.olds[i] = side(o)
	}
	return c
}

// below makes the paths of raw relative to the ledger and drops the others.
func (r *Repo) below(raw []rawChange) []rawChange {
	if r.prefix == "" {
		return raw
	}
	kept := raw[:0]
	for _, c := range raw {
		if p, ok := strings.CutPrefix(c.path, r.prefix); ok {
			c.path = p
			kept = append(kept, c)
		}
	}
	return kept
}
