package gitrepo

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"os"
	"slices"

	"github.com/go-git/go-git/v5/plumbing/filemode"
	"github.com/go-git/go-git/v5/plumbing/format/index"
)

// ErrMerge is returned by TakeBack for a commit with several parents, ErrFirst
// for the first commit.
var (
	ErrMerge = errors.New("it joins two lines of work")
	ErrFirst = errors.New("it is the first entry")
)

// TakeBack takes back the last count commits, of which id, which must be HEAD,
// is the newest: HEAD becomes the parent of the oldest, in one step. The files
// on disk stay as they are; what the commits entered is neither entered nor
// staged any more, what else is staged stays staged.
func (r *Repo) TakeBack(ctx context.Context, id string, count int) error {
	if doing := r.InProgress(); doing != "" {
		return fmt.Errorf("take back: %w: a %s", ErrBusy, doing)
	}
	if r.locked() {
		return fmt.Errorf("take back: %w", ErrLocked)
	}
	head, err := r.Head(ctx)
	if err != nil {
		return err
	}
	if head != id {
		return fmt.Errorf("take back %s: HEAD was moved by somebody else", id)
	}
	to := id
	for range count {
		c, err := r.Revision(ctx, to)
		switch {
		case err != nil:
			return err
		case len(c.Parents) == 0:
			return fmt.Errorf("take back %s: %w", to, ErrFirst)
		case len(c.Parents) > 1:
			return fmt.Errorf("take back %s: %w", to, ErrMerge)
		}
		to = c.Parents[0]
	}
	back, err := r.wholeChanges(ctx, id, to)
	if err != nil {
		return err
	}
	defer r.pool.drop()
	paths := make([]string, len(back))
	for i, f := range back {
		paths[i] = f.path
	}
	r.watch()
	note := r.announceWork(paths)
	if r.git != "" {
		err = r.takeBackProgram(ctx, id, to, back)
	} else {
		err = r.takeBackNative(id, to, back)
	}
	r.keep()
	if head, e := r.Head(ctx); err != nil && e == nil && head == to {
		return nil // only the index is as before: the note stays, and MendWork puts it right
	}
	r.endWork(ctx, note, err)
	return err
}

// backFile is one file as the parent has it; mode "" when it has none.
type backFile struct {
	path string // from the top of the repository
	mode string
	id   string // raw
}

// wholeChanges are the files, of the whole repository, that differ between
// two commits, as the second has them.
func (r *Repo) wholeChanges(ctx context.Context, from, to string) ([]backFile, error) {
	whole := r.In("")
	changes, err := whole.Changed(ctx, from, to)
	if err != nil {
		return nil, err
	}
	root, err := whole.rootTree(ctx, to)
	if err != nil {
		return nil, err
	}
	trees := newTreeCache(treeReader{r: whole, ctx: ctx})
	var out []backFile
	for _, c := range changes {
		f := backFile{path: c.Path}
		if c.New != "" {
			e, ok, err := trees.descend(root, c.Path)
			if err != nil || !ok {
				return nil, fmt.Errorf("look up %s: %w", c.Path, err)
			}
			f.mode, f.id = e.mode, e.id
		}
		out = append(out, f)
	}
	return out, nil
}

func (r *Repo) takeBackProgram(ctx context.Context, id, parent string, back []backFile) error {
	if _, err := r.run(ctx, nil, "update-ref", "-m", "blotter undo", "HEAD", parent, id); err != nil {
		return err
	}
	return r.indexProgram(ctx, back)
}

func (r *Repo) takeBackNative(id, parent string, back []backFile) error {
	idx, err := r.readIndex()
	if err != nil {
		return fmt.Errorf("take back: %w", err)
	}
	indexHolds(idx, back)
	finish, err := r.prepareIndex(idx)
	if err != nil {
		return fmt.Errorf("take back: %w", err)
	}
	if err := r.moveHead(id, parent); err != nil {
		os.Remove(r.index + ".lock")
		return fmt.Errorf("take back: %w", err)
	}
	return finish()
}

// indexHolds gives the index the entries of files in place of what it had at
// their paths.
func indexHolds(idx *index.Index, files []backFile) {
	at := map[string]bool{}
	for _, f := range files {
		at[f.path] = true
	}
	idx.Entries = slices.DeleteFunc(idx.Entries, func(e *index.Entry) bool { return at[e.Name] })
	for _, f := range files {
		if f.mode == "" {
			continue
		}
		// No size and no time: git then compares the bytes with the disk's.
		e := &index.Entry{Name: f.path, Mode: filemode.Regular}
		switch f.mode {
		case modeExec:
			e.Mode = filemode.Executable
		case modeLink:
			e.Mode = filemode.Symlink
		}
		copy(e.Hash[:], f.id)
		idx.Entries = append(idx.Entries, e)
	}
	slices.SortFunc(idx.Entries, func(a, b *index.Entry) int { return cmp.Compare(a.Name, b.Name) })
}
