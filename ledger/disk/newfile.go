package disk

import (
	"cmp"
	"fmt"
	"hash/fnv"
	"io"
	"math/rand/v2"
	"os"
	"path"
	"path/filepath"
	"strings"
	"time"

	"blotter/ledger/internal/fault"
)

// NewFile is a file on its way: it is written bit by bit under a temporary
// name, can be read again, and comes into force by Commit or never.
type NewFile struct {
	file string // "": it never comes into force
	base string
	dir  *os.Root
	temp string
	h    *os.File
	size int64
}

// Begin begins a file that will replace what stands at file. Its folder must
// exist.
func Begin(file string) (*NewFile, error) {
	dir, base := filepath.Split(file)
	clearDead(dir, base)
	return begin(filepath.Dir(file), base, file)
}

// deadAfter is how long nobody has written to the temporary file of a process
// that was killed.
const deadAfter = time.Hour

// clearDead removes what killed processes left of earlier tries at a file:
// outside a ledger nobody else would find it.
func clearDead(dir, base string) {
	left, _ := os.ReadDir(cmp.Or(dir, "."))
	for _, e := range left {
		if info, err := e.Info(); strings.HasPrefix(e.Name(), tempName(base)) && IsTemp(e.Name()) && err == nil && time.Since(info.ModTime()) > deadAfter {
			os.Remove(filepath.Join(dir, e.Name()))
		}
	}
}

// tempName begins the names of temporary files for a file.
func tempName(base string) string {
	h := fnv.New32a()
	io.WriteString(h, base)
	return fmt.Sprintf("%s%08x-", tempHead, h.Sum32())
}

// Scratch begins a file in dir that never comes into force; Discard or Close
// removes it.
func Scratch(dir string) (*NewFile, error) { return begin(dir, "scratch", "") }

func begin(dir, base, file string) (*NewFile, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, fmt.Errorf("open folder: %w", err)
	}
	f := &NewFile{file: file, base: base, dir: root, temp: fmt.Sprintf("%s%016x%s", tempName(base), rand.Uint64(), tempTail)}
	if _, err = fault.Step("create", base); err == nil {
		f.h, err = root.OpenFile(f.temp, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o666)
	}
	if err != nil {
		root.Close()
		return nil, fmt.Errorf("write %s: %w", base, err)
	}
	return f, nil
}

// Write appends to the file.
func (f *NewFile) Write(p []byte) (int, error) {
	if short, err := fault.Step("write", f.base); err != nil {
		if short {
			f.h.Write(p[:len(p)/2])
		}
		return 0, fmt.Errorf("write %s: %w", f.base, err)
	}
	n, err := f.h.Write(p)
	f.size += int64(n)
	return n, err
}

// Size is how many bytes were written.
func (f *NewFile) Size() int64 { return f.size }

// Seek, Read and ReadAt read what was written.
func (f *NewFile) Seek(offset int64, whence int) (int64, error) { return f.h.Seek(offset, whence) }

func (f *NewFile) Read(p []byte) (int, error) { return f.h.Read(p) }

func (f *NewFile) ReadAt(p []byte, at int64) (int, error) { return f.h.ReadAt(p, at) }

// Sync brings what was written to the disk, so that Commit need not wait for
// it.
func (f *NewFile) Sync() error { return f.h.Sync() }

// Commit puts the file in its place, lastingly: whoever reads it finds the
// old bytes or the new ones.
func (f *NewFile) Commit() error {
	if f.file == "" || f.h == nil {
		return fmt.Errorf("write %s: it has no place", f.base)
	}
	err := f.commit()
	f.Discard()
	if err != nil {
		return fmt.Errorf("write %s: %w", f.base, err)
	}
	return nil
}

func (f *NewFile) commit() error {
	if _, err := fault.Step("sync", f.base); err != nil {
		return err
	}
	if err := f.h.Sync(); err != nil {
		return err
	}
	if err := f.h.Close(); err != nil {
		return err
	}
	f.h = nil
	if dir := path.Dir(f.base); dir != "." {
		if _, err := fault.Step("make-folder", dir); err != nil {
			return err
		}
		if err := f.dir.MkdirAll(dir, 0o777); err != nil {
			return err
		}
	}
	if err := rename(f.dir, f.temp, f.base, f.base); err != nil {
		return err
	}
	f.temp = ""
	return syncFolder(f.dir, f.base)
}

// Discard removes what was written, unless it has been committed; more than
// once is no fault.
func (f *NewFile) Discard() {
	if f.dir == nil {
		return
	}
	if f.h != nil {
		f.h.Close()
		f.h = nil
	}
	if f.temp != "" {
		f.dir.Remove(f.temp)
	}
	f.dir.Close()
	f.dir = nil
}

// Close is Discard, for a file that never comes into force.
func (f *NewFile) Close() error {
	f.Discard()
	return nil
}

var _ io.ReadWriteSeeker = (*NewFile)(nil)

// Begin begins a file of the tree, which waits at its top; missing folders are
// made when it comes into force.
func (t *Tree) Begin(file string) (*NewFile, error) { return begin(t.dir, file, file) }
