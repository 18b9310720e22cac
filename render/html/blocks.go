package html

import (
	"blotter/render/figure"
	"blotter/render/page"
)

func (w *writer) blocks(bs []page.Block) {
	for _, b := range bs {
		w.block(b)
	}
}

func (w *writer) block(b page.Block) {
	switch b := b.(type) {
	case page.Para:
		w.m("<p>")
		w.parts(b.Parts)
		w.m("</p>\n")
	case page.Passage:
		w.m(`<p class="w">`)
		w.runs(b.Runs)
		w.m("</p>\n")
	case page.Opinions:
		w.opinions(b)
	case page.Fields:
		w.fields(b)
	case page.Letters:
		w.letters(b)
	case page.Rows:
		w.rows(b)
	case page.Group:
		w.m("<h3>")
		w.t(string(b.Heading))
		w.m("</h3>\n")
		w.blocks(b.Blocks)
	case page.Tally:
		w.tally(b)
	case page.Lines:
		w.lines(b)
	case page.Table:
		w.table(b)
	case page.Chart:
		w.chart(b)
	case page.Map:
		w.theMap(b)
	case page.Prose:
		w.m("<div class=\"prose\">\n")
		w.b = append(w.b, b.HTML...)
		w.m("</div>\n")
	case page.Search:
		w.search(b)
	}
}

func (w *writer) lines(b page.Lines) {
	w.m("<ul class=\"lines\">\n")
	for _, l := range b.List {
		w.m("<li>")
		w.parts(l)
		w.m("</li>\n")
	}
	w.m("</ul>\n")
}

func (w *writer) tally(b page.Tally) {
	w.m("<ul class=\"tally\">\n")
	for _, l := range b.List {
		w.m("<li>")
		w.link(l.Link)
		if l.Note != "" {
			w.m(" <span>")
			w.t(string(l.Note))
			w.m("</span>")
		}
		w.m("</li>\n")
	}
	w.m("</ul>\n")
}

func (w *writer) rows(b page.Rows) {
	w.m("<ul class=\"rows\">\n")
	for _, r := range b.List {
		w.m(`<li><span>`)
		w.name(r.Name)
		if len(r.As) > 0 {
			w.m(`<span class="as">`)
			w.parts(r.As)
			w.m("</span>")
		}
		w.m(`</span> <span><a`)
		w.href(r.To)
		w.m(">")
		w.t(string(r.Number))
		w.m("</a>")
		if r.Collector != "" {
			w.m(" ")
			w.t(string(r.Collector))
		}
		w.m("</span> <span>")
		w.t(string(r.Date))
		if len(r.Place) > 0 {
			w.m(", ")
			w.parts(r.Place)
		}
		w.m("</span>")
		if len(r.Tail) > 0 {
			w.m(` <span class="tail">`)
			w.parts(r.Tail)
			w.m("</span>")
		}
		w.m("</li>\n")
	}
	w.m("</ul>\n")
}

func (w *writer) table(b page.Table) {
	w.m(`<div class="scroll" role="region" tabindex="0" aria-label="`)
	w.t(string(b.Caption))
	w.m(`"><table><caption>`)
	w.t(string(b.Caption))
	w.m("</caption>\n<thead><tr>")
	for _, h := range b.Head {
		w.m(`<th scope="col">`)
		w.t(string(h))
		w.m("</th>")
	}
	w.m("</tr></thead>\n<tbody>\n")
	for _, r := range b.Rows {
		w.m("<tr>")
		for i, c := range r {
			w.cell(c, i == 0)
		}
		w.m("</tr>\n")
	}
	w.m("</tbody></table></div>\n")
}

func (w *writer) cell(c page.Cell, first bool) {
	if first {
		w.m(`<th scope="row">`)
	} else {
		w.m("<td>")
	}
	if c.Words != "" {
		w.m(`<span class="w">`)
		w.t(string(c.Words))
		w.m("</span>")
	} else {
		w.parts(c.Said)
	}
	if first {
		w.m("</th>")
	} else {
		w.m("</td>")
	}
}

func (w *writer) chart(c page.Chart) {
	w.m("<figure class=\"chart\">")
	w.b = figure.AppendBars(w.b, string(c.Sentence), c.Bars)
	w.m("<figcaption>")
	w.t(string(c.Sentence))
	w.m("</figcaption>\n<details><summary>")
	w.t(w.lang.FiguresWord)
	w.m("</summary><table><thead><tr><th scope=\"col\">")
	w.t(string(c.Category))
	w.m("</th><th scope=\"col\">")
	w.t(string(c.Measure))
	w.m("</th></tr></thead><tbody>\n")
	for _, b := range c.Bars {
		w.m(`<tr><th scope="row">`)
		w.t(b.Label)
		w.m("</th><td>")
		w.t(page.Number(b.N))
		w.m("</td></tr>\n")
	}
	w.m("</tbody></table></details></figure>\n")
}

func (w *writer) theMap(m page.Map) {
	w.m("<figure class=\"map\">")
	w.b = figure.AppendMap(w.b, m, w.up)
	w.m("<figcaption>")
	w.t(string(m.Sentence))
	w.m("</figcaption></figure>\n")
}

func (w *writer) search(s page.Search) {
	l := w.lang
	w.m("<form class=\"search\" role=\"search\"")
	w.m(` action="`)
	w.address("search")
	w.m(`" method="get"><label for="q">`)
	w.t(l.SearchLabel)
	w.m(`</label> <span class="hint" id="qh">`)
	w.t(l.SearchHint)
	w.m(`</span> <span class="box"><input id="q" name="q" type="search" aria-describedby="qh" autocomplete="off"> <button>`)
	w.t(l.SearchButton)
	w.m("</button></span></form>\n")
	if s.Parts == 0 {
		return
	}
	w.m("<noscript><p>")
	w.t(l.SearchNoScript)
	w.m("</p></noscript>\n<p id=\"hits\" role=\"status\" data-found=\"")
	w.t(l.SearchHits)
	w.m(`" data-none="`)
	w.t(l.SearchNoHits)
	w.m("\"></p>\n<ul id=\"found\" class=\"rows\"></ul>\n<script src=\"search.js\"></script>\n")
	for i := range s.Parts {
		w.m(`<script src="`)
		w.t(page.SearchPart(i))
		w.m("\"></script>\n")
	}
}
