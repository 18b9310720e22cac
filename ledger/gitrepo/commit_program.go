package gitrepo

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"blotter/ledger/history"
)

// commitProgram is Commit by the git program: git commit --only.
func (r *Repo) commitProgram(ctx context.Context, req CommitRequest, changes []pendingFile, note *atWork) (string, error) {
	added, tracked, err := r.announce(ctx, changes)
	if err != nil {
		return "", err
	}
	paths, err := r.specs(ctx, changes, tracked)
	if err == nil {
		err = r.commitOnly(ctx, req, paths, note)
	}
	if err != nil && stopped(ctx, err) {
		return "", err // Commit mends what it left
	}
	if err != nil {
		// The index gets back what it did not have, whatever ctx says.
		if e := r.updateIndex(context.WithoutCancel(ctx), "--force-remove", added); e != nil {
			note.stays = true // for MendWork, by the next command
			return "", fmt.Errorf("%w (and the new files stay staged: %v)", err, e)
		}
		return "", err
	}
	return r.Head(ctx)
}

// stopped reports whether git did not end by itself.
func stopped(ctx context.Context, err error) bool {
	var e *ProgramError
	return ctx.Err() != nil || errors.As(err, &e) && e.Code == -1
}

// announce puts the new files among changes into the index, so that git
// knows them, and says which, and what the index had before; nil when there
// was no new file and nobody looked.
func (r *Repo) announce(ctx context.Context, changes []pendingFile) (added, tracked []string, err error) {
	var fresh []string
	for _, f := range changes {
		if f.old == (rawSide{}) && f.now != (rawSide{}) {
			fresh = append(fresh, r.prefix+f.path)
		}
	}
	if len(fresh) == 0 {
		return nil, nil, nil
	}
	if tracked, err = r.trackedPaths(ctx); err != nil {
		return nil, nil, err
	}
	has := make(map[string]bool, len(tracked))
	for _, p := range tracked {
		has[r.prefix+p] = true
	}
	for _, p := range fresh {
		if !has[p] {
			added = append(added, p)
		}
	}
	return added, tracked, r.updateIndex(ctx, "--add", added)
}

// specs are paths that name the files of changes to git and no other file: a
// folder where neither HEAD nor the index had anything before, tracked, stands
// for all of its files. Git holds every file of the index against every path
// that it is given, which for thousands of files takes seconds.
func (r *Repo) specs(ctx context.Context, changes []pendingFile, tracked []string) ([]string, error) {
	tree, err := r.headTree(ctx)
	if err != nil {
		return nil, err
	}
	head := newTreeCache(treeReader{r: r, ctx: ctx})
	fresh := func(dir string) (bool, error) {
		i, _ := slices.BinarySearch(tracked, dir+"/")
		if dir == "." || tracked == nil || i < len(tracked) && strings.HasPrefix(tracked[i], dir+"/") {
			return false, nil
		}
		_, there, err := head.descend(tree, dir)
		return !there, err
	}
	var out []string
	whole := map[string]bool{}
	for _, f := range changes {
		dir := path.Dir(f.path)
		is, seen := whole[dir]
		if !seen {
			if is, err = fresh(dir); err != nil {
				return nil, err
			}
			whole[dir] = is
		}
		switch {
		case !is:
			out = append(out, f.path)
		case !seen:
			out = append(out, dir)
		}
	}
	return out, nil
}

// updateIndex runs git update-index on paths from the top.
func (r *Repo) updateIndex(ctx context.Context, how string, paths []string) error {
	if len(paths) == 0 {
		return nil
	}
	_, err := r.run(ctx, strings.NewReader(strings.Join(paths, "\x00")+"\x00"), "update-index", how, "-z", "--stdin")
	return err
}

func (r *Repo) commitOnly(ctx context.Context, req CommitRequest, specs []string, note *atWork) error {
	dir, err := os.MkdirTemp("", "blotter-entry-*")
	if err != nil {
		return fmt.Errorf("commit: %w", err)
	}
	defer os.RemoveAll(dir)
	list, message := filepath.Join(dir, "paths"), filepath.Join(dir, "message")
	var names strings.Builder
	for _, spec := range specs {
		names.WriteString(r.prefix + spec + "\x00")
	}
	if err := cmp.Or(os.WriteFile(list, []byte(names.String()), 0o600), os.WriteFile(message, []byte(req.Message), 0o600)); err != nil {
		return fmt.Errorf("commit: %w", err)
	}
	cmd := r.command(ctx, append(identityEnv(req), EnteringVariable+"="+message), "--literal-pathspecs", "-c", "i18n.commitEncoding=UTF-8",
		"commit", "--quiet", "--only", "--cleanup=verbatim", "--file="+message, "--pathspec-from-file="+list, "--pathspec-file-nul")
	var text bytes.Buffer
	cmd.Stdout, cmd.Stderr = &text, &text
	if req.Says != nil {
		both := io.MultiWriter(&text, req.Says)
		cmd.Stdout, cmd.Stderr = both, both
	}
	return r.runNoted(ctx, note, "commit", cmd, &text)
}

// EnteringVariable is set for the hooks that run while a command of ours makes
// a commit: the path of a file with its message. The hook before the commit
// judges the files by it and the message itself; the hook of the message then
// only has to see that it still is the same.
const EnteringVariable = "BLOTTER_ENTERING"

// identityEnv passes the author and the committer to git.
func identityEnv(req CommitRequest) []string {
	var env []string
	for _, p := range []struct {
		role string
		who  history.Person
	}{{"AUTHOR", req.Author}, {"COMMITTER", req.Committer}} {
		env = append(env, "GIT_"+p.role+"_NAME="+p.who.Name, "GIT_"+p.role+"_EMAIL="+p.who.Email,
			fmt.Sprintf("GIT_%s_DATE=@%d %s", p.role, p.who.When.Unix(), zoneText(p.who.When)))
	}
	return env
}
