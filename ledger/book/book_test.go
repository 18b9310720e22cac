package book_test

import (
	"context"
	"flag"
	"fmt"
	"path/filepath"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/disk"
	"blotter/ledger/history"
	"blotter/ledger/ledgertest"
	"blotter/ledger/reading"
	"blotter/ledger/renumber"
)

const museumFile = `format: "1"
name: Lauvkroken Museum
code: LK7
`

// record is a record made of a few choices.
func record(n ledger.Number, choice int) string {
	return fmt.Sprintf(`specimen: %s
entry: full
collector: %s
coll_no: "%d"
date: %s
place:
  country: Norway
  province: Vestland
  district: %s
  locality: Raundal chapel
determinations:
  - name: Ranunculus acris L.
    by: Signe Rask
    date: s.d.
`, n, []string{"Signe Rask", "Ove Bannister"}[choice%2], 1000+choice%3,
		[]string{"14.vii.2025", "3/4/1934", "s.d.", "July 1987"}[choice%4], []string{"Voss", "Ulvik"}[choice/2%2])
}

func number(i int) ledger.Number { return ledger.Number(fmt.Sprintf("LK7-%07d", i)) }

// judge is a stand-in for the rules: one finding for a date in two ways, one
// key for collector and number.
var judge = book.Judge{
	Version: 1,
	For: func(m *ledger.Museum) (book.One, string) {
		words := "two ways" + m.Checks.Speed.Text
		return func(d *reading.Reading) []ledger.Finding {
			if len(d.Date.Written.Warnings) > 0 {
				return []ledger.Finding{{Path: d.Record.Path, Line: int(d.Record.Date.Line), Code: "date", Message: words}}
			}
			return nil
		}, words
	},
	Keys: func(e *book.Entry) []string { return []string{"no|" + e.Collector + e.CollNo, "n|" + e.Number.Key()} },
}

func entries(b *book.Book) []book.Entry {
	var out []book.Entry
	for e := range b.All() {
		out = append(out, *e)
	}
	return out
}

func load(t testing.TB, files map[string]string, o book.Options) *book.Book {
	t.Helper()
	o.Judge = judge
	b, err := book.Load(context.Background(), ledgertest.MapSource(files), o)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestLoad(t *testing.T) {
	files := map[string]string{
		"blotter.yaml": museumFile,
		number(482).Path(): `specimen: LK7-0000482
entry: full
kept_as: sheet
collector: Signe Rask
with: [Ove Bannister]
coll_no: "1207"
date: 14.vii.2025
place:
  country: Norway
  province: Vestland
  district: Voss
  position: 60°42'12"N 6°39'05"E
  gps_accuracy: 8 m
phenology: [flower]
determinations:
  - name: Ranunculus acris L.
    by: Signe Rask
    date: 2025-07-14
    from: label
  - name: Ranunculus acris cf. subsp. pumilus
    by: M. Ostrander
    date: 2026-11-02
`,
		"images/a.jpg": "x",
	}
	b := load(t, files, book.Options{})
	e := b.Find("lk7-0000482")
	if e == nil {
		t.Fatal("number not found ignoring case")
	}
	for _, c := range []struct {
		what      string
		got, want any
	}{
		{"collector", e.Collector, "Signe Rask"},
		{"with", e.With, "Ove Bannister"},
		{"date", e.First.String() + " " + e.Last.String(), "2025-07-14 2025-07-14"},
		{"name", e.Name, "Ranunculus acris cf. subsp. pumilus"},
		{"key", e.NameKey, "Ranunculus acris subsp. pumilus"},
		{"once", fmt.Sprint(e.Once), "[Ranunculus acris]"},
		{"by", e.By, "M. Ostrander"},
		{"people", fmt.Sprint(e.People), "[Signe Rask]"},
		{"named on", e.NamedOn.String(), "2026-11-02"},
		{"flags", e.Flags.Has(book.Flower | book.NamedDated | book.Redet), true},
		{"positioned", fmt.Sprintf("%t %.4f %.4f", e.Positioned, e.Lat, e.Lon), "true 60.7033 6.6514"},
		// 34 m, the diagonal of one second at 60.7° N; 16 m, twice what the device
		// showed; 262 m, the furthest of the datums used there
		{"uncertainty", fmt.Sprintf("%.0f", e.Uncertainty), "312"},
		{"picture", b.Has("images/a.jpg"), true},
		{"length", b.Len(), 1},
	} {
		if c.got != c.want {
			t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
		}
	}
}

// TestIncremental: after random edits the Book made from the older one, from
// a cache and from scratch are the same, and so are the groups that a Partial
// sees.
func TestIncremental(t *testing.T) {
	ctx := context.Background()
	fewer(t, 30) // every step writes a cache to the disk
	rapid.Check(t, func(r *rapid.T) {
		dir := t.TempDir()
		cache := disk.NewCache(filepath.Join(dir, "cache"))
		files := map[string]string{"blotter.yaml": museumFile}
		var b *book.Book
		prev := map[string]string{}
		for step := range rapid.IntRange(1, 6).Draw(r, "steps") {
			change(r, files)
			o := book.Options{Judge: judge, Workers: rapid.IntRange(1, 3).Draw(r, "workers")}
			scratch := load(t, files, o)
			withCache := o
			withCache.Cache = cache
			if rapid.Bool().Draw(r, "lost") {
				cache.Drop()
			}
			if step > 0 && museumSame(prev, files) && rapid.Bool().Draw(r, "partial") {
				comparePartial(t, prev, files, withCache)
			}
			cached := load(t, files, withCache)
			same(t, "cached", cached, scratch)
			if b == nil {
				b = cached
			} else {
				next, err := b.Update(ctx, ledgertest.MapSource(files), o)
				if err != nil {
					t.Fatal(err)
				}
				same(t, "updated", next, scratch)
				b = next
			}
			prev = copied(files)
		}
	})
}

func museumSame(a, b map[string]string) bool { return a["blotter.yaml"] == b["blotter.yaml"] }

func copied(m map[string]string) map[string]string {
	out := map[string]string{}
	for k, v := range m {
		out[k] = v
	}
	return out
}

func same(t *testing.T, what string, got, want *book.Book) {
	t.Helper()
	if d := cmp.Diff(entries(want), entries(got), cmpopts.EquateEmpty()); d != "" {
		t.Fatalf("%s: %s", what, d)
	}
}

// change edits, adds, renumbers, swaps, moves and takes away some files.
func change(r *rapid.T, files map[string]string) {
	for range rapid.IntRange(1, 8).Draw(r, "edits") {
		n := number(rapid.IntRange(1, 250).Draw(r, "number"))
		path := n.Path()
		if rapid.IntRange(0, 9).Draw(r, "odd") == 0 {
			path = "specimens/elsewhere/" + string(n) + ".yaml"
		}
		switch rapid.IntRange(0, 5).Draw(r, "kind") {
		case 0:
			delete(files, path)
		case 5:
			move(r, files, n)
		case 1:
			if rapid.IntRange(0, 5).Draw(r, "museum") == 0 {
				files["blotter.yaml"] = museumFile + "dates:\n  order: " + rapid.SampledFrom([]string{"day-month", "month-day"}).Draw(r, "order") + "\n"
			}
		default:
			files[path] = record(n, rapid.IntRange(0, 23).Draw(r, "choice"))
		}
	}
}

// move lets the plant of n go on under another number, with a stub; the one that
// bears that number, if any does, goes on as n.
func move(r *rapid.T, files map[string]string, n ledger.Number) {
	to := number(rapid.IntRange(1, 250).Draw(r, "to"))
	was, other := files[n.Path()], files[to.Path()]
	if was == "" || n == to {
		return
	}
	moves := renumber.Of(history.Move{From: n, To: to}, history.Move{From: to, To: n})
	bear := func(text string, as ledger.Number) {
		now, err := moves.Record([]byte(text), as)
		if err != nil {
			r.Fatal(err)
		}
		files[as.Path()] = string(now)
	}
	bear(was, to)
	if other == "" {
		files[n.Path()] = string(renumber.Stub(n, to, "Ove Bannister", "2026-11-03", "stuck"))
		return
	}
	bear(other, n)
}

// comparePartial judges the step from one version to another by the index and
// by a whole Book.
func comparePartial(t *testing.T, from, to map[string]string, o book.Options) {
	t.Helper()
	ctx := context.Background()
	src := ledgertest.MapSource(from)
	base := book.Base{Tree: tree(from), Source: src, Changed: func(context.Context, string) ([]ledger.Change, error) {
		return nil, fmt.Errorf("not there")
	}}
	p, err := book.LoadPartial(ctx, base, ledgertest.MapSource(to), changes(from, to), o)
	if err != nil {
		t.Fatal(err)
	}
	whole := load(t, to, book.Options{})
	for _, key := range p.Keys() {
		var want []string
		for e := range whole.All() {
			if slices.Contains(judge.Keys(e), key) {
				want = append(want, e.Path)
			}
		}
		var got []string
		for _, e := range p.Group(key) {
			got = append(got, e.Path)
		}
		if d := cmp.Diff(want, got); d != "" {
			t.Fatalf("group %s: %s", key, d)
		}
	}
}

func tree(files map[string]string) string {
	h := ""
	for _, p := range sortedKeys(files) {
		h += p + string(ledger.BlobOf([]byte(files[p])))
	}
	return string(ledger.BlobOf([]byte(h)))
}

func sortedKeys(m map[string]string) []string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

func changes(from, to map[string]string) []ledger.Change {
	var out []ledger.Change
	for _, p := range sortedKeys(from) {
		if to[p] == "" {
			out = append(out, ledger.Change{Path: p, Old: ledger.BlobOf([]byte(from[p]))})
		} else if to[p] != from[p] {
			out = append(out, ledger.Change{Path: p, Old: ledger.BlobOf([]byte(from[p])), New: ledger.BlobOf([]byte(to[p]))})
		}
	}
	for _, p := range sortedKeys(to) {
		if from[p] == "" {
			out = append(out, ledger.Change{Path: p, New: ledger.BlobOf([]byte(to[p]))})
		}
	}
	return out
}

// fewer makes rapid try n times, unless the command line says otherwise.
func fewer(t *testing.T, n int) {
	t.Helper()
	f := flag.Lookup("rapid.checks")
	if f.Value.String() != f.DefValue {
		return
	}
	if err := f.Value.Set(fmt.Sprint(n)); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Value.Set(f.DefValue) })
}
