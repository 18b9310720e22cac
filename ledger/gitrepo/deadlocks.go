package gitrepo

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"blotter/ledger/disk"
)

// Locks are the locks of git programs in the repository, which stop its
// commands: of those at work, and of those that were broken off. git's upkeep
// stops nobody.
func (r *Repo) Locks() (files []string) {
	seen := map[string]bool{}
	for _, dir := range []string{r.gitDir, r.common} {
		filepath.WalkDir(dir, func(p string, e fs.DirEntry, err error) error {
			switch {
			case err != nil:
				return nil
			case e.IsDir() && (e.Name() == "objects" || e.Name() == "worktrees" && dir == r.common || p == r.StateDir()):
				return fs.SkipDir
			case e.Type().IsRegular() && strings.HasSuffix(p, ".lock") && !seen[p]:
				seen[p] = true
				files = append(files, p)
			}
			return nil
		})
	}
	return files
}

// ErrAtWork is returned by RemoveLocks when a lock may be of a git program that
// is at work.
var ErrAtWork = errors.New("a git program may be at work in this ledger")

// standStill is how long a lock must stand still where nobody can tell whose
// it is.
const standStill = time.Hour

// RemoveLocks removes the locks of git programs that were broken off, as by a
// power cut. It removes none while a git program runs in the repository, or,
// where that cannot be told, while one is younger than an hour.
func (r *Repo) RemoveLocks(ctx context.Context) error {
	runs, known := r.gitRuns()
	if runs {
		return ErrAtWork
	}
	locks := r.Locks()
	for _, l := range locks {
		st, err := os.Lstat(l)
		if err == nil && !known && time.Since(st.ModTime()) < standStill {
			return ErrAtWork
		}
	}
	for _, l := range locks {
		if err := os.Remove(l); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return errors.Join(ctx.Err(), disk.Keep(r.gitDir))
}

// ownChild reports whether a process was started by this one: it reads for us.
func ownChild(proc string) bool {
	b, err := os.ReadFile(filepath.Join(proc, "status"))
	return err == nil && strings.Contains(string(b), fmt.Sprintf("\nPPid:\t%d\n", os.Getpid()))
}

// gitRuns reports whether a git program runs that stands in this repository;
// known is false where a system does not tell.
func (r *Repo) gitRuns() (runs, known bool) {
	all, _ := filepath.Glob("/proc/[0-9]*/exe")
	for _, exe := range all {
		to, err := os.Readlink(exe)
		if err != nil {
			continue
		}
		known = true
		if !strings.HasPrefix(filepath.Base(to), "git") || ownChild(filepath.Dir(exe)) {
			continue
		}
		at, err := os.Readlink(filepath.Join(filepath.Dir(exe), "cwd"))
		if err != nil {
			return true, true // whose it is cannot be told
		}
		for _, dir := range []string{r.top, r.gitDir, r.common} {
			if dir != "" && (at == dir || strings.HasPrefix(at, dir+string(filepath.Separator))) {
				return true, true
			}
		}
	}
	return false, known
}
