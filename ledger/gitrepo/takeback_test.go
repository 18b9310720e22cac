package gitrepo

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"blotter/ledger/history"
)

// TestTakeBack enters two revisions, stages something else, takes the last
// one back, with the git program and without, and asks git how things stand.
func TestTakeBack(t *testing.T) {
	needGit(t)
	for _, native := range []bool{false, true} {
		dir := t.TempDir()
		env := testEnviron(t)
		if native {
			env = slices.DeleteFunc(env, func(s string) bool { return strings.HasPrefix(s, "PATH=") })
		}
		mustGit(t, dir, "init", "-q")
		r, err := Open(dir, env)
		if err != nil {
			t.Fatal(err)
		}
		ctx := context.Background()
		who := history.Person{Name: "Tiril Aune", Email: "tiril@lauvkroken.example", When: time.Unix(1700000000, 0).UTC()}
		enter := func(files map[string]string) string {
			write(t, dir, files)
			var paths []string
			for p := range files {
				paths = append(paths, p)
			}
			id, err := r.Commit(ctx, CommitRequest{Paths: paths, Message: "entry", Author: who})
			if err != nil {
				t.Fatal(err)
			}
			return id
		}
		first := enter(map[string]string{"a/one.yaml": "1\n", "b.yaml": "b\n"})
		second := enter(map[string]string{"a/one.yaml": "2\n", "a/two.yaml": "new\n"})
		write(t, dir, map[string]string{"c.yaml": "staged\n"})
		mustGit(t, dir, "add", "c.yaml")
		if err := r.TakeBack(ctx, first, 1); err == nil {
			t.Error("took back a commit that is not HEAD")
		}
		if err := r.TakeBack(ctx, second, 1); err != nil {
			t.Fatalf("native %v: %v", native, err)
		}
		if head := mustGit(t, dir, "rev-parse", "HEAD"); head != first {
			t.Errorf("native %v: HEAD is %s, want %s", native, head, first)
		}
		want := " M a/one.yaml\nA  c.yaml\n?? a/two.yaml"
		if got := mustGit(t, dir, "status", "--porcelain"); got != want {
			t.Errorf("native %v: status\n%s\nwant\n%s", native, got, want)
		}
		again := enter(map[string]string{"a/one.yaml": "2\n"})
		last := enter(map[string]string{"a/one.yaml": "3\n", "b.yaml": "other\n"})
		if err := r.TakeBack(ctx, last, 3); !errors.Is(err, ErrFirst) {
			t.Errorf("native %v: took back more than there is: %v", native, err)
		}
		if err := r.TakeBack(ctx, last, 2); err != nil {
			t.Fatalf("native %v: %v", native, err)
		}
		if head := mustGit(t, dir, "rev-parse", "HEAD"); head != first || again == first {
			t.Errorf("native %v: two taken back, HEAD is %s, want %s", native, head, first)
		}
		if got, want := mustGit(t, dir, "status", "--porcelain"), " M a/one.yaml\n M b.yaml\nA  c.yaml\n?? a/two.yaml"; got != want {
			t.Errorf("native %v: status\n%s\nwant\n%s", native, got, want)
		}
		if err := r.TakeBack(ctx, first, 1); !errors.Is(err, ErrFirst) {
			t.Errorf("native %v: took back the first commit: %v", native, err)
		}
	}
}
