// Package markdown writes pages as Markdown, straight from the page model:
// the same blocks, in the same order, with the same words as the HTML. No
// HTML stands in it, and every text passes through one escaping function.
package markdown

import (
	"blotter/render/page"
)

type writer struct {
	b    []byte
	up   string
	lang *page.Language
}

// Append appends the Markdown twin of p on site s to dst.
func Append(dst []byte, s *page.Site, p *page.Page) []byte {
	w := &writer{b: dst, up: p.Address.Up(), lang: s.Language}
	w.s("# ")
	if p.Number != "" {
		w.t(string(p.Number))
		if p.Withdrawn {
			w.s(", " + w.lang.Withdrawn)
		}
		w.s(": ")
	}
	w.parts(p.Heading)
	w.s("\n")
	w.trail(p.Trail)
	if len(p.Standing) > 0 {
		w.s("\n")
		w.line(p.Standing)
	}
	for _, n := range p.Notices {
		w.s("\n> ")
		if n.Word != "" {
			w.s("**")
			w.t(string(n.Word))
			w.s("** ")
		}
		w.line(n.Text)
	}
	w.pictures(p.Pictures)
	w.blocks(p.Lead)
	for _, s := range p.Sections {
		w.s("\n## ")
		w.t(string(s.Heading))
		w.s("\n")
		w.blocks(s.Blocks)
	}
	w.foot(p)
	return w.b
}

// trail comes after the heading, so that the file begins with its title.
func (w *writer) trail(ls []page.Link) {
	for i, l := range ls {
		if i == 0 {
			w.s("\n")
		} else {
			w.s(" › ")
		}
		w.link(l)
	}
	if len(ls) > 0 {
		w.s("\n")
	}
}

func (w *writer) pictures(ps []page.Picture) {
	if len(ps) > 0 {
		w.s("\n")
	}
	for _, p := range ps {
		w.s("- ")
		if p.Shows != "" {
			w.t(string(p.Shows))
			w.s("; ")
		}
		if p.File != "" {
			w.s("[")
			w.t(w.lang.FullSize)
			w.s("](")
			w.address(p.File)
			w.s(") ")
		} else {
			w.t(string(p.Words))
			w.s(" ")
		}
		w.line(p.Credit)
	}
}

// foot says below a rule which day and revision the page shows.
func (w *writer) foot(p *page.Page) {
	w.s("\n---\n\n")
	if len(p.Shown) > 0 {
		w.line(p.Shown)
		w.s("\n")
	}
	for i, f := range w.lang.Footer(p) {
		if f.To == p.Address+".md" {
			continue
		}
		if i > 0 {
			w.s(" · ")
		}
		w.link(f)
	}
	w.s("\n")
}

// s writes Markdown of ours.
func (w *writer) s(s string) { w.b = append(w.b, s...) }

// t writes a text, escaped.
func (w *writer) t(s string) { w.b = appendEscaped(w.b, s) }

// line writes a line of the program's and ends it.
func (w *writer) line(ps []page.Part) {
	w.parts(ps)
	for len(w.b) > 0 && w.b[len(w.b)-1] == ' ' {
		w.b = w.b[:len(w.b)-1]
	}
	w.s("\n")
}

func (w *writer) parts(ps []page.Part) {
	for _, p := range ps {
		switch p := p.(type) {
		case page.Said:
			w.t(string(p))
		case page.Name:
			w.name(p)
		case page.Quote:
			w.t(string(p.Words))
		case page.Absence:
			w.t(p.Phrase(w.lang))
		case page.Link:
			w.link(p)
		}
	}
}

func (w *writer) runs(rs []page.Run) {
	for _, r := range rs {
		switch r := r.(type) {
		case page.Words:
			w.t(string(r))
		case page.Name:
			w.name(r)
		case page.WordsLink:
			w.s("[")
			w.t(string(r.Words))
			w.s("](")
			w.address(r.To)
			w.s(")")
		}
	}
}

func (w *writer) link(l page.Link) {
	w.s("[")
	w.parts(l.Text)
	w.s("](")
	w.address(l.To)
	w.s(")")
}

// address writes where a link leads; what is not unreserved is
// percent-encoded, so that it can neither end the link nor begin a scheme.
func (w *writer) address(a page.Address) {
	if a.Outside() {
		w.s("https://")
		w.path(string(a[len("https://"):]))
		return
	}
	path, frag := a.Split()
	if path != "" {
		w.s(w.up)
		w.path(path)
		if !a.File() {
			w.s(".md")
		}
	}
	if frag != "" {
		w.s("#")
		w.path(frag[1:])
	}
}

func (w *writer) path(p string) {
	const hexDigits = "0123456789ABCDEF"
	for i := 0; i < len(p); i++ {
		c := p[i]
		if c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '_' || c == '.' || c == '/' || c == '~' {
			w.b = append(w.b, c)
		} else {
			w.b = append(w.b, '%', hexDigits[c>>4], hexDigits[c&15])
		}
	}
}
