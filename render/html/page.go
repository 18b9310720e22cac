package html

import "blotter/render/page"

// Append appends the whole HTML page of p on site s to dst.
func Append(dst []byte, s *page.Site, p *page.Page) []byte {
	w := &writer{b: dst, up: p.Address.Up(), site: s, lang: s.Language}
	w.head(p)
	w.top()
	w.m(`<main id="main"`)
	switch {
	case len(p.Pictures) > 0:
		w.m(` class="wide"`)
	case p.Letters:
		w.m(` class="letters"`)
	}
	w.m(">\n")
	w.opening(p)
	w.pictures(p.Pictures)
	w.blocks(p.Lead)
	for _, s := range p.Sections {
		w.section(s)
	}
	w.m("</main>\n")
	w.foot(p)
	w.m("</body>\n</html>\n")
	return w.b
}

func (w *writer) head(p *page.Page) {
	w.m("<!doctype html>\n<html lang=\"")
	w.t(w.lang.Code)
	w.m("\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>")
	w.t(p.Title)
	if p.Title != string(w.site.Title) {
		w.m(" | ")
		w.t(string(w.site.Title))
	}
	w.m("</title>\n<meta name=\"color-scheme\" content=\"light dark\">\n<link rel=\"stylesheet\" href=\"")
	w.t(w.up)
	w.m("site.css\">\n")
	if w.site.Staff {
		w.m("<meta name=\"robots\" content=\"noindex\">\n")
	}
	if !p.Twinless {
		w.m(`<link rel="alternate" type="text/markdown"`)
		w.href(p.Address + ".md")
		w.m(">\n")
	}
	if p.JSON != "" {
		w.m(`<link rel="alternate" type="application/json"`)
		w.href(p.JSON)
		w.m(">\n")
	}
	w.m(`<link rel="alternate" type="application/atom+xml" href="`)
	w.t(w.up)
	w.m("feed.xml\">\n")
	if w.site.Base != "" {
		w.m(`<link rel="canonical" href="`)
		w.t(w.site.Base)
		w.path(string(p.Address))
		w.m(".html\">\n")
	}
	if p.LD != nil {
		w.m(`<script type="application/ld+json">`)
		w.json(p.LD)
		w.m("</script>\n")
	}
	w.m("</head>\n")
}

// json writes JSON inside a script element, where "<" could end it.
func (w *writer) json(b []byte) {
	for _, c := range b {
		switch c {
		case '<':
			w.m(`\u003c`)
		case '>':
			w.m(`\u003e`)
		case '&':
			w.m(`\u0026`)
		default:
			w.b = append(w.b, c)
		}
	}
}

func (w *writer) top() {
	l := w.lang
	w.m("<body>\n<a class=\"skip\" href=\"#main\">")
	w.t(l.SkipLink)
	w.m("</a>\n<header><p><a")
	w.href("index")
	w.m(">")
	w.t(string(w.site.Title))
	w.m("</a></p><nav aria-label=\"")
	w.t(l.NavLabel)
	w.m("\"><ul>")
	for _, n := range l.Navigation() {
		w.m("<li>")
		w.link(n)
		w.m("</li>")
	}
	w.m("</ul></nav></header>\n")
}

func (w *writer) opening(p *page.Page) {
	w.trail(p.Trail)
	w.m("<h1>")
	if p.Number != "" {
		w.m(`<span class="num">`)
		w.t(string(p.Number))
		if p.Withdrawn {
			w.m(`, <strong class="mad">`)
			w.t(w.lang.Withdrawn)
			w.m("</strong>")
		}
		w.m("</span> ")
	}
	w.parts(p.Heading)
	w.m("</h1>\n")
	if len(p.Standing) > 0 {
		w.m(`<p class="standing">`)
		w.parts(p.Standing)
		w.m("</p>\n")
	}
	if len(p.Jumps) > 0 {
		w.m(`<nav class="jump" aria-label="`)
		w.t(w.lang.JumpLabel)
		w.m(`"><ul>`)
		for _, j := range p.Jumps {
			w.m("<li>")
			w.link(j)
			w.m("</li>")
		}
		w.m("</ul></nav>\n")
	}
	for _, n := range p.Notices {
		w.notice(n)
	}
}

func (w *writer) trail(ls []page.Link) {
	if len(ls) == 0 {
		return
	}
	w.m(`<nav class="trail" aria-label="`)
	w.t(w.lang.TrailLabel)
	w.m(`"><ol>`)
	for _, l := range ls {
		w.m("<li>")
		w.link(l)
		w.m("</li>")
	}
	w.m("</ol></nav>\n")
}

func (w *writer) notice(n page.Notice) {
	class := markup("notice")
	switch n.Kind {
	case page.CautionNotice:
		class = "notice caution"
	case page.WithdrawnNotice, page.TypeNotice:
		class = "notice barred"
	}
	w.m(`<p class="`)
	w.m(class)
	w.m(`">`)
	if n.Word != "" {
		w.m("<strong>")
		w.t(string(n.Word))
		w.m("</strong> ")
	}
	w.parts(n.Text)
	w.m("</p>\n")
}

func (w *writer) pictures(ps []page.Picture) {
	if len(ps) == 0 {
		return
	}
	w.m("<div class=\"pictures\">\n")
	for _, p := range ps {
		w.m("<figure>")
		if p.File != "" {
			w.m("<a")
			w.href(p.File)
			w.m(`><img loading="lazy" src="`)
			w.address(p.File)
			w.m(`" alt="`)
			w.t(p.Alt)
			w.m(`"></a>`)
		}
		w.m("<figcaption>")
		if p.Shows != "" {
			w.m(`<span class="w">`)
			w.t(string(p.Shows))
			w.m("</span> ")
		}
		if p.File != "" {
			w.m("<a")
			w.href(p.File)
			w.m(">")
			w.t(w.lang.FullSize)
			w.m("</a> ")
		} else {
			w.m(`<span class="w">`)
			w.t(string(p.Words))
			w.m("</span> ")
		}
		w.parts(p.Credit)
		w.m("</figcaption></figure>\n")
	}
	w.m("</div>\n")
}

func (w *writer) section(s page.Section) {
	w.m(`<section aria-labelledby="`)
	w.t(s.ID)
	w.m(`"><h2 id="`)
	w.t(s.ID)
	w.m(`">`)
	w.t(string(s.Heading))
	w.m("</h2>\n")
	w.blocks(s.Blocks)
	w.m("</section>\n")
}

func (w *writer) foot(p *page.Page) {
	l := w.lang
	w.m(`<footer aria-label="`)
	w.t(l.FootLabel)
	w.m(`">`)
	if len(p.Shown) > 0 {
		w.m("<p>")
		w.parts(p.Shown)
		w.m("</p>")
	}
	w.m(`<p class="printed">`)
	w.t(w.site.Base)
	w.t(string(p.Address))
	w.m("</p><ul>")
	for _, f := range l.Footer(p) {
		w.m("<li>")
		w.link(f)
		w.m("</li>")
	}
	w.m("</ul></footer>\n")
}
