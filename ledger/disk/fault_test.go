package disk_test

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"blotter/ledger/disk"
	"blotter/ledger/disk/disktest"
)

// work writes two files as a command would.
func work(dir string) error {
	tree, err := disk.OpenTree(dir)
	if err != nil {
		return err
	}
	defer tree.Close()
	if err := tree.WriteFile("a/record.yaml", []byte("new words, longer than the old\n")); err != nil {
		return err
	}
	_, err = tree.WriteSite("site/page.html", []byte("new page\n"))
	return err
}

// TestMain lets the test binary play the command that is killed.
func TestMain(m *testing.M) {
	if dir := os.Getenv("BLOTTER_TEST_WORK"); dir != "" {
		if err := disktest.FromText(os.Getenv("BLOTTER_TEST_FAULT")); err != nil {
			panic(err)
		}
		if work(dir) != nil {
			os.Exit(3)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// TestEveryFault breaks the work at every step, in every way: each file is
// old or new, and the next run succeeds.
func TestEveryFault(t *testing.T) {
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	for _, how := range []disktest.How{disktest.Fail, disktest.Short, disktest.Kill} {
		for n := 1; ; n++ {
			dir := t.TempDir()
			os.MkdirAll(filepath.Join(dir, "a"), 0o777)
			os.WriteFile(filepath.Join(dir, "a/record.yaml"), []byte("old\n"), 0o600)
			cmd := exec.Command(exe)
			cmd.Env = append(os.Environ(), "BLOTTER_TEST_WORK="+dir, fmt.Sprintf("BLOTTER_TEST_FAULT=%d:%s", n, how))
			err := cmd.Run()
			var exit *exec.ExitError
			if err != nil && !errors.As(err, &exit) {
				t.Fatal(err)
			}
			if got := read(t, dir, "a/record.yaml"); got != "old\n" && got != "new words, longer than the old\n" {
				t.Errorf("%s at %d: the record is %q", how, n, got)
			}
			if got := read(t, dir, "site/page.html"); got != "" && got != "new page\n" {
				t.Errorf("%s at %d: the page is %q", how, n, got)
			}
			if how != disktest.Kill {
				noTemps(t, dir)
			}
			if err := work(dir); err != nil {
				t.Errorf("%s at %d: the next run: %v", how, n, err)
			}
			if got := read(t, dir, "a/record.yaml") + read(t, dir, "site/page.html"); got != "new words, longer than the old\nnew page\n" {
				t.Errorf("%s at %d: after the next run %q", how, n, got)
			}
			if st, err := os.Stat(filepath.Join(dir, "a/record.yaml")); err != nil || st.Mode().Perm() != 0o600 {
				t.Errorf("permissions changed: %v, %v", st.Mode(), err)
			}
			if err == nil {
				if n < 8 {
					t.Errorf("%s: only %d steps", how, n-1)
				}
				break
			}
		}
	}
}

func read(t *testing.T, dir, file string) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(dir, file))
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
	return string(b)
}

func noTemps(t *testing.T, dir string) {
	t.Helper()
	tree, err := disk.OpenTree(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer tree.Close()
	files, err := tree.Files()
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if disk.IsTemp(filepath.Base(f)) {
			t.Errorf("%s is left over", f)
		}
	}
}
