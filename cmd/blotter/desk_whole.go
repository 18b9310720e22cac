package main

import (
	"context"
	"os"
	"path/filepath"

	"blotter/hooks"
)

// takeUp looks whether the repository is fit for the work and, for a command
// that enters, ends what was broken off and asks who works.
func (d *desk) takeUp(ctx context.Context) error {
	if err := d.mustBeWhole(); err != nil {
		return err
	}
	if d.cmd.Family != famEnter && d.cmd.Name != "print" { // print enters what was printed
		return nil
	}
	// First the files of an undo that was broken off, then whether it is done.
	if err := d.finishReceiving(ctx); err != nil {
		return err
	}
	if err := d.recover(ctx); err != nil {
		return err
	}
	return d.mustSayWho(ctx)
}

// mustBeWhole refuses to work on what a power cut left torn, and on a copy that
// shows only some of its files: what is missing would be taken for a new
// ledger, or for sheets that were taken away. doctor and hooks go on.
func (d *desk) mustBeWhole() error {
	if d.cmd.Name == "doctor" || d.cmd.Name == "hooks" {
		return nil
	}
	if f := d.getenv("GIT_INDEX_FILE"); f != "" && d.cmd.Family == famEnter {
		return stuck("GIT_INDEX_FILE is set here (%s), so git would note the entry in another list of files than this ledger's", f).try("unset GIT_INDEX_FILE")
	}
	if torn := d.repo.Torn(); torn != "" {
		return stuck("%s, as after a power cut; what was typed stands in its files", torn).
			try("blotter doctor --fix", "asks, then puts it right without touching the sheets")
	}
	if _, err := os.Lstat(filepath.Join(d.repo.GitDir(), "info", "sparse-checkout")); err != nil {
		return nil
	}
	if sparse, err := d.repo.Setting("core.sparsecheckout"); err == nil && sparse == "true" {
		return stuck("this copy shows only some of its files (a sparse checkout), so that sheets seem to be missing").
			try("Show all: git sparse-checkout disable")
	}
	return nil
}

// lookAtTorn looks for what a power cut leaves of git's own files.
func (d *desk) lookAtTorn(ctx context.Context) symptom {
	torn, err := d.repo.Damage(ctx)
	if err != nil {
		return symptom{What: "power cut", Says: "git's files cannot be looked at: " + err.Error()}
	}
	if torn == "" {
		return symptom{What: "power cut", Good: true, Says: "nothing is torn"}
	}
	return symptom{What: "power cut", Says: torn, Mend: "blotter doctor --fix; the sheets on disk stay as they are", fix: d.mendTorn}
}

// mendTorn puts right what is torn, and says what is not entered any more.
func (d *desk) mendTorn(ctx context.Context) error {
	unlock, err := d.lock(ctx)
	if err != nil {
		return err
	}
	defer unlock()
	if len(d.repo.Locks()) > 0 { // of a git that the same power cut ended
		if err := d.repo.RemoveLocks(ctx); err != nil {
			return stuck("%v; nothing was mended", err).try("Again when it is done: blotter doctor --fix")
		}
	}
	m, err := d.repo.Mend(ctx)
	if m.Kept != "" {
		d.say("  What was torn is kept in %s", m.Kept)
	}
	if err != nil {
		return stuck("%v", err).try("blotter restore FILE DIR", "from a backup; or blotter join ADDRESS DIR from another copy. What was typed here stands in its files")
	}
	if m.Written > 0 {
		d.say("  Written again from the files on disk: %s", count(m.Written, "file"))
	}
	switch {
	case m.To == "":
		d.say("  What was entered first, and alone, is lost; it stands in its files. To enter it: blotter enter")
	case m.From != m.To:
		d.say("  The last whole entry is revision %s; what was typed after it stands in its files, not yet entered.", m.To[:7])
	}
	return nil
}

// lookAtWaiting looks whether git waits until the disk has an entry.
func (d *desk) lookAtWaiting() symptom {
	if hooks.WaitsForDisk(d.repo) {
		return symptom{What: "disk", Good: true, Says: "an entry is one when the disk has it"}
	}
	return symptom{What: "disk", Says: "git does not wait until the disk has an entry: a power cut may take the last ones", Mend: "blotter doctor --fix",
		fix: func(ctx context.Context) error { return hooks.WaitForDisk(ctx, d.repo) }}
}
