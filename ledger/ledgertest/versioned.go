package ledgertest

import (
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"blotter/ledger"
)

// Versioned holds what a maker gives for each of some inputs against a file
// that has the same from before, under the maker's version constant. When the
// output for an input changes and the version does not, caches would go on
// giving the old one: that is an error. Inputs that the file lacks are
// passed over, so that a corpus may grow. UPDATE_GOLDEN=1 writes the file
// anew, unless there is such an error.
func Versioned(t *testing.T, file string, version int, got map[string]string) {
	t.Helper()
	head := "version " + strconv.Itoa(version)
	old, err := os.ReadFile(file)
	update := os.Getenv("UPDATE_GOLDEN") != ""
	if err != nil && !update {
		t.Fatal(err)
	}
	kept, want := sections(string(old))
	for _, name := range slices.Sorted(maps.Keys(got)) {
		if w, ok := want[name]; ok && kept == head && w != indented(got[name]) {
			t.Errorf("%s: another output under the same version; raise it\nbefore:\n%snow:\n%s", name, w, indented(got[name]))
		}
	}
	switch {
	case update && !t.Failed():
		out := head + "\n"
		for _, name := range slices.Sorted(maps.Keys(got)) {
			out += name + "\n" + indented(got[name])
		}
		if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(out), 0o644); err != nil {
			t.Fatal(err)
		}
	case kept != head:
		t.Errorf("%s is of %s, not of %s: UPDATE_GOLDEN=1 writes it anew", file, kept, head)
	}
}

func indented(text string) string {
	var b strings.Builder
	for line := range strings.Lines(text) {
		b.WriteString("  " + strings.TrimRight(line, "\n") + "\n")
	}
	return b.String()
}

// sections takes a file of Versioned apart.
func sections(text string) (head string, of map[string]string) {
	of = map[string]string{}
	name := ""
	for line := range strings.Lines(text) {
		switch {
		case head == "":
			head = strings.TrimSpace(line)
		case strings.HasPrefix(line, "  "):
			of[name] += line
		default:
			name = strings.TrimSpace(line)
			of[name] = ""
		}
	}
	return head, of
}

// Corpus is every record of testdata/records, good and bad, decoded; root is
// the way to the module's root. Each has its kind, file name and blob id as
// its key, so that an edited record is another.
func Corpus(t *testing.T, root string) map[string]*ledger.Record {
	t.Helper()
	out := map[string]*ledger.Record{}
	for _, kind := range []string{"good", "bad"} {
		files, err := filepath.Glob(filepath.Join(root, "testdata/records", kind, "*.yaml"))
		if err != nil || len(files) == 0 {
			t.Fatalf("no records: %v", err)
		}
		for _, f := range files {
			src, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			r, _ := ledger.Decode("", src)
			out[kind+"/"+filepath.Base(f)+" "+string(ledger.BlobOf(src))[:12]] = r
		}
	}
	return out
}
