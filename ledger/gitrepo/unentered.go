package gitrepo

import (
	"context"
	"errors"
)

// Unentered reports whether the ledger's files on disk or in the index hold
// anything that HEAD does not.
func (r *Repo) Unentered(ctx context.Context) (bool, error) {
	if r.Bare() {
		return false, nil
	}
	if r.git != "" {
		out, err := r.run(ctx, nil, "status", "--porcelain", "-z", "--untracked-files=normal", "--no-renames", "--", ".")
		return len(out) > 0, err
	}
	head, err := r.Head(ctx)
	if err != nil && !errors.Is(err, ErrNoCommits) {
		return false, err
	}
	before := map[string]bool{}
	if err == nil {
		src, err := r.At(ctx, head)
		if err != nil {
			return false, err
		}
		files, err := src.Files(ctx)
		if err != nil {
			return false, err
		}
		for _, f := range files {
			before[f.Path+"\x00"+string(f.Blob)] = true
		}
	}
	now, err := r.WorkTree(nil).Files(ctx)
	if err != nil {
		return false, err
	}
	for _, f := range now {
		if !before[f.Path+"\x00"+string(f.Blob)] {
			return true, nil
		}
	}
	return len(now) != len(before), nil
}
