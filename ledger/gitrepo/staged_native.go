package gitrepo

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"

	"github.com/go-git/go-git/v5/plumbing/filemode"
	"github.com/go-git/go-git/v5/plumbing/format/index"

	"blotter/ledger"
)

// readIndex decodes the index file that holds; an absent one is empty.
func (r *Repo) readIndex() (*index.Index, error) {
	f, err := os.Open(r.index)
	if errors.Is(err, os.ErrNotExist) {
		return &index.Index{Version: 2}, nil
	}
	if err != nil {
		return nil, fmt.Errorf("read the index: %w", err)
	}
	defer f.Close()
	idx := &index.Index{}
	if err := index.NewDecoder(f).Decode(idx); err != nil {
		return nil, fmt.Errorf("read the index: %v; this needs the git program", err)
	}
	return idx, nil
}

// nativeTracked is trackedPaths without the git program.
func (r *Repo) nativeTracked() ([]string, error) {
	idx, err := r.readIndex()
	if err != nil {
		return nil, err
	}
	var paths []string
	for _, e := range idx.Entries {
		if p, ok := strings.CutPrefix(e.Name, r.prefix); ok {
			paths = append(paths, p)
		}
	}
	return paths, nil
}

// stagedNative is Staged without the git program.
func (r *Repo) stagedNative(ctx context.Context) ([]Change, error) {
	idx, err := r.readIndex()
	if err != nil {
		return nil, err
	}
	olds := map[string]entry{}
	head, err := r.Head(ctx)
	if err == nil {
		var tree string
		if tree, err = r.ledgerTree(ctx, head); err == nil {
			err = treeReader{r: r, ctx: ctx}.walk(tree, "", func(path string, e entry) error {
				olds[path] = e
				return nil
			})
		}
	}
	if err != nil && !errors.Is(err, ErrNoCommits) {
		return nil, err
	}
	var cs []Change
	for _, e := range idx.Entries {
		path, ok := strings.CutPrefix(e.Name, r.prefix)
		if !ok || e.IntentToAdd {
			continue
		}
		if e.Stage != 0 { // index.Merged is 1, by mistake
			return nil, fmt.Errorf("%s: %w", path, ErrConflict)
		}
		old, had := olds[path]
		delete(olds, path)
		mode := indexMode(e.Mode)
		if had && old.id == string(e.Hash[:]) && old.mode == mode {
			continue
		}
		c := Change{Path: path, Old: blobOf(old), Link: mode == modeLink}
		if mode != modeModule {
			c.New = ledger.BlobID(e.Hash.String())
		}
		if c.Old != "" || c.New != "" { // else another repository
			cs = append(cs, c)
		}
	}
	for path, e := range olds {
		cs = append(cs, Change{Path: path, Old: blobOf(e)})
	}
	slices.SortFunc(cs, func(a, b Change) int { return cmp.Compare(a.Path, b.Path) })
	return cs, nil
}

// indexMode is the mode of an index entry as trees write it.
func indexMode(m filemode.FileMode) string { return fmt.Sprintf("%o", uint32(m)) }
