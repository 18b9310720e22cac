package main

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// TestReadmeTour types the tours of the README, one after the other in one
// ledger, and compares what is printed.
// In the README ... stands for any words up to the end of what a command
// printed, or any lines up to the next that is given.
func TestReadmeTour(t *testing.T) {
	t.Parallel()
	if _, err := exec.LookPath("git"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("git is missing and CI=true")
		}
		t.Skip("git is missing: the tour makes a ledger with hooks")
	}
	text, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	tour, tours := "", 0
	for _, block := range strings.Split(string(text), "```console\n")[1:] {
		block, _, closed := strings.Cut(block, "```\n")
		if !closed {
			t.Fatal("a tour of README.md has no end")
		}
		tour, tours = tour+block, tours+1
	}
	if tours < 3 {
		t.Fatalf("README.md has %d tours, want the first five minutes, the one through the cabinets and the one to the printer", tours)
	}
	home := t.TempDir()
	dir := home
	if err := os.WriteFile(filepath.Join(home, "scans.txt"), []byte("LK7-0000001\nFJ3 20112\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, step := range strings.Split("\n"+tour, "\n$ ")[1:] {
		line, want, _ := strings.Cut(step, "\n")
		words, err := splitWords(line)
		if err != nil {
			t.Fatal(err)
		}
		if words[0] == "cd" {
			dir = filepath.Join(dir, words[1])
			continue
		}
		var said bytes.Buffer
		e := &env{In: strings.NewReader(""), Out: &said, Err: &said, Dir: dir, Width: 100, Program: programForHooks(t),
			Now: func() time.Time { return time.Date(2026, 11, 3, 9, 40, 0, 0, time.UTC) },
			Environ: []string{"PATH=" + os.Getenv("PATH"), "HOME=" + home, "GIT_CONFIG_NOSYSTEM=1", "GIT_CONFIG_GLOBAL=" + os.DevNull,
				"GIT_AUTHOR_NAME=Tiril Aune", "GIT_AUTHOR_EMAIL=tiril@lauvkroken.example", "GIT_AUTHOR_DATE=2026-11-03T09:40:00Z",
				"GIT_COMMITTER_NAME=Tiril Aune", "GIT_COMMITTER_EMAIL=tiril@lauvkroken.example", "GIT_COMMITTER_DATE=2026-11-03T09:40:00Z"}}
		if code := run(context.Background(), words, e); code != exitFine {
			t.Fatalf("%s\nexit %d:\n%s", line, code, said.String())
		}
		if !printedAs(said.String(), want) {
			t.Errorf("%s\nprinted:\n%s\nREADME.md has:\n%s", line, said.String(), want)
		}
	}
}

// printedAs compares what was printed with what the README shows of it.
func printedAs(got, want string) bool {
	got, want = anyRevision.ReplaceAllString(got, "${1}3f2a91c"), strings.TrimSuffix(want, "\n")
	pattern := strings.ReplaceAll(regexp.QuoteMeta(want), `\.\.\.`, `(?s:.*)`)
	return regexp.MustCompile(`^(?:` + pattern + `)\n*$`).MatchString(got)
}

// programForHooks is a program for the hooks to call: this test's binary,
// which is blotter when it is called so (TestMain).
func programForHooks(t *testing.T) string {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "blotter")
	if err := os.Symlink(self, file); err != nil {
		t.Fatal(err)
	}
	return file
}
