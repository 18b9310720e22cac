package disk

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
)

// ErrOvertaken is returned by Exchange for a file that somebody else wrote
// meanwhile. It was not touched.
var ErrOvertaken = errors.New("somebody else wrote it meanwhile")

// Exchange makes file hold data as WriteFile does, or removes it for nil, if
// at the last moment it still holds was; nil is no file. Between that look and
// the change lie some microseconds: no file system that we know offers both in
// one step.
func (t *Tree) Exchange(file string, was, data []byte) error {
	still := func(dir *os.Root, name string) error {
		now, err := dir.ReadFile(name)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			now = nil
		case err != nil:
			return err
		case now == nil:
			now = []byte{}
		}
		if (now == nil) != (was == nil) || !bytes.Equal(now, was) {
			return ErrOvertaken
		}
		return nil
	}
	if data != nil {
		return t.replace(file, data, true, still)
	}
	dir, err := t.take(path.Dir(file), false)
	if errors.Is(err, fs.ErrNotExist) && was == nil {
		return nil
	}
	if err == nil {
		err = still(dir.Root, path.Base(file))
		t.give(dir)
	}
	if err != nil {
		return fmt.Errorf("remove %s: %w", file, err)
	}
	return t.Remove(file)
}
