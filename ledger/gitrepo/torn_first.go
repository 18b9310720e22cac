package gitrepo

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"strings"

	"blotter/ledger/disk"
)

// firstOfAll reports whether what is lost is the first entry of all, and the
// only one, by git's log.
func (m *mending) firstOfAll() bool {
	_, file := m.r.tipFile()
	log, err := os.ReadFile(file)
	zero := strings.Repeat("0", 2*m.r.width) + " "
	return err == nil && bytes.Count(log, []byte("\n")) == 1 && strings.HasPrefix(string(log), zero)
}

// unborn makes the repository one in which nothing has been entered: the files
// on disk stay, to be entered.
func (m *mending) unborn() error {
	tip, _ := m.r.tipFile()
	for file, name := range map[string]string{tip: "tip", m.r.index: "index"} {
		if _, err := os.Lstat(file); errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err := m.keep(file, name); err != nil {
			return err
		}
	}
	return disk.Keep(m.r.gitDir)
}
