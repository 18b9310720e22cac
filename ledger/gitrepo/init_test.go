package gitrepo

import (
	"context"
	"os"
	"path/filepath"
	"testing"
)

// TestInitWhole: what an init that was killed left beside the repository's
// place does not stop the next, which leaves nothing there; one that cannot be
// made leaves none at all, for half of one would count as a repository.
func TestInitWhole(t *testing.T) {
	for _, environ := range [][]string{os.Environ(), {"PATH="}} {
		initWhole(t, environ)
	}
}

func initWhole(t *testing.T, environ []string) {
	t.Helper()
	dir := t.TempDir()
	if err := os.MkdirAll(filepath.Join(dir, making, ".git", "objects"), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, making, ".git", "HEAD"), []byte("ref: ref"), 0o666); err != nil {
		t.Fatal(err)
	}
	r, err := Init(context.Background(), dir, environ)
	if err != nil {
		t.Fatal(err)
	}
	r.Close()
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) != 1 || entries[0].Name() != ".git" {
		t.Errorf("beside the repository stand %v (%v)", entries, err)
	}
	if r, err = Open(dir, environ); err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if name, err := r.Setting("core.bare"); err != nil || name != "false" {
		t.Errorf("core.bare is %q (%v)", name, err)
	}

	blocked := filepath.Join(t.TempDir(), "a file")
	if err := os.WriteFile(blocked, nil, 0o666); err != nil {
		t.Fatal(err)
	}
	if r, err := Init(context.Background(), filepath.Join(blocked, "below"), environ); err == nil {
		r.Close()
		t.Error("a repository was made below a file")
	}
}
