package disk

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"

	"blotter/ledger/internal/fault"
)

// Remove removes a file, or a symbolic link as such, and the folders above it
// that this leaves empty. A file that is not there is no error.
func (t *Tree) Remove(file string) error {
	if _, err := fault.Step("remove", file); err != nil {
		return fmt.Errorf("remove %s: %w", file, err)
	}
	if err := t.root.Remove(file); err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			return nil
		}
		return fmt.Errorf("remove %s: %w", file, err)
	}
	t.mu.Lock()
	t.trim(0)
	t.mu.Unlock()
	for dir := path.Dir(file); dir != "."; dir = path.Dir(dir) {
		if t.root.Remove(dir) != nil {
			return nil // not empty, or in use
		}
	}
	return nil
}

// Move gives a file another path in the tree, whose folder is made; a file
// that stands there is an error.
func (t *Tree) Move(from, to string) error {
	if _, err := t.root.Lstat(to); err == nil {
		return fmt.Errorf("move %s to %s: %w", from, to, fs.ErrExist)
	}
	data, err := t.Read(from)
	if err != nil {
		return fmt.Errorf("move %s: %w", from, err)
	}
	if err := t.WriteFile(to, data); err != nil {
		return err
	}
	return t.Remove(from)
}

// Place moves a file that was written whole to another folder of the tree, in
// one step and lastingly. Move writes it anew beside its place; where whoever
// reads the folder would take that for one of its files, it is Place. A file
// that stands there is an error.
func (t *Tree) Place(from, to string) error {
	if _, err := t.root.Lstat(to); err == nil {
		return fmt.Errorf("move %s to %s: %w", from, to, fs.ErrExist)
	}
	f, err := t.take(path.Dir(to), true)
	if err != nil {
		return err
	}
	defer t.give(f)
	if err := rename(t.root, from, to, to); err != nil {
		return fmt.Errorf("move %s: %w", from, err)
	}
	return syncFolder(f.Root, to)
}

// Read reads a plain file of the tree; a symbolic link is an error.
func (t *Tree) Read(file string) ([]byte, error) {
	h, err := t.plain(file)
	if err != nil {
		return nil, err
	}
	defer h.Close()
	b, err := io.ReadAll(h)
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", file, err)
	}
	return b, nil
}

// CopyTo is Read of a file that may be larger than memory: its bytes go to w.
func (t *Tree) CopyTo(file string, w io.Writer) (size int64, err error) {
	h, err := t.plain(file)
	if err != nil {
		return 0, err
	}
	defer h.Close()
	if size, err = io.Copy(w, h); err != nil {
		return size, fmt.Errorf("read %s: %w", file, err)
	}
	return size, nil
}

func (t *Tree) plain(file string) (*os.File, error) {
	st, err := t.root.Lstat(file)
	if err == nil && !st.Mode().IsRegular() {
		err = errors.New("not a plain file")
	}
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", file, err)
	}
	h, err := t.root.Open(file)
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", file, err)
	}
	return h, nil
}

// Files lists every file, link and left-over temporary file of the tree with
// forward slashes, in byte order within each folder. Links are not followed.
func (t *Tree) Files() ([]string, error) {
	var out []string
	err := fs.WalkDir(t.root.FS(), ".", func(p string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			out = append(out, p)
		}
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("list %s: %w", t.dir, err)
	}
	return out, nil
}
