package render

import (
	"bytes"
	"context"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/history"
	"blotter/ledger/ledgertest"

	"github.com/google/go-cmp/cmp"
)

// goldenPages are one page of each kind; the first also as its twin.
var goldenPages = []string{
	"specimens/000/04/LK7-0000482.html", // four opinions, a correction, a position
	"specimens/000/04/LK7-0000482.md",
	"specimens/000/04/LK7-0000465.html", // withheld
	"specimens/000/00/LK7-0000012.html", // a suspected type, old, no position
	"index.html",
	"names/ranunculus-acris.html",
	"people/torstein-hernas.html",
	"people/signe-rask.html",
	"places/norway/vestland/voss.html",
	"years/2025.html",
	"changes/2026-11.html",
}

// goldenCommits are the entries of testdata/golden/ledger: the folder N holds
// the files that the Nth brings. People and plants of the kind are invented.
var goldenCommits = []struct{ by, day, message string }{
	{"Signe Rask", "2025-07-31", "Enter eleven sheets"},
	{"Ove Bannister", "2025-08-01", "Determine LK7-0000482"},
	{"Signe Rask", "2025-08-03", "Correct the elevation\n\nCorrects: LK7-0000482 label says 348\n"},
	{"Signe Rask", "2026-11-03", "Determine LK7-0000482"},
}

// goldenInput is the Input of the golden ledger with its history.
func goldenInput(t testing.TB) *Input {
	t.Helper()
	var x history.Index
	files := map[string]string{}
	blobs := map[ledger.BlobID]string{}
	parent := ""
	for i, g := range goldenCommits {
		when, err := time.Parse("2006-01-02 15:04", g.day+" 12:00")
		if err != nil {
			t.Fatal(err)
		}
		who := history.Person{Name: g.by, When: when}
		c := history.Commit{ID: fmt.Sprintf("%07x%033x", 0xabc1000+i, i+1), Message: g.message, Author: who, Committer: who}
		if parent != "" {
			c.Parents = []string{parent}
		}
		brought := filesOf(t, filepath.Join("testdata", "golden", "ledger", itoa(i+1)))
		for _, p := range sorted(brought) {
			touch := history.Touch{Path: p, Blob: ledger.BlobOf([]byte(brought[p]))}
			if old, ok := files[p]; ok {
				touch.Olds = []ledger.BlobID{ledger.BlobOf([]byte(old))}
			}
			blobs[touch.Blob] = brought[p]
			c.Touches = append(c.Touches, touch)
		}
		maps.Copy(files, brought)
		if err := x.Add(c); err != nil {
			t.Fatal(err)
		}
		parent = c.ID
	}
	view, err := x.At(parent)
	if err != nil {
		t.Fatal(err)
	}
	return goldenAssemble(t, files, view, blobs)
}

func goldenAssemble(t testing.TB, files map[string]string, view *history.View, blobs map[ledger.BlobID]string) *Input {
	t.Helper()
	ctx := context.Background()
	src := ledgertest.MapSource(files)
	b, err := book.Load(ctx, src, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var prose []ProseFile
	for _, p := range sorted(files) {
		if strings.HasPrefix(p, "pages/") {
			prose = append(prose, ProseFile{p, files[p]})
		}
	}
	in, err := Assemble(ctx, Sources{Book: b, Loader: b.Loader(src, nil), Prose: prose, History: view,
		Read: func(_ context.Context, n ledger.Number, id ledger.BlobID) (history.Version, error) {
			r, fs := ledger.Decode(n.Path(), []byte(blobs[id]))
			return history.Version{Record: r, Unread: history.Unreadable(fs)}, nil
		}})
	if err != nil {
		t.Fatal(err)
	}
	return in
}

var citedRevision = regexp.MustCompile(`\babc100[0-9a-f]\b`)

// TestGoldenPages holds pages of every kind to the files in testdata/golden,
// the revisions that they cite masked. UPDATE_GOLDEN=1 writes them anew.
func TestGoldenPages(t *testing.T) {
	update := os.Getenv("UPDATE_GOLDEN") != ""
	if update && os.Getenv("CI") == "true" {
		t.Fatal("golden files are not written on CI")
	}
	dir := filepath.Join(t.TempDir(), "site")
	buildInto(t, dir, goldenInput(t), nil)
	site := filesOf(t, dir)
	for _, page := range goldenPages {
		got, ok := site[page]
		if !ok {
			t.Errorf("%s is not made", page)
			continue
		}
		got = citedRevision.ReplaceAllString(got, "REVISION")
		file := filepath.Join("testdata", "golden", strings.ReplaceAll(page, "/", "_"))
		if update {
			if err := os.WriteFile(file, []byte(got), 0o666); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		want = bytes.ReplaceAll(want, []byte("\r\n"), []byte("\n"))
		if d := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); d != "" {
			t.Errorf("%s is not the golden page; look at it, then UPDATE_GOLDEN=1 go test ./render -run GoldenPages\n%s", page, d)
		}
	}
}
