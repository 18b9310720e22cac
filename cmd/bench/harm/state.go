package harm

import (
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// state is everything that counts in a folder: each file's bytes by its path,
// and of each repository where its branches are ("REPO ref NAME"), which files are
// not entered ("REPO status"). Half-written files that the program will not
// mistake for others, its locks and its caches do not count.
type state map[string]string

// look reads the state of the place.
func (c *Campaign) look(dir string) (state, error) {
	s := state{}
	err := filepath.WalkDir(dir, func(p string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(dir, p)
		if err != nil {
			return err
		}
		switch {
		case strings.HasPrefix(e.Name(), ".blotter-"):
			if e.IsDir() {
				return fs.SkipDir
			}
			return nil
		case e.IsDir() && e.Name() == ".git":
			c.lookAtRepo(s, filepath.Dir(rel), p, filepath.Dir(p))
			return fs.SkipDir
		case e.IsDir() && isBare(p):
			c.lookAtRepo(s, rel, p, p)
			return fs.SkipDir
		case e.IsDir():
			return nil
		}
		src, err := os.ReadFile(p)
		s[filepath.ToSlash(rel)] = string(src)
		return err
	})
	return s, err
}

func isBare(dir string) bool {
	for _, name := range []string{"HEAD", "objects", "refs"} {
		if _, err := os.Stat(filepath.Join(dir, name)); err != nil {
			return false
		}
	}
	return true
}

func (c *Campaign) lookAtRepo(s state, name, gitDir, home string) {
	refs, err := c.git(home, "--git-dir="+gitDir, "for-each-ref", "--format=%(refname) %(objectname)")
	for line := range strings.Lines(refs) {
		if ref, id, ok := strings.Cut(line, " "); ok && err == nil {
			s[name+" ref "+ref] = id
		}
	}
	if gitDir != home {
		status, _ := c.git(home, "status", "--porcelain", "--untracked-files=all")
		s[name+" status"] = status
	}
}

// whole holds every repository of the place to git fsck, and says what is
// amiss.
func (c *Campaign) whole(dir string) (amiss []string) {
	filepath.WalkDir(dir, func(p string, e fs.DirEntry, err error) error {
		if err != nil || !e.IsDir() || e.Name() != ".git" && !isBare(p) {
			return nil
		}
		if strings.Contains(p, string(filepath.Separator)+".blotter-") {
			return fs.SkipDir
		}
		if !isBare(p) {
			return fs.SkipDir // begun, and not yet a repository
		}
		if out, err := c.git(p, "--git-dir="+p, "fsck", "--full", "--no-dangling"); err != nil {
			amiss = append(amiss, fmt.Sprintf("git fsck %s: %v\n%s", p, err, out))
		}
		return fs.SkipDir
	})
	return amiss
}

// locks are git's locks in the place, but that of its upkeep, which stops
// nothing else and which doctor removes.
func locks(dir string) (found []string) {
	filepath.WalkDir(dir, func(p string, e fs.DirEntry, err error) error {
		if err == nil && e.Type().IsRegular() && strings.HasSuffix(p, ".lock") && e.Name() != "maintenance.lock" && strings.Contains(p, "git") && !strings.Contains(p, string(filepath.Separator)+".blotter-") {
			found = append(found, p)
		}
		return nil
	})
	return found
}

// between are the paths at which a state is neither as before nor as after;
// loose ones differ from run to run and only have to be there or not.
func between(s, before, after state, loose map[string]bool) (paths []string) {
	for _, p := range keys(s, before, after) {
		now, is := s[p]
		old, was := before[p]
		next, will := after[p]
		if is == was && now == old || is == will && now == next || loose[p] || strings.HasSuffix(p, " status") {
			continue
		}
		paths = append(paths, p)
	}
	return paths
}

// unlike are the paths at which two states differ.
func unlike(a, b state, loose map[string]bool) (paths []string) {
	for _, p := range keys(a, b) {
		x, inA := a[p]
		y, inB := b[p]
		if (inA != inB || x != y) && !loose[p] {
			paths = append(paths, p)
		}
	}
	return paths
}

func keys(states ...state) []string {
	all := map[string]bool{}
	for _, s := range states {
		for p := range s {
			all[p] = true
		}
	}
	return slices.Sorted(maps.Keys(all))
}

// refs tells the branches of all repositories.
func (s state) refs() string {
	var b strings.Builder
	for _, p := range slices.Sorted(maps.Keys(s)) {
		if strings.Contains(p, " ref ") {
			b.WriteString(p + " " + s[p])
		}
	}
	return b.String()
}
