package exchange

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/ledgertest"
	"blotter/ledger/workbook"
)

// corpus are the records of the tests and of the demonstration ledger that
// decode without an error, each with a number of its own.
func corpus(t *testing.T) []*ledger.Record {
	t.Helper()
	var out []*ledger.Record
	seen := map[string]bool{}
	add := func(r *ledger.Record) {
		n := ledger.Number(r.Specimen.Text)
		if n.Valid() && !seen[n.Key()] {
			seen[n.Key()] = true
			out = append(out, r)
		}
	}
	all := ledgertest.Corpus(t, "../..")
	for _, key := range sortedKeys(all) {
		add(all[key])
	}
	err := filepath.WalkDir("../../examples", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || filepath.Ext(path) != ".yaml" {
			return err
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		r, found := ledger.Decode(path, text)
		if !slices.ContainsFunc(found, func(f ledger.Finding) bool { return f.Severity == ledger.Error && f.Code != "file-name" }) {
			add(r)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func sortedKeys(m map[string]*ledger.Record) []string {
	var keys []string
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

// failing is a test, of one kind or the other.
type failing interface {
	Helper()
	Fatal(...any)
	Fatalf(string, ...any)
	Errorf(string, ...any)
}

// written is a table of records in one of the forms of export.
func written(t failing, form string, records []*ledger.Record) []byte {
	t.Helper()
	var b bytes.Buffer
	if form == "json" {
		for _, r := range records {
			b.Write(append(AppendJSONRecord(nil, ledger.Flatten(r)), '\n'))
		}
		return b.Bytes()
	}
	var columns Columns
	for _, r := range records {
		columns.Add(ledger.Flatten(r))
	}
	heads := columns.Sort()
	var write func([]string) error
	var done func() error
	switch form {
	case "xlsx":
		w, err := workbook.NewWriter(&b, "specimens")
		if err != nil {
			t.Fatal(err)
		}
		write = func(cells []string) error {
			guarded := make([]string, len(cells))
			for i, c := range cells {
				guarded[i] = Guard(c)
			}
			return w.Write(guarded)
		}
		done = w.Close
	default:
		comma := byte(',')
		if form == "tsv" {
			comma = '\t'
		}
		w := NewSeparated(&b, comma, form == "marked csv")
		write, done = w.Write, w.Close
	}
	err := write(heads)
	for _, r := range records {
		if err == nil {
			err = write(columns.Row(nil, ledger.Flatten(r)))
		}
	}
	if err == nil {
		err = done()
	}
	if err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// back reads such a table as import does.
func back(form string, file []byte) ([]*ledger.Record, error) {
	var out []*ledger.Record
	take := func(m Made, err error) error {
		if err == nil && m.Record == nil {
			err = fmt.Errorf("line %d: %s", m.Line, m.Why)
		}
		if err == nil {
			out = append(out, m.Record)
		}
		return err
	}
	if form == "json" {
		for m, err := range ReadJSON("x.json", "", bytes.NewReader(file)) {
			if err := take(m, err); err != nil {
				return nil, err
			}
		}
		return out, nil
	}
	var src Source
	var err error
	if form == "xlsx" {
		src, err = OpenWorkbook("x.xlsx", bytes.NewReader(file), int64(len(file)), nil)
	} else {
		src, err = OpenText("x."+form, func() (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(file)), nil }, nil)
	}
	if err != nil {
		return nil, err
	}
	profile, err := NewProfile(src)
	if err != nil {
		return nil, err
	}
	plan, err := NewPlan(src.Heads(), Propose("x", profile, "LK7-").Mapping, Options{By: "Tiril Aune", Today: dates.DayOf(2026, 11, 25)})
	if err != nil {
		return nil, err
	}
	for m, err := range plan.Make(src) {
		if err := take(m, err); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// fieldsOf are the fields of a record but where an import says that it comes
// from, which a record without its own gets.
func fieldsOf(r *ledger.Record, own bool) []ledger.KV {
	fields := slices.DeleteFunc(ledger.Flatten(r), func(kv ledger.KV) bool {
		name, ok := strings.CutPrefix(kv.Key, "import.")
		return kv.Value == "" || ok && !own && Provenance(name)
	})
	slices.SortStableFunc(fields, func(a, b ledger.KV) int { // names under import: have no order of their own
		if strings.HasPrefix(a.Key, "import.") && strings.HasPrefix(b.Key, "import.") {
			return strings.Compare(a.Key, b.Key)
		}
		return 0
	})
	return fields
}

func sameRecords(t failing, form string, want, got []*ledger.Record) {
	t.Helper()
	if len(want) != len(got) {
		t.Fatalf("%s: %d records, want %d", form, len(got), len(want))
	}
	for i := range want {
		own := len(want[i].Import) > 0
		if d := cmp.Diff(fieldsOf(want[i], own), fieldsOf(got[i], own)); d != "" {
			t.Errorf("%s: %s came back otherwise:\n%s", form, want[i].Specimen.Text, d)
		}
	}
}

var forms = []string{"csv", "marked csv", "tsv", "xlsx", "json"}

// What is exported as a table of fields comes back as equal records: those of
// the tests and of the demonstration ledger, in every form.
func TestTablesComeBack(t *testing.T) {
	records := corpus(t)
	if len(records) < 100 {
		t.Fatalf("only %d records", len(records))
	}
	for _, form := range forms {
		got, err := back(form, written(t, form, records))
		if err != nil {
			t.Errorf("%s: %v", form, err)
			continue
		}
		sameRecords(t, form, records, got)
	}
}

// Whatever words stand in the fields, they come back. Blanks at the ends of a
// cell, and CR, are not kept by tables of text; json keeps them.
func TestAnyWordsComeBack(t *testing.T) {
	paths := []string{"collector", "coll_no", "date", "place.country", "place.locality", "place.position", "habitat", "remarks", "with.1", "associates.1", "associates.2",
		"determinations.1.name", "determinations.1.by", "determinations.1.date", "determinations.2.name", "determinations.2.why", "annotations.1.what", "import.Shelf", "read.date.is", "kept_as"}
	word := rapid.OneOf(
		rapid.StringMatching(`[a-zA-ZæøåÅ"'=+@,;|.0-9-]([a-zæ"'=,;|\t\n .0-9-]{0,10}[a-z"'=,;|.0-9-])?`),
		rapid.SampledFrom([]string{"NA", "s.n.", "s.d.", "not recorded", "unknown", "99", "-", "0", "3/4/34", "'=x", "TRUE", "0000482", "1e5", "=1+1", "!", "Viola sp. | Poa sp."}))
	rapid.Check(t, func(t *rapid.T) {
		var records []*ledger.Record
		for i := range rapid.IntRange(1, 4).Draw(t, "records") {
			fields := []ledger.KV{{Key: "specimen", Value: fmt.Sprintf("LK7-%07d", i+1)}, {Key: "entry", Value: "draft"}}
			for _, p := range paths {
				if rapid.IntRange(0, 2).Draw(t, "has") > 0 || strings.HasSuffix(p, ".1") || strings.HasPrefix(p, "determinations.1") {
					fields = append(fields, ledger.KV{Key: p, Value: word.Draw(t, p)})
					if p == "read.date.is" { // who says so belongs to it
						fields = append(fields, ledger.KV{Key: "read.date.by", Value: "Signe Rask"}, ledger.KV{Key: "read.date.date", Value: "2016-05-20"})
					}
				}
			}
			r, err := ledger.Unflatten(fields)
			if err != nil {
				t.Fatal(err)
			}
			records = append(records, r)
		}
		for _, form := range forms {
			got, err := back(form, written(t, form, records))
			if err != nil {
				t.Fatalf("%s: %v", form, err)
			}
			sameRecords(t, form, records, got)
		}
	})
}
