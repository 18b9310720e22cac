package hooks

import (
	"context"
	"fmt"

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
	return err == nil && said != "" && said != "none"
}

// WaitForDisk tells git that an entry is one when the disk has it; by itself it
// leaves new objects to the system, and after a power cut they are there and
// empty (git-config(1), core.fsync). Where a person said otherwise that stays.
func WaitForDisk(ctx context.Context, r *gitrepo.Repo) error {
	if WaitsForDisk(r) {
		return nil
	}
	if err := r.SetSetting(ctx, "core.fsync", "all"); err != nil {
		return err
	}
	return r.SetSetting(ctx, "core.fsyncMethod", "batch") // one wait for many new files
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
