package darwincore

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"blotter/ledger"
)

// TestTermsPage: the tables of TERMS.md are those of the program.
// UPDATE_GOLDEN=1 writes them anew.
func TestTermsPage(t *testing.T) {
	b, err := os.ReadFile("TERMS.md")
	if err != nil {
		t.Fatal(err)
	}
	page := string(b)
	want := page
	for _, k := range Kinds() {
		want = fill(t, want, "terms "+k.Name, termTable(k))
	}
	want = fill(t, want, "homes", homeTable())
	want = fill(t, want, "not carried", notCarriedTable())
	want = fill(t, want, "arrivals", arrivalTable())
	if os.Getenv("UPDATE_GOLDEN") != "" {
		if os.Getenv("CI") == "true" {
			t.Fatal("golden files are not written in CI")
		}
		if err := os.WriteFile("TERMS.md", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if d := cmp.Diff(want, page); d != "" {
		t.Errorf("TERMS.md is not what the tables say; UPDATE_GOLDEN=1 go test ./ledger/darwincore -run TermsPage mends it\n%s", d)
	}
}

func fill(t *testing.T, page, mark, table string) string {
	t.Helper()
	head, rest, ok := strings.Cut(page, "<!-- "+mark+" -->\n")
	_, tail, ok2 := strings.Cut(rest, "<!-- end -->")
	if !ok || !ok2 {
		t.Fatalf("TERMS.md has no section %q", mark)
	}
	return head + "<!-- " + mark + " -->\n" + table + "<!-- end -->" + tail
}

func termTable(k *Kind) string {
	var b strings.Builder
	b.WriteString("| term | namespace | where it comes from |\n| --- | --- | --- |\n")
	for i := range k.Terms {
		x := &k.Terms[i]
		fmt.Fprintf(&b, "| %s | %s | %s |\n", x.Name, map[Space]string{DwC: "dwc", DC: "dc", DCTerms: "dcterms"}[x.Space], x.From)
	}
	return b.String()
}

// homeTable says of every field of a record where its words stand.
func homeTable() string {
	var b strings.Builder
	b.WriteString("| field | stands in |\n| --- | --- |\n")
	for _, f := range ledger.Fields() {
		if f.Kind == ledger.Group || f.Kind == ledger.Entries || notCarried(f.Path) {
			continue
		}
		home, ok := homeOf(f.Path)
		if !ok {
			home = "dynamicProperties"
		}
		fmt.Fprintf(&b, "| `%s` | %s |\n", f.Path, home)
	}
	return b.String()
}

func notCarriedTable() string {
	var b strings.Builder
	b.WriteString("| field | why |\n| --- | --- |\n")
	for _, n := range NotCarried {
		fmt.Fprintf(&b, "| `%s` | %s |\n", n.Path, n.Why)
	}
	return b.String()
}

// TestTermsAreCurrent: every exported term is in the published list of terms
// (current_terms.csv, 2026-05-26) or in the definition of the extension; none
// stands twice in one kind.
func TestTermsAreCurrent(t *testing.T) {
	dir := "../../../shared/standards"
	if o := os.Getenv("BLOTTER_ORACLES"); o != "" {
		dir = filepath.Join(o, "..", "standards")
	}
	f, err := os.Open(filepath.Join(dir, "dwc", "current_terms.csv"))
	if err != nil {
		t.Skip("the published list of terms is not beside the project (../shared/standards, or BLOTTER_ORACLES)")
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	current := map[string]bool{}
	for _, r := range rows {
		current[r[0]] = true
	}
	extensions := map[string]string{"Identification": "identification_history_2025-07-10.xml", "Multimedia": "multimedia.xml",
		"ResourceRelationship": "resource_relation.xml", "MeasurementOrFact": "measurements_or_facts.xml"}
	for _, k := range Kinds() {
		defined := ""
		if file := extensions[k.Name]; file != "" {
			b, err := os.ReadFile(filepath.Join(dir, "extensions", file))
			if err != nil {
				t.Fatal(err)
			}
			defined = strings.ReplaceAll(string(b), "'", `"`)
			if !strings.Contains(defined, `rowType="`+k.Type+`"`) {
				t.Errorf("%s: the published definition has another type of row than %s", k.Name, k.Type)
			}
		}
		seen := map[string]bool{}
		for i := range k.Terms {
			iri := k.Terms[i].IRI()
			if !current[iri] && !strings.Contains(defined, `qualName="`+iri+`"`) {
				t.Errorf("%s: %s is no current term", k.Name, iri)
			}
			if seen[iri] {
				t.Errorf("%s: %s stands twice", k.Name, iri)
			}
			seen[iri] = true
			if k.Terms[i].From == "" || k.Terms[i].Value == nil {
				t.Errorf("%s: %s says not where it comes from", k.Name, iri)
			}
		}
	}
}

// TestHomes: what has a home is a field, and the home is a term of the core or
// a kind.
func TestHomes(t *testing.T) {
	home := map[string]bool{}
	for _, k := range Kinds()[1:] {
		home[k.Name] = true
	}
	for i := range Occurrence.Terms {
		home[Occurrence.Terms[i].Name] = true
	}
	for path, h := range Homes {
		if _, ok := ledger.FieldAt(ledger.RecordKind, path); !ok {
			t.Errorf("%s is no field", path)
		}
		if !home[h] {
			t.Errorf("%s: there is no %s", path, h)
		}
	}
	for _, n := range NotCarried {
		if _, ok := ledger.FieldAt(ledger.RecordKind, n.Path); !ok {
			t.Errorf("%s is no field", n.Path)
		}
	}
	for _, f := range Facts {
		if Homes[f.Path] != "MeasurementOrFact" {
			t.Errorf("%s is a fact and has its home elsewhere", f.Path)
		}
	}
}

// TestJoinSplit: lists come back from their cell.
func TestJoinSplit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := rapid.SliceOf(rapid.StringMatching(`[a-c|:]([ a-c|:]{0,6}[a-c|:])?`)).Draw(t, "list")
		got := Split(Join(list))
		if len(list) == 0 && len(got) == 0 {
			return
		}
		if d := cmp.Diff(list, got); d != "" {
			t.Fatalf("%q: %s", Join(list), d)
		}
	})
}

// TestPackUnpack: fields come back from remarks.
func TestPackUnpack(t *testing.T) {
	keys := OpinionKeys
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.StringMatching(`([a-z]{2,4}: )?[a-zA|:]([ a-z|:]{0,8}[a-z|])?`)
		var fields []ledger.KV
		for _, k := range append([]string{"why"}, keys...) {
			if rapid.Bool().Draw(t, k) {
				fields = append(fields, ledger.KV{Key: k, Value: words.Draw(t, "words")})
			}
		}
		cell := Pack("why", fields)
		if d := cmp.Diff(fields, Unpack("why", cell, keys)); d != "" && len(fields) > 0 {
			t.Fatalf("%q: %s", cell, d)
		}
	})
}
