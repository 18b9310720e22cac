package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
)

// noRoomWords are how Unix, Windows and git say that nothing more goes onto a
// disk.
var noRoomWords = []string{"no space left on device", "not enough space on the disk", "out of diskspace", "disk quota exceeded", "file too large", "file size limit exceeded"}

// diskIsFull reports whether an error came of a disk without room. Git does not
// always say why it could not write: then it is tried out where the ledger is.
func (e *env) diskIsFull(err error) bool {
	if saysNoRoom(err) {
		return true
	}
	root, ok := ledgerAbove(e.Dir)
	if f, is := errors.AsType[*fault](err); !ok && is && len(f.said) > 0 {
		root, ok = e.Dir, true // where one is being made
	}
	return ok && saysNoRoom(tryRoom(root))
}

func saysNoRoom(err error) bool {
	if err == nil {
		return false
	}
	said := err.Error()
	if f, ok := errors.AsType[*fault](err); ok {
		said += strings.Join(f.said, " ")
	}
	said = strings.ToLower(said)
	for _, w := range noRoomWords {
		if strings.Contains(said, w) {
			return true
		}
	}
	return false
}

// tryRoom writes as much as an entry does, of which git's list of files is the
// most, and takes it away again.
func tryRoom(dir string) error {
	size := int64(64 << 10)
	if st, err := os.Stat(filepath.Join(dir, ".git", "index")); err == nil {
		size += st.Size()
	}
	f, err := os.CreateTemp(dir, ".blotter-*.tmp")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	defer f.Close()
	for block := make([]byte, 64<<10); size > 0 && err == nil; size -= int64(len(block)) {
		_, err = f.Write(block)
	}
	return err
}
