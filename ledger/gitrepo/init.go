package gitrepo

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	git "github.com/go-git/go-git/v5"
	"github.com/go-git/go-git/v5/plumbing"

	"blotter/ledger/disk"
)

// Init makes dir, which must exist, a repository whose first branch is main,
// and opens it.
func Init(ctx context.Context, dir string, environ []string) (*Repo, error) {
	probe := &Repo{place: place{top: dir}, environ: environ, git: findProgram(environ), names: &names{}}
	if probe.git != "" {
		if _, err := probe.run(ctx, nil, "init", "--quiet", "--initial-branch=main"); err != nil {
			return nil, fmt.Errorf("init %s: %w", dir, err)
		}
		return opened(dir, environ)
	}
	if err := initNative(dir); err != nil {
		return nil, fmt.Errorf("init %s: %v", dir, err)
	}
	return opened(dir, environ)
}

// making is the folder, beside its place, in which a repository is made without
// the git program.
const making = ".blotter-init.tmp"

// initNative makes a repository by go-git, whole or not at all: half of one can
// neither be opened nor begun anew.
func initNative(dir string) error {
	options := &git.PlainInitOptions{InitOptions: git.InitOptions{DefaultBranch: plumbing.NewBranchReferenceName("main")}}
	place := filepath.Join(dir, git.GitDirName)
	if _, err := os.Lstat(place); !errors.Is(err, fs.ErrNotExist) { // a git that was killed began it
		_, err := git.PlainInitWithOptions(dir, options)
		return err
	}
	temp := filepath.Join(dir, making)
	if err := os.RemoveAll(temp); err != nil { // of one that was killed
		return err
	}
	defer os.RemoveAll(temp)
	if _, err := git.PlainInitWithOptions(temp, options); err != nil {
		return err
	}
	return os.Rename(filepath.Join(temp, git.GitDirName), place)
}

// opened opens a repository that was made a moment ago, when the disk has it:
// git does not wait for the few files without which it is none.
func opened(dir string, environ []string) (*Repo, error) {
	r, err := Open(dir, environ)
	if err != nil {
		return nil, err
	}
	if err := disk.KeepBelow(r.common); err != nil {
		return nil, fmt.Errorf("init %s: %w", dir, err)
	}
	return r, disk.Keep(dir, filepath.Dir(dir))
}
