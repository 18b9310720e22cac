package render

import (
	"context"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/disk"
	"blotter/ledger/ledgertest"
)

// demoFiles is the demonstration ledger as its files are written at first,
// without the events that change them.
func demoFiles(t testing.TB) map[string]string {
	t.Helper()
	out := map[string]string{}
	root := filepath.Join("..", "examples", "demo")
	err := filepath.WalkDir(root, func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := os.ReadFile(p)
		rel, _ := filepath.Rel(root, p)
		rel = filepath.ToSlash(rel)
		switch {
		case strings.HasPrefix(rel, "museum/"):
			out[strings.TrimPrefix(rel, "museum/")] = string(b)
		case strings.HasPrefix(rel, "gatherings/") && strings.HasPrefix(path.Base(rel), "LK7-"):
			out[ledger.Number(strings.TrimSuffix(path.Base(rel), ".yaml")).Path()] = string(b)
		case strings.HasPrefix(rel, "gatherings/"):
			out[strings.Join(strings.Split(rel, "/")[2:], "/")] = string(b)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// inputOf is an Input of files, with a Story that says that everything was
// entered in one go.
func inputOf(t testing.TB, files map[string]string) *Input {
	t.Helper()
	src := ledgertest.MapSource(files)
	b, err := book.Load(context.Background(), src, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var prose []ProseFile
	for _, p := range sorted(files) {
		if strings.HasPrefix(p, "pages/") && strings.HasSuffix(p, ".md") {
			prose = append(prose, ProseFile{p, files[p]})
		}
	}
	in, err := Assemble(context.Background(), Sources{Book: b, Loader: b.Loader(src, nil), Prose: prose,
		Image: func(_ context.Context, p string) ([]byte, error) { return []byte(files[p]), nil }})
	if err != nil {
		t.Fatal(err)
	}
	when := time.Date(2026, 11, 3, 14, 0, 0, 0, time.UTC)
	rv := Revision{ID: "3f2a91c04d", Stamp: "20261102-0900", By: "Signe Rask", When: when}
	in.Site, in.Today = rv, when
	in.Story = func(_ context.Context, e *book.Entry, r *ledger.Record) (Story, error) {
		return Story{Last: rv, Opinions: slices.Repeat([]Revision{rv}, len(r.Determinations))}, nil
	}
	in.StoryKey = func(*book.Entry) string { return rv.ID }
	return in
}

func openTree(t testing.TB, dir string) *disk.Tree {
	t.Helper()
	tree, err := disk.OpenTree(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { tree.Close() })
	return tree
}

// TestViewDemo builds the demo's site into the folder that BLOTTER_VIEW_DEMO
// names, to be looked at.
func TestViewDemo(t *testing.T) {
	dir := os.Getenv("BLOTTER_VIEW_DEMO")
	if dir == "" {
		t.Skip("BLOTTER_VIEW_DEMO names no folder to build the site in")
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		t.Fatal(err)
	}
	rep, _, err := Build(context.Background(), inputOf(t, demoFiles(t)), openTree(t, dir), nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%+v", rep)
}
