package gitrepo

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"blotter/ledger/history"
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
		note := repo.announceWork(nil)
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

// TestMadeAllTheSame: git is killed and we are not. Its locks go; after the
// branch moved the entry counts as made, and the index is as it should be.
func TestMadeAllTheSame(t *testing.T) {
	needGit(t)
	if filepath.Separator == '\\' {
		t.Skip("the hook of this test is a shell line")
	}
	dir, env := t.TempDir(), testEnviron(t)
	mustGit(t, dir, "init", "-q")
	repo, err := Open(dir, env)
	if err != nil {
		t.Fatal(err)
	}
	defer repo.Close()
	ctx := context.Background()
	who := history.Person{Name: "Tiril Aune", Email: "tiril@lauvkroken.example", When: time.Unix(1700000000, 0).UTC()}
	enter := func(text string) (string, error) {
		write(t, dir, map[string]string{"a.yaml": text})
		return repo.Commit(ctx, CommitRequest{Paths: []string{"a.yaml"}, Message: "entry " + text, Author: who})
	}
	if _, err := enter("one\n"); err != nil {
		t.Fatal(err)
	}
	hook := filepath.Join(dir, ".git", "hooks", "reference-transaction")
	for _, c := range []struct {
		state, text string
		made        bool
	}{{"prepared", "two\n", false}, {"committed", "three\n", true}} {
		if err := os.WriteFile(hook, []byte("#!/bin/sh\n[ \"$1\" = "+c.state+" ] && kill -9 $PPID\nexit 0\n"), 0o777); err != nil {
			t.Fatal(err)
		}
		before := mustGit(t, dir, "rev-parse", "HEAD")
		id, err := enter(c.text)
		if now := mustGit(t, dir, "rev-parse", "HEAD"); (now != before) != c.made || (err == nil) != c.made || c.made && strings.TrimSpace(now) != id {
			t.Fatalf("killed when %s: HEAD %s, was %s; said %s, %v", c.state, now, before, id, err)
		}
		if err := os.Remove(hook); err != nil {
			t.Fatal(err)
		}
		if left, _ := filepath.Glob(filepath.Join(dir, ".git", "*.lock")); len(left) > 0 || repo.WorkBrokenOff() {
			t.Errorf("killed when %s: left are %v, and the note: %v", c.state, left, repo.WorkBrokenOff())
		}
		if status := mustGit(t, dir, "status", "--porcelain"); (status == "") != c.made {
			t.Errorf("killed when %s: %q", c.state, status)
		}
	}
}
