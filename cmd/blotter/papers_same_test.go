package main

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"
)

// printShop is where and on what machine somebody prints.
type printShop struct {
	zone, words string
	cores       int
}

// in makes the test's process one of that place.
func (w printShop) in(t *testing.T, p *paperDesk) {
	t.Helper()
	zone, err := time.LoadLocation(w.zone)
	if err != nil {
		t.Fatal(err)
	}
	time.Local = zone
	runtime.GOMAXPROCS(w.cores)
	p.environ = []string{"TZ=" + w.zone, "LC_ALL=" + w.words, "LANG=" + w.words}
	t.Setenv("TZ", w.zone)
	t.Setenv("LC_ALL", w.words)
}

// TestSamePapersEverywhere prints every kind twice from the same commit, as
// PDF, HTML and in its other forms: at the two ends of the calendar day, with
// another language and other cores, from files that were written in another
// order. The bytes are the same.
func TestSamePapersEverywhere(t *testing.T) {
	here := newPaperDesk(t)
	there := &paperDesk{dir: copiedBackwards(t, here.dir), now: here.now}
	local, cores := time.Local, runtime.GOMAXPROCS(0)
	t.Cleanup(func() { time.Local = local; runtime.GOMAXPROCS(cores) })
	east, west := printShop{"Pacific/Kiritimati", "tr_TR.UTF-8", 1}, printShop{"America/Anchorage", "C", 2}
	a, b := t.TempDir(), t.TempDir()
	for _, r := range paperRows { // of the last commit
		for _, ending := range []string{".pdf", ".html"} {
			east.in(t, here)
			one := readAll(t, here.print(t, r, a, ending))
			west.in(t, there)
			two := readAll(t, there.print(t, r, b, ending))
			if !bytes.Equal(one, two) {
				t.Errorf("print %s: %s differs at byte %d of %d and %d", r.Typed, ending, firstDifference(one, two), len(one), len(two))
			}
		}
	}
}

// TestSamePaperOfThePast: an old revision is printed with the days that the
// museum's zone had then, whatever zone it has now, and what is entered of it
// bears the day of now.
func TestSamePaperOfThePast(t *testing.T) {
	p, dir := newPaperDesk(t), t.TempDir()
	p.now = time.Date(2026, 11, 3, 23, 30, 0, 0, time.UTC) // 4 November in Oslo and Kiritimati, 3 November in Anchorage
	p.types(t, "set 52 habitat='Under old elms' --why 'field book'")
	r := paperRow{Name: "past", Typed: "labels 52 --at 2026-11-04"}
	then := readAll(t, p.print(t, paperRow{Name: "past", Typed: "labels 52 --trial --at 2026-11-04"}, dir, ".pdf"))
	name := filepath.Join(p.dir, "blotter.yaml")
	text := bytes.Replace(readAll(t, name), []byte("timezone: Europe/Oslo"), []byte("timezone: America/Anchorage"), 1)
	if err := os.WriteFile(name, text, 0o644); err != nil {
		t.Fatal(err)
	}
	p.now = p.now.Add(30 * time.Hour) // 5 November everywhere but in Anchorage, where it is the 4th
	p.types(t, "enter")
	id := strings.TrimSpace(outsideSays(t, "git", "-C", p.dir, "rev-parse", "HEAD~1"))
	r.Typed = "labels 52 --at " + id
	now := readAll(t, p.print(t, paperRow{Name: "past", Typed: r.Typed + " --trial"}, t.TempDir(), ".pdf"))
	if !bytes.Equal(then, now) {
		t.Errorf("the label of an old revision differs at byte %d since the museum moved", firstDifference(then, now))
	}
	if foot := outsideSays(t, "pdftotext", p.print(t, r, t.TempDir(), ".pdf"), "-"); !strings.Contains(foot, "4 November 2026") {
		t.Errorf("the foot has another day: %s", foot)
	}
	kept := readAll(t, filepath.Join(p.dir, "work", "printing", "printing-2026-001.yaml"))
	if !bytes.Contains(kept, []byte("date: 2026-11-04")) || !bytes.Contains(kept, []byte("revision: "+id[:keptRevision])) && !bytes.Contains(kept, []byte(`revision: "`+id[:keptRevision])) {
		t.Errorf("kept is:\n%s", kept)
	}
}

func firstDifference(a, b []byte) int {
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			return i
		}
	}
	return min(len(a), len(b))
}

// copiedBackwards is a copy of a folder, its files written last one first and
// days apart.
func copiedBackwards(t *testing.T, from string) string {
	t.Helper()
	to := filepath.Join(t.TempDir(), "ledger")
	var files []string
	err := filepath.WalkDir(from, func(p string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			files = append(files, p)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	slices.Reverse(files)
	for i, f := range files {
		rel, err := filepath.Rel(from, f)
		if err != nil {
			t.Fatal(err)
		}
		name := filepath.Join(to, rel)
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		info, err := os.Stat(f)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, readAll(t, f), info.Mode().Perm()); err != nil {
			t.Fatal(err)
		}
		day := time.Date(2020, 1, 1+i, 0, 0, 0, 0, time.UTC)
		if err := os.Chtimes(name, day, day); err != nil {
			t.Fatal(err)
		}
	}
	return to
}
