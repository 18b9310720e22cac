package book_test

import (
	"context"
	"errors"
	"maps"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/disk"
	"blotter/ledger/ledgertest"
)

// anyBlob is a version of a ledger in whose repository every blob can be read.
type anyBlob struct {
	ledger.Source
	blobs map[ledger.BlobID]string
}

func (s anyBlob) Read(_ context.Context, f ledger.File) ([]byte, error) {
	if b, ok := s.blobs[f.Blob]; ok {
		return []byte(b), nil
	}
	return nil, errors.New("no such blob")
}

// counting two things of each record: the dates and the districts of a
// collector.
func sums(e *book.Entry) []book.Tally {
	return []book.Tally{{Key: "date|" + e.Collector, Bin: e.Date}, {Key: "where|" + e.Collector, Bin: e.District}}
}

// TestSums: however a ledger goes from version to version, staged, committed,
// reset, the sums that a change touches are those of the whole version.
func TestSums(t *testing.T) {
	fewer(t, 30)
	judge := judge
	judge.Tallies = sums
	rapid.Check(t, func(r *rapid.T) {
		ctx := context.Background()
		blobs := map[ledger.BlobID]string{}
		versions := map[string]map[string]string{}
		keep := func(files map[string]string) (string, ledger.Source) {
			for _, text := range files {
				blobs[ledger.BlobOf([]byte(text))] = text
			}
			versions[tree(files)] = maps.Clone(files)
			return tree(files), anyBlob{ledgertest.MapSource(maps.Clone(files)), blobs}
		}
		files := map[string]string{"blotter.yaml": museumFile}
		base, from := keep(files)
		o := book.Options{Judge: judge, Cache: disk.NewCache(filepath.Join(t.TempDir(), "cache"))}
		for range rapid.IntRange(1, 8).Draw(r, "steps") {
			for range rapid.IntRange(1, 4).Draw(r, "edits") {
				n := number(rapid.IntRange(1, 9).Draw(r, "number"))
				if delete(files, n.Path()); rapid.IntRange(0, 3).Draw(r, "kind") > 0 {
					files[n.Path()] = record(n, rapid.IntRange(0, 23).Draw(r, "choice"))
				}
			}
			now, to := keep(files)
			p, err := book.LoadPartial(ctx, book.Base{Tree: base, Source: from, Changed: func(_ context.Context, old string) ([]ledger.Change, error) {
				if versions[old] == nil || rapid.IntRange(0, 9).Draw(r, "gone") == 0 {
					return nil, errors.New("no such tree")
				}
				return changes(versions[old], versions[base]), nil
			}}, to, changes(versions[base], files), o)
			if err != nil {
				t.Fatal(err)
			}
			whole, err := book.Load(ctx, to, book.Options{Judge: judge})
			if err != nil {
				t.Fatal(err)
			}
			want := map[string]book.Counts{}
			for e := range whole.All() {
				for _, s := range sums(e) {
					if want[s.Key] == nil {
						want[s.Key] = book.Counts{}
					}
					want[s.Key][s.Bin]++
				}
			}
			for _, e := range p.After {
				for _, s := range sums(e) {
					if d := cmp.Diff(want[s.Key], p.Sums(s.Key)); d != "" {
						t.Fatalf("%s: %s", s.Key, d)
					}
				}
			}
			if rapid.Bool().Draw(r, "committed") {
				base, from = now, to
			}
		}
	})
}
