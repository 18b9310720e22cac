package render

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blotter/ledger/disk"
	"blotter/ledger/disk/disktest"
	"blotter/ledger/public"
)

// smallDemo is the demo with a few of its sheets, one of them withheld.
func smallDemo(t testing.TB) map[string]string {
	files := demoFiles(t)
	n := 0
	for _, p := range sorted(files) {
		if !strings.HasPrefix(p, "specimens/") || strings.Contains(p, "LK7-0000465") {
			continue
		}
		if n++; n%40 != 0 {
			delete(files, p)
		}
	}
	return files
}

// leakIn finds something in one file.
type leakIn struct{ file string }

func (leakIn) ScanSum(string, string, []byte)    {}
func (leakIn) Clean(string, string, []byte) bool { return true }
func (leakIn) Known(string, string) bool         { return false }
func (l leakIn) Report(context.Context) (public.ScanReport, error) {
	return public.ScanReport{Leaks: []public.Leak{{File: l.file}}}, nil
}

// TestLeakInTheLastFile finds a leak when every page is made: no file of the
// site has changed, none is left over.
func TestLeakInTheLastFile(t *testing.T) {
	files := smallDemo(t)
	dir := filepath.Join(t.TempDir(), "site")
	_, state := buildInto(t, dir, inputOf(t, files), nil)
	before := filesOf(t, dir)
	files["blotter.yaml"] = strings.Replace(files["blotter.yaml"], "title: The herbarium", "title: Herbarium", 1)
	for _, last := range []string{"site.json", "sitemap.xml"} {
		in := inputOf(t, files)
		if in.Look == nil {
			t.Fatal("the demo withholds nothing")
		}
		in.Look = leakIn{last}
		_, _, err := Build(context.Background(), in, openTree(t, dir), state)
		var leak *Leak
		if !errors.As(err, &leak) || leak.Leaks[0].File != last {
			t.Fatalf("a leak in %s gives %v", last, err)
		}
		sameFiles(t, "after a leak in "+last, filesOf(t, dir), before)
	}
	fresh := filepath.Join(t.TempDir(), "site")
	in := inputOf(t, files)
	in.Look = leakIn{"site.json"}
	if err := os.MkdirAll(fresh, 0o777); err != nil {
		t.Fatal(err)
	}
	if _, _, err := Build(context.Background(), in, openTree(t, fresh), nil); err == nil {
		t.Error("a leak is no error")
	}
	if left, err := os.ReadDir(fresh); err != nil || len(left) > 0 {
		t.Errorf("a leak in a new folder leaves %v, %v", left, err)
	}
}

// TestNothingWithheldIsNotStaged writes at once where there is nothing to look
// for.
func TestNothingWithheldIsNotStaged(t *testing.T) {
	files := map[string]string{"blotter.yaml": demoFiles(t)["blotter.yaml"]}
	if in := inputOf(t, files); in.Look != nil {
		t.Error("a ledger without a secret is looked through")
	}
}

// TestEveryFaultOfABuild breaks off a build that changes every page, at steps
// spread over the whole of it: each file is then the old one or the new one,
// and the next build gives the bytes of one from nothing. Once with pages
// waiting in a stage, once written at once.
func TestEveryFaultOfABuild(t *testing.T) {
	files := smallDemo(t)
	oldIn := inputOf(t, files)
	files["blotter.yaml"] = strings.Replace(files["blotter.yaml"], "title: The herbarium", "title: Herbarium", 1)
	newIn := inputOf(t, files)
	newDir := filepath.Join(t.TempDir(), "new")
	buildInto(t, newDir, newIn, nil)
	want := filesOf(t, newDir)
	for _, staged := range []bool{true, false} {
		in := *newIn
		if !staged {
			in.Look = nil
		}
		total := breakOff(t, oldIn, &in, want, 0, disktest.Fail)
		points := []int{1, 2, total / 4, total / 2, 3 * total / 4}
		for at := total - 6; at <= total; at++ { // the end of the release, the manifest, the mark
			points = append(points, at)
		}
		for i, at := range points {
			breakOff(t, oldIn, &in, want, at, []disktest.How{disktest.Fail, disktest.Short}[i%2])
		}
	}
}

// breakOff builds old, then breaks a build of in at a step, 0 for none, and
// builds again. It returns how many steps were taken.
func breakOff(t *testing.T, old, in *Input, want map[string]string, at int, how disktest.How) int {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "site")
	_, state := buildInto(t, dir, old, nil)
	before := filesOf(t, dir)
	f := &disktest.Faults{At: at, How: how}
	stop := disktest.Inject(f)
	_, _, err := Build(context.Background(), in, openTree(t, dir), state)
	stop()
	steps := f.Steps()
	if at > 0 && at <= len(steps) && err == nil {
		t.Errorf("step %d, %s, is broken and nobody says so", at, steps[at-1])
	}
	oldOrNew(t, filesOf(t, dir), before, want)
	buildInto(t, dir, in, state)
	sameFiles(t, "the next build", filesOf(t, dir), want)
	if t.Failed() {
		t.Fatalf("broken at step %d of %d", at, len(steps))
	}
	return len(steps)
}

// oldOrNew looks for a file that is neither what it was nor what it should
// become.
func oldOrNew(t *testing.T, got, old, want map[string]string) {
	t.Helper()
	for f, text := range got {
		if text != old[f] && text != want[f] && f != unfinishedFile && f != manifestFile {
			t.Errorf("%s is neither old nor new", f)
		}
		if disk.IsTemp(filepath.Base(f)) {
			t.Errorf("%s is left over", f)
		}
	}
	for f := range old {
		if _, ok := got[f]; !ok && want[f] != "" {
			t.Errorf("%s is gone", f)
		}
	}
}
