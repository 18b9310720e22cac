package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"blotter/ledger/gitrepo"
)

// TestMirrorFaults: at whatever step a mirror that is being made anew is
// broken off, its branch leads where it led or where it is to lead, the next
// run finishes, and nothing of the old mirror is left in it.
func TestMirrorFaults(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("it starts some dozens of processes")
	}
	base, backup := t.TempDir(), filepath.Join(t.TempDir(), "backup")
	dir, public := filepath.Join(base, "ledger"), filepath.Join(base, "public.git")
	if err := os.CopyFS(dir, os.DirFS(sampleLedger(t))); err != nil {
		t.Fatal(err)
	}
	args := []string{"mirror", "--to", public}
	for _, a := range [][]string{args, {"set", "1", "sensitive.why=would be dug up", "sensitive.category=2", "--why", "asked"}} {
		if out, err := runFaulty(dir, "", a); err != nil {
			t.Fatalf("%v: %v\n%s", a, err, out)
		}
	}
	if err := os.CopyFS(backup, os.DirFS(base)); err != nil {
		t.Fatal(err)
	}
	before, _ := bareState(t, public)
	log := filepath.Join(t.TempDir(), "steps")
	if out, err := runFaulty(dir, "0:fail:"+log, args); err != nil || !bytes.Contains([]byte(out), []byte("Made anew")) {
		t.Fatalf("without a fault: %v\n%s", err, out)
	}
	after, ids := bareState(t, public)
	steps, err := os.ReadFile(log)
	if err != nil {
		t.Fatal(err)
	}
	n := bytes.Count(steps, []byte("\n"))
	for _, step := range []string{"rename pack-", "ref refs/heads/main", "remove pack-"} {
		if !bytes.Contains(steps, []byte(step)) {
			t.Errorf("no step %q:\n%s", step, steps)
		}
	}
	for _, at := range momentsOf(n, 12) {
		for _, how := range []string{"fail", "kill"} {
			fault := fmt.Sprintf("%d:%s", at, how)
			for _, d := range []string{dir, public} {
				if err := os.RemoveAll(d); err != nil {
					t.Fatal(err)
				}
			}
			if err := os.CopyFS(base, os.DirFS(backup)); err != nil {
				t.Fatal(err)
			}
			out, _ := runFaulty(dir, fault, args)
			tip, err := os.ReadFile(filepath.Join(public, "refs", "heads", "main"))
			if got := string(bytes.TrimSpace(tip)); err != nil || got != before && got != after {
				t.Errorf("fault %s: the branch leads to %q, %v\n%s", fault, got, err, out)
			}
			if out, err := runFaulty(dir, "", args); err != nil {
				t.Errorf("fault %s: the next run: %v\n%s\nsteps:\n%s", fault, err, out, steps)
				continue
			}
			if tip, got := bareState(t, public); tip != after || !slices.Equal(got, ids) {
				t.Errorf("fault %s: after the next run %s with %d objects, want %s with %d", fault, tip, len(got), after, len(ids))
			}
		}
	}
}

// bareState is where the branch of a mirror leads and the ids of its objects.
func bareState(t *testing.T, dir string) (tip string, ids []gitrepo.ObjectID) {
	t.Helper()
	b, err := gitrepo.OpenBare(dir, []string{"PATH="})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if tip, err = b.Tip(context.Background()); err != nil {
		t.Fatal(err)
	}
	if ids, err = b.IDs(); err != nil {
		t.Fatal(err)
	}
	return tip, ids
}
