package public_test

import (
	"context"
	"fmt"
	"maps"
	"path/filepath"
	"testing"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/disk"
	"blotter/ledger/history"
	"blotter/ledger/ledgertest"
	"blotter/ledger/public"
)

// everLedger is a ledger whose one record has had several versions.
type everLedger struct {
	files map[string]string
	past  []string // versions of the record, oldest first; the last stands
	cache *disk.Cache
}

const everRecord = "specimens/000/07/LK7-0000701.yaml"

// ever asks whether anything was ever withheld, and says how many versions
// were read for it.
func (l *everLedger) ever(t *testing.T) (withheld bool, read int) {
	t.Helper()
	ctx := context.Background()
	var x history.Index
	texts := map[ledger.BlobID]string{}
	tip, old := "", ledger.BlobID("")
	for i, v := range l.past {
		touch := history.Touch{Path: everRecord, Blob: ledger.BlobOf([]byte(v))}
		c := history.Commit{ID: fmt.Sprintf("%040x", i+1), Message: "Entry"}
		if tip != "" {
			c.Parents, touch.Olds = []string{tip}, []ledger.BlobID{old}
		}
		c.Touches = []history.Touch{touch}
		tip, old, texts[touch.Blob] = c.ID, touch.Blob, v
		if err := x.Add(c); err != nil {
			t.Fatal(err)
		}
	}
	h, err := x.At(tip)
	if err != nil {
		t.Fatal(err)
	}
	files := maps.Clone(l.files)
	files[everRecord] = l.past[len(l.past)-1]
	b, err := book.Load(ctx, ledgertest.MapSource(files), book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	withheld, err = public.Of(b).EverWithheld(ctx, h, func(_ context.Context, n ledger.Number, id ledger.BlobID) (history.Version, error) {
		read++
		r, found := ledger.Decode(n.Path(), []byte(texts[id]))
		return history.Version{Record: r, Unread: history.Unreadable(found)}, nil
	}, l.cache)
	if err != nil {
		t.Fatal(err)
	}
	return withheld, read
}

// TestEverWithheldKept: versions in which nothing was withheld are read once,
// and again when the rules or a release change; what is kept never answers
// otherwise than reading all of them would.
func TestEverWithheldKept(t *testing.T) {
	const head = "specimen: LK7-0000701\nentry: full\ncollector: Rask\ndate: s.d.\nplace: {country: Norway}\n"
	l := &everLedger{cache: disk.NewCache(filepath.Join(t.TempDir(), "cache.db")),
		files: map[string]string{"blotter.yaml": "format: \"1\"\nname: Lauvkroken Museum\ncode: LK7\n"},
		past:  []string{head + "determinations: [{name: Dactylorhiza majalis, by: Rask}]\n", head}}
	marked := "family: Orchidaceae\nnames:\n  - name: Dactylorhiza majalis\n    sensitive: {why: at risk from collecting, category: \"2\", on: 2020-01-01}\n"
	for _, step := range []struct {
		what     string
		do       func()
		withheld bool
		read     int
	}{
		{"for the first time", func() {}, false, 1},
		{"again", func() {}, false, 0},
		{"one more version", func() { l.past = append(l.past, head+"habitat: meadow\n") }, false, 2},
		{"and again", func() {}, false, 0},
		{"the name of the oldest is marked", func() { l.files["names/Orchidaceae.yaml"] = marked }, true, 1},
		{"still", func() {}, true, 1},
		{"released since", func() {
			l.past = append(l.past, head+"sensitive: {released: {by: Rask, date: 2021-01-01, why: plantation}}\n")
		}, false, 3},
		{"released, again", func() {}, false, 0},
		{"the release was taken away", func() { l.past = append(l.past, head) }, true, 1},
	} {
		step.do()
		withheld, read := l.ever(t)
		if withheld != step.withheld || read != step.read {
			t.Errorf("%s: withheld %t after reading %d versions, want %t after %d", step.what, withheld, read, step.withheld, step.read)
		}
		kept := l.cache
		l.cache = nil
		if anew, _ := l.ever(t); anew != withheld {
			t.Errorf("%s: %t with the cache, %t without", step.what, withheld, anew)
		}
		l.cache = kept
	}
}
