package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"blotter/ledger/disk"
)

// faultCases are writing commands, each run on a fresh copy of a small
// ledger with every step on the disk made to fail, stop short or kill once.
var faultCases = []struct {
	name string
	args []string
}{
	{"new", []string{"new", "collector=Signe Rask", "date=14.vii.2025", "country=Norway", "name=Trollius europaeus"}},
	{"determine", []string{"determine", "1", "Ranunculus repens", "--by", "Signe Rask"}},
	{"set two", []string{"set", "1,2", "habitat=Meadow"}},
	{"undo", []string{"undo", "--yes"}},
	{"enter", []string{"enter"}},
}

// TestFaults: whatever happens on the disk at whatever step, the ledger is as
// before or as after, never between, and the next run succeeds; a process
// killed between the files and the revision leaves the journal by which the
// next command takes it back (engineering.md, section 12). It runs without the git program, so that every step is ours.
func TestFaults(t *testing.T) {
	if testing.Short() {
		t.Skip("it starts some hundred processes")
	}
	sample := sampleLedger(t)
	for _, c := range faultCases {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			before, _ := ledgerState(t, sample)
			whole := copyLedger(t, sample)
			log := filepath.Join(t.TempDir(), "steps")
			if out, err := runFaulty(whole, "0:fail:"+log, c.args); err != nil {
				t.Fatalf("without a fault: %v\n%s", err, out)
			}
			after, _ := ledgerState(t, whole)
			steps, err := os.ReadFile(log)
			if err != nil {
				t.Fatal(err)
			}
			n := bytes.Count(steps, []byte("\n"))
			if n < 2 {
				t.Fatalf("only %d steps:\n%s", n, steps)
			}
			for at := 1; at <= n; at++ {
				for _, how := range []string{"fail", "short", "kill"} {
					if how == "short" && !bytes.HasPrefix(bytes.Split(steps, []byte("\n"))[at-1], []byte("write ")) {
						continue // only a write can stop half way
					}
					judgeFault(t, sample, before, after, fmt.Sprintf("%d:%s", at, how), c.args, steps)
				}
			}
		})
	}
}

// judgeFault runs one command with one fault and holds the ledger to before
// or after; then runs it again without.
func judgeFault(t *testing.T, sample, before, after, fault string, args []string, steps []byte) {
	t.Helper()
	dir := copyLedger(t, sample)
	out, runErr := runFaulty(dir, fault, args)
	got, files := ledgerState(t, dir)
	done := got == after
	killed := strings.HasSuffix(fault, "kill")
	if got != before && !done && !killed {
		t.Errorf("fault %s leaves the ledger between:\n%s\nsteps:\n%s\noutput:\n%s\nbefore:\n%s\nafter:\n%s", fault, got, steps, out, before, after)
		return
	}
	if runErr == nil && !done {
		t.Errorf("fault %s: says it is done, and is not\n%s", fault, out)
	}
	if !killed && len(files) > 0 {
		t.Errorf("fault %s leaves half-written files: %v", fault, files)
	}
	if done {
		return
	}
	// What a killed process may leave is git's own lock, which doctor names.
	os.Remove(filepath.Join(dir, ".git", "index.lock"))
	if out, err := runFaulty(dir, "", args); err != nil {
		t.Errorf("fault %s: the next run does not succeed: %v\n%s", fault, err, out)
	}
	if now, _ := ledgerState(t, dir); now != after {
		t.Errorf("fault %s: after the next run the ledger is\n%s\nwant\n%s", fault, now, after)
	}
}

// sampleLedger is a ledger with two sheets entered and a draft that is not.
func sampleLedger(t *testing.T) string {
	dir := t.TempDir()
	for _, args := range [][]string{
		{"init", ".", "--code", "LK7", "--name", "Lauvkroken Museum", "--no-hooks"},
		{"new", "collector=Signe Rask", "date=1.vii.2025", "country=Norway", "name=Ranunculus acris"},
		{"new", "collector=Signe Rask", "date=2.vii.2025", "country=Norway", "name=Ranunculus acris"},
		{"new", "--hold", "collector=Signe Rask"},
	} {
		if out, err := runFaulty(dir, "", args); err != nil {
			t.Fatalf("%v: %v\n%s", args, err, out)
		}
	}
	return dir
}

func copyLedger(t *testing.T, from string) string {
	t.Helper()
	to := t.TempDir()
	if err := os.CopyFS(to, os.DirFS(from)); err != nil {
		t.Fatal(err)
	}
	return to
}

// runFaulty runs the program in dir without the git program.
func runFaulty(dir, fault string, args []string) ([]byte, error) {
	cmd := exec.Command(os.Args[0], args...)
	cmd.Dir = dir
	cmd.Env = []string{"BLOTTER_AS_PROGRAM=1", "BLOTTER_FAULT=" + fault, "PATH=", "HOME=" + dir, "GIT_CONFIG_NOSYSTEM=1", "TZ=UTC", "LC_ALL=C.UTF-8",
		"BLOTTER_NOW=2026-11-03T09:40:00Z", "GIT_AUTHOR_DATE=2026-11-03T09:40:00Z", "GIT_COMMITTER_DATE=2026-11-03T09:40:00Z",
		"GIT_AUTHOR_NAME=Tiril Aune", "GIT_AUTHOR_EMAIL=t@lauvkroken.example", "GIT_COMMITTER_NAME=Tiril Aune", "GIT_COMMITTER_EMAIL=t@lauvkroken.example"}
	return cmd.CombinedOutput()
}

// ledgerState is what counts of a ledger: the revision it is at, and every
// file of its work tree; half-written files are named apart.
func ledgerState(t *testing.T, dir string) (state string, halves []string) {
	t.Helper()
	var b strings.Builder
	head, err := os.ReadFile(filepath.Join(dir, ".git", "refs", "heads", "main"))
	if err != nil {
		t.Fatal(err)
	}
	fmt.Fprintf(&b, "head %s", head)
	err = filepath.WalkDir(dir, func(p string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case e.IsDir() && e.Name() == ".git":
			return fs.SkipDir
		case e.IsDir():
			return nil
		case disk.IsTemp(e.Name()):
			halves = append(halves, p)
			return nil
		}
		rel, _ := filepath.Rel(dir, p)
		if rel == "record.schema.json" || rel == "people.yaml" || rel == "blotter.yaml" {
			return nil // no case touches them
		}
		src, err := os.ReadFile(p)
		fmt.Fprintf(&b, "%s\n%s\n", rel, src)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return b.String(), halves
}
