package main

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"

	"blotter/ledger/disk"
)

// undoing is the note of an undo, from before it begins until it is said to be
// done. Without it, an undo that was killed after the entries were taken back,
// and typed again, would take back one more.
type undoing struct {
	From  string   `json:"from"`  // the last entry before
	To    string   `json:"to"`    // and after
	Lines []string `json:"lines"` // what was taken back, and where it is kept
}

func (d *desk) undoFile() string { return filepath.Join(d.repo.StateDir(), "undoing.json") }

func (d *desk) undoBrokenOff() bool {
	_, err := os.Lstat(d.undoFile())
	return err == nil
}

func (d *desk) noteUndo(u undoing) error {
	b, err := json.Marshal(u)
	if err == nil {
		err = disk.WriteFile(d.undoFile(), b)
	}
	if err != nil {
		return stuck("prepare the undo: %v; nothing was taken back", err)
	}
	return nil
}

// tellUndone ends an undo that was broken off: it says what it took back, if
// it did. The caller holds the lock.
func (d *desk) tellUndone(ctx context.Context) error {
	b, err := os.ReadFile(d.undoFile())
	if err != nil {
		return nil // none, or another command was quicker
	}
	var u undoing
	if json.Unmarshal(b, &u) == nil {
		head, err := d.head(ctx)
		if err != nil {
			return err
		}
		d.undone = head == u.To
	}
	if d.undone {
		d.tell("An undo that was broken off is done. It took back:")
		for _, l := range u.Lines {
			d.tell("  %s", l)
		}
	}
	// When it cannot be removed it is told once more.
	_ = os.Remove(d.undoFile())
	return nil
}
