package markdown

import (
	"unicode"
	"unicode/utf8"

	"blotter/render/page"
)

// name sets a scientific name; no other function does.
func (w *writer) name(n page.Name) {
	for i, p := range n.Pieces {
		if i > 0 && n.Pieces[i-1].Kind != page.Cross {
			w.s(" ")
		}
		if p.Kind == page.Latin && emphatic(p.Text) {
			w.s("*")
			w.t(p.Text)
			w.s("*")
		} else {
			w.t(p.Text)
		}
	}
}

// emphatic reports whether * before and after s are sure to be read as
// emphasis: s begins and ends with a letter.
func emphatic(s string) bool {
	first, _ := utf8.DecodeRuneInString(s)
	last, _ := utf8.DecodeLastRuneInString(s)
	return unicode.IsLetter(first) && unicode.IsLetter(last)
}
