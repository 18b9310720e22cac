package render

import (
	"strings"
	"testing"

	"blotter/render/page"
)

// TestProse holds the museum's own pages to what may stand in them, and each
// to its twin.
func TestProse(t *testing.T) {
	for _, c := range []struct{ name, md, has, lacks, reason string }{
		{"plain", "# A page\n\nWords *and* **more**.\n", "<p>Words <em>and</em> <strong>more</strong>.</p>", "<h1", "its first heading heads the page"},
		{"relative", "[families](../families/index.md#x)\n", `href="../families/index.html#x"`, ".md\"", "a link to a page leads to its HTML"},
		{"https", "[a](https://museum.example/)\n", `href="https://museum.example/"`, "", "a museum may lead out by https"},
		{"http", "[words](http://museum.example/)\n", "words", "href", "nothing unencrypted"},
		{"script", "[words](javascript:alert(1)) <b onclick=x>bold</b>\n\n<script>x</script>\n", "words bold", "<b", "raw HTML is off"},
		{"data", "![alt](data:image/png;base64,AA) text\n", "alt text", "<img", "no picture from an address"},
		{"outside picture", "![alt](https://evil.example/x.png)\n", "alt", "<img", "nothing is asked for outside the site"},
		{"own picture", "![alt](../images/a.jpg)\n", `<img src="../images/a.jpg" alt="alt"`, "", "the site's own pictures stand"},
		{"reference", "[a][1] and [b]\n\n[1]: http://evil.example/\n[b]: javascript:x\n", "a and b", "href", "references are links too"},
		{"blocks", "## Two\n\n- one\n- two\n  - three\n\n1. first\n2. second\n\n> said\n> more\n\n```\nx < y\n```\n\n| a | b |\n|---|---|\n| 1 | 2 |\n\nLast \\* `code` &amp; ~~gone~~.\n", "<table>", "<script", "all blocks come through"},
		{"second h1", "# A\n\n# B\n", "<h2", "<h1", "one h1 on a page"},
		{"rtl", "a \u202e b\n", "[U+202E]", "\u202e", "nothing turns the words"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := readProse(ProseFile{"pages/a.md", c.md})
			if err != nil {
				t.Fatal(err)
			}
			if !strings.Contains(p.block.HTML, c.has) || c.lacks != "" && strings.Contains(p.block.HTML, c.lacks) {
				t.Errorf("%s: %s", c.reason, p.block.HTML)
			}
			m := &page.Page{Address: "about/a", Title: "A", Heading: []page.Part{said("A")}, Lead: []page.Block{p.block}}
			checkTwin(t, sampleSite, m)
		})
	}
}
