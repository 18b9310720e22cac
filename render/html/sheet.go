package html

import "blotter/render/page"

// opinions writes the rail of names: newest on top, the label's own last.
func (w *writer) opinions(o page.Opinions) {
	w.m("<ol reversed class=\"names\">\n")
	for _, p := range o.List {
		w.opinion(p)
	}
	w.m("</ol>\n")
}

func (w *writer) opinion(o page.Opinion) {
	w.m(`<li id="`)
	w.t(o.Anchor)
	w.m(`" class="`)
	switch o.Mark {
	case page.Stands:
		w.m("disc")
	case page.Earlier:
		w.m("ring")
	case page.Renamed:
		w.m("bar")
	}
	if o.Mistake != nil {
		w.m(" mis")
	}
	w.m(`"><p class="day"><strong>`)
	w.t(string(o.Day))
	w.m(", ")
	w.t(string(o.What))
	w.m("</strong> (")
	w.t(string(o.State))
	w.m(")</p>")
	if o.Mistake != nil {
		w.m(`<p class="oops">`)
		w.parts(o.Mistake)
		w.m("</p>")
	}
	if len(o.Name.Pieces) > 0 {
		w.m(`<p class="nm">`)
		w.name(o.Name)
		w.m("</p>")
	}
	w.m(`<p class="by">`)
	w.parts(o.By)
	w.m("</p>")
	if o.Grounds != "" {
		w.m(`<p class="w">`)
		w.t(string(o.Grounds))
		w.m("</p>")
	}
	if len(o.More) > 0 {
		w.m(`<p class="more">`)
		w.parts(o.More)
		w.m("</p>")
	}
	if len(o.Entered) > 0 {
		w.m(`<p class="ent">`)
		w.parts(o.Entered)
		w.m("</p>")
	}
	if o.Gap != "" {
		w.m(`<p class="gap">`)
		w.t(string(o.Gap))
		w.m("</p>")
	}
	w.m("</li>\n")
}

// fields writes the label: words, with each reading below them.
func (w *writer) fields(f page.Fields) {
	w.m("<dl class=\"label\">\n")
	for _, f := range f.List {
		w.m("<div><dt>")
		w.t(string(f.Name))
		w.m("</dt><dd>")
		if len(f.Words) > 0 {
			w.m(`<span class="w">`)
			w.runs(f.Words)
			w.m("</span>")
		}
		if f.None.Kind != page.Present {
			if len(f.Words) > 0 {
				w.m(` <span class="read">`)
				w.t(f.None.Phrase(w.lang))
				w.m("</span>")
			} else {
				w.absence(f.None)
			}
		}
		for i, r := range f.Readings {
			if i > 0 || len(f.Words) > 0 || f.None.Kind != page.Present {
				w.m(" ")
			}
			w.m(`<span class="read">`)
			w.parts(r)
			w.m("</span>")
		}
		w.m("</dd></div>\n")
	}
	w.m("</dl>\n")
}

// letters writes a label to the letter, with its line ends.
func (w *writer) letters(l page.Letters) {
	w.m(`<figure class="letters"><figcaption>`)
	w.t(page.Fill(w.lang.OnSheet, string(l.On)))
	w.m("</figcaption><p class=\"w pre\">")
	w.t(string(l.Text))
	w.m("</p>")
	if l.Hand != "" {
		w.m(`<p class="read">`)
		w.t(page.Fill(w.lang.InHand, string(l.Hand)))
		w.m("</p>")
	}
	w.m("</figure>\n")
}
