package gitrepo

import (
	"context"
	"fmt"

	git "github.com/go-git/go-git/v5"
	"github.com/go-git/go-git/v5/plumbing"
)

// Init makes dir, which must exist, a repository whose first branch is main,
// and opens it.
func Init(ctx context.Context, dir string, environ []string) (*Repo, error) {
	probe := &Repo{place: place{top: dir}, environ: environ, git: findProgram(environ)}
	if probe.git != "" {
		if _, err := probe.run(ctx, nil, "init", "--quiet", "--initial-branch=main"); err != nil {
			return nil, fmt.Errorf("init %s: %w", dir, err)
		}
		return Open(dir, environ)
	}
	_, err := git.PlainInitWithOptions(dir, &git.PlainInitOptions{
		InitOptions: git.InitOptions{DefaultBranch: plumbing.NewBranchReferenceName("main")},
	})
	if err != nil {
		return nil, fmt.Errorf("init %s: %v", dir, err)
	}
	return Open(dir, environ)
}
