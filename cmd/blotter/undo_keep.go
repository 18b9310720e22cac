package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"blotter/ledger"
	"blotter/ledger/disk"
	"blotter/ledger/history"
)

// keptVersion is a version of a file that was entered, is to be taken back,
// and is not what stands in the file now.
type keptVersion struct {
	path  string
	entry string // the revision that entered it
	blob  ledger.BlobID
	file  string // where it is kept
	back  bool   // the file goes back to what it was
}

// overwritten are the versions, of entries that are to be taken back, that no
// file shows any more: of a file that several of them touched, or that was
// worked on or taken away since. The files of the first whole ones go back, so
// that what they say is in files no more; an entry that gave other numbers said
// nothing else.
func (d *desk) overwritten(ctx context.Context, entries []history.Commit, whole int) ([]keptVersion, error) {
	var all []keptVersion
	seen := map[string]bool{}
	back, err := d.filesAfter(ctx, entries, whole)
	if err != nil {
		return nil, err
	}
	for i, e := range entries {
		if i < whole && len(history.Moves(e.Message)) > 0 {
			continue
		}
		changes, err := d.repo.Changed(ctx, e.Parents[0], e.ID)
		if err != nil {
			return nil, stuck("%v", err)
		}
		for _, c := range changes {
			key := c.Path + "\x00" + string(c.New)
			if c.New == "" || c.Link || seen[key] {
				continue
			}
			seen[key] = true
			was, err := d.repo.Blob(ctx, c.New)
			if err != nil {
				return nil, stuck("%v", err)
			}
			blob, goesBack := back[c.Path]
			if goesBack {
				if blob == c.New {
					continue
				}
			} else if now, err := os.ReadFile(d.file(c.Path)); err == nil && bytes.Equal(was, now) {
				continue
			} else if err != nil && !errors.Is(err, fs.ErrNotExist) {
				return nil, stuck("%v", err)
			}
			all = append(all, keptVersion{path: c.Path, entry: e.ID, blob: c.New, back: goesBack})
		}
	}
	return all, nil
}

// filesAfter is what the files hold, by path, that go back with the first whole
// entries.
func (d *desk) filesAfter(ctx context.Context, entries []history.Commit, whole int) (map[string]ledger.BlobID, error) {
	back := map[string]ledger.BlobID{}
	if whole == 0 {
		return back, nil
	}
	changes, err := d.repo.Changed(ctx, entries[0].ID, entries[whole-1].Parents[0])
	if err != nil {
		return nil, stuck("%v", err)
	}
	for _, c := range changes {
		back[c.Path] = c.New
	}
	return back, nil
}

// keepVersion writes a version into a file of its own, in the folder of what
// belongs to this copy alone. A revision's folder has its name, so that doing
// it twice is doing it once.
func (d *desk) keepVersion(ctx context.Context, k *keptVersion) error {
	content, err := d.repo.Blob(ctx, k.blob)
	if err != nil {
		return err
	}
	k.file = filepath.Join(d.repo.StateDir(), "undone", k.entry[:12], filepath.FromSlash(k.path))
	if err := os.MkdirAll(filepath.Dir(k.file), 0o777); err != nil {
		return fmt.Errorf("keep %s: %w", k.path, err)
	}
	return disk.WriteFile(k.file, content)
}
