package gitrepo

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/go-git/go-git/v5/plumbing"

	"blotter/ledger/history"
)

// ErrBranchInUse is returned by PublishBranch for a branch that some work
// tree has checked out.
var ErrBranchInUse = errors.New("this branch is checked out")

// ErrMoved is returned when a branch was moved by somebody else meanwhile.
var ErrMoved = errors.New("the branch was moved by somebody else meanwhile")

// Publication is one whole content of a branch.
type Publication struct {
	Branch  string // for example "site"
	Message string
	Who     history.Person // author and committer, with the moment
	// Files calls put for every file, once each, with forward slashes.
	Files func(put func(path string, data []byte) error) error
}

// PublishBranch makes a branch hold exactly the files of p as one commit
// without a parent, and returns its id. Nothing is checked out, and what the
// branch held before is in no history. The branch moves last, and only if it
// is still where it was at the beginning; until then nothing has changed.
func (r *Repo) PublishBranch(ctx context.Context, p Publication) (string, error) {
	ref := plumbing.NewBranchReferenceName(p.Branch)
	if err := ref.Validate(); err != nil || p.Branch == "" {
		return "", fmt.Errorf("publish on branch %q: this cannot be the name of a branch", p.Branch)
	}
	if r.checkedOut(p.Branch) {
		return "", fmt.Errorf("publish on branch %q: %w", p.Branch, ErrBranchInUse)
	}
	old, err := r.Resolve(ctx, ref.String())
	if err != nil && !errors.Is(err, ErrNoRevision) {
		return "", err
	}
	p.Message = strings.TrimRight(p.Message, "\n") + "\n"
	p.Who.Name, p.Who.Email = cleanIdentity(p.Who.Name), cleanIdentity(p.Who.Email)
	defer r.pool.drop()
	var id string
	if r.git != "" {
		id, err = r.publishProgram(ctx, p, ref.String(), old)
	} else {
		id, err = r.publishNative(ctx, p, ref, old)
	}
	if err != nil {
		return "", fmt.Errorf("publish on branch %q: %w", p.Branch, err)
	}
	return id, nil
}

// checkedOut reports whether HEAD of any work tree is on the branch.
func (r *Repo) checkedOut(branch string) bool {
	heads, _ := filepath.Glob(filepath.Join(r.common, "worktrees", "*", "HEAD"))
	for _, f := range append(heads, filepath.Join(r.gitDir, "HEAD"), filepath.Join(r.common, "HEAD")) {
		b, err := os.ReadFile(f)
		if err == nil && strings.TrimSpace(string(b)) == "ref: refs/heads/"+branch && (!r.Bare() || f != filepath.Join(r.common, "HEAD")) {
			return true
		}
	}
	return false
}

// publishNative writes loose objects through go-git.
func (r *Repo) publishNative(ctx context.Context, p Publication, ref plumbing.ReferenceName, old string) (string, error) {
	store := r.storage()
	defer store.ObjectStorage.Close()
	var ups []treeUpdate
	err := p.Files(func(path string, data []byte) error {
		if err := errors.Join(ctx.Err(), validPath(path)); err != nil {
			return err
		}
		id, err := writeObject(store, plumbing.BlobObject, data)
		ups = append(ups, treeUpdate{path, modeFile, id})
		return err
	})
	if err != nil {
		return "", err
	}
	tree, err := treeWriter{storeTrees{treeReader{r: r, ctx: ctx}, store}}.update("", ups)
	if err == nil && tree == "" {
		tree, err = writeObject(store, plumbing.TreeObject, nil)
	}
	if err != nil {
		return "", err
	}
	raw, err := writeObject(store, plumbing.CommitObject, commitBody(tree, nil, p.Who, p.Who, p.Message))
	if err != nil {
		return "", err
	}
	id := entry{id: raw}.hex()
	return id, r.moveRef(ref, old, id)
}

func validPath(path string) error {
	if !fs.ValidPath(path) || path == "." || strings.ContainsAny(path, "\x00\n") {
		return fmt.Errorf("%q cannot be the path of a file", path)
	}
	return nil
}

// publishRef is where fast-import leaves the commit until the branch moves.
const publishRef = "refs/blotter/publish"

// publishProgram streams the files to git fast-import, which makes one pack
// of them.
func (r *Repo) publishProgram(ctx context.Context, p Publication, ref, old string) (string, error) {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	cmd := r.command(ctx, nil, "fast-import", "--quiet", "--force", "--done")
	var text bytes.Buffer
	cmd.Stderr = &text
	in, err := cmd.StdinPipe()
	if err != nil {
		return "", err
	}
	if err := cmd.Start(); err != nil {
		return "", err
	}
	w := bufio.NewWriterSize(in, 1<<18)
	err = writeImport(w, p)
	if err == nil {
		err = w.Flush()
	}
	var pipe *fs.PathError
	if err != nil && !errors.As(err, &pipe) {
		cancel() // the files are at fault, not git: it must not end as if all were there
	}
	in.Close()
	if e := cmd.Wait(); err == nil || errors.As(err, &pipe) {
		err = failed(ctx, "fast-import", text.String(), e)
	}
	if err != nil {
		return "", err
	}
	id, err := r.Resolve(ctx, publishRef)
	if err != nil {
		return "", err
	}
	if old == "" {
		old = strings.Repeat("0", 2*r.width)
	}
	_, err = r.run(ctx, nil, "update-ref", "-m", "publish", ref, id, old)
	if _, e := r.run(ctx, nil, "update-ref", "-d", publishRef); err == nil {
		err = e
	} else {
		err = fmt.Errorf("%w: %w", ErrMoved, err)
	}
	return id, err
}

// writeImport writes p in the form of git-fast-import(1).
func writeImport(w io.Writer, p Publication) error {
	line := personLine(p.Who)
	if _, err := fmt.Fprintf(w, "reset %s\ncommit %s\nauthor %s\ncommitter %s\ndata %d\n%s\ndeleteall\n", publishRef, publishRef, line, line, len(p.Message), p.Message); err != nil {
		return err
	}
	err := p.Files(func(path string, data []byte) error {
		if err := validPath(path); err != nil {
			return err
		}
		if strings.HasPrefix(path, `"`) {
			path = `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(path) + `"`
		}
		if _, err := fmt.Fprintf(w, "M 100644 inline %s\ndata %d\n", path, len(data)); err != nil {
			return err
		}
		if _, err := w.Write(data); err != nil {
			return err
		}
		_, err := io.WriteString(w, "\n")
		return err
	})
	if err == nil {
		_, err = io.WriteString(w, "done\n")
	}
	return err
}
