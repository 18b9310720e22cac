package gitrepo

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"strings"

	"blotter/ledger/history"
)

// commitProgram is Commit by the git program: git commit --only.
func (r *Repo) commitProgram(ctx context.Context, req CommitRequest, changes []pendingFile) (string, error) {
	added, err := r.announce(ctx, changes)
	if err != nil {
		return "", err
	}
	if err := r.commitOnly(ctx, req, changes); err != nil {
		// The index gets back what it did not have, whatever ctx says.
		if e := r.updateIndex(context.WithoutCancel(ctx), "--force-remove", added); e != nil {
			return "", fmt.Errorf("%w (and the new files stay staged: %v)", err, e)
		}
		return "", err
	}
	return r.Head(ctx)
}

// announce puts the new files among changes into the index, so that git
// knows them, and says which.
func (r *Repo) announce(ctx context.Context, changes []pendingFile) ([]string, error) {
	var fresh []string
	for _, f := range changes {
		if f.old == (rawSide{}) && f.now != (rawSide{}) {
			fresh = append(fresh, r.prefix+f.path)
		}
	}
	if len(fresh) == 0 {
		return nil, nil
	}
	tracked, err := r.trackedPaths(ctx)
	if err != nil {
		return nil, err
	}
	has := make(map[string]bool, len(tracked))
	for _, p := range tracked {
		has[r.prefix+p] = true
	}
	var added []string
	for _, p := range fresh {
		if !has[p] {
			added = append(added, p)
		}
	}
	return added, r.updateIndex(ctx, "--add", added)
}

// updateIndex runs git update-index on paths from the top.
func (r *Repo) updateIndex(ctx context.Context, how string, paths []string) error {
	if len(paths) == 0 {
		return nil
	}
	_, err := r.run(ctx, strings.NewReader(strings.Join(paths, "\x00")+"\x00"), "update-index", how, "-z", "--stdin")
	return err
}

func (r *Repo) commitOnly(ctx context.Context, req CommitRequest, changes []pendingFile) error {
	list, err := os.CreateTemp("", "blotter-paths-*")
	if err != nil {
		return fmt.Errorf("commit: %w", err)
	}
	defer os.Remove(list.Name())
	defer list.Close()
	for _, f := range changes {
		if _, err := io.WriteString(list, r.prefix+f.path+"\x00"); err != nil {
			return fmt.Errorf("commit: %w", err)
		}
	}
	cmd := r.command(ctx, identityEnv(req), "--literal-pathspecs", "-c", "i18n.commitEncoding=UTF-8",
		"commit", "--quiet", "--only", "--cleanup=verbatim", "--file=-", "--pathspec-from-file="+list.Name(), "--pathspec-file-nul")
	var text bytes.Buffer
	cmd.Stdin = strings.NewReader(req.Message)
	cmd.Stdout, cmd.Stderr = &text, &text
	if req.Says != nil {
		both := io.MultiWriter(&text, req.Says)
		cmd.Stdout, cmd.Stderr = both, both
	}
	err = cmd.Run()
	return failed(ctx, "commit", text.String(), err)
}

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
