package html

import "blotter/render/page"

// parts writes a line that the program says.
func (w *writer) parts(ps []page.Part) {
	for _, p := range ps {
		switch p := p.(type) {
		case page.Said:
			w.t(string(p))
		case page.Name:
			w.name(p)
		case page.Quote:
			w.quote(p)
		case page.Absence:
			w.absence(p)
		case page.Link:
			w.link(p)
		}
	}
}

func (w *writer) link(l page.Link) {
	w.m("<a")
	w.href(l.To)
	if l.To.Outside() {
		w.m(` rel="external noopener"`)
	}
	w.m(">")
	w.parts(l.Text)
	w.m("</a>")
}

func (w *writer) quote(q page.Quote) {
	if q.Plain {
		w.t(string(q.Words))
		return
	}
	w.m(`<span class="w">`)
	w.t(string(q.Words))
	w.m("</span>")
}

// absence writes one of the five phrases in the place of a value.
func (w *writer) absence(a page.Absence) {
	if a.Kind == page.WithheldWord {
		w.m(`<span class="no held">`)
	} else {
		w.m(`<span class="no">`)
	}
	w.t(a.Phrase(w.lang))
	w.m("</span>")
}

// runs writes a person's words.
func (w *writer) runs(rs []page.Run) {
	for _, r := range rs {
		switch r := r.(type) {
		case page.Words:
			w.t(string(r))
		case page.Name:
			w.name(r)
		case page.WordsLink:
			w.m("<a")
			w.href(r.To)
			w.m(">")
			w.t(string(r.Words))
			w.m("</a>")
		}
	}
}
