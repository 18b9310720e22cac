package ledger

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"gopkg.in/yaml.v3"
)

// nodeWords is all of a node that the decoder looks at.
func nodeWords(n *yaml.Node) string {
	if n == nil {
		return "nil"
	}
	s := fmt.Sprintf("%d:%d %d %d %q %q", n.Line, n.Column, n.Kind, n.Style, n.Value, n.Anchor)
	for _, c := range n.Content {
		s += "(" + nodeWords(c) + ")"
	}
	return s
}

// sameAsLibrary holds readCanonical to the YAML library wherever it gives
// anything.
func sameAsLibrary(t *testing.T, src []byte) (known bool) {
	t.Helper()
	mine := readCanonical(src)
	if mine == nil {
		return false
	}
	theirs, err := parse(src)
	if err != nil {
		t.Fatalf("read what is no YAML (%v):\n%s", err, src)
	}
	if got, want := nodeWords(mine), nodeWords(theirs); got != want {
		t.Fatalf("canonical\n%s\nlibrary\n%s\n%s", got, want, src)
	}
	return true
}

// TestCanonicalIsTheLibrary on every record of the corpus, and counts how many
// of the good ones it knows.
func TestCanonicalIsTheLibrary(t *testing.T) {
	known, good := 0, 0
	for _, dir := range []string{"good", "bad"} {
		files, err := filepath.Glob(filepath.Join("..", "testdata", "records", dir, "*.yaml"))
		if err != nil || len(files) == 0 {
			t.Fatalf("no records in %s: %v", dir, err)
		}
		for _, f := range files {
			src, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			ok := sameAsLibrary(t, src)
			r, fs := Decode("", src)
			if dir == "good" {
				good++
				if ok {
					known++
				}
				text := Encode(r)
				escaped := bytes.Contains(text, []byte(`\`)) || bytes.Contains(text, []byte(`": `)) // left to the library
				if len(fs) == 0 && !escaped && !sameAsLibrary(t, text) {
					t.Errorf("%s: its canonical form is not known:\n%s", f, text)
				}
			}
		}
	}
	t.Logf("knows %d of %d good records as they are written", known, good)
}

// TestCanonicalLeavesTheRest names forms that must go to the library.
func TestCanonicalLeavesTheRest(t *testing.T) {
	for _, c := range []struct{ name, src string }{
		{"empty", ""},
		{"no end", "a: b"},
		{"a comment with quotes", "a: b  # \"c\"\n"},
		{"words behind a comment", "a: b\n# c\n  d\n"},
		{"empty field", "a:\nb: c\n"},
		{"folded words", "a: b\n  c\n"},
		{"escape", `a: "\u0041"` + "\n"},
		{"anchor", "a: &b c\n"},
		{"document", "---\na: b\n"},
		{"end of document", "a: b\n...\n"},
		{"tab", "a:\tb\n"},
		{"next line", "a: b\u0085c: d\n"},
		{"deeper than its list", "a:\n  - b\n    c: d\n"},
		{"colon at the end", "a: b:\n"},
		{"two in one line", "a: b: c\n"},
	} {
		if n := readCanonical([]byte(c.src)); n != nil {
			t.Errorf("%s: read as %s", c.name, nodeWords(n))
		}
	}
}

// TestCanonicalWithComments names forms with comments and empty lines that it
// knows.
func TestCanonicalWithComments(t *testing.T) {
	for _, src := range []string{
		"a: b  # c\n", "a: b #\n", "# head\n\na: b\n\n  # deep\nc: d\n# end\n", "a: \"b\"  # c\n", "a: [b, \"c\"]  # d\n",
		"a:\n  - b  # c\n  # d\n  - e\nf: g\n", "a:\n# b\n  c: d\n\n\ne: f\n", "a: |\n  b\n  # words\n# c\nd: e\n", "a: {b: c}   # d\n", "a: \"b # c\"\n", "a: {b: \"60.7, 6.6\", c: 'd, e'}\nf: [\"g, h\", i]\n", "#%a\nb: c\n",
		"a:\n  - b: c\n\n  - b: d\n    # e\n    f: g\n",
	} {
		if !sameAsLibrary(t, []byte(src)) {
			t.Errorf("not known:\n%s", src)
		}
	}
}

func FuzzCanonical(f *testing.F) {
	files, _ := filepath.Glob(filepath.Join("..", "testdata", "records", "*", "*.yaml"))
	for _, name := range files {
		if src, err := os.ReadFile(name); err == nil {
			f.Add(src)
		}
	}
	f.Add([]byte("# head\na: b\nc: [d, \"e\", é f, g]\nh: {i: j, k: l}\nm: |\n  n\n   o\np:\n- q: r\n  s: t\n- u\nv: |-\n    w\n"))
	f.Add([]byte("# head\n\na: b  # c\n# d\nc: [d, e] #\nm: |\n  n\n# o\np:\n# q\n- q: r   # s\n\n  s: t\n  # u\n- u\n"))
	f.Fuzz(func(t *testing.T, src []byte) {
		if len(src) < 1<<16 && !tooDeep(src) {
			sameAsLibrary(t, src)
		}
	})
}

func BenchmarkCanonical(b *testing.B) {
	src, err := os.ReadFile(filepath.Join("..", "testdata", "records", "good", "full-one-line-each.yaml"))
	if err != nil {
		b.Skip(err)
	}
	r, _ := Decode("", src)
	src = Encode(r)
	b.Run("canonical", func(b *testing.B) {
		for b.Loop() {
			if readCanonical(src) == nil {
				b.Fatal("not known")
			}
		}
	})
	b.Run("library", func(b *testing.B) {
		for b.Loop() {
			if _, err := parse(src); err != nil {
				b.Fatal(err)
			}
		}
	})
}
