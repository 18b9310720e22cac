package disk

import (
	"cmp"
	"fmt"
	"path"
	"slices"
	"sync"
)

// Stage gathers changed files of a tree under temporary names, so that they
// come into force together once all of them are known to be good. It may be
// written to from several goroutines. Like WriteSite it does not wait for the
// disk.
type Stage struct {
	t    *Tree
	mu   sync.Mutex
	list []staged
}

// staged is one file that waits under a temporary name in its own folder.
type staged struct{ file, temp string }

// Stage begins an empty stage of the tree.
func (t *Tree) Stage() *Stage { return &Stage{t: t} }

// Write keeps data for file; the file itself stays as it is until Release. A
// file that holds data already is left alone, and changed is false. Missing
// folders are made.
func (s *Stage) Write(file string, data []byte) (changed bool, err error) {
	if same, err := s.t.holds(file, data); same || err != nil {
		return false, err
	}
	dir, err := s.t.take(path.Dir(file), true)
	if err != nil {
		return false, fmt.Errorf("write %s: %w", file, err)
	}
	defer s.t.give(dir)
	temp, err := writeTemp(dir.Root, path.Base(file), file, data, false)
	if err != nil {
		dir.Remove(temp)
		return false, fmt.Errorf("write %s: %w", file, err)
	}
	s.mu.Lock()
	s.list = append(s.list, staged{file, temp})
	s.mu.Unlock()
	return true, nil
}

// Release puts every file in its place, in order of path. After an error
// those that are not yet in their place still wait.
func (s *Stage) Release() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	slices.SortFunc(s.list, func(a, b staged) int { return cmp.Compare(a.file, b.file) })
	for i, f := range s.list {
		if err := s.place(f); err != nil {
			s.list = s.list[i:]
			return fmt.Errorf("write %s: %w", f.file, err)
		}
	}
	s.list = nil
	return nil
}

func (s *Stage) place(f staged) error {
	dir, err := s.t.take(path.Dir(f.file), true)
	if err != nil {
		return err
	}
	defer s.t.give(dir)
	return rename(dir.Root, f.temp, path.Base(f.file), f.file)
}

// Discard removes what still waits, and the folders that this leaves empty.
// The first error is returned, after all were tried.
func (s *Stage) Discard() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	var first error
	for _, f := range s.list {
		if err := s.t.Remove(path.Join(path.Dir(f.file), f.temp)); err != nil && first == nil {
			first = err
		}
	}
	s.list = nil
	return first
}
