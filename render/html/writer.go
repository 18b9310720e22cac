// Package html writes pages as HTML, straight from the page model. A text
// reaches a page through one function that escapes it; markup is a type of
// its own, of which only this package's constants are made, so that no
// value can become markup. Nothing written here asks for anything outside
// the site.
package html

import (
	"blotter/render/page"
)

// markup is HTML as it goes out. Only constants are of this type: a test
// looks for conversions.
type markup string

type writer struct {
	b    []byte
	up   string // way to the root of the site
	site *page.Site
	lang *page.Language
}

func (w *writer) m(s markup) { w.b = append(w.b, s...) }

// t writes a text, escaped for element content and for quoted attributes.
func (w *writer) t(s string) {
	s = page.Visible(s)
	start := 0
	for i := 0; i < len(s); i++ {
		var esc markup
		switch s[i] {
		case '&':
			esc = "&amp;"
		case '<':
			esc = "&lt;"
		case '>':
			esc = "&gt;"
		case '"':
			esc = "&#34;"
		case '\'':
			esc = "&#39;"
		default:
			continue
		}
		w.b = append(w.b, s[start:i]...)
		w.b = append(w.b, esc...)
		start = i + 1
	}
	w.b = append(w.b, s[start:]...)
}

// href writes the attribute that leads to a. An address that is neither of
// the site nor https leads nowhere.
func (w *writer) href(a page.Address) {
	w.m(` href="`)
	w.address(a)
	w.m(`"`)
}

func (w *writer) address(a page.Address) {
	if a.Outside() {
		w.t(string(a))
		return
	}
	path, frag := a.Split()
	if path != "" {
		w.t(w.up)
		w.path(path)
		if !a.File() {
			w.m(".html")
		}
	}
	w.t(frag)
}

// path writes a path of the site; what is not unreserved in an address is
// percent-encoded, so that a path can never begin a scheme.
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
