package render

import (
	"bytes"
	"path"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/text"

	"blotter/render/page"
)

// proseReader reads the museum's own pages. Raw HTML is off; so is what
// goldmark holds dangerous (javascript:, data: and the like).
var proseReader = goldmark.New(goldmark.WithExtensions(extension.GFM))

// prose is one page that the museum wrote, as it stands on the site.
type prose struct {
	slug  string
	title string
	block page.Prose
}

// readProse renders one file of pages/. A link may lead to another page, by
// its .md ending, or to an https address; any other, and any picture from
// outside, is taken out, its words stay.
func readProse(f ProseFile) (prose, error) {
	src := []byte(strings.ReplaceAll(page.Visible(f.Text), "\r\n", "\n"))
	p := prose{slug: page.Slug(strings.TrimSuffix(path.Base(f.Path), ".md"))}
	doc := proseReader.Parser().Parse(text.NewReader(src))
	cut := tame(doc, src)
	if h, ok := doc.FirstChild().(*ast.Heading); ok && h.Level == 1 {
		p.title = strings.TrimSpace(string(plainText(h, src)))
		doc.RemoveChild(doc, h)
		src2 := bytes.Clone(src)
		p.block.Markdown = afterHeading(string(src2), h)
	} else {
		p.block.Markdown = string(src)
	}
	if p.title == "" {
		p.title = p.slug
	}
	var b bytes.Buffer
	if err := proseReader.Renderer().Render(&b, src, doc); err != nil {
		return p, err
	}
	p.block.HTML = b.String()
	for _, c := range cut {
		p.block.Markdown = strings.ReplaceAll(p.block.Markdown, c.from, c.to)
	}
	return p, nil
}

// change is a piece of the Markdown that the twin has otherwise.
type change struct{ from, to string }

// afterHeading is the source without its first heading.
func afterHeading(src string, h *ast.Heading) string {
	end := 0
	if n := h.Lines().Len(); n > 0 {
		end = h.Lines().At(n - 1).Stop
	}
	rest := src[end:]
	if i := strings.IndexByte(rest, '\n'); i >= 0 {
		rest = rest[i+1:]
	} else {
		rest = ""
	}
	if line, more, _ := strings.Cut(rest, "\n"); strings.Trim(line, "= \t") == "" && strings.Contains(line, "=") {
		rest = more
	}
	return strings.TrimLeft(rest, "\n")
}

// tame walks a page and takes out raw HTML, links that may not be there and
// pictures from outside; headings go down to the second level. It returns
// what the Markdown twin must have otherwise.
func tame(doc ast.Node, src []byte) []change {
	var cut []change
	var gone []ast.Node
	ast.Walk(doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.RawHTML:
			cut = append(cut, change{string(n.Segments.Value(src)), ""})
			gone = append(gone, n)
		case *ast.HTMLBlock:
			cut = append(cut, change{string(n.Lines().Value(src)), ""})
			if n.HasClosure() {
				cut = append(cut, change{string(n.ClosureLine.Value(src)), ""})
			}
			gone = append(gone, n)
		case *ast.Heading:
			if n.Level == 1 && n.PreviousSibling() != nil {
				n.Level = 2
			}
		case *ast.Link:
			if d := string(n.Destination); !allowed(d, true) {
				cut = append(cut, change{"(" + d, "(#"})
				n.Destination = []byte("#")
			} else {
				n.Destination = []byte(pageEnding(d))
			}
		case *ast.AutoLink:
			if !allowed(string(n.URL(src)), true) {
				gone = append(gone, n)
			}
		case *ast.Image:
			if d := string(n.Destination); !allowed(d, false) {
				cut = append(cut, change{"(" + d, "(#"})
				gone = append(gone, n)
			}
		}
		return ast.WalkContinue, nil
	})
	for _, n := range gone {
		if im, ok := n.(*ast.Image); ok {
			im.Parent().ReplaceChild(im.Parent(), im, ast.NewString(plainText(im, src)))
			continue
		}
		n.Parent().RemoveChild(n.Parent(), n)
	}
	return cut
}

// allowed reports whether a page of the museum may lead to d: a place of this
// site, or, for a link, an https address or a mail address of the museum.
func allowed(d string, link bool) bool {
	l := strings.ToLower(strings.TrimSpace(d))
	if strings.HasPrefix(l, "https://") || strings.HasPrefix(l, "mailto:") {
		return link
	}
	return !strings.Contains(l, ":") && !strings.HasPrefix(l, "//") && !strings.HasPrefix(l, "/") && !strings.Contains(l, "\\")
}

// pageEnding turns the ending of a link to a page of the site into that of
// its HTML.
func pageEnding(d string) string {
	p, frag, hash := strings.Cut(d, "#")
	if strings.Contains(p, ":") || !strings.HasSuffix(p, ".md") {
		return d
	}
	p = strings.TrimSuffix(p, ".md") + ".html"
	if hash {
		p += "#" + frag
	}
	return p
}

func plainText(n ast.Node, src []byte) []byte {
	var b []byte
	ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if t, ok := n.(*ast.Text); ok && entering {
			b = append(b, t.Segment.Value(src)...)
			if t.SoftLineBreak() {
				b = append(b, ' ')
			}
		}
		return ast.WalkContinue, nil
	})
	return b
}

// prosePage is a page of the museum's own.
func (s *shelf) prosePage(p prose) *page.Page {
	out := s.newPage(page.Address("about/"+p.slug), p.title, page.Quote{Words: page.Words(p.title)})
	out.Lead = []page.Block{p.block}
	return out
}
