package book

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"blotter/ledger"
	"blotter/ledger/ledgertest"
	"blotter/ledger/reading"
)

// TestVersion: a digest that changes asks for another codecVersion.
func TestVersion(t *testing.T) {
	got := map[string]string{}
	for key, r := range ledgertest.Corpus(t, "../..") {
		got[key] = digest(EntryOf(reading.Of(r, reading.Conventions{}), nil))
	}
	ledgertest.Versioned(t, "testdata/entries.txt", codecVersion, got)
}

// digest is all that an entry says.
func digest(e Entry) string {
	s, j := *e.Shown, *e.Judged
	s.Seldom, j.SeldomJudged = nil, nil
	return fmt.Sprintf("%+v\n%+v\n%+v\n%+v", s, *e.Seldom, j, *e.SeldomJudged)
}

// TestChunk: what is kept comes back, and nothing else does.
func TestChunk(t *testing.T) {
	var list []kept
	for key, r := range ledgertest.Corpus(t, "../..") {
		e := EntryOf(reading.Of(r, reading.Conventions{}), nil)
		e.Blob = ledger.BlobOf([]byte(key))
		e.Number, e.Path = "", ""
		e.Findings = []ledger.Finding{{Line: 3, Col: 4, Severity: ledger.Error, Code: "c", Field: "f", Message: key, Hint: "h"}}
		list = append(list, kept{name: key, entry: e})
	}
	b := string(encodeChunk("stamp", list))
	back, err := decodeChunk(b, "stamp", &Intern{})
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(list, back, cmp.AllowUnexported(kept{})); d != "" {
		t.Error(d)
	}
	if _, err := decodeChunk(b, "other", &Intern{}); err == nil {
		t.Error("a chunk of another stamp was taken")
	}
	list = list[:8]
	b = string(encodeChunk("stamp", list))
	for n := range len(b) {
		if back, err := decodeChunk(b[:n], "stamp", &Intern{}); err == nil {
			t.Fatalf("a chunk cut at %d of %d was taken: %d entries", n, len(b), len(back))
		}
	}
}

// FuzzChunk: no bytes make the decoder fall over.
func FuzzChunk(f *testing.F) {
	e := (&Shown{Blob: "b", Once: []string{"x"}}).Entry()
	f.Add(string(encodeChunk("stamp", []kept{{name: "a", entry: e}})))
	f.Fuzz(func(t *testing.T, b string) { decodeChunk(b, "stamp", &Intern{}) })
}
