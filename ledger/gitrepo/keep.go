package gitrepo

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"blotter/ledger/disk"
)

// names knows when the folders of a repository were last altered, so that the
// disk is asked for the new names in those, and in no others: git asks for
// none. It is shared by all views of a repository.
type names struct {
	mu  sync.Mutex
	was map[string]time.Time // nil: nobody watches
}

// waits reports whether the disk is waited for: always, unless core.fsync is
// none. The hooks do not leave that in a ledger; a command that makes something
// to be thrown away passes it.
func (r *Repo) waits() bool {
	said, err := r.Setting("core.fsync")
	return err != nil || said != "none"
}

// watch begins to watch what git does to its folders; the disk has all of it
// when keep has been called.
func (r *Repo) watch() {
	r.names.mu.Lock()
	defer r.names.mu.Unlock()
	if r.names.was == nil && r.waits() {
		r.names.was = r.folders()
	}
}

// keep brings to the disk the names that came since watch, and the few files
// for which git does not wait whatever core.fsync says: its settings and its
// log of where HEAD was, from which a power cut is mended. That the disk does
// not say so is no fault of the work, which is done.
func (r *Repo) keep() {
	r.names.mu.Lock()
	defer r.names.mu.Unlock()
	if !r.waits() {
		return
	}
	now := r.folders()
	tip, log := r.tipFile()
	paths := []string{log, filepath.Join(r.gitDir, "logs", "HEAD"), r.ownFile(), r.index, tip}
	for dir, at := range now {
		if was, ok := r.names.was[dir]; !ok || !was.Equal(at) {
			paths = append(paths, dir)
		}
	}
	_ = disk.Keep(paths...)
	r.names.was = nil
}

// folders are those of the repository in which git makes names, and when each
// was last altered.
func (r *Repo) folders() map[string]time.Time {
	all := map[string]time.Time{}
	add := func(dir string) bool {
		st, err := os.Lstat(dir)
		if err != nil || !st.IsDir() {
			return false
		}
		all[dir] = st.ModTime()
		return true
	}
	add(r.gitDir)
	add(r.common)
	objects := filepath.Join(r.common, "objects")
	add(objects)
	below, _ := os.ReadDir(objects)
	for _, e := range below {
		if e.IsDir() && (len(e.Name()) == 2 || e.Name() == "pack") {
			add(filepath.Join(objects, e.Name()))
		}
	}
	for _, dir := range []string{"refs", "logs"} {
		filepath.WalkDir(filepath.Join(r.common, dir), func(p string, e fs.DirEntry, err error) error {
			if err == nil && e.IsDir() && !strings.HasPrefix(e.Name(), ".") {
				add(p)
			}
			return nil
		})
	}
	return all
}
