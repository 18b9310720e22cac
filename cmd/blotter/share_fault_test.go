package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// shareBench is two copies with a folder between them: mine has an entry and
// an edit that is not entered, theirs sent a few.
type shareBench struct{ dir, mine, server string }

func newShareBench(t *testing.T) shareBench {
	t.Helper()
	if _, err := exec.LookPath("git"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("git is missing and CI=true")
		}
		t.Skip("git is missing: sharing goes through it")
	}
	b := shareBench{dir: t.TempDir()}
	b.mine, b.server = filepath.Join(b.dir, "mine"), filepath.Join(b.dir, "lk7.git")
	theirs := filepath.Join(b.dir, "theirs")
	for _, step := range []struct {
		dir  string
		args []string
	}{
		{b.dir, []string{"init", "mine", "--code", "LK7", "--name", "Lauvkroken Museum"}},
		{b.mine, []string{"new", "collector=Signe Rask", "date=1.vii.2025", "country=Norway", "name=Ranunculus acris"}},
		{b.mine, []string{"new", "collector=Signe Rask", "date=2.vii.2025", "country=Norway", "name=Ranunculus acris"}},
		{b.mine, []string{"share", "--with", b.server, "--new"}},
		{b.dir, []string{"join", b.server, "theirs"}},
		{theirs, []string{"set", "1", "habitat=Meadow"}},
		{theirs, []string{"new", "collector=Ove Bannister", "date=3.vii.2025", "country=Norway", "name=Trollius europaeus"}},
		{theirs, []string{"note", "2", "runners", "--by", "Ove Bannister"}},
		{theirs, []string{"share"}},
		{b.mine, []string{"note", "1", "seeds", "--by", "Signe Rask"}},
	} {
		if out, err := runSharing(step.dir, "", step.args); err != nil {
			t.Fatalf("%v: %v\n%s", step.args, err, out)
		}
	}
	writeEdit(t, b.mine)
	return b
}

// editedWords are an edit not yet entered, in a file that nobody else touched.
const editedWords = "# About this herbarium\n\nWords that nobody entered yet.\n"

func writeEdit(t *testing.T, dir string) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(dir, "pages", "about.md"), []byte(editedWords), 0o666); err != nil {
		t.Fatal(err)
	}
}

// runSharing is runFaulty with the git program.
func runSharing(dir, fault string, args []string) ([]byte, error) {
	cmd := sharingCommand(dir, fault, args)
	return cmd.CombinedOutput()
}

func sharingCommand(dir, fault string, args []string) *exec.Cmd {
	cmd := exec.Command(os.Args[0], args...)
	cmd.Dir = dir
	cmd.Env = []string{"BLOTTER_AS_PROGRAM=1", "BLOTTER_FAULT=" + fault, "PATH=" + os.Getenv("PATH"), "HOME=" + dir, "GIT_CONFIG_NOSYSTEM=1", "TZ=UTC", "LC_ALL=C.UTF-8",
		"BLOTTER_NOW=2026-11-03T09:40:00Z", "GIT_AUTHOR_DATE=2026-11-03T09:40:00Z", "GIT_COMMITTER_DATE=2026-11-03T09:40:00Z",
		"GIT_AUTHOR_NAME=Tiril Aune", "GIT_AUTHOR_EMAIL=t@lauvkroken.example", "GIT_COMMITTER_NAME=Tiril Aune", "GIT_COMMITTER_EMAIL=t@lauvkroken.example"}
	return cmd
}

// copyOf is the bench once more, in a folder of its own.
func (b shareBench) copyOf(t *testing.T) shareBench {
	t.Helper()
	dir := t.TempDir()
	if out, err := exec.Command("cp", "-r", b.mine, b.server, dir).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	c := shareBench{dir, filepath.Join(dir, "mine"), filepath.Join(dir, "lk7.git")}
	c.git(t, "config", "remote.origin.url", c.server)
	return c
}

func (b shareBench) git(t *testing.T, args ...string) string {
	t.Helper()
	cmd := exec.Command("git", append([]string{"-C", b.mine}, args...)...)
	cmd.Env = append(os.Environ(), "GIT_CONFIG_GLOBAL="+os.DevNull, "GIT_CONFIG_NOSYSTEM=1")
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("git %v: %v\n%s", args, err, out)
	}
	return string(out)
}

// holdsAll holds a bench after a share that was broken off, and ended by the
// next one, to what it must be: everything of both, the edit as typed, nothing
// else.
func (b shareBench) holdsAll(t *testing.T, what string) {
	t.Helper()
	git := func(args ...string) string { return b.git(t, args...) }
	if got := git("status", "--porcelain"); got != " M pages/about.md\n" {
		t.Errorf("%s: git status:\n%s", what, got)
	}
	if got, _ := os.ReadFile(filepath.Join(b.mine, "pages", "about.md")); string(got) != editedWords {
		t.Errorf("%s: the edit is %q", what, got)
	}
	for file, words := range map[string][]string{"LK7-0000001": {"Meadow", "seeds"}, "LK7-0000002": {"runners"}, "LK7-0000003": {"Trollius"}} {
		src, _ := os.ReadFile(filepath.Join(b.mine, "specimens", "000", "00", file+".yaml"))
		for _, w := range words {
			if !strings.Contains(string(src), w) {
				t.Errorf("%s: %s lacks %q:\n%s", what, file, w, src)
			}
		}
	}
	if mine, theirs := git("rev-parse", "HEAD"), git("--git-dir="+b.server, "rev-parse", "main"); mine != theirs {
		t.Errorf("%s: here %s there %s", what, mine, theirs)
	}
	if out, err := exec.Command("git", "-C", b.mine, "fsck", "--strict").CombinedOutput(); err != nil {
		t.Errorf("%s: fsck: %s", what, out)
	}
	if left, _ := filepath.Glob(filepath.Join(b.mine, ".git", "blotter", "advancing.json")); len(left) > 0 {
		t.Errorf("%s: the journal is left", what)
	}
}

// TestShareFaults: whatever happens on the disk at whatever step of ours, what
// is on disk is as before or as after, and the next share ends it.
func TestShareFaults(t *testing.T) {
	if testing.Short() {
		t.Skip("it starts some dozens of processes")
	}
	bench := newShareBench(t)
	whole := bench.copyOf(t)
	log := filepath.Join(t.TempDir(), "steps")
	if out, err := runSharing(whole.mine, "0:fail:"+log, []string{"share"}); err != nil {
		t.Fatalf("without a fault: %v\n%s", err, out)
	}
	whole.holdsAll(t, "without a fault")
	text, err := os.ReadFile(log)
	if err != nil {
		t.Fatal(err)
	}
	steps := bytes.Split(bytes.TrimSpace(text), []byte("\n"))
	if len(steps) < 8 {
		t.Fatalf("only %d steps:\n%s", len(steps), text)
	}
	for at := range steps {
		how := []string{"fail", "kill"}[at/5%2]
		if os.Getenv("BLOTTER_WHOLE") != "" {
			how = []string{"fail", "kill"}[at%2]
		} else if at%5 > 0 && len(steps) > 20 {
			continue // a sample
		}
		what := fmt.Sprintf("%d:%s (%s)", at+1, how, steps[at])
		b := bench.copyOf(t)
		runSharing(b.mine, fmt.Sprintf("%d:%s", at+1, how), []string{"share"})
		if got, _ := os.ReadFile(filepath.Join(b.mine, "pages", "about.md")); string(got) != editedWords {
			t.Errorf("%s: the edit is %q", what, got)
		}
		if out, err := runSharing(b.mine, "", []string{"share"}); err != nil {
			t.Errorf("%s: the next share: %v\n%s", what, err, out)
		}
		b.holdsAll(t, what)
	}
}

// TestShareKilled kills share at moments that nobody chose, in git's work as
// in ours; the next share ends it. An index.lock that git left is what doctor
// names.
func TestShareKilled(t *testing.T) {
	if testing.Short() {
		t.Skip("it starts some dozens of processes")
	}
	bench := newShareBench(t)
	whole := bench.copyOf(t)
	start := time.Now()
	if out, err := runSharing(whole.mine, "", []string{"share"}); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	took := time.Since(start)
	rounds := 6
	if os.Getenv("BLOTTER_WHOLE") != "" {
		rounds = 60
	}
	for i := range rounds {
		b := bench.copyOf(t)
		cmd := sharingCommand(b.mine, "", []string{"share"})
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		after := took * time.Duration(i+1) / time.Duration(rounds+1)
		time.Sleep(after)
		cmd.Process.Kill()
		cmd.Wait()
		time.Sleep(100 * time.Millisecond) // a git that it started may still end its work
		for _, lock := range []string{filepath.Join(b.mine, ".git", "index.lock"), filepath.Join(b.mine, ".git", "HEAD.lock")} {
			os.Remove(lock)
		}
		what := fmt.Sprintf("killed after %s", after)
		if out, err := runSharing(b.mine, "", []string{"share"}); err != nil {
			t.Errorf("%s: the next share: %v\n%s", what, err, out)
		}
		b.holdsAll(t, what)
	}
}

// TestStickTwoWriters: two people who write one file of a stick at once lose
// no word, and the file is whole at every moment.
func TestStickTwoWriters(t *testing.T) {
	if testing.Short() {
		t.Skip("it starts some dozens of processes")
	}
	b := newShareBench(t)
	theirs, stick := filepath.Join(b.dir, "theirs"), filepath.Join(b.dir, "usb")
	run := func(dir string, args ...string) {
		t.Helper()
		if out, err := runSharing(dir, "", args); err != nil {
			t.Errorf("%v: %v\n%s", args, err, out)
		}
	}
	if err := os.Mkdir(stick, 0o777); err != nil {
		t.Fatal(err)
	}
	run(b.mine, "share")
	run(theirs, "share")
	run(b.mine, "share", "--with", stick, "--new")
	run(theirs, "share", "--with", stick)
	rounds := 2
	if os.Getenv("BLOTTER_WHOLE") != "" {
		rounds = 20
	}
	var words []string
	for i := range rounds {
		var both sync.WaitGroup
		for n, dir := range []string{b.mine, theirs} {
			word := fmt.Sprintf("word-%d-%d", i, n)
			words = append(words, word)
			run(dir, "note", "1", word, "--by", "Signe Rask")
			both.Go(func() {
				if out, err := runSharing(dir, "", []string{"share", "--with", stick}); err != nil {
					t.Errorf("share at once: %v\n%s", err, out)
				}
			})
		}
		both.Wait()
	}
	run(b.mine, "share", "--with", stick)
	run(theirs, "share", "--with", stick)
	for _, dir := range []string{b.mine, theirs} {
		src, err := os.ReadFile(filepath.Join(dir, "specimens", "000", "00", "LK7-0000001.yaml"))
		for _, w := range words {
			if err != nil || !strings.Contains(string(src), w) {
				t.Errorf("%s lacks %q (%v)", dir, w, err)
			}
		}
	}
	if left, _ := os.ReadDir(stick); len(left) != 1 {
		t.Errorf("on the stick: %v", left)
	}
}
