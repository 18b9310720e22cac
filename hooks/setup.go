package hooks

import (
	"context"
	"fmt"
	"runtime"

	"blotter/ledger/gitrepo"
)

// Settings of the repository that hooks read.
const (
	settingLedger  = "blotter.ledger"  // where the ledger lies below the top; "." for the top itself
	settingProgram = "blotter.program" // absolute path of the program
	settingMerge   = "merge.blotter.driver"
	settingMergeAs = "merge.blotter.name"
)

// FolderOf is where the hooks of a repository stand.
func FolderOf(r *gitrepo.Repo) (Folder, error) {
	dir, err := r.HooksDir()
	if err != nil {
		return Folder{}, err
	}
	return Folder{Dir: dir, Server: r.Bare()}, nil
}

// Setup installs the hooks of a repository and the settings that they and the
// merging of records need. running is the path of the running program. Doing
// it twice changes nothing.
func Setup(ctx context.Context, r *gitrepo.Repo, running string) error {
	folder, err := FolderOf(r)
	if err != nil {
		return err
	}
	program, err := Program(running, r.CommonDir())
	if err != nil {
		return err
	}
	ledgerAt := r.Prefix()
	if ledgerAt == "" {
		ledgerAt = "."
	}
	for _, s := range [][2]string{
		{settingLedger, ledgerAt},
		{settingProgram, program},
		{settingMergeAs, "field by field"},
		{settingMerge, shellQuote(program) + " hooks run merge %O %A %B %P"},
	} {
		if err := r.SetSetting(ctx, s[0], s[1]); err != nil {
			return fmt.Errorf("set up hooks: %w", err)
		}
	}
	if err := WaitForDisk(ctx, r); err != nil {
		return fmt.Errorf("set up hooks: %w", err)
	}
	return Install(folder)
}

// WaitsForDisk reports whether git was told to.
func WaitsForDisk(r *gitrepo.Repo) bool {
	said, err := r.Setting("core.fsync")
	if err != nil || said == "" || said == "none" {
		return false
	}
	method, err := r.Setting("core.fsyncmethod")
	return err == nil && (method != batch || batchWaits)
}

// batch is git's way of one wait for many new objects. Git vouches for it on
// macOS and Windows (git-config(1), core.fsyncMethod); on Linux it relies on
// sync_file_range(2), which says of itself that after a crash nothing may be
// there.
const (
	batch      = "batch"
	batchWaits = runtime.GOOS == "darwin" || runtime.GOOS == "windows"
)

// WaitForDisk tells git that an entry is one when the disk has it; by itself it
// leaves new objects to the system, and after a power cut they are there and
// empty (git-config(1), core.fsync). Where a person said otherwise that stays.
func WaitForDisk(ctx context.Context, r *gitrepo.Repo) error {
	if WaitsForDisk(r) {
		return nil
	}
	if said, err := r.Setting("core.fsync"); err != nil || said == "" || said == "none" {
		if err := r.SetSetting(ctx, "core.fsync", "all"); err != nil {
			return err
		}
	}
	method := ""
	if batchWaits {
		method = batch
	}
	return r.SetSetting(ctx, "core.fsyncMethod", method)
}

// TakeDown removes what Setup brought.
func TakeDown(ctx context.Context, r *gitrepo.Repo) error {
	folder, err := FolderOf(r)
	if err != nil {
		return err
	}
	if err := Remove(folder); err != nil {
		return err
	}
	for _, key := range []string{settingLedger, settingProgram, settingMerge, settingMergeAs} {
		if err := r.SetSetting(ctx, key, ""); err != nil {
			return err
		}
	}
	return nil
}

// Stands reports whether the hooks of a repository and their settings are as
// Setup leaves them.
func Stands(r *gitrepo.Repo) bool {
	folder, err := FolderOf(r)
	if err != nil || !Installed(folder) {
		return false
	}
	at, err := r.Setting(settingLedger)
	return err == nil && at != ""
}
