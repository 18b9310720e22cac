package gitrepo

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"blotter/ledger"
	"blotter/ledger/disk"
)

// needStamps skips a test where the system tells no stamps.
func needStamps(t *testing.T) {
	t.Helper()
	stamps := openStamps(filepath.Dir(os.Args[0]))
	defer stamps.close()
	if _, ok := stamps.of(filepath.Base(os.Args[0])); !ok {
		t.Skip("nothing is kept on this system")
	}
	t.Parallel()
}

// seenLedger is a ledger with enough files for their ids to be kept.
func seenLedger(t *testing.T) (r *Repo, dir string) {
	t.Helper()
	needGit(t)
	dir = t.TempDir()
	mustGit(t, dir, "init", "-q", "-b", "main")
	files := map[string]string{"blotter.yaml": "format: \"1\"\n", "pages/large.md": string(make([]byte, ledger.MaxFile+1))}
	for i := range 2 * seenWorth {
		files[ledger.Number(fmt.Sprintf("LK7-%07d", i)).Path()] = fmt.Sprintf("number: %d\n", i)
	}
	write(t, dir, files)
	r, err := Open(dir, testEnviron(t))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(r.Close)
	return r, dir
}

// sameAsRead compares the ids that the cache helped to with those of the
// bytes, and returns them.
func sameAsRead(t *testing.T, r *Repo, when string) []ledger.File {
	t.Helper()
	kept, err := r.WorkTree(r.Cache()).Files(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	read, err := r.WorkTree(nil).Files(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(read, kept); diff != "" {
		t.Fatalf("%s: (-read +kept)\n%s", when, diff)
	}
	return kept
}

// settle makes every file of dir one whose last change is long over.
func settle(t *testing.T, r *Repo, dir string) {
	t.Helper()
	for deadline := time.Now().Add(time.Minute); ; time.Sleep(seenAge / 4) {
		sameAsRead(t, r, "settling")
		if len(keptSeen(r, "specimens/000/00")) > 0 {
			return
		}
		if time.Now().After(deadline) {
			t.Fatal("nothing was ever kept")
		}
	}
}

func keptSeen(r *Repo, dir string) []byte {
	s := r.WorkTree(nil).(workSource)
	return r.Cache().Get(seenBucket, s.seenKey(dir))
}

// TestSeenIsRead holds what is kept of the files on disk to their bytes,
// whatever is done to them, and whatever is made to look as before.
func TestSeenIsRead(t *testing.T) {
	needStamps(t)
	r, dir := seenLedger(t)
	sameAsRead(t, r, "first")
	if kept := keptSeen(r, "specimens/000/00"); kept != nil {
		t.Error("files that were written this moment were kept as settled")
	}
	settle(t, r, dir)

	file := filepath.Join(dir, filepath.FromSlash(ledger.Number("LK7-0000005").Path()))
	st, err := os.Lstat(file)
	if err != nil {
		t.Fatal(err)
	}
	for _, step := range []struct {
		name string
		do   func() error
	}{
		{"the same size", func() error { return os.WriteFile(file, []byte("number: 6\n"), 0o666) }},
		{"the same size, with the time of before", func() error {
			if err := os.WriteFile(file, []byte("number: 7\n"), 0o666); err != nil {
				return err
			}
			return os.Chtimes(file, st.ModTime(), st.ModTime())
		}},
		{"another file put in its place, with the time of before", func() error {
			if err := os.WriteFile(file+".new", []byte("number: 8\n"), 0o666); err != nil {
				return err
			}
			if err := os.Chtimes(file+".new", st.ModTime(), st.ModTime()); err != nil {
				return err
			}
			return os.Rename(file+".new", file)
		}},
		{"removed", func() error { return os.Remove(file) }},
		{"a new file before all others", func() error {
			return os.WriteFile(filepath.Join(filepath.Dir(file), "A.yaml"), []byte("x"), 0o666)
		}},
		{"a folder in the place of a file", func() error { return os.MkdirAll(file, 0o777) }},
	} {
		if err := step.do(); err != nil {
			t.Fatal(err)
		}
		sameAsRead(t, r, step.name)
		sameAsRead(t, r, step.name+", again")
	}
}

// TestSeenSavesReading shows that a file whose stamp is as kept is not read:
// what is kept wrong is believed. That is why only what is settled is kept.
func TestSeenSavesReading(t *testing.T) {
	needStamps(t)
	r, dir := seenLedger(t)
	settle(t, r, dir)
	const folder = "specimens/000/00"
	kept := keptSeen(r, folder)
	kept[len(kept)-1] ^= 1
	s := r.WorkTree(nil).(workSource)
	r.Cache().Put(seenBucket, []disk.Entry{{Key: s.seenKey(folder), Value: kept}})
	files, err := r.WorkTree(r.Cache()).Files(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	read, err := r.WorkTree(nil).Files(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	wrong := 0
	for i := range files {
		if files[i] != read[i] {
			wrong++
		}
	}
	if wrong != 1 {
		t.Errorf("%d files have the id that was kept wrong, want 1", wrong)
	}
	for cut := range len(kept) { // whatever is kept, nothing breaks
		r := seenReader{rest: kept[:cut], width: 20}
		for r.step() {
		}
	}
}
