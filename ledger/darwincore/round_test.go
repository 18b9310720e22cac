package darwincore

import (
	"context"
	"fmt"
	"iter"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"blotter/ledger"
	"blotter/ledger/archive"
	"blotter/ledger/book"
	"blotter/ledger/ledgertest"
	"blotter/ledger/reading"
)

// roundMuseum are the museum's files of the round trips: names and people that
// the exporter looks up, and none of it may come back as words of a record.
var roundMuseum = map[string]string{
	"blotter.yaml":             "format: \"1\"\nname: Lauvkroken Museum\ncode: LK7\nnumbering:\n  prefix: LK7-\n  digits: \"7\"\nsite:\n  address: https://example.org/herbarium\n  licence: CC BY 4.0\n",
	"people.yaml":              "people:\n  - name: Signe Rask\n    orcid: 0000-0002-1825-0097\n",
	"names/Ranunculaceae.yaml": "names:\n  - name: Ranunculus acris L.\n  - name: Ranunculus pumilus Wahlenb.\n    of: Ranunculus acris L.\n",
}

// museumOf reads the museum's files of the round trips.
func museumOf(t testing.TB) *book.Museum {
	b, err := book.Load(context.Background(), ledgertest.MapSource(roundMuseum), book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return b.Museum
}

// roundTrip exports records for a partner, everything in them, and brings the
// archive in again.
func roundTrip(t testing.TB, dir string, m *book.Museum, records []*ledger.Record) []*ledger.Record {
	t.Helper()
	data := NewDataset(m, "", time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), nil, "Fjellheim Museum")
	reader := reading.NewReader(m.Conventions)
	var sheets iter.Seq2[*Sheet, error] = func(yield func(*Sheet, error) bool) {
		for _, r := range records {
			if !yield(&Sheet{Dataset: data, Number: ledger.Number(r.Specimen.Text), Record: r, Reading: reader.Of(r)}, nil) {
				return
			}
		}
	}
	name := filepath.Join(dir, "round.zip")
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	defer os.Remove(name)
	if _, err := WriteArchive(context.Background(), f, Input{Dataset: data, Sheets: sheets, Scratch: func() (Scratch, error) { return os.CreateTemp(dir, "") }}); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	a, err := archive.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer a.Close()
	in, err := NewIn(a, InOptions{Code: "LK7", Prefix: "LK7-", Conventions: m.Conventions})
	if err != nil {
		t.Fatal(err)
	}
	if !in.Ours() {
		t.Fatal("our own archive is not known as such")
	}
	var back []*ledger.Record
	for s, err := range a.Stars(context.Background(), dir) {
		if err != nil {
			t.Fatal(err)
		}
		rec, why := in.Record(s)
		if rec == nil {
			t.Fatalf("line %d: %s", s.Line.Line, why)
		}
		back = append(back, rec)
	}
	return back
}

// carried are the fields of a record but for those that no archive carries.
func carried(r *ledger.Record) []string {
	var out []string
	for _, kv := range ledger.Flatten(r) {
		if Carried(kv.Key) {
			out = append(out, fmt.Sprintf("%s=%q", kv.Key, kv.Value))
		}
	}
	return out
}

// lost says how the fields of two records differ.
func lost(want, got *ledger.Record) string {
	a, b := carried(want), carried(got)
	var out []string
	for _, x := range a {
		if !slices.Contains(b, x) {
			out = append(out, "lost "+x)
		}
	}
	for _, x := range b {
		if !slices.Contains(a, x) {
			out = append(out, "new "+x)
		}
	}
	if len(out) == 0 && !slices.Equal(a, b) {
		return "another order"
	}
	return strings.Join(out, "\n")
}

// hardWords are words that separators, quotes, keys and forms could break on.
var hardWords = []string{"Rask", "a | b", "a|b", "|", "||", "a||", "| a", "x: y", "seen: picture", "why: so", "number: 7", "part: b", `"host":"Betula"`, `"growing with":"x"`, `{"a":"b"}`, "=1+1", "+47", "-1", "@x", "'quoted", `say "so"`, "two\nlines", "two\n\nparagraphs", "\nnewline first", "a,b;c\td",
	"NA", "s.d.", "unknown", "true", "8 m", "8  m", "8 m m", "1e3 m", "60", "1934-04-03", "3/4/1934", "14.vii.2025", "60°42'12\"N 6°39'05\"E", "60.7, 6.6", "348 m", "1200 ft", "Norway", "Ranunculus acris L.", "Ranunculus cf. acris", "×Agropogon", "Carex × stenolepis", "CC BY 4.0", "cc by 4.0", "https://example.org/a|b.jpg", "images/a.jpg", "Mølster", "日本", " blank before", "blank after ", "é̀", "LK7-0000483", "lost", "isotype", "det", "not", "conf", "sheet", "cultivated", "wild"}

// anyRecord draws a record in which each field may stand with any words.
func anyRecord(t *rapid.T) *ledger.Record {
	word := rapid.OneOf(rapid.SampledFrom(hardWords), rapid.StringOfN(rapid.RuneFrom([]rune("aé| :\"'{}\\\n.,=1")), 1, 12, -1))
	var list []ledger.KV
	number := fmt.Sprintf("LK7-%07d", rapid.IntRange(1, 9999999).Draw(t, "number"))
	list = append(list, ledger.KV{Key: "specimen", Value: number}, ledger.KV{Key: "entry", Value: rapid.SampledFrom([]string{"full", "draft", "stub"}).Draw(t, "entry")})
	// A few fields are drawn, or nearly all.
	often := rapid.SampledFrom([]int{3, 30, 90}).Draw(t, "often")
	chance := func(f string) bool { return rapid.IntRange(0, 99).Draw(t, "has "+f) < often }
	var walk func(prefix, at string)
	walk = func(prefix, at string) {
		for _, f := range ledger.FieldsOf(ledger.RecordKind) {
			rest, ok := strings.CutPrefix(f.Path, prefix)
			if !ok || strings.Contains(rest, ".") || f.Path == "specimen" || f.Path == "entry" {
				continue
			}
			value := func() string {
				if len(f.Enum) > 0 && !f.Open {
					return rapid.SampledFrom(f.Enum).Draw(t, at+rest)
				}
				if f.Shape == `^sha256:[0-9a-f]{64}$` {
					return "sha256:" + strings.Repeat("0", 64)
				}
				return word.Draw(t, at+rest)
			}
			switch f.Kind {
			case ledger.Text:
				if f.Need == ledger.Required && prefix != "" && !strings.HasPrefix(prefix, "read.") || chance(f.Path) {
					list = append(list, ledger.KV{Key: at + rest, Value: value()})
				}
			case ledger.Texts:
				for range rapid.IntRange(0, often/30+1).Draw(t, f.Path) {
					list = append(list, ledger.KV{Key: at + rest, Value: value()})
				}
			case ledger.Group:
				if chance(f.Path) {
					walk(f.Path+".", at+rest+".")
				}
			case ledger.Entries:
				for i := range rapid.IntRange(0, often/30).Draw(t, f.Path) {
					walk(f.Path+".", fmt.Sprintf("%s%s.%d.", at, rest, i+1))
				}
			case ledger.Pairs:
				for i := range rapid.IntRange(0, 2).Draw(t, f.Path) {
					list = append(list, ledger.KV{Key: fmt.Sprintf("import.%d %s", i, rapid.SampledFrom([]string{"file", "a.b", "a: b", "Herr"}).Draw(t, "key")), Value: value()})
				}
			}
		}
	}
	walk("", "")
	r, err := ledger.Unflatten(list)
	if err != nil {
		t.Skip(err)
	}
	return r
}

// Any record comes back as it was, but for the fields of NotCarried.
func TestRoundTripOfAnyRecord(t *testing.T) {
	m := museumOf(t)
	dir := t.TempDir()
	rapid.Check(t, func(rt *rapid.T) {
		r := anyRecord(rt)
		back := roundTrip(t, dir, m, []*ledger.Record{r})
		if len(back) != 1 {
			rt.Fatalf("%d records", len(back))
		}
		if d := lost(r, back[0]); d != "" {
			rt.Fatalf("%s\n\nfrom %s", d, strings.Join(carried(r), "\n"))
		}
	})
}

// The records of testdata come back, the good ones and those with mistakes.
func TestRoundTripOfGoodRecords(t *testing.T) {
	m := museumOf(t)
	good := ledgertest.Corpus(t, "../..")
	paths := make([]string, 0, len(good))
	for p := range good {
		paths = append(paths, p)
	}
	slices.Sort(paths)
	var records []*ledger.Record
	for i, p := range paths {
		r := good[p]
		nothing := slices.ContainsFunc(ledger.Flatten(r), func(kv ledger.KV) bool { return kv.Value == "" }) // the same as no entry
		if r.Entry.Set() && !nothing {
			r.Specimen = ledger.Leaf{Text: fmt.Sprintf("LK7-%07d", i+1)} // each an id of its own
			records = append(records, r)
		}
	}
	same(t, records, roundTrip(t, t.TempDir(), m, records))
}

// same reports every difference.
func same(t *testing.T, want, got []*ledger.Record) {
	t.Helper()
	if len(got) != len(want) || len(want) == 0 {
		t.Fatalf("%d records came back of %d", len(got), len(want))
	}
	for i := range want {
		if d := lost(want[i], got[i]); d != "" {
			t.Errorf("%s:\n%s", want[i].Specimen.Text, d)
		}
	}
}

// The archive of the oracles, brought in, goes out and comes back the same.
func TestRoundTripOfOracleArchive(t *testing.T) {
	_, all := bringIn(t, oraclePath(t, "archive"), inOptions())
	var records []*ledger.Record
	for i, x := range all {
		x.rec.Specimen = ledger.Leaf{Text: fmt.Sprintf("LK7-%07d", i+1)}
		records = append(records, x.rec)
	}
	same(t, records, roundTrip(t, t.TempDir(), museumOf(t), records))
}
