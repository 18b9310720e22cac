package check_test

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/check"
	"blotter/ledger/disk"
	"blotter/ledger/ledgertest"
)

// store is every version of a made-up ledger, so that any blob can be read.
type store struct {
	versions map[string]map[string]string // by tree
	blobs    map[ledger.BlobID]string
}

func (s *store) add(files map[string]string) string {
	var all strings.Builder
	for _, p := range slices.Sorted(maps.Keys(files)) {
		id := ledger.BlobOf([]byte(files[p]))
		s.blobs[id] = files[p]
		all.WriteString(p + string(id))
	}
	tree := string(ledger.BlobOf([]byte(all.String())))
	s.versions[tree] = maps.Clone(files)
	return tree
}

// source is one version; it reads any blob of the store, as a repository does.
type source struct {
	ledger.Source
	s *store
}

func (s source) Read(_ context.Context, f ledger.File) ([]byte, error) {
	if b, ok := s.s.blobs[f.Blob]; ok {
		return []byte(b), nil
	}
	return nil, errors.New("no such blob")
}

func (s *store) source(tree string) ledger.Source {
	return source{ledgertest.MapSource(s.versions[tree]), s}
}

func (s *store) changes(from, to string) []ledger.Change {
	a, b := s.versions[from], s.versions[to]
	var out []ledger.Change
	for _, p := range slices.Sorted(maps.Keys(a)) {
		if b[p] != a[p] {
			c := ledger.Change{Path: p, Old: ledger.BlobOf([]byte(a[p]))}
			if _, ok := b[p]; ok {
				c.New = ledger.BlobOf([]byte(b[p]))
			}
			out = append(out, c)
		}
	}
	for _, p := range slices.Sorted(maps.Keys(b)) {
		if _, ok := a[p]; !ok {
			out = append(out, ledger.Change{Path: p, New: ledger.BlobOf([]byte(b[p]))})
		}
	}
	return out
}

// draw makes a few edits of any kind.
func draw(r *rapid.T, files map[string]string) {
	for range rapid.IntRange(1, 5).Draw(r, "edits") {
		n := fmt.Sprintf("LK7-%07d", rapid.IntRange(1, 12).Draw(r, "number"))
		if rapid.IntRange(0, 9).Draw(r, "case") == 0 {
			n = strings.ToLower(n)
		}
		path := ledger.Number(n).Path()
		switch rapid.IntRange(0, 9).Draw(r, "kind") {
		case 0, 1:
			delete(files, path)
		case 2:
			files["names/Ranunculaceae.yaml"] = "family: Ranunculaceae\nnames:\n  - name: " + rapid.SampledFrom([]string{"Ranunculus acris L.", "Caltha palustris L.", "Caltha palustris L.\n  - name: Caltha palustris Hort.",
				"{name: Ranunculus acris L., native: cultivated, published: Sp. pl. (2027)}"}).Draw(r, "name") + "\n"
		case 3:
			files["blotter.yaml"] = museumYAML + rapid.SampledFrom([]string{"", "dates: {order: day-month}\n", "checks: {speed: 5, travel_hours: 1, new_from: 1900}\n", "checks: {season_sheets: 2, season_months: 1, pile_up: 0}\n", "severity:\n  - {code: collno-twice, is: error}\n"}).Draw(r, "setting")
		default:
			files[path] = drawRecord(r, n)
			for i := range rapid.IntRange(0, 3).Draw(r, "sic") {
				if i == 0 {
					files[path] += "sic:\n"
				}
				files[path] += "  - {code: " + rapid.SampledFrom(acceptable).Draw(r, "code") + ", why: he flew, by: Tiril Aune, date: 2026-01-09}\n"
			}
		}
	}
}

// acceptable are codes for sic entries: of rules about one record, about it and
// the museum's files, about several, and of the decoder.
var acceptable = []string{"collector-two-places", "collno-twice", "season-odd", "series-order", "gathering-names", "type-twice", "type-gathering", "family-form", "family-differs", "name-homonym", "name-letter-x", "origin-listed", "undetermined", "date-two-ways", "name-unlisted", "number-folder", "sic-idle", "number-twice", "no-such-code"}

const museumYAML = "format: \"1\"\nname: Lauvkroken Museum\ncode: LK7\n"

// TestTouched: whatever is edited, committed, staged, reset or forgotten, a
// change judged by the index has the findings that a whole check has for the
// records it touches.
func TestTouched(t *testing.T) {
	f := flag.Lookup("rapid.checks")
	if f.Value.String() == f.DefValue { // every step writes a cache to the disk
		f.Value.Set("30")
		t.Cleanup(func() { f.Value.Set(f.DefValue) })
	}
	rapid.Check(t, func(r *rapid.T) {
		ctx := context.Background()
		s := &store{map[string]map[string]string{}, map[ledger.BlobID]string{}}
		files := map[string]string{"blotter.yaml": museumYAML}
		base := s.add(files)
		trees := []string{base}
		cache := disk.NewCache(filepath.Join(t.TempDir(), "cache"))
		for range rapid.IntRange(1, 6).Draw(r, "steps") {
			draw(r, files)
			staged := s.add(files)
			load := book.Options{Cache: cache}
			if rapid.IntRange(0, 9).Draw(r, "no cache") == 0 {
				load.Cache = nil
			}
			b := book.Base{Tree: base, Source: s.source(base), Changed: func(_ context.Context, from string) ([]ledger.Change, error) {
				if _, ok := s.versions[from]; !ok || rapid.IntRange(0, 9).Draw(r, "gone") == 0 {
					return nil, errors.New("no such tree")
				}
				return s.changes(from, base), nil
			}}
			o := check.Options{Today: today}
			changes := s.changes(base, staged)
			got, err := check.Touched(ctx, b, s.source(staged), changes, nil, load, o)
			if err != nil {
				t.Fatal(err)
			}
			whole, err := book.Load(ctx, s.source(staged), book.Options{Judge: check.Judge()})
			if err != nil {
				t.Fatal(err)
			}
			compare(t, changes, got, check.Whole(whole, o))
			switch rapid.IntRange(0, 3).Draw(r, "then") {
			case 0: // reset to some older version
				base = rapid.SampledFrom(trees).Draw(r, "back to")
				files = maps.Clone(s.versions[base])
			case 1: // staged further
			default: // committed
				base = staged
				trees = append(trees, base)
			}
		}
	})
}

// compare holds the report of changes against all findings of a whole check.
func compare(t *testing.T, changes []ledger.Change, got, all *check.Report) {
	t.Helper()
	if got.Whole {
		if d := cmp.Diff([]any{all.Findings, all.Settled}, []any{got.Findings, got.Settled}); d != "" {
			t.Fatalf("whole: %s", d)
		}
		return
	}
	changed := map[string]bool{}
	for _, c := range changes {
		changed[c.Path] = true
	}
	told := func(r *check.Report) []string {
		var out []string
		for _, f := range r.Findings {
			out = append(out, f.String())
		}
		for _, s := range r.Settled {
			out = append(out, fmt.Sprint(s.Finding, " settled in ", s.In, s.Sic))
		}
		return out
	}
	of := func(fs []string) string {
		return strings.Join(slices.DeleteFunc(slices.Clone(fs), func(f string) bool {
			path, _, _ := strings.Cut(f, ":")
			return !changed[path]
		}), "\n")
	}
	if d := cmp.Diff(of(told(all)), of(told(got))); d != "" {
		t.Fatalf("changed records: %s", d)
	}
	for _, f := range told(got) {
		if !slices.Contains(told(all), f) {
			t.Fatalf("found only by the index: %v", f)
		}
	}
}
