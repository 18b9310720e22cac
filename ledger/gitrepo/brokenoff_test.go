package gitrepo

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// TestDeadLocks: of git's locks those that a commit of ours left are removed,
// and those of another git are left, however long nobody looked.
func TestDeadLocks(t *testing.T) {
	dir := t.TempDir()
	repo, err := Init(context.Background(), dir, os.Environ())
	if err != nil {
		t.Fatal(err)
	}
	defer repo.Close()
	lock := repo.index + ".lock"
	for _, c := range []struct {
		name  string
		after time.Duration // from the note to the lock
		stays bool
	}{
		{"at once: our git's", 0, false},
		{"some seconds after: our git's, which had much to write", 10 * time.Second, false},
		{"long before: another git's, which was there first", -time.Hour, true},
		{"long after: another git's, which came later", time.Hour, true},
	} {
		noted := time.Now().Add(-2 * time.Hour)
		note, _ := repo.announceWork(nil)
		note.PID = 1 << 30 // no process has it
		repo.writeWork(note)
		for file, at := range map[string]time.Time{repo.atWorkFile(): noted, lock: noted.Add(c.after)} {
			if file == lock {
				if err := os.WriteFile(lock, nil, 0o666); err != nil {
					t.Fatal(err)
				}
			}
			if err := os.Chtimes(file, at, at); err != nil {
				t.Fatal(err)
			}
		}
		if !repo.WorkBrokenOff() {
			t.Errorf("%s: the note is not seen", c.name)
		}
		if err := repo.MendWork(context.Background(), time.Second); err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		if _, err := os.Lstat(lock); (err == nil) != c.stays {
			t.Errorf("%s: the lock stays: %v, want %v", c.name, err == nil, c.stays)
		}
		if repo.WorkBrokenOff() {
			t.Errorf("%s: the note is still there", c.name)
		}
		os.Remove(lock)
	}
}

// TestIndexAfterBreak: files that were staged by a commit that was broken off
// are not staged any more, on either back end, and what somebody else staged
// stays.
func TestIndexAfterBreak(t *testing.T) {
	for _, environ := range [][]string{os.Environ(), {"PATH="}} {
		dir := t.TempDir()
		repo, err := Init(context.Background(), dir, os.Environ())
		if err != nil {
			t.Fatal(err)
		}
		if repo.git == "" {
			t.Skip("git is missing: the files are staged by it")
		}
		for _, name := range []string{"ours.yaml", "theirs.yaml"} {
			if err := os.WriteFile(filepath.Join(dir, name), []byte(name+"\n"), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		if err := repo.updateIndex(context.Background(), "--add", []string{"ours.yaml", "theirs.yaml"}); err != nil {
			t.Fatal(err)
		}
		repo.announceWork([]string{"ours.yaml"})
		repo.Close()
		if repo, err = Open(dir, environ); err != nil {
			t.Fatal(err)
		}
		if err := repo.MendWork(context.Background(), time.Second); err != nil {
			t.Fatal(err)
		}
		staged, err := repo.Staged(context.Background())
		if err != nil || len(staged) != 1 || staged[0].Path != "theirs.yaml" {
			t.Errorf("PATH %q: staged are %v, %v; want theirs.yaml alone", getenv(environ, "PATH"), staged, err)
		}
		repo.Close()
	}
}
