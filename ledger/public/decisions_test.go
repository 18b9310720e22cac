package public_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"blotter/ledger"
	"blotter/ledger/public"
)

// kinds are all kinds of file, those that are never public last.
var kinds = func() (all []ledger.FileKind) {
	for k := range ledger.MappingKind + 1 {
		all = append(all, k)
	}
	return all
}()

// TestEveryFieldDecided: whoever adds a field decides who may see it.
func TestEveryFieldDecided(t *testing.T) {
	for _, k := range kinds {
		for _, f := range ledger.FieldsOf(k) {
			if public.ShownTo(k, f.Path) == public.Undecided {
				t.Errorf("%s of the %s file: nobody has decided who may see it; put it into decisions.go", f.Path, k)
			}
		}
		for _, p := range public.DecidedPaths(k) {
			if _, ok := ledger.FieldAt(k, p); !ok && p != "" {
				t.Errorf("decisions.go has %s of the %s file, which is no field", p, k)
			}
		}
	}
	if public.ShownTo(ledger.RecordKind, "determinations.12.by") != public.Everyone || public.ShownTo(ledger.RecordKind, "nothing.like.it") != public.Undecided {
		t.Error("paths with numbers, or unknown ones")
	}
}

// whole is a record in which every field has words.
func whole() (*ledger.Record, map[string]bool) {
	var kvs []ledger.KV
	paths := map[string]bool{}
	for _, f := range ledger.Fields() {
		words := "words of " + f.Path
		switch {
		case f.Path == "specimen":
			words = "LK7-0000734"
		case f.Path == "accession":
			words = "2025-014"
		case f.Path == "images.file":
			words = "images/whole.jpg"
		case f.Enum != nil && f.Path != "sensitive.category":
			words = f.Enum[0]
		}
		key := f.Path
		switch f.Kind {
		case ledger.Group, ledger.Entries:
			continue
		case ledger.Texts:
			key += ".1"
		case ledger.Pairs:
			key += ".Column"
		}
		if list, rest, ok := strings.Cut(key, "."); ok {
			if row, _ := ledger.FieldAt(ledger.RecordKind, list); row.Kind == ledger.Entries {
				key = list + ".1." + rest
			}
		}
		if strings.HasPrefix(key, "sensitive.") || strings.HasPrefix(key, "place.private") || strings.HasPrefix(key, "same_") || strings.HasPrefix(key, "shares_") {
			continue // they decide, or name others
		}
		kvs = append(kvs, ledger.KV{Key: key, Value: words})
		paths[key] = true
	}
	r, err := ledger.Unflatten(kvs)
	if err != nil {
		panic(err)
	}
	return r, paths
}

// TestDecisionsHold: a record with every field is shown in each class with
// just those fields that the decisions give it.
func TestDecisionsHold(t *testing.T) {
	v, _, _ := view(t)
	for _, class := range []public.Class{public.Open, public.Low, public.Medium, public.High, public.Extreme} {
		r, paths := whole()
		r.Sensitive.Category.Text = class.Category()
		r.Images[0].Public.Text, r.Images[0].Safe.Text = "images/masked.jpg", ""
		shown, w := v.Record(r)
		if (w == nil) != (class == public.Open) || w != nil && w.Class != class {
			t.Fatalf("class %d: withheld %+v", class, w)
		}
		got := map[string]bool{}
		for _, kv := range ledger.Flatten(shown) {
			got[kv.Key] = true
		}
		for p := range paths {
			want := false
			switch public.ShownTo(ledger.RecordKind, p) {
			case public.Everyone:
				want = true
			case public.Gathered:
				want = class.Dated()
			case public.Located:
				want = class == public.Open
			}
			switch {
			case p == "images.1.safe": // it was taken out above
				continue
			case !class.Dated() && strings.HasSuffix(p, ".date"):
				want = false // a date that cannot be read may be that of gathering
			}
			if got[p] != want {
				t.Errorf("class %d: %s shown %t, want %t", class, p, got[p], want)
			}
		}
	}
}

// TestFormatPublic: FORMAT.md tells who may see which field.
func TestFormatPublic(t *testing.T) {
	file := filepath.Join("..", "FORMAT.md")
	b, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	want := string(b)
	for _, k := range kinds[:5] {
		begin, end := "<!-- public "+k.String()+" -->\n", "<!-- end -->"
		head, rest, ok := strings.Cut(want, begin)
		_, tail, ok2 := strings.Cut(rest, end)
		if !ok || !ok2 {
			t.Fatalf("FORMAT.md has no section %q", begin)
		}
		want = head + begin + publicTable(k) + end + tail
	}
	if os.Getenv("UPDATE_GOLDEN") != "" {
		if err := os.WriteFile(file, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if want != string(b) {
		t.Error("FORMAT.md is not what decisions.go says; UPDATE_GOLDEN=1 go test ./ledger/public -run FormatPublic mends it")
	}
}

func publicTable(k ledger.FileKind) string {
	words := []struct {
		to    public.Shown
		words string
	}{
		{public.Everyone, "everybody, always"}, {public.Gathered, "everybody, but of no record of category 1 or 2"},
		{public.Located, "everybody, but of no withheld record"}, {public.Staff, "the museum's own staff alone"},
	}
	out := "| who may see it | fields |\n| --- | --- |\n"
	for _, row := range words {
		var paths []string
		for _, f := range ledger.FieldsOf(k) {
			if f.Kind != ledger.Group && f.Kind != ledger.Entries && public.ShownTo(k, f.Path) == row.to {
				paths = append(paths, "`"+f.Path+"`")
			}
		}
		if len(paths) > 0 {
			out += "| " + row.words + " | " + strings.Join(slices.Compact(paths), " ") + " |\n"
		}
	}
	return out
}
