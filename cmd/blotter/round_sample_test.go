package main

import (
	"bytes"
	"encoding/csv"
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
)

// sampleStep is how many rows there are to one of a sample.
const sampleStep = 20

// oracle is a path among the data that no one here wrote.
func oracle(t *testing.T, name string) string {
	t.Helper()
	root := os.Getenv("BLOTTER_ORACLES")
	if root == "" {
		root = filepath.Join("..", "..", "..", "shared", "oracles")
	}
	path, err := filepath.Abs(filepath.Join(root, filepath.FromSlash(name)))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(path); err != nil {
		t.Skipf("the data to test against is not here: %v", err)
	}
	return path
}

// sampleOf copies a table, or the files of an archive, with every twentieth of
// its rows; an extension keeps those of the core's.
func sampleOf(t *testing.T, from, comma string) string {
	t.Helper()
	to := filepath.Join(t.TempDir(), filepath.Base(from))
	if info, err := os.Stat(from); err != nil || !info.IsDir() {
		sampleTable(t, from, to, comma, nil)
		return to
	}
	if err := os.Mkdir(to, 0o755); err != nil {
		t.Fatal(err)
	}
	meta, err := os.ReadFile(filepath.Join(from, "meta.xml"))
	if err == nil {
		err = os.WriteFile(filepath.Join(to, "meta.xml"), meta, 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
	ids := sampleTable(t, filepath.Join(from, "occurrences.csv"), filepath.Join(to, "occurrences.csv"), comma, nil)
	sampleTable(t, filepath.Join(from, "identifications.csv"), filepath.Join(to, "identifications.csv"), comma, ids)
	return to
}

// sampleTable writes the heading and every twentieth row, or those whose first
// cell is in ids; it gives the first cells of what it wrote.
func sampleTable(t *testing.T, from, to, comma string, ids map[string]bool) map[string]bool {
	t.Helper()
	text, err := os.ReadFile(from)
	if err != nil {
		t.Fatal(err)
	}
	r := csv.NewReader(bytes.NewReader(text))
	r.Comma, r.FieldsPerRecord, r.LazyQuotes = rune(comma[0]), -1, comma == "\t"
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.Comma = r.Comma
	kept := map[string]bool{}
	for i, row := range rows {
		if i == 0 || ids == nil && (i-1)%sampleStep == 0 || ids[row[0]] {
			kept[row[0]] = true
			w.Write(row)
		}
	}
	w.Flush()
	if err := os.WriteFile(to, out.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	return kept
}

// fourSheets is the ledger that scripts use.
func fourSheets(t *testing.T) string {
	t.Helper()
	files, err := txtar.ParseFile(filepath.Join(smallLedger, "small.txtar"))
	if err != nil {
		t.Fatal(err)
	}
	dir := newLedger(t)
	for _, f := range files.Files {
		name := filepath.Join(dir, filepath.FromSlash(f.Name))
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, f.Data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	inLedger(t, dir, "enter")
	return dir
}
