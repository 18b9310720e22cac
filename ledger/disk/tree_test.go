package disk

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"
)

func TestWriteSiteSkipsEqualBytes(t *testing.T) {
	tree, err := OpenTree(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer tree.Close()
	for i, want := range []bool{true, false} {
		changed, err := tree.WriteSite("a/b/page.html", []byte("words"))
		if err != nil || changed != want {
			t.Errorf("write %d: changed %v, error %v; want %v", i, changed, err, want)
		}
	}
}

func TestTreeStaysInside(t *testing.T) {
	outside, dir := t.TempDir(), t.TempDir()
	if err := os.Symlink(outside, filepath.Join(dir, "specimens")); err != nil {
		t.Skip("no symbolic links here: ", err)
	}
	tree, err := OpenTree(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer tree.Close()
	for _, p := range []string{"specimens/x.yaml", "../x.yaml", "specimens/000/x.yaml"} {
		if err := tree.WriteFile(p, []byte("x")); err == nil {
			t.Errorf("%s: written", p)
		}
	}
	if es, _ := os.ReadDir(outside); len(es) > 0 {
		t.Errorf("outside holds %v", es)
	}
}

func TestTreeRemoves(t *testing.T) {
	dir := t.TempDir()
	tree, err := OpenTree(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer tree.Close()
	for _, f := range []string{"a/b/one", "a/two", "c"} {
		if err := tree.WriteFile(f, []byte(f)); err != nil {
			t.Fatal(err)
		}
	}
	if err := tree.Move("a/b/one", "d/e/one"); err != nil {
		t.Error(err)
	}
	if _, err := os.Stat(filepath.Join(dir, "a/b")); err == nil {
		t.Error("the folder left empty is still there")
	}
	if err := tree.Move("c", "a/two"); err == nil {
		t.Error("moved over another file")
	}
	if err := tree.WriteFile("a/b/one", []byte("again")); err != nil {
		t.Errorf("write into a folder that was removed: %v", err)
	}
	if b, err := tree.Read("d/e/one"); err != nil || string(b) != "a/b/one" {
		t.Errorf("moved file: %q, %v", b, err)
	}
	if err := tree.Remove("nothing/here"); err != nil {
		t.Error(err)
	}
	if err := WriteFile(filepath.Join(dir, "c"), []byte("new")); err != nil {
		t.Error(err)
	}
	if files, err := tree.Files(); err != nil || len(files) != 4 {
		t.Errorf("files %v, %v", files, err)
	}
}

// TestManyFolders writes into more folders than are kept open, from several
// goroutines.
func TestManyFolders(t *testing.T) {
	tree, err := OpenTree(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer tree.Close()
	var wg sync.WaitGroup
	for w := range 4 {
		wg.Go(func() {
			for i := range 300 {
				if _, err := tree.WriteSite(fmt.Sprintf("f%d/%d.html", i%150, w*1000+i), []byte("x")); err != nil {
					t.Error(err)
					return
				}
			}
		})
	}
	wg.Wait()
	if files, err := tree.Files(); err != nil || len(files) != 1200 {
		t.Errorf("%d files, %v", len(files), err)
	}
	if len(tree.open) > maxOpen {
		t.Errorf("%d folders are open", len(tree.open))
	}
}

// BenchmarkWriteSite compares with the least that writing the same bytes to
// as many files takes.
func BenchmarkWriteSite(b *testing.B) {
	page := bytes.Repeat([]byte("x"), 6000)
	const files = 5000
	name := func(i int) string { return fmt.Sprintf("%03d/%02d/%d.html", i/1000, i/100%10, i) }
	b.Run("least", func(b *testing.B) {
		for b.Loop() {
			dir := b.TempDir()
			for i := range files {
				f := filepath.Join(dir, name(i))
				if i%100 == 0 {
					os.MkdirAll(filepath.Dir(f), 0o777)
				}
				os.WriteFile(f, page, 0o666)
			}
		}
	})
	b.Run("new", func(b *testing.B) {
		for b.Loop() {
			tree, _ := OpenTree(b.TempDir())
			for i := range files {
				tree.WriteSite(name(i), page)
			}
			tree.Close()
		}
	})
	b.Run("equal", func(b *testing.B) {
		tree, _ := OpenTree(b.TempDir())
		defer tree.Close()
		for i := range files {
			tree.WriteSite(name(i), page)
		}
		for b.Loop() {
			for i := range files {
				tree.WriteSite(name(i), page)
			}
		}
	})
}
