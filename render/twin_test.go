package render

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	xhtml "golang.org/x/net/html"

	"blotter/render/html"
	"blotter/render/markdown"
	"blotter/render/page"
)

var judge = goldmark.New(goldmark.WithExtensions(extension.GFM))

// TestTwinSaysTheSameWords holds a page and its Markdown twin together: the
// twin rendered by goldmark has the words of <main>, in the same order
// (engineering.md section 10).
func TestTwinSaysTheSameWords(t *testing.T) {
	for _, p := range samples() {
		if !p.Twinless {
			checkTwin(t, sampleSite, p)
		}
	}
}

func checkTwin(t *testing.T, s *page.Site, p *page.Page) {
	t.Helper()
	md := markdown.Append(nil, s, p)
	var b bytes.Buffer
	if err := judge.Convert(md, &b); err != nil {
		t.Fatal(err)
	}
	twin := wordsOf(t, b.String(), "body")
	whole := wordsOf(t, string(html.Append(nil, s, p)), "main")
	// The twin's foot comes after the last word of <main>; it and the trail's
	// place differ, nothing else.
	foot := wordsOf(t, footOf(t, s, p), "body")
	want := append(moveTrail(p, whole), foot...)
	if got, want := strings.Join(twin, " "), strings.Join(want, " "); got != want {
		i := 0
		for i < len(got) && i < len(want) && got[i] == want[i] {
			i++
		}
		t.Errorf("%s: twin differs from its page at\n twin: ...%.200s\n page: ...%.200s", p.Address, got[max(0, i-40):], want[max(0, i-40):])
	}
}

// moveTrail puts the words of the trail, first on the page, after the heading
// and its number, where the twin has them.
func moveTrail(p *page.Page, whole []string) []string {
	trail := 0
	for _, l := range p.Trail {
		trail += len(wordsOfParts(l.Text))
	}
	head := len(strings.FieldsFunc(string(p.Number), notWord)) + len(wordsOfParts(p.Heading))
	if p.Withdrawn {
		head++
	}
	out := append([]string{}, whole[trail:trail+head]...)
	out = append(out, whole[:trail]...)
	return append(out, whole[trail+head:]...)
}

func wordsOfParts(ps []page.Part) []string {
	var out []string
	for _, p := range ps {
		switch p := p.(type) {
		case page.Name:
			out = append(out, strings.FieldsFunc(p.Plain(), notWord)...)
		case page.Said:
			out = append(out, strings.FieldsFunc(string(p), notWord)...)
		case page.Quote:
			out = append(out, strings.FieldsFunc(page.Visible(string(p.Words)), notWord)...)
		}
	}
	return out
}

func footOf(t *testing.T, s *page.Site, p *page.Page) string {
	md := string(markdown.Append(nil, s, p))
	i := strings.LastIndex(md, "\n---\n")
	var b bytes.Buffer
	if err := judge.Convert([]byte(md[i+5:]), &b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func notWord(r rune) bool {
	return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsMark(r) && r != '°' && r != '±' && r != '×' && r != '<'
}

// wordsOf is the words of the element named within, drawings, forms and the
// jumps within the page left out.
func wordsOf(t *testing.T, src, within string) []string {
	doc, err := xhtml.Parse(strings.NewReader(src))
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	var walk func(n *xhtml.Node, in bool)
	walk = func(n *xhtml.Node, in bool) {
		if n.Type == xhtml.ElementNode {
			switch n.Data {
			case "svg", "form", "script", "noscript":
				return
			case "nav":
				for _, a := range n.Attr {
					if a.Key == "class" && a.Val == "jump" {
						return
					}
				}
			}
			in = in || n.Data == within
			if !inline[n.Data] {
				b.WriteByte(' ')
				defer b.WriteByte(' ')
			}
		}
		if n.Type == xhtml.TextNode && in {
			b.WriteString(n.Data)
		}
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			walk(c, in)
		}
	}
	walk(doc, false)
	return strings.FieldsFunc(b.String(), notWord)
}

var inline = map[string]bool{"i": true, "em": true, "span": true, "a": true, "strong": true, "b": true}

// TestView writes the sample pages to a folder to be looked at, when
// BLOTTER_VIEW names one.
func TestView(t *testing.T) {
	dir := os.Getenv("BLOTTER_VIEW")
	if dir == "" {
		t.Skip("BLOTTER_VIEW names no folder to write the pages to")
	}
	for _, p := range samples() {
		write(t, filepath.Join(dir, filepath.FromSlash(string(p.Address))+".html"), html.Append(nil, sampleSite, p))
		write(t, filepath.Join(dir, filepath.FromSlash(string(p.Address))+".md"), markdown.Append(nil, sampleSite, p))
	}
	err := fs.WalkDir(html.Assets, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := fs.ReadFile(html.Assets, p)
		write(t, filepath.Join(dir, p), b)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

func write(t *testing.T, name string, b []byte) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, b, 0o666); err != nil {
		t.Fatal(err)
	}
}

// TestOneFunctionSetsNames looks for the markup of a name anywhere else
// (interface.md section 6).
func TestOneFunctionSetsNames(t *testing.T) {
	mark := regexp.MustCompile(`<i lang=`)
	err := filepath.WalkDir(".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(p, ".go") || strings.HasSuffix(p, "_test.go") {
			return err
		}
		b, err := os.ReadFile(p)
		if err == nil && mark.Match(b) != (filepath.ToSlash(p) == "html/name.go") {
			t.Errorf("%s: a name is set outside html/name.go, or not there", p)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}
