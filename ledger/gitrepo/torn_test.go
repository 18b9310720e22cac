package gitrepo

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestMendTorn: what a power cut leaves empty is told, and mended as far as the
// files on disk and git's log of HEAD reach, with the git program and without.
func TestMendTorn(t *testing.T) {
	object := func(rev string) func(*testing.T, string) string {
		return func(t *testing.T, dir string) string {
			id := mustGit(t, dir, "rev-parse", rev)
			return filepath.Join(".git", "objects", id[:2], id[2:])
		}
	}
	plain := func(name string) func(*testing.T, string) string {
		return func(*testing.T, string) string { return filepath.FromSlash(name) }
	}
	for _, c := range []struct {
		name    string
		file    func(*testing.T, string) string
		content string
		torn    bool   // Torn sees it; otherwise only Damage
		tip     string // where HEAD leads after it
		written int
	}{
		{"index is empty", plain(".git/index"), "", true, "HEAD", 0},
		{"index ends in zeros", plain(".git/index"), "DIRC\x00\x00\x00\x02\x00\x00\x00\x01" + strings.Repeat("\x00", 40) + "x", false, "HEAD", 0},
		{"ref is empty", plain(".git/refs/heads/main"), "", true, "HEAD", 0},
		{"ref is of zero bytes", plain(".git/refs/heads/main"), strings.Repeat("\x00", 41), true, "HEAD", 0},
		{"commit is empty", object("HEAD"), "", true, "HEAD~1", 0},
		{"tree is empty", object("HEAD^{tree}"), "", false, "HEAD~1", 0},
		{"file is empty and lies on disk", object("HEAD:a"), "", false, "HEAD", 1},
		{"file is empty and was typed on since", object("HEAD:b"), "", false, "HEAD~1", 0},
	} {
		for _, path := range []string{os.Getenv("PATH"), ""} {
			name := c.name + ", with git"
			if path == "" {
				name = c.name + ", without"
			}
			t.Run(name, func(t *testing.T) {
				dir := t.TempDir()
				runScript(t, dir, "set -e; git init -q -b main; echo 1 >a; echo one >b; git add .; git commit -qm one; echo 2 >a; echo two >b; git commit -qam two; echo three >b")
				want := mustGit(t, dir, "rev-parse", c.tip)
				file := filepath.Join(dir, c.file(t, dir))
				os.Chmod(file, 0o666)
				if err := os.WriteFile(file, []byte(c.content), 0o666); err != nil {
					t.Fatal(err)
				}
				repo, err := Open(dir, append(testEnviron(t), "PATH="+path))
				if err != nil {
					t.Fatal(err)
				}
				defer repo.Close()
				ctx := context.Background()
				if got := repo.Torn(); (got != "") != c.torn {
					t.Errorf("torn: %q, want %v", got, c.torn)
				}
				if got, err := repo.Damage(ctx); err != nil || got == "" {
					t.Errorf("damage: %q, %v", got, err)
				}
				m, err := repo.Mend(ctx)
				if err != nil || m.To != want || m.Written != c.written {
					t.Fatalf("%+v, %v; want to lead to %s with %d written", m, err, want, c.written)
				}
				if got, err := repo.Damage(ctx); err != nil || got != "" {
					t.Errorf("damage after it: %q, %v", got, err)
				}
				if head, err := repo.Head(ctx); err != nil || head != want {
					t.Errorf("head is %s, %v; want %s", head, err, want)
				}
				mustGit(t, dir, "fsck", "--strict", "--no-dangling")
				status := " M b"
				if c.tip != "HEAD" {
					status = " M a\n M b"
				}
				if got := mustGit(t, dir, "status", "--porcelain"); got != status {
					t.Errorf("git status:\n%s\nwant\n%s", got, status)
				}
				for name, text := range map[string]string{"a": "2\n", "b": "three\n"} {
					if b, err := os.ReadFile(filepath.Join(dir, name)); err != nil || string(b) != text {
						t.Errorf("%s is %q, %v; want %q", name, b, err, text)
					}
				}
			})
		}
	}
}

// TestMendNothingWhole: where nothing whole is known, nothing is moved.
func TestMendNothingWhole(t *testing.T) {
	dir := t.TempDir()
	runScript(t, dir, "set -e; git init -q -b main; echo 1 >a; git add .; git commit -qm one; rm -r .git/logs; : >.git/refs/heads/main")
	repo, err := Open(dir, testEnviron(t))
	if err != nil {
		t.Fatal(err)
	}
	defer repo.Close()
	if _, err := repo.Head(context.Background()); !errors.Is(err, ErrTorn) {
		t.Errorf("head: %v, want ErrTorn: a new ledger would be begun in this one", err)
	}
	if _, err := repo.Mend(context.Background()); !errors.Is(err, ErrPastMending) {
		t.Errorf("mend: %v, want ErrPastMending", err)
	}
}
