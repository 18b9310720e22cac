package disk

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"time"

	"blotter/ledger/internal/fault"
)

// Temporary files stand beside the file that they will become. One that a
// killed process left behind is recognised by its name (IsTemp).
const (
	tempHead = ".blotter-"
	tempTail = ".tmp"

	tempDigits = 16 // between the two, of writeTemp's
)

// IsTemp reports whether a base name is that of a temporary file of ours.
func IsTemp(name string) bool {
	return strings.HasPrefix(name, tempHead) && strings.HasSuffix(name, tempTail)
}

// WriteFile makes file hold data, atomically and lastingly: whoever reads it,
// even after a crash, finds the old bytes or the new ones. The file's
// permissions are kept; a symbolic link is replaced, not followed. Folders
// are not made.
func WriteFile(file string, data []byte) error {
	t, err := OpenTree(filepath.Dir(file))
	if err != nil {
		return err
	}
	defer t.Close()
	return t.WriteFile(filepath.Base(file), data)
}

// Tree writes below one folder and nowhere else: a path that leads out of
// it, by ".." or through a symbolic link, is an error. Paths are relative,
// with forward slashes. It may be used from several goroutines.
type Tree struct {
	dir  string
	root *os.Root

	mu   sync.Mutex
	open map[string]*folder // folders written to lately
}

// folder is a folder kept open for the next file in it.
type folder struct {
	*os.Root
	users int
}

// maxOpen is how many folders stay open; pages are written folder by folder.
const maxOpen = 64

// OpenTree opens the tree at dir, which must exist.
func OpenTree(dir string) (*Tree, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, fmt.Errorf("open folder: %w", err)
	}
	return &Tree{dir: dir, root: root, open: map[string]*folder{}}, nil
}

// Close lets go of the tree.
func (t *Tree) Close() error {
	t.mu.Lock()
	defer t.mu.Unlock()
	for _, r := range t.open {
		r.Close()
	}
	t.open = map[string]*folder{}
	return t.root.Close()
}

// Dir is the folder that the tree was opened at.
func (t *Tree) Dir() string { return t.dir }

// WriteFile makes file hold data as the function of that name does; missing
// folders are made.
func (t *Tree) WriteFile(file string, data []byte) error { return t.replace(file, data, true, nil) }

// WriteSite makes file hold data atomically but without waiting for the disk,
// for output that can be made again; missing folders are made. A file that
// holds data already is left alone, and changed is false.
func (t *Tree) WriteSite(file string, data []byte) (changed bool, err error) {
	if same, err := t.holds(file, data); same || err != nil {
		return false, err
	}
	return true, t.replace(file, data, false, nil)
}

// AddSite is WriteSite for a file that was not there a moment ago: it is not
// compared with what it replaces.
func (t *Tree) AddSite(file string, data []byte) error { return t.replace(file, data, false, nil) }

// holds reports whether file is a plain file with exactly these bytes.
func (t *Tree) holds(file string, data []byte) (bool, error) {
	dir, err := t.take(path.Dir(file), false)
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, fmt.Errorf("write %s: %w", file, err)
	}
	defer t.give(dir)
	name := path.Base(file)
	st, err := dir.Lstat(name)
	if err != nil || !st.Mode().IsRegular() || st.Size() != int64(len(data)) {
		return false, nil
	}
	old, err := dir.ReadFile(name)
	return err == nil && bytes.Equal(old, data), nil
}

// replace makes file hold data. still, when not nil, is asked at the last
// moment whether what stands in its place may go.
func (t *Tree) replace(file string, data []byte, lasting bool, still func(*os.Root, string) error) error {
	dir, err := t.take(path.Dir(file), true)
	if err != nil {
		return fmt.Errorf("write %s: %w", file, err)
	}
	defer t.give(dir)
	name := path.Base(file)
	temp, err := writeTemp(dir.Root, name, file, data, lasting)
	if err == nil && still != nil {
		err = still(dir.Root, name)
	}
	if err == nil {
		err = rename(dir.Root, temp, name, file)
	}
	if err != nil {
		dir.Remove(temp)
		return fmt.Errorf("write %s: %w", file, err)
	}
	if lasting {
		if err := syncFolder(dir.Root, file); err != nil {
			return fmt.Errorf("write %s: %w", file, err)
		}
	}
	return nil
}

// writeTemp writes data to a new file beside name.
func writeTemp(dir *os.Root, name, file string, data []byte, lasting bool) (temp string, err error) {
	perm := fs.FileMode(0o666) // less the umask
	kept := false
	if lasting {
		if st, err := dir.Lstat(name); err == nil && st.Mode().IsRegular() {
			perm, kept = st.Mode().Perm(), true
		}
	}
	temp = fmt.Sprintf("%s%0*x%s", tempHead, tempDigits, rand.Uint64(), tempTail)
	if _, err := fault.Step("create", file); err != nil {
		return temp, err
	}
	h, err := dir.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, perm)
	if err != nil {
		return temp, err
	}
	defer func() {
		if e := h.Close(); err == nil {
			err = e
		}
	}()
	if kept {
		h.Chmod(perm) // past the umask; a file system without permissions may refuse
	}
	if short, err := fault.Step("write", file); err != nil {
		if short {
			h.Write(data[:len(data)/2])
		}
		return temp, err
	}
	if n, err := h.Write(data); err != nil {
		return temp, err
	} else if n < len(data) {
		return temp, io.ErrShortWrite
	}
	if lasting {
		if _, err := fault.Step("sync", file); err != nil {
			return temp, err
		}
		return temp, h.Sync()
	}
	return temp, nil
}

// rename puts temp in name's place. On Windows another program may hold the
// old file for a moment (a scanner, an indexer), so it tries for a second.
func rename(dir *os.Root, temp, name, file string) error {
	if _, err := fault.Step("rename", file); err != nil {
		return err
	}
	err := dir.Rename(temp, name)
	for wait := time.Millisecond; err != nil && runtime.GOOS == "windows" && wait < time.Second; wait *= 2 {
		time.Sleep(wait)
		err = dir.Rename(temp, name)
	}
	return err
}

// syncFolder makes a rename or removal last. Windows has no such call.
func syncFolder(dir *os.Root, file string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	if _, err := fault.Step("sync-folder", file); err != nil {
		return err
	}
	h, err := dir.Open(".")
	if err != nil {
		return err
	}
	defer h.Close()
	if err := h.Sync(); err != nil && !errors.Is(err, errors.ErrUnsupported) && !errors.Is(err, fs.ErrInvalid) {
		return err
	}
	return nil
}

// take is the folder rel of the tree, kept open until give; maybe made.
func (t *Tree) take(rel string, make bool) (*folder, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if f, ok := t.open[rel]; ok {
		f.users++
		return f, nil
	}
	r, err := t.root.OpenRoot(rel)
	if errors.Is(err, fs.ErrNotExist) && make {
		if _, err := fault.Step("make-folder", rel); err != nil {
			return nil, err
		}
		if err := t.root.MkdirAll(rel, 0o777); err != nil {
			return nil, err
		}
		r, err = t.root.OpenRoot(rel)
	}
	if err != nil {
		return nil, err
	}
	t.trim(maxOpen - 1)
	f := &folder{r, 1}
	t.open[rel] = f
	return f, nil
}

func (t *Tree) give(f *folder) {
	t.mu.Lock()
	defer t.mu.Unlock()
	f.users--
}

// trim closes folders that nobody uses until at most n are open.
func (t *Tree) trim(n int) {
	for rel, f := range t.open {
		if len(t.open) <= n {
			return
		}
		if f.users == 0 {
			f.Close()
			delete(t.open, rel)
		}
	}
}
