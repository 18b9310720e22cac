package gitrepo

import (
	"context"
	"fmt"
	"slices"

	"blotter/ledger"
	"blotter/ledger/history"
)

// Step is one commit and what it made of its first parent.
type Step struct {
	Commit  history.Commit // without Touches
	Changes []Change       // against the first parent; of a first commit, all files
}

// Steps calls yield for every commit that can be reached from tip and not from
// known, parents before their children. Both back ends give the same. An error
// of yield ends the pass and is returned.
func (r *Repo) Steps(ctx context.Context, tip string, known []string, yield func(Step) error) error {
	order, err := r.topoOrder(ctx, []string{tip}, known)
	if err != nil {
		return err
	}
	t := treeReader{r: r, ctx: ctx, kept: newBodies()}
	treeOf := func(n *node) (string, error) {
		raw, err := rawID(headerValue(n.body, "tree"))
		if err != nil {
			return "", err
		}
		return t.below(raw)
	}
	for _, n := range slices.Backward(order) {
		if err := ctx.Err(); err != nil {
			return err
		}
		var s Step
		if s.Commit, _, err = parseCommit(n.id, n.body); err != nil {
			return err
		}
		now, err := treeOf(n)
		if err != nil {
			return err
		}
		old := ""
		if len(n.parents) > 0 {
			if old, err = treeOf(n.parents[0]); err != nil {
				return err
			}
		}
		err = t.diff(now, []string{old}, "", func(path string, now entry, olds []entry) error {
			s.Changes = append(s.Changes, Change{Path: path, Old: blobOf(olds[0]), New: blobOf(now), Link: now.mode == modeLink})
			return nil
		})
		if err != nil {
			return fmt.Errorf("steps of %s: %w", n.id, err)
		}
		if err := yield(s); err != nil {
			return err
		}
	}
	return nil
}

// Walk calls yield with the path, relative to the ledger, and the content of
// every plain file of a commit.
func (r *Repo) Walk(ctx context.Context, id string, yield func(path string, content ledger.BlobID)) error {
	t := treeReader{r: r, ctx: ctx}
	raw, err := t.ledgerTree(id)
	if err != nil || raw == "" {
		return err
	}
	return t.walk(raw, "", func(path string, e entry) error {
		if e.mode != modeLink {
			yield(path, ledger.BlobID(e.hex()))
		}
		return nil
	})
}
