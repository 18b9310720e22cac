package html

import (
	"strings"

	"blotter/render/page"
)

// name sets a scientific name; no other function does. Pieces that a line
// must not part stand in one <span class="g">: a genus and its epithet, a
// rank marker or qualifier and what it governs, a hybrid sign and its
// epithet.
func (w *writer) name(n page.Name) {
	w.m(`<span class="n">`)
	open := false
	for i, p := range n.Pieces {
		if starts(n.Pieces, i) {
			if open {
				w.m("</span>")
			}
			if i > 0 && n.Pieces[i-1].Kind != page.Cross {
				w.m(" ")
			}
			open = false
			if p.Kind != page.Author && p.Kind != page.Unread {
				w.m(`<span class="g">`)
				open = true
			}
		} else if n.Pieces[i-1].Kind != page.Cross {
			w.m(" ")
		}
		w.piece(p)
	}
	if open {
		w.m("</span>")
	}
	w.m("</span>")
}

// starts reports whether a line may break before piece i.
func starts(ps []page.Piece, i int) bool {
	if i == 0 {
		return true
	}
	switch prev := ps[i-1].Kind; ps[i].Kind {
	case page.Author, page.Between, page.Unread:
		return true
	case page.Marker:
		return prev != page.Marker
	case page.Cross:
		return prev != page.Marker && prev != page.Latin
	default:
		return prev == page.Author || prev == page.Unread
	}
}

func (w *writer) piece(p page.Piece) {
	switch p.Kind {
	case page.Latin:
		w.m(`<i lang="la">`)
		w.t(p.Text)
		w.m("</i>")
	case page.Cross:
		w.m(`<span class="x">`)
		w.t(p.Text)
		w.m("</span>")
	case page.Author:
		w.m(`<span class="au">`)
		w.authors(p.Text)
		w.m("</span>")
	default:
		w.t(p.Text)
	}
}

// authors keeps "& D.Löve", "ex Bunge", "in DC." and hyphenated authors on
// one line.
func (w *writer) authors(s string) {
	for i := 0; s != ""; i++ {
		word, rest, more := strings.Cut(s, " ")
		if more && (word == "&" || word == "ex" || word == "in" || word == "et") {
			next, after, again := strings.Cut(rest, " ")
			word, rest, more = word+" "+next, after, again
		}
		if i > 0 {
			w.m(" ")
		}
		if strings.ContainsAny(word, " -") {
			w.m(`<span class="g">`)
			w.t(word)
			w.m("</span>")
		} else {
			w.t(word)
		}
		s = rest
		if !more {
			return
		}
	}
}
