package gitrepo

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"blotter/ledger/history"
)

// TestIndexIsAsCommitted: git commit --only reads a file for the index and
// again for the commit; when somebody saves it in between (here a filter that
// gives other words each time), the index still holds what was committed.
func TestIndexIsAsCommitted(t *testing.T) {
	needGit(t)
	if filepath.Separator != '/' {
		t.Skip("the filter is a line of the shell")
	}
	dir := t.TempDir()
	mustGit(t, dir, "init", "-q")
	mustGit(t, dir, "config", "filter.saved.clean", "cat; echo again >> .git/times; wc -l < .git/times")
	for name, text := range map[string]string{".gitattributes": "one.yaml filter=saved\n", "one.yaml": "a\n", "two.yaml": "b\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	repo, err := Open(dir, os.Environ())
	if err != nil {
		t.Fatal(err)
	}
	defer repo.Close()
	who := history.Person{Name: "Tiril Aune", Email: "tiril@lauvkroken.example", When: time.Unix(1_790_000_000, 0)}
	paths := []string{".gitattributes", "one.yaml", "two.yaml"}
	if _, err := repo.Commit(context.Background(), CommitRequest{Paths: paths, Message: "One\n", Author: who, Committer: who}); err != nil {
		t.Fatal(err)
	}
	if times, err := os.ReadFile(filepath.Join(dir, ".git", "times")); err != nil || len(times) < 2*len("again\n") {
		t.Fatalf("git read the file once only: %q, %v", times, err)
	}
	staged, err := repo.Staged(context.Background())
	if err != nil || len(staged) > 0 {
		t.Errorf("after the commit %v still waits in the index (%v)", staged, err)
	}
}
