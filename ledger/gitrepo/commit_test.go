package gitrepo

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"blotter/ledger/history"
)

// somebody enters at a fixed moment.
var somebody = history.Person{Name: "Tiril Aune", Email: "tiril@lauvkroken.example", When: time.Unix(1_700_000_000, 0).In(time.FixedZone("", 3600))}

// TestCommitSameID enters the same files with and without the git program
// and wants the same ids.
func TestCommitSameID(t *testing.T) {
	needGit(t)
	ctx := context.Background()
	var ids [2][]string
	for i, environ := range [][]string{testEnviron(t), nil} {
		dir := t.TempDir()
		r, err := Init(ctx, dir, environ)
		if err != nil {
			t.Fatal(err)
		}
		enter := func(message string, files map[string]string, paths ...string) {
			t.Helper()
			write(t, dir, files)
			id, err := r.Commit(ctx, CommitRequest{Paths: paths, Message: message, Author: somebody})
			if err != nil {
				t.Fatal(err)
			}
			ids[i] = append(ids[i], id)
		}
		enter("First", map[string]string{"blotter.yaml": "format: 1\n", "x": "other"}, "blotter.yaml")
		enter("Second\n\n# a line\n\nCorrects: LK7-1 why\n", map[string]string{"specimens/000/00/LK7-1.yaml": "a\n", "specimens/000/00/LK7-2.yaml": "b\n"}, "specimens/000/00/LK7-1.yaml", "specimens/000/00/LK7-2.yaml")
		enter("Third", map[string]string{"specimens/000/00/LK7-1.yaml": "c\n"}, "specimens/000/00/LK7-1.yaml")
		if got := mustGit(t, dir, "status", "--porcelain"); got != "?? x" {
			t.Errorf("status after commits: %q", got)
		}
		mustGit(t, dir, "fsck", "--strict")
		if diff := cmp.Diff(3, len(logOf(t, r, ids[i][2:], nil))); diff != "" {
			t.Error(diff)
		}
	}
	if diff := cmp.Diff(ids[0], ids[1]); diff != "" {
		t.Error(diff)
	}
}

// TestCommitKeepsTheRest enters one file among other work in progress: what
// else is staged stays staged, and a hook that refuses leaves all as it was.
func TestCommitKeepsTheRest(t *testing.T) {
	needGit(t)
	ctx := context.Background()
	const work = "put $B staged; git add $B; put $A 'on disk'; put $C new; put pages/x.md x; git add pages/x.md"
	places := map[string]struct{ script, at string }{
		"plain":     {"git init -q -b main; first; " + work, ""},
		"detached":  {"git init -q -b main; first; git checkout -q --detach; " + work, ""},
		"subfolder": {"git init -q -b main; mkdir -p 'my é'; put top x; cd 'my é'; first; " + work, "my é"},
		"worktree":  {"git init -q -b main m; cd m; first; git worktree add -q -b other ../w; cd ../w; " + work, "w"},
	}
	for name, place := range places {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			var ids []string
			for _, environ := range [][]string{testEnviron(t), nil} {
				dir := t.TempDir()
				runScript(t, dir, preamble+place.script)
				dir = filepath.Join(dir, place.at)
				r, err := Open(dir, environ)
				if err != nil {
					t.Fatal(err)
				}
				defer r.Close()
				req := CommitRequest{Paths: []string{"specimens/000/01/LK7-0000103.yaml", "specimens/000/00/LK7-0000001.yaml", "blotter.yaml"}, Message: "m", Author: somebody}
				before := mustGit(t, dir, "status", "--porcelain")
				if environ != nil {
					hook := mustGit(t, dir, "rev-parse", "--git-path", "hooks/pre-commit")
					if !filepath.IsAbs(hook) {
						hook = filepath.Join(dir, hook)
					}
					write(t, filepath.Dir(hook), map[string]string{"pre-commit": "#!/bin/sh\necho no >&2\nexit 1\n"})
					if err := os.Chmod(hook, 0o777); err != nil {
						t.Fatal(err)
					}
					var refused *ProgramError
					if _, err := r.Commit(ctx, req); !errors.As(err, &refused) || refused.Text != "no\n" {
						t.Errorf("refused by a hook: %v", err)
					}
					if diff := cmp.Diff(before, mustGit(t, dir, "status", "--porcelain")); diff != "" {
						t.Errorf("status after the refusal: %s", diff)
					}
					os.Remove(hook)
				}
				if err := os.Remove(filepath.Join(dir, "blotter.yaml")); err != nil {
					t.Fatal(err)
				}
				id, err := r.Commit(ctx, req)
				if err != nil {
					t.Fatal(err)
				}
				ids = append(ids, id)
				want := "M  specimens/000/00/LK7-0000002.yaml\nA  pages/x.md"
				got := mustGit(t, dir, "-c", "status.relativePaths=true", "status", "--porcelain=v1", "--short", ".")
				if got := strings.ReplaceAll(got, "\"my \\303\\251/", ""); sorted(got) != sorted(want) {
					t.Errorf("status after the commit:\n%s", got)
				}
				mustGit(t, dir, "fsck", "--strict")
				if _, err := r.Commit(ctx, req); !errors.Is(err, ErrNothing) {
					t.Errorf("the same again: %v", err)
				}
			}
			if ids[0] != ids[1] {
				t.Errorf("with git %s, without %s", ids[0], ids[1])
			}
		})
	}
}

// sorted puts lines in order.
func sorted(s string) string {
	lines := strings.Split(s, "\n")
	slices.Sort(lines)
	return strings.Join(lines, "\n")
}

// TestCommitFolders: a folder stands for its files only where neither HEAD nor
// the index had anything: what else lies in it, was staged for removal there
// or stands beside it stays as it is.
func TestCommitFolders(t *testing.T) {
	needGit(t)
	ctx := context.Background()
	dir := t.TempDir()
	r, err := Init(ctx, dir, testEnviron(t))
	if err != nil {
		t.Fatal(err)
	}
	write(t, dir, map[string]string{"old/a": "a", "gone/a": "a", "gone/b": "b"})
	mustGit(t, dir, "add", ".")
	mustGit(t, dir, "commit", "-q", "-m", "First")
	mustGit(t, dir, "rm", "-q", "--cached", "gone/a", "gone/b")
	write(t, dir, map[string]string{"old/a": "not entered", "old/b": "b", "new/a": "a", "new/b": "b", "new/other": "not entered", "new.txt": "not entered", "gone/c": "c", "newer/a": "a", "top": "t"})
	mustGit(t, dir, "add", "new.txt")
	paths := []string{"gone/c", "new/a", "new/b", "newer/a", "old/b", "top"}
	tracked, err := r.trackedPaths(ctx)
	if err != nil {
		t.Fatal(err)
	}
	changes, err := r.pending(ctx, paths)
	if err != nil {
		t.Fatal(err)
	}
	got, err := r.specs(ctx, changes, tracked)
	if diff := cmp.Diff([]string{"gone/c", "new", "newer", "old/b", "top"}, got); diff != "" || err != nil {
		t.Errorf("specs: %v %s", err, diff)
	}
	if _, err := r.Commit(ctx, CommitRequest{Paths: paths, Message: "Second", Author: somebody}); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Join(paths, "\n"), mustGit(t, dir, "show", "--format=", "--name-only", "HEAD")); diff != "" {
		t.Errorf("entered: %s", diff)
	}
	want := "D  gone/a\nD  gone/b\n M old/a\nA  new.txt\n?? gone/a\n?? gone/b\n?? new/other"
	if diff := cmp.Diff(sorted(want), sorted(mustGit(t, dir, "status", "--porcelain", "-uall"))); diff != "" {
		t.Errorf("status after: %s", diff)
	}
}
