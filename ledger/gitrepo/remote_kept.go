package gitrepo

import (
	"context"
	"fmt"
	"strings"
)

// What is kept of another copy besides its branches lies under refs that no
// other program moves: the revision at which both were the same last, and the
// releases that it has.
const (
	seenRefs     = "refs/blotter/seen/"
	releasesRefs = "refs/blotter/releases/"
)

// Seen is the last revision that another copy was known to have; "" when none
// is. Its entries stay here, whatever becomes of the other copy.
func (r *Repo) Seen(ctx context.Context, o Other) (string, error) {
	refs, err := r.Refs(ctx)
	for _, ref := range refs {
		if ref.Name == seenRefs+o.Name {
			return ref.Commit, nil
		}
	}
	return "", err
}

// SetSeen keeps the revision that another copy has.
func (r *Repo) SetSeen(ctx context.Context, o Other, id string) error {
	_, err := r.run(ctx, nil, "update-ref", seenRefs+o.Name, id)
	return err
}

// ReleasesOf are the releases that another copy had when it was received last,
// by name.
func (r *Repo) ReleasesOf(ctx context.Context, o Other) (map[string]Release, error) {
	out, err := r.run(ctx, nil, "for-each-ref", "--format=%(refname) %(objectname)", releasesRefs+o.Name+"/")
	if err != nil {
		return nil, err
	}
	all := map[string]Release{}
	for line := range strings.Lines(string(out)) {
		ref, id, ok := strings.Cut(strings.TrimSuffix(line, "\n"), " ")
		name := strings.TrimPrefix(ref, releasesRefs+o.Name+"/")
		if !ok {
			continue
		}
		if all[name], err = r.Release(ctx, name, id); err != nil {
			return nil, err
		}
	}
	return all, nil
}

// TakeRelease keeps a release of another copy as one of this copy's own: it is
// new, and never takes the place of another.
func (r *Repo) TakeRelease(ctx context.Context, t Release) error {
	_, err := r.run(ctx, nil, "update-ref", "refs/tags/"+t.Name, t.ID, strings.Repeat("0", 2*r.width))
	return err
}

// Forget takes away all that is kept of a copy that is not in the settings.
func (r *Repo) Forget(ctx context.Context, o Other) error {
	if o.Known {
		return nil
	}
	out, err := r.run(ctx, nil, "for-each-ref", "--format=delete %(refname)", "refs/remotes/"+o.Name+"/", seenRefs+o.Name, releasesRefs+o.Name+"/")
	if err != nil || len(out) == 0 {
		return err
	}
	if _, err := r.run(ctx, strings.NewReader(string(out)), "update-ref", "--stdin", "--no-deref"); err != nil {
		return fmt.Errorf("forget %s: %w", o.Address, err)
	}
	return nil
}

// MainLine is the branch that is the ledger's own: that of the copy that is
// usually shared with, else main or master; the current one where none of
// these is here.
func (r *Repo) MainLine(ctx context.Context) (string, error) {
	own, err := r.Branch()
	if err != nil {
		return "", err
	}
	here, err := r.branches(ctx)
	if err != nil {
		return "", err
	}
	theirs := ""
	if usual, ok, err := r.Usual(); err != nil {
		return "", err
	} else if ok {
		if name, id, err := r.TipOf(ctx, usual); err == nil && id != "" { // where it says nothing the names do
			theirs = name
		}
	}
	for _, name := range []string{theirs, "main", "master"} {
		if here[name] {
			return name, nil
		}
	}
	return own, nil
}

// HasBranch reports whether this copy has a branch of that name.
func (r *Repo) HasBranch(ctx context.Context, name string) (bool, error) {
	here, err := r.branches(ctx)
	return here[name], err
}

func (r *Repo) branches(ctx context.Context) (map[string]bool, error) {
	refs, err := r.Refs(ctx)
	here := map[string]bool{}
	for _, ref := range refs {
		if name, ok := strings.CutPrefix(ref.Name, "refs/heads/"); ok {
			here[name] = true
		}
	}
	return here, err
}
