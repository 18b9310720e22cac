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

// making is the folder, beside its place, in which a repository is made.
const making = ".blotter-init.tmp"

// Init makes dir, which must exist, a repository whose first branch is main,
// and opens it. It comes whole or not at all: half of one, or one with the
// locks of a git that was killed, could neither be opened nor begun anew.
func Init(ctx context.Context, dir string, environ []string) (*Repo, error) {
	stands := filepath.Join(dir, git.GitDirName)
	if _, err := os.Lstat(stands); !errors.Is(err, fs.ErrNotExist) { // another program began it
		if err := initIn(ctx, dir, environ); err != nil {
			return nil, fmt.Errorf("init %s: %w", dir, err)
		}
		return opened(dir, environ)
	}
	temp := filepath.Join(dir, making)
	err := os.RemoveAll(temp) // of one that was killed
	if err == nil {
		err = os.Mkdir(temp, 0o777)
	}
	defer os.RemoveAll(temp)
	if err == nil {
		err = initIn(ctx, temp, environ)
	}
	if err == nil {
		err = os.Rename(filepath.Join(temp, git.GitDirName), stands)
	}
	if err != nil {
		return nil, fmt.Errorf("init %s: %w", dir, err)
	}
	return opened(dir, environ)
}

// initIn makes a repository by the git program, or without it.
func initIn(ctx context.Context, dir string, environ []string) error {
	probe := &Repo{place: place{top: dir}, environ: environ, git: findProgram(environ), names: &names{}}
	if probe.git != "" {
		_, err := probe.run(ctx, nil, "init", "--quiet", "--initial-branch=main")
		return err
	}
	_, err := git.PlainInitWithOptions(dir, &git.PlainInitOptions{
		InitOptions: git.InitOptions{DefaultBranch: plumbing.NewBranchReferenceName("main")},
	})
	return err
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
