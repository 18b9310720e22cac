package gitrepo

import (
	"context"
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
