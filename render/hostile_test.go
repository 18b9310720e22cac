package render

import (
	"bytes"
	"os"
	"regexp"
	"strings"
	"testing"

	xhtml "golang.org/x/net/html"

	"blotter/ledger"
	"blotter/render/html"
	"blotter/render/markdown"
)

// hostile is put into every field of a record: markup, script, links, words
// that turn the direction, Markdown.
const hostile = "</p><script>alert(1)</script><img src=x onerror=alert(2)> \"' onmouseover=x [a](javascript:alert(3)) ![b](https://evil.example/c.png) https://evil.example/ www.evil.example <https://evil.example> \u202eevil\u2066 \x07 &lt;b&gt; {1} */ --> ]]>"

// TestHostileText puts hostile words into every field of a record, of people
// and of names, and looks for anything of it that became more than words.
func TestHostileText(t *testing.T) {
	var kvs []ledger.KV
	r, _ := ledger.Decode("specimens/000/00/LK7-0000001.yaml", []byte(readFile(t, "../testdata/records/good/full-one-line-each.yaml")))
	for _, kv := range ledger.Flatten(r) {
		switch kv.Key {
		case "specimen":
			kv.Value = "LK7-0000001"
		case "entry":
			kv.Value = "full"
		default:
			if !strings.HasPrefix(kv.Key, "sensitive") {
				kv.Value = hostile
			}
		}
		if !strings.HasPrefix(kv.Key, "sensitive") && !strings.HasPrefix(kv.Key, "fate") {
			kvs = append(kvs, kv)
		}
	}
	bad, err := ledger.Unflatten(kvs)
	if err != nil {
		t.Fatal(err)
	}
	quoted := func(s string) string {
		return "\"" + strings.NewReplacer("\\", "\\\\", "\"", "\\\"", "\x07", "\\a").Replace(s) + "\""
	}
	h := quoted(hostile)
	files := map[string]string{
		"specimens/000/00/LK7-0000001.yaml": string(ledger.Encode(bad)),
		"blotter.yaml":                      "format: \"1\"\nname: " + h + "\ncode: LK7\nsite:\n  title: " + h + "\n  address: " + h + "\n  licence: " + h + "\n",
		"people.yaml":                       "people:\n  - name: " + h + "\n    about: " + h + "\n    orcid: " + h + "\n    born: " + h + "\n",
		"names/X.yaml":                      "family: " + h + "\nnames:\n  - name: " + h + "\n    of: " + h + "\n    source: " + h + "\n    address: " + h + "\n",
		"pages/front.md":                    "# T\n\n" + hostile + "\n\n<script>alert(1)</script>\n\n[x](javascript:alert(1)) [y](data:text/html,x) [z](http://evil.example/) ![p](https://evil.example/p.png) <http://evil.example>\n",
		"pages/evil.md":                     hostile + "\n\n[x](//evil.example) [j](JaVaScRiPt:alert(1)) [v](vbscript:x)\n\n<iframe src=\"https://evil.example\"></iframe>\n",
	}
	in := inputOf(t, files)
	s, pages := pagesOf(t, in)
	if len(s.sheets) != 1 {
		t.Fatalf("%d sheets published", len(s.sheets))
	}
	for _, p := range pages {
		prose := strings.HasPrefix(string(p.Address), "about/evil") || p.Address == "index"
		checkHTML(t, string(p.Address), html.Append(nil, s.site, p), prose)
		if p.Twinless {
			continue
		}
		var b bytes.Buffer
		if err := judge.Convert(markdown.Append(nil, s.site, p), &b); err != nil {
			t.Fatal(err)
		}
		checkHTML(t, string(p.Address)+".md", b.Bytes(), prose)
		if !prose {
			checkTwin(t, s.site, p)
		}
	}
}

func readFile(t testing.TB, name string) string {
	t.Helper()
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

var turning = regexp.MustCompile("[\u202a-\u202e\u2066-\u2069\x00-\x08]")

// checkHTML walks a page for an element, attribute or address that could only
// have come out of a text.
func checkHTML(t *testing.T, name string, src []byte, prose bool) {
	t.Helper()
	if turning.Match(src) {
		t.Errorf("%s: a sign that turns or hides words stands in it", name)
	}
	doc, err := xhtml.Parse(bytes.NewReader(src))
	if err != nil {
		t.Fatal(err)
	}
	var walk func(*xhtml.Node)
	walk = func(n *xhtml.Node) {
		if n.Type == xhtml.ElementNode {
			for _, a := range n.Attr {
				v := strings.ToLower(strings.TrimSpace(a.Val))
				switch {
				case strings.HasPrefix(a.Key, "on"), a.Key == "style":
					t.Errorf("%s: attribute %s", name, a.Key)
				case (a.Key == "href" || a.Key == "src" || a.Key == "action") && strings.Contains(v, ":") &&
					!(prose && a.Key == "href" && strings.HasPrefix(v, "https://")):
					t.Errorf("%s: <%s> leads to %.60s", name, n.Data, a.Val)
				case (a.Key == "href" || a.Key == "src") && strings.HasPrefix(v, "//"):
					t.Errorf("%s: <%s> leads to %.60s", name, n.Data, a.Val)
				}
			}
			switch n.Data {
			case "script":
				if n.FirstChild != nil && len(n.Attr) == 1 && n.Attr[0].Val != "application/ld+json" || len(n.Attr) == 0 {
					t.Errorf("%s: a script", name)
				}
			case "img", "iframe", "b", "object", "embed", "style":
				t.Errorf("%s: an element <%s>", name, n.Data)
			}
		}
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			walk(c)
		}
	}
	walk(doc)
}
