package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"maps"
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
	name    string
	args    []string
	prepare []string // a command run before, without a fault
	noKill  bool     // the same way of writing as another case, which is killed
}{
	{name: "new", args: []string{"new", "collector=Signe Rask", "date=14.vii.2025", "country=Norway", "name=Trollius europaeus"}},
	{name: "determine", args: []string{"determine", "1", "Ranunculus repens", "--by", "Signe Rask"}},
	{name: "set two", args: []string{"set", "1,2", "habitat=Meadow"}},
	{name: "undo", args: []string{"undo", "--yes"}},
	{name: "undo two", prepare: []string{"set", "1", "habitat=Meadow", "--why", "seen"}, args: []string{"undo", "2", "--yes"}},
	{name: "enter", args: []string{"enter"}},
	{name: "release", prepare: []string{"enter"}, args: []string{"release", "2026-1", "../register.csv"}},
	{name: "typestatus", args: []string{"typestatus", "1", "Isotype", "--of", "Ranunculus pumilus Wahlenb.", "--published", "Fl. Lapp.: 1 (1812)", "--by", "Signe Rask", "--basis", "verified"}, noKill: true},
	{name: "note", args: []string{"note", "1", "runners", "--by", "Signe Rask"}, noKill: true},
	{name: "withdraw", args: []string{"withdraw", "1", "--is", "lost", "--why", "not in its folder", "--yes"}, noKill: true},
	{name: "found", prepare: []string{"withdraw", "1", "--is", "lost", "--why", "not in its folder", "--yes"}, args: []string{"found", "1", "--why", "in another cover"}, noKill: true},
	{name: "accept", prepare: []string{"set", "1", "elevation=1150"}, args: []string{"accept", "1", "elevation-unit", "--why", "the label has no unit"}, noKill: true},
	{name: "open", args: []string{"open", "freezer", "1,2"}, noKill: true},
	{name: "close", prepare: []string{"open", "mounting", "1,2"}, args: []string{"close", "mounting-2026-001"}, noKill: true},
	{name: "import", args: []string{"import", "../register.csv", "--map", "../map.yaml", "--yes"}, noKill: true},
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
			sample := sample
			if c.prepare != nil {
				sample = copyLedger(t, sample)
				if out, err := runFaulty(sample, "", c.prepare); err != nil {
					t.Fatalf("%v: %v\n%s", c.prepare, err, out)
				}
			}
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
			for _, at := range momentsOf(n, 14) {
				for _, how := range []string{"fail", "short", "kill"} {
					if how == "kill" && c.noKill {
						continue
					}
					if how == "short" && !isWrite(steps, at) {
						continue // only a write can stop half way
					}
					judgeFault(t, sample, before, after, fmt.Sprintf("%d:%s", at, how), c.args, steps)
				}
			}
		})
	}
}

// momentsOf are the steps of n at which a fault is tried: all of them with
// BLOTTER_WHOLE=1, otherwise about most of them, with the first and the last.
func momentsOf(n, most int) []int {
	stride := 1
	if os.Getenv("BLOTTER_WHOLE") == "" {
		stride += (n - 1) / most
	}
	var at []int
	for i := 1; i < n; i += stride {
		at = append(at, i)
	}
	return append(at, n)
}

// isWrite tells whether a step, counted from 1, is the writing of bytes.
func isWrite(steps []byte, at int) bool {
	return bytes.HasPrefix(bytes.Split(steps, []byte("\n"))[at-1], []byte("write "))
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
	if done && args[0] == "undo" && !bytes.Contains(out, []byte("Taken back.")) {
		// Whoever did not read that it is done types it again: nothing more goes.
		out, err := runFaulty(dir, "", args)
		if now, _ := ledgerState(t, dir); now != after || err != nil || !bytes.Contains(out, []byte("Nothing more was taken back.")) {
			t.Errorf("fault %s: typed again, undo does more than was asked: %v\n%s\n%s", fault, err, out, now)
		}
	}
	if done {
		return
	}
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
	outer := t.TempDir()
	for name, text := range map[string]string{
		"register.csv": "Collector,Date,Country\nSigne Rask,3.vii.2025,Norway\nSigne Rask,4.vii.2025,Norway\n",
		"map.yaml":     "columns:\n  - column: Collector\n    field: collector\n  - column: Date\n    field: date\n  - column: Country\n    field: place.country\n",
	} {
		if err := os.WriteFile(filepath.Join(outer, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	to := filepath.Join(outer, "ledger")
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
	tags, err := filepath.Glob(filepath.Join(dir, ".git", "refs", "tags", "*"))
	if err != nil {
		t.Fatal(err)
	}
	for _, tag := range tags {
		id, err := os.ReadFile(tag)
		fmt.Fprintf(&b, "release %s %s%v\n", filepath.Base(tag), id, err)
	}
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

// TestPublishFaults breaks a publication off at many of its steps, as a full
// disk and a killed process do: each file of the site is old or new, the
// ledger untouched, and the next run makes what an unbroken one would have.
func TestPublishFaults(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("it starts some dozens of processes")
	}
	sample := sampleLedger(t)
	for _, args := range [][]string{{"publish"}, {"determine", "1", "Ranunculus repens", "--by", "Signe Rask"}} {
		if out, err := runFaulty(sample, "", args); err != nil {
			t.Fatalf("%v: %v\n%s", args, err, out)
		}
	}
	old := siteFiles(t, sample)
	whole := copyLedger(t, sample)
	log := filepath.Join(t.TempDir(), "steps")
	if out, err := runFaulty(whole, "0:fail:"+log, []string{"publish"}); err != nil {
		t.Fatalf("without a fault: %v\n%s", err, out)
	}
	want := siteFiles(t, whole)
	steps, err := os.ReadFile(log)
	if err != nil {
		t.Fatal(err)
	}
	n := bytes.Count(steps, []byte("\n"))
	for i, at := 0, 1; at <= n; i, at = i+1, at+max(1, n/24) {
		fault := fmt.Sprintf("%d:%s", at, []string{"fail", "short", "kill"}[i%3])
		dir := copyLedger(t, sample)
		before, _ := ledgerState(t, dir)
		out, err := runFaulty(dir, fault, []string{"publish"})
		for file, now := range siteFiles(t, dir) {
			if now != old[file] && now != want[file] && file != "site-unfinished" && !disk.IsTemp(filepath.Base(file)) {
				t.Errorf("fault %s: %s is neither old nor new (%d bytes, were %d, become %d)", fault, file, len(now), len(old[file]), len(want[file]))
			}
		}
		if got := siteFiles(t, dir); err == nil && !maps.Equal(got, want) {
			t.Errorf("fault %s: says it is done, and is not\n%s", fault, out)
		}
		if out, err := runFaulty(dir, "", []string{"publish"}); err != nil {
			t.Errorf("fault %s: the next run: %v\n%s", fault, err, out)
		}
		got := siteFiles(t, dir)
		maps.DeleteFunc(got, func(file, _ string) bool { return disk.IsTemp(filepath.Base(file)) })
		if !maps.Equal(got, want) {
			t.Errorf("fault %s: the next run makes another site: %s", fault, unlike(got, want))
		}
		os.RemoveAll(filepath.Join(dir, "site"))
		os.CopyFS(filepath.Join(dir, "site"), os.DirFS(filepath.Join(sample, "site")))
		if after, _ := ledgerState(t, dir); after != before {
			t.Errorf("fault %s: the ledger was touched", fault)
		}
	}
}

// unlike names the files in which two sites differ.
func unlike(a, b map[string]string) (names []string) {
	for file := range a {
		if a[file] != b[file] {
			names = append(names, file)
		}
	}
	for file := range b {
		if _, ok := a[file]; !ok {
			names = append(names, file)
		}
	}
	return names
}

// siteFiles are the bytes of each file of the site in dir.
func siteFiles(t *testing.T, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	site := os.DirFS(filepath.Join(dir, "site"))
	err := fs.WalkDir(site, ".", func(p string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		src, err := fs.ReadFile(site, p)
		files[p] = string(src)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}
