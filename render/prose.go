package render

import (
	"bytes"
	"path"
	"strings"
	"sync"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/text"

	"blotter/render/page"
)

// proseReader reads the museum's own pages. Raw HTML is off; so is what
// goldmark holds dangerous (javascript:, data: and the like).
var proseReader = sync.OnceValue(func() goldmark.Markdown { return goldmark.New(goldmark.WithExtensions(extension.GFM)) })

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
	doc := proseReader().Parser().Parse(text.NewReader(src))
	tame(doc, src)
	if h, ok := doc.FirstChild().(*ast.Heading); ok && h.Level == 1 {
		p.title = strings.TrimSpace(string(plainText(h, src)))
		doc.RemoveChild(doc, h)
	}
	if p.title == "" {
		p.title = p.slug
	}
	w := proseWriter{src: src}
	w.blocks(doc, "")
	p.block.Markdown = w.b.String()
	links(doc)
	var b bytes.Buffer
	if err := proseReader().Renderer().Render(&b, src, doc); err != nil {
		return p, err
	}
	p.block.HTML = b.String()
	return p, nil
}

// tame takes raw HTML out of a page, and links and pictures that may not be
// there; their words stay. Headings go down to the second level.
func tame(doc ast.Node, src []byte) {
	var gone []ast.Node
	ast.Walk(doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.RawHTML, *ast.HTMLBlock:
			gone = append(gone, n)
		case *ast.Heading:
			if n.Level == 1 && n.PreviousSibling() != nil {
				n.Level = 2
			}
		case *ast.Link:
			if !allowed(string(n.Destination), true) {
				gone = append(gone, n)
			}
		case *ast.AutoLink:
			if !allowed(string(n.URL(src)), true) {
				gone = append(gone, n)
			}
		case *ast.Image:
			if !allowed(string(n.Destination), false) {
				gone = append(gone, n)
			}
		}
		return ast.WalkContinue, nil
	})
	for _, n := range gone {
		switch n := n.(type) {
		case *ast.Link, *ast.Image:
			n.Parent().ReplaceChild(n.Parent(), n, ast.NewString(plainText(n, src)))
		case *ast.AutoLink:
			n.Parent().ReplaceChild(n.Parent(), n, ast.NewString(n.Label(src)))
		default:
			n.Parent().RemoveChild(n.Parent(), n)
		}
	}
}

// links turns the endings of links to other pages into those of their HTML.
func links(doc ast.Node) {
	ast.Walk(doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if l, ok := n.(*ast.Link); ok && entering {
			l.Destination = []byte(pageEnding(string(l.Destination)))
		}
		return ast.WalkContinue, nil
	})
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
		switch t := n.(type) {
		case *ast.Text:
			if entering {
				b = append(b, t.Segment.Value(src)...)
				if t.SoftLineBreak() {
					b = append(b, ' ')
				}
			}
		case *ast.String:
			if entering {
				b = append(b, t.Value...)
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
