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
	made := filepath.Join(dir, git.GitDirName)
	_, before := os.Lstat(made)
	_, err := git.PlainInitWithOptions(dir, &git.PlainInitOptions{
		InitOptions: git.InitOptions{DefaultBranch: plumbing.NewBranchReferenceName("main")},
	})
	if err != nil {
		if errors.Is(before, fs.ErrNotExist) {
			os.RemoveAll(made) // half of one can neither be opened nor begun anew
		}
		return nil, fmt.Errorf("init %s: %v", dir, err)
	}
	return opened(dir, environ)
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
