package disk_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blotter/ledger/disk"
	"blotter/ledger/disk/disktest"
)

// TestStage holds changed files back until all are released, or takes them
// away without a trace.
func TestStage(t *testing.T) {
	dir := t.TempDir()
	tree, err := disk.OpenTree(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer tree.Close()
	if _, err := tree.WriteSite("a/one.html", []byte("old\n")); err != nil {
		t.Fatal(err)
	}
	write := func(s *disk.Stage, file, text string, want bool) {
		t.Helper()
		if changed, err := s.Write(file, []byte(text)); err != nil || changed != want {
			t.Errorf("writing %s: changed is %t, %v", file, changed, err)
		}
	}
	s := tree.Stage()
	write(s, "a/one.html", "old\n", false)
	write(s, "a/one.html", "new\n", true)
	write(s, "b/c/two.html", "two\n", true)
	if got := read(t, dir, "a/one.html") + read(t, dir, "b/c/two.html"); got != "old\n" {
		t.Errorf("before the release there is %q", got)
	}
	if err := s.Discard(); err != nil {
		t.Fatal(err)
	}
	if files, err := tree.Files(); err != nil || len(files) != 1 {
		t.Errorf("after taking back: %v, %v", files, err)
	}
	if _, err := os.Stat(filepath.Join(dir, "b")); err == nil {
		t.Error("an empty folder is left over")
	}
	s = tree.Stage()
	write(s, "a/one.html", "new\n", true)
	write(s, "b/c/two.html", "two\n", true)
	stop := disktest.Inject(&disktest.Faults{At: 2, How: disktest.Fail})
	err = s.Release()
	stop()
	if err == nil || read(t, dir, "a/one.html") != "new\n" || read(t, dir, "b/c/two.html") != "" {
		t.Errorf("a release broken off at its second file: %v", err)
	}
	if err := s.Release(); err != nil || read(t, dir, "b/c/two.html") != "two\n" {
		t.Errorf("the rest of the release: %v", err)
	}
	noTemps(t, dir)
}

// TestCopyTo gives what Read gives, and follows no link.
func TestCopyTo(t *testing.T) {
	dir := t.TempDir()
	tree, err := disk.OpenTree(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer tree.Close()
	if _, err := tree.WriteSite("a/one.html", []byte("one\n")); err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	if n, err := tree.CopyTo("a/one.html", &b); err != nil || n != 4 || b.String() != "one\n" {
		t.Errorf("%d bytes, %q: %v", n, b.String(), err)
	}
	if err := os.Symlink("one.html", filepath.Join(dir, "a", "link.html")); err != nil {
		t.Skip("no links here")
	}
	for _, file := range []string{"a/link.html", "a", "b"} {
		if _, err := tree.CopyTo(file, &b); err == nil {
			t.Errorf("%s was read", file)
		}
	}
}
