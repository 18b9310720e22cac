package main

import (
	"cmp"
	"context"
	"crypto/rand"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"blotter/ledger/disk"
)

// making is a folder that is made beside its place and moved there when it is
// whole: what was broken off never stands in the place itself. One that was
// killed is cleared away by the next that makes the same folder.
type making struct {
	temp   string // where it is made: an empty folder
	hold   string // holds it, and a lock
	locked *disk.Locked
}

// makeBeside begins to make folder dir, whose parent stands.
func (c *call) makeBeside(ctx context.Context, dir string) (*making, error) {
	m := &making{hold: filepath.Join(filepath.Dir(dir), ".blotter-new-"+filepath.Base(dir)+".tmp")}
	var err error
	m.locked, err = disk.Lock(ctx, m.hold, "blotter "+c.cmd.Name, 100*time.Millisecond)
	var held *disk.Held
	switch {
	case errors.As(err, &held):
		return nil, stuck("%s is being made by another %s", dir, cmp.Or(held.Holder, "program")).try("Nothing was changed; look again when it is done.")
	case err != nil:
		return nil, stuck("%v", err)
	}
	// What a killed one left. A git that it started may still write there, so
	// the new one gets a name of its own.
	if left, err := os.ReadDir(m.hold); err == nil {
		for _, e := range left {
			if e.IsDir() {
				os.RemoveAll(filepath.Join(m.hold, e.Name()))
			}
		}
	}
	m.temp = filepath.Join(m.hold, strings.ToLower(rand.Text()[:8]))
	if err := os.Mkdir(m.temp, 0o777); err != nil {
		m.end()
		return nil, stuck("%v", err)
	}
	return m, nil
}

// moveTo gives the folder its place, where nothing or an empty folder stands.
func (m *making) moveTo(dir string) error {
	if err := disk.KeepBelow(m.temp); err != nil { // first all of it, then its name
		return err
	}
	if err := os.Remove(dir); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if err := os.Rename(m.temp, dir); err != nil {
		return err
	}
	return disk.Keep(filepath.Dir(dir), m.hold)
}

// end lets go of the place; what was not moved is removed.
func (m *making) end() {
	os.RemoveAll(m.temp)
	m.locked.Unlock()
	os.RemoveAll(m.hold)
}
