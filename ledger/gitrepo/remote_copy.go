package gitrepo

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
)

// Copy makes the missing or empty folder dir a copy of the ledger at address,
// known as origin, with the files of its last revision. Broken off it may
// leave something in dir: the caller makes it under another name. The error is
// ErrNoCommits for a copy that is empty, a *ReachError when git could not do
// it.
func Copy(ctx context.Context, address, dir string, environ []string, asks bool) (*Repo, error) {
	probe := &Repo{place: place{top: filepath.Dir(dir)}, environ: environ, git: findProgram(environ)}
	probe.settings = func() (settings, error) { return nil, nil }
	// Not by links to the other copy's objects: a fault of its disk would be ours.
	_, err := probe.reach(ctx, asks, nil, "clone", "--quiet", "--no-local", "--origin", "origin", "--", address, dir)
	if err != nil {
		return nil, fmt.Errorf("copy %s: %w", address, err)
	}
	r, err := Open(dir, environ)
	if err != nil {
		return nil, err
	}
	if _, err = r.Head(ctx); errors.Is(err, ErrNoCommits) {
		err = r.takeBranch(ctx, address)
	}
	if err != nil {
		r.Close()
		return nil, err
	}
	return r, nil
}

// takeBranch is for a copy whose own HEAD leads nowhere: the branch that goes
// with it is taken.
func (r *Repo) takeBranch(ctx context.Context, address string) error {
	branch, id, err := r.TipOf(ctx, Other{Name: "origin", Address: address})
	if err != nil {
		return err
	}
	if id == "" {
		return fmt.Errorf("copy %s: %w", address, ErrNoCommits)
	}
	if _, err := r.run(ctx, nil, "checkout", "--quiet", branch); err != nil {
		return err
	}
	r.pool.drop()
	return nil
}

// NewServer makes the missing or empty folder dir a bare repository of the
// same kind as r, in which nobody works: what is sent to it is for a group of
// people. It opens it with the ledger in the same folder as in r.
func (r *Repo) NewServer(ctx context.Context, dir, branch string) (*Repo, error) {
	args := []string{"init", "--quiet", "--bare", "--shared=group", "--initial-branch=" + branch}
	if r.width == 32 {
		args = append(args, "--object-format=sha256")
	}
	probe := &Repo{place: place{top: filepath.Dir(dir)}, environ: r.environ, git: r.git}
	if _, err := probe.run(ctx, nil, append(args, "--", dir)...); err != nil {
		return nil, fmt.Errorf("make %s: %w", dir, reachError(err))
	}
	server, err := Open(dir, r.environ)
	if err != nil {
		return nil, err
	}
	return server.In(r.prefix), nil
}

// Standing is what a folder is to git.
type Standing int

// What a folder can be.
const (
	NoRepository Standing = iota
	Server                // a bare repository
	WorkedIn              // the top of a work tree
	Inside                // a folder in a work tree
)

// StandingOf looks what a folder is, and gives the folder of the repository.
func StandingOf(dir string) (Standing, string) {
	real, err := filepath.EvalSymlinks(dir)
	if err != nil {
		return NoRepository, ""
	}
	if isGitDir(real) {
		return Server, dir
	}
	if _, err := os.Lstat(filepath.Join(real, ".git")); err == nil {
		return WorkedIn, dir
	}
	where, err := discover(real)
	if err != nil || where.top == "" {
		return NoRepository, ""
	}
	return Inside, where.top
}

// LedgerFolder finds where the ledger lies in a commit: the folder nearest to
// the top that holds a file of this name, "" or a path that ends in a slash.
func (r *Repo) LedgerFolder(ctx context.Context, id, name string) (folder string, found bool, err error) {
	whole := r.In("")
	root, err := whole.rootTree(ctx, id)
	if err != nil {
		return "", false, err
	}
	t := treeReader{r: whole, ctx: ctx}
	if e, ok, err := t.descend(root, name); err != nil || ok && e.isFile() {
		return "", err == nil, err
	}
	err = t.walk(root, "", func(p string, e entry) error {
		if dir, ok := strings.CutSuffix(p, "/"+name); ok && (!found || strings.Count(dir, "/")+1 < strings.Count(folder, "/")) {
			folder, found = dir+"/", true
		}
		return ctx.Err()
	})
	return folder, found, err
}

// SendWhole gives a folder that NewServer made a moment ago this copy's branch
// and tags.
func (r *Repo) SendWhole(ctx context.Context, dir, branch string) error {
	_, err := r.reach(ctx, false, []string{JudgedVariable + "=all"}, "push", "--quiet", "--no-recurse-submodules", dir, "refs/heads/"+branch, "refs/tags/*:refs/tags/*")
	return err
}

// WriteShared writes a branch and the tags, with all that they lead to, into
// a bundle whose HEAD is the branch.
func (r *Repo) WriteShared(ctx context.Context, w io.Writer, branch string) error {
	return r.bundleTo(ctx, w, []string{"-c", "pack.threads=1", "bundle", "create", "-", "HEAD", "refs/heads/" + branch, "--tags"})
}
