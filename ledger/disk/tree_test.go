package disk

import (
	"os"
	"path/filepath"
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
