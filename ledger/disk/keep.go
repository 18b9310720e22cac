package disk

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"

	"blotter/ledger/internal/fault"
)

// Keep asks the disk to have files as they are, and the names that stand in
// folders, which another program wrote: git waits for its files, when it is
// told to, and never for the names under which they are found (fsync(2): "Calling
// fsync() does not necessarily ensure that the entry in the directory containing
// the file has also reached disk"). What is not there is passed over. Windows
// has no such call for a folder, and keeps names in order by itself (from memory).
func Keep(paths ...string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	var errs []error
	for _, p := range paths {
		if err := keep(p); !errors.Is(err, fs.ErrNotExist) {
			errs = append(errs, err)
		}
	}
	return errors.Join(errs...)
}

func keep(path string) error {
	h, err := os.Open(path)
	if err != nil {
		return err
	}
	defer h.Close()
	if _, err := fault.Step("sync-kept", path); err != nil {
		return err
	}
	if err := h.Sync(); err != nil && !errors.Is(err, errors.ErrUnsupported) && !errors.Is(err, fs.ErrInvalid) {
		return err
	}
	return nil
}

// KeepMost is how many files are waited for one by one; beyond, the whole disk
// is cheaper.
const KeepMost = 2000

// KeepMany is Keep of files below a folder, which stand in its folders, too. Of
// very many it waits for the whole disk at once where a system can, and
// elsewhere leaves them to it.
func KeepMany(dir string, files []string) error {
	if len(files) > KeepMost {
		keepAll()
		return nil
	}
	seen := map[string]bool{}
	var all []string
	for _, f := range files {
		p := filepath.Join(dir, filepath.FromSlash(f))
		all = append(all, p)
		for p != dir && !seen[filepath.Dir(p)] {
			p = filepath.Dir(p)
			seen[p] = true
			all = append(all, p)
		}
	}
	return Keep(all...)
}

// KeepBelow is Keep of a folder, of all that lies below it, and of its own
// name.
func KeepBelow(dir string) error {
	var all []string
	err := filepath.WalkDir(dir, func(p string, e fs.DirEntry, err error) error {
		if err == nil && (e.IsDir() || e.Type().IsRegular()) {
			all = append(all, p)
		}
		return err
	})
	if err != nil {
		return err
	}
	if len(all) > KeepMost && keepAll() {
		return nil
	}
	return Keep(append(all, filepath.Dir(dir))...)
}
