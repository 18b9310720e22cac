package book_test

import (
	"context"
	"errors"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/google/go-cmp/cmp"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/disk"
	"blotter/ledger/ledgertest"
)

// counting is a source that counts what is asked of it.
type counting struct {
	ledger.Source
	files []ledger.File // instead of the source's own; nil: the source's
	lists int
	reads atomic.Int64
}

func (c *counting) Files(ctx context.Context) ([]ledger.File, error) {
	c.lists++
	if c.files != nil {
		return c.files, nil
	}
	return c.Source.Files(ctx)
}

func (c *counting) Read(ctx context.Context, f ledger.File) ([]byte, error) {
	c.reads.Add(1)
	return c.Source.Read(ctx, f)
}

func manyFiles() map[string]string {
	files := map[string]string{"blotter.yaml": museumFile}
	for i := range 300 {
		files[number(i).Path()] = record(number(i), i)
	}
	return files
}

// TestPartialAsksLittle: with an index in the cache, one staged record is
// judged without listing the ledger or reading any record but that one and
// the museum's file.
func TestPartialAsksLittle(t *testing.T) {
	ctx := context.Background()
	files := manyFiles()
	cache := disk.NewCache(filepath.Join(t.TempDir(), "cache"))
	after := copied(files)
	after[number(7).Path()] = record(number(7), 8)
	partial := func(src *counting) *book.Partial {
		t.Helper()
		p, err := book.LoadPartial(ctx, book.Base{Tree: tree(files), Source: src}, ledgertest.MapSource(after), changes(files, after), book.Options{Judge: judge, Cache: cache})
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	first := &counting{Source: ledgertest.MapSource(files)}
	partial(first)
	if first.lists != 1 || first.reads.Load() != 301 {
		t.Errorf("the first time: %d lists, %d reads; want 1, 301", first.lists, first.reads.Load())
	}
	second := &counting{Source: ledgertest.MapSource(files)}
	p := partial(second)
	if second.lists != 0 || second.reads.Load() != 1 {
		t.Errorf("the second time: %d lists, %d reads; want 0, 1", second.lists, second.reads.Load())
	}
	if len(p.After) != 1 || len(p.Before) != 1 || len(p.Keys()) != 3 {
		t.Errorf("after %d, before %d, keys %v", len(p.After), len(p.Before), p.Keys())
	}
}

// TestCacheReadsNothing: a second load reads the museum's file alone, and a
// loader of records nothing.
func TestCacheReadsNothing(t *testing.T) {
	ctx := context.Background()
	cache := disk.NewCache(filepath.Join(t.TempDir(), "cache"))
	files := manyFiles()
	load(t, files, book.Options{Cache: cache})
	src := &counting{Source: ledgertest.MapSource(files)}
	b, err := book.Load(ctx, src, book.Options{Judge: judge, Cache: cache})
	if err != nil || src.reads.Load() != 1 {
		t.Fatalf("%d reads, %v; want 1", src.reads.Load(), err)
	}
	l := b.Loader(src, cache)
	for e := range b.All() {
		r, err := l.Record(ctx, e)
		if err != nil || r.Specimen.Text != string(e.Number) || r.Path != e.Path {
			t.Fatalf("%s: %+v, %v", e.Path, r, err)
		}
	}
	if src.reads.Load() != 1 {
		t.Errorf("%d reads; want 1", src.reads.Load())
	}
}

// TestMuseumKept: the museum's files are the same from the cache, and follow
// every change.
func TestMuseumKept(t *testing.T) {
	ctx := context.Background()
	cache := disk.NewCache(filepath.Join(t.TempDir(), "cache"))
	files := map[string]string{
		"blotter.yaml":             museumFile,
		"people.yaml":              "people:\n  - {name: Signe Rask, spellings: [S. Rask]}\n",
		"names/Ranunculaceae.yaml": "family: Ranunculaceae\nnames:\n  - name: Ranunculus acris L.\n    common: smørbukk\n",
		"names/Rosaceae.yaml":      "family: Rosaceae\nnonsense: 1\n",
	}
	for range 3 {
		var got [2]*book.Museum
		for i, c := range []*disk.Cache{nil, cache} {
			src := ledgertest.MapSource(files)
			list, err := src.Files(ctx)
			if err != nil {
				t.Fatal(err)
			}
			if got[i], err = book.LoadMuseum(ctx, src, list, c); err != nil {
				t.Fatal(err)
			}
		}
		for i := range got[0].Names.All {
			if d := cmp.Diff(got[0].Names.All[i].Given, got[1].Names.All[i].Given); d != "" {
				t.Error(d)
			}
		}
		if d := cmp.Diff(got[0].People.All, got[1].People.All); d != "" {
			t.Error(d)
		}
		if d := cmp.Diff(got[0].Findings, got[1].Findings); d != "" || len(got[0].Findings) == 0 {
			t.Error(d)
		}
		files["names/Ranunculaceae.yaml"] += "  - name: Caltha palustris L.\n"
		files["people.yaml"] += "  - name: Ove Bannister\n"
	}
}

// TestOddFiles: a file too large, a link, a stray file and a folder full of
// numbers without figures hide no other record.
func TestOddFiles(t *testing.T) {
	ctx := context.Background()
	files := manyFiles()
	huge := number(1).Path()
	files[huge] = strings.Repeat("# x\n", ledger.MaxFile/4+1)
	files["specimens/000/00/note.txt"] = "x"
	files["specimens/000/00/.gitkeep"] = ""
	for _, n := range []ledger.Number{"Alpha", "Beta"} {
		files[n.Path()] = record(n, 3)
	}
	src := &counting{Source: ledgertest.MapSource(files)}
	all, err := src.Source.Files(ctx)
	if err != nil {
		t.Fatal(err)
	}
	for i := range all {
		all[i].Link = all[i].Path == number(2).Path()
		if all[i].Path == huge {
			all[i].Size = -1
		}
	}
	src.files = all
	for _, cache := range []*disk.Cache{nil, disk.NewCache(filepath.Join(t.TempDir(), "cache"))} {
		for range 2 {
			b, err := book.Load(ctx, src, book.Options{Judge: judge, Cache: cache})
			if err != nil {
				t.Fatal(err)
			}
			e := b.ByPath(huge)
			if e == nil || len(e.Findings) != 1 || e.Findings[0].Code != "file-large" || e.Findings[0].Path != huge {
				t.Errorf("too large: %+v", e)
			}
			if b.ByPath(number(2).Path()) != nil || b.Find("alpha") == nil || b.Len() != 301 {
				t.Errorf("%d records; the link %v", b.Len(), b.ByPath(number(2).Path()))
			}
			var got []string
			for _, f := range b.Findings {
				got = append(got, f.Code+" "+f.Path)
			}
			if s := strings.Join(got, ", "); s != "file-link "+number(2).Path()+", file-stray specimens/000/00/note.txt" {
				t.Errorf("findings: %s", s)
			}
		}
	}
}

// TestErrors: what cannot be read, and a wish to stop, come back.
func TestErrors(t *testing.T) {
	files := manyFiles()
	src := &counting{Source: ledgertest.MapSource(map[string]string{})}
	src.files, _ = ledgertest.MapSource(files).Files(context.Background())
	if _, err := book.Load(context.Background(), src, book.Options{}); err == nil {
		t.Error("files that are not there were loaded")
	}
	ctx, cancel := context.WithCancel(context.Background())
	b := load(t, files, book.Options{})
	cancel()
	if _, err := b.Update(ctx, ledgertest.MapSource(files), book.Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: %v", err)
	}
}
