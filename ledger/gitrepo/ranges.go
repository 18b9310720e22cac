package gitrepo

import (
	"context"
	"fmt"
	"slices"
	"strings"
)

// Range is a set of commits: what can be reached from Tips and from nothing
// that is excluded.
type Range struct {
	Tips       []string // ids or revisions; an id of zeros (a deleted ref) is left out
	Not        []string // excluded, with their ancestors
	NotAllRefs bool     // exclude whatever any ref reaches: what a push brings (pre-receive)
	NotRemotes bool     // exclude whatever any remote branch reaches: what a push sends (pre-push)
}

// Commits lists the commits of a range, parents before their children.
func (r *Repo) Commits(ctx context.Context, g Range) ([]string, error) {
	tips, err := r.resolveAll(ctx, g.Tips)
	if err != nil || len(tips) == 0 {
		return nil, err
	}
	not, err := r.resolveAll(ctx, g.Not)
	if err != nil {
		return nil, err
	}
	if g.NotAllRefs || g.NotRemotes {
		refs, err := r.Refs(ctx)
		if err != nil {
			return nil, err
		}
		for _, ref := range refs {
			if g.NotAllRefs || strings.HasPrefix(ref.Name, "refs/remotes/") {
				not = append(not, ref.Commit)
			}
		}
	}
	if r.git != "" {
		out, err := r.run(ctx, strings.NewReader(revInput(tips, not)), "rev-list", "--topo-order", "--reverse", "--stdin")
		if err != nil {
			return nil, fmt.Errorf("list commits: %w", err)
		}
		return strings.Fields(string(out)), nil
	}
	nodes, err := r.topoOrder(ctx, tips, not)
	if err != nil {
		return nil, err
	}
	var ids []string
	for _, n := range slices.Backward(nodes) {
		ids = append(ids, n.id)
	}
	return ids, nil
}

func (r *Repo) resolveAll(ctx context.Context, revs []string) ([]string, error) {
	var ids []string
	for _, rev := range revs {
		if strings.Trim(rev, "0") == "" {
			continue
		}
		id, err := r.Resolve(ctx, rev)
		if err != nil {
			return nil, err
		}
		ids = append(ids, id)
	}
	return ids, nil
}

// IsAncestor reports whether commit a is b or one of its ancestors.
func (r *Repo) IsAncestor(ctx context.Context, a, b string) (bool, error) {
	left, err := r.Commits(ctx, Range{Tips: []string{a}, Not: []string{b}})
	return len(left) == 0, err
}

// Tips are the commits that every line of the ledger's history ends at: HEAD
// and all refs, each once.
func (r *Repo) Tips(ctx context.Context) ([]string, error) {
	refs, err := r.Refs(ctx)
	if err != nil {
		return nil, err
	}
	seen := map[string]bool{}
	var tips []string
	add := func(id string) {
		if !seen[id] {
			seen[id] = true
			tips = append(tips, id)
		}
	}
	if head, err := r.Head(ctx); err == nil {
		add(head)
	}
	for _, ref := range refs {
		add(ref.Commit)
	}
	return tips, nil
}
