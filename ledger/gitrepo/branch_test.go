package gitrepo

import (
	"context"
	"errors"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// publication holds files with awkward paths.
func publication(text string) Publication {
	return Publication{Branch: "site", Message: "Publish", Who: somebody, Files: func(put func(string, []byte) error) error {
		for _, p := range []string{"index.html", `"odd" é.html`, "a/b.html", "a.html", "a/c/d.html"} {
			if err := put(p, []byte(text+p+"\n")); err != nil {
				return err
			}
		}
		return nil
	}}
}

// TestPublishBranch publishes twice, with and without git: the branch holds
// one commit without a parent, the same in both.
func TestPublishBranch(t *testing.T) {
	needGit(t)
	ctx := context.Background()
	var ids [2][]string
	for i, environ := range [][]string{testEnviron(t), nil} {
		dir := t.TempDir()
		runScript(t, dir, preamble+"git init -q -b main; first")
		r, err := Open(dir, environ)
		if err != nil {
			t.Fatal(err)
		}
		for _, text := range []string{"one ", "two "} {
			id, err := r.PublishBranch(ctx, publication(text))
			if err != nil {
				t.Fatal(err)
			}
			ids[i] = append(ids[i], id)
		}
		if got := mustGit(t, dir, "rev-list", "--parents", "site"); got != ids[i][1] {
			t.Errorf("history of the branch: %s, want %s alone", got, ids[i][1])
		}
		want := "\"\\\"odd\\\" \\303\\251.html\"\na.html\na/b.html\na/c/d.html\nindex.html"
		if diff := cmp.Diff(want, mustGit(t, dir, "ls-tree", "-r", "--name-only", "site")); diff != "" {
			t.Error(diff)
		}
		if got := mustGit(t, dir, "show", "site:a/b.html"); got != "two a/b.html" {
			t.Errorf("a/b.html is %q", got)
		}
		if got := mustGit(t, dir, "for-each-ref", "--format=%(refname)"); got != "refs/heads/main\nrefs/heads/site" {
			t.Errorf("refs: %s", got)
		}
		if got := mustGit(t, dir, "status", "--porcelain"); got != "" {
			t.Errorf("status: %s", got)
		}
		p := publication("three ")
		p.Branch = "main"
		if _, err := r.PublishBranch(ctx, p); !errors.Is(err, ErrBranchInUse) {
			t.Errorf("on main: %v", err)
		}
		broken := errors.New("disk full")
		p = publication("four ")
		p.Files = func(put func(string, []byte) error) error { put("x", []byte("x")); return broken }
		if _, err := r.PublishBranch(ctx, p); !errors.Is(err, broken) {
			t.Errorf("broken off: %v", err)
		}
		if got := mustGit(t, dir, "rev-parse", "site"); got != ids[i][1] {
			t.Errorf("after a publication broken off the branch is at %s", got)
		}
		r.Close()
	}
	if diff := cmp.Diff(ids[0], ids[1]); diff != "" {
		t.Error(diff)
	}
}
