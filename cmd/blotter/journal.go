package main

import (
	"context"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"

	"blotter/ledger"
	"blotter/ledger/disk"
)

// journalLine is one file that an entry is about to write: its bytes before,
// and the id of those to come. It lets the next command take back an entry
// that was broken off between the files and the revision.
type journalLine struct {
	Path string        `json:"path"`
	Was  bool          `json:"was"` // there was a file
	Old  []byte        `json:"old,omitempty"`
	New  ledger.BlobID `json:"new,omitempty"` // "" for a file that is removed
}

func (d *desk) journalFile() string { return filepath.Join(d.repo.StateDir(), "entering.json") }

// openJournal writes down what is about to happen.
func (d *desk) openJournal(changes []fileChange) error {
	lines := make([]journalLine, len(changes))
	for i, c := range changes {
		lines[i] = journalLine{Path: c.path, Was: c.old != nil, Old: c.old}
		if c.new != nil {
			lines[i].New = ledger.BlobOf(c.new)
		}
	}
	b, err := json.Marshal(lines)
	if err == nil {
		err = disk.WriteFile(d.journalFile(), b)
	}
	if err != nil {
		return stuck("prepare the entry: %v; nothing was changed", err)
	}
	return nil
}

// closeJournal says that the entry is whole, or wholly taken back.
func (d *desk) closeJournal() {
	// When it cannot be removed, the next command finds the entry made and
	// removes it then.
	_ = os.Remove(d.journalFile())
}

// recover takes back an entry that was broken off: files that hold its bytes
// and are not entered get their old ones. What somebody changed since stays.
func (d *desk) recover(ctx context.Context) error {
	if _, err := os.Stat(d.journalFile()); err != nil && !d.repo.WorkBrokenOff() && !d.undoBrokenOff() {
		return nil
	}
	unlock, err := d.lock(ctx)
	if err != nil {
		return err
	}
	defer unlock()
	if err := d.repo.MendWork(ctx, lockPatience); err != nil {
		return stuck("an entry was broken off here, and could not be taken back: %v", err).try("Nothing is lost. Try again when the cause is mended.")
	}
	if err := d.tellUndone(ctx); err != nil {
		return err
	}
	b, err := os.ReadFile(d.journalFile())
	if errors.Is(err, os.ErrNotExist) {
		return nil // another command was quicker
	}
	if err != nil {
		return stuck("%v", err)
	}
	var lines []journalLine
	if json.Unmarshal(b, &lines) != nil {
		d.closeJournal()
		return nil // broken off while it was written: no file was touched yet
	}
	var back []string
	for _, l := range lines {
		took, err := d.takeBackFile(ctx, l)
		if err != nil {
			return err
		}
		if took {
			back = append(back, sheetOrPath(l.Path))
		}
	}
	d.closeJournal()
	if len(back) > 0 {
		d.tell("%s", wrap("An entry that was broken off was taken back: "+strings.Join(back[:min(len(back), 10)], ", ")+".", d.Width, ""))
	}
	return nil
}

// takeBackFile gives one file its old bytes, if it still holds those of the
// broken-off entry and they are not entered.
func (d *desk) takeBackFile(ctx context.Context, l journalLine) (bool, error) {
	now, err := d.read(l.Path)
	if err != nil {
		return false, err
	}
	id := ledger.BlobID("")
	if now != nil {
		id = ledger.BlobOf(now)
	}
	if id != l.New {
		return false, nil
	}
	head, err := d.atHead(ctx, l.Path)
	if err != nil {
		return false, err
	}
	if head == nil && l.New == "" || head != nil && ledger.BlobOf(head) == l.New {
		return false, nil // it was entered after all
	}
	var old []byte
	if l.Was {
		old = append([]byte{}, l.Old...)
	}
	switch err := d.put(l.Path, now, old); {
	case errors.Is(err, disk.ErrOvertaken):
		return false, nil
	case err != nil:
		return false, stuck("an entry was broken off here, and could not be taken back: %v", err).try("Nothing is lost. Make room or mend the cause; the next command takes it back.")
	}
	return true, nil
}
