package paper

import (
	"fmt"
	"html"
	"math"
	"slices"
	"strconv"
	"strings"
)

// HTML is p as one file to be printed from a browser: every page a section of
// its exact size with its letters as text, at the places that they have in the
// PDF. The faces used stand in the file; nothing is fetched.
func (p *Paper) HTML() []byte {
	var b strings.Builder
	lang := p.Lang
	if lang == "" {
		lang = "en"
	}
	title := html.EscapeString(p.Title)
	fmt.Fprintf(&b, "<!DOCTYPE html>\n<html lang=\"%s\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width\">\n<title>%s</title>\n<style>\n", html.EscapeString(lang), title)
	sizes := p.sizes()
	for i, s := range sizes {
		fmt.Fprintf(&b, "@page p%d{size:%smm %smm;margin:0}.p%d{page:p%d;width:%smm;height:%smm}.p%d svg{width:%smm;height:%smm}\n", i, mm(s.W), mm(s.H), i, i, mm(s.W), mm(s.H), i, mm(s.W), mm(s.H))
		// A page of a browser is whole dots of the screen, so that a section as
		// high as the paper may reach into the next; nothing is drawn that low.
		fmt.Fprintf(&b, "@media print{.p%d{height:%smm}}\n", i, mm(s.H-0.5))
	}
	for i, used := range p.facesUsed() {
		if used {
			fmt.Fprintf(&b, "@font-face{font-family:paper;font-style:%s;src:url(data:font/woff;base64,%s) format(\"woff\")}\n", [2]string{"normal", "italic"}[i], woffs[i]())
		}
	}
	b.WriteString(paperStyle)
	fmt.Fprintf(&b, "</style>\n</head>\n<body>\n<header>\n<h1>%s</h1>\n<p>Print at 100 %%, without margins, headers and footers of the browser, on %s.</p>\n</header>\n<main>\n", title, sizeNames(sizes))
	for i, page := range p.Pages {
		fmt.Fprintf(&b, "<section class=\"p%d\" aria-label=\"Page %d of %d\">\n", slices.Index(sizes, page.Size), i+1, len(p.Pages))
		fmt.Fprintf(&b, "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %s %s\">\n", mm(page.Size.W), mm(page.Size.H))
		for _, it := range page.Items {
			if t, ok := it.(Text); ok {
				htmlText(&b, t)
			} else {
				svgShape(&b, it)
			}
		}
		b.WriteString("</svg>\n</section>\n")
	}
	b.WriteString("</main>\n</body>\n</html>\n")
	return []byte(b.String())
}

// paperStyle: on the screen the pages lie on grey, below a line that is not
// printed. Letters are kerned as in the PDF, and not joined.
const paperStyle = `html{background:#d9d9d6}body{margin:0}
header{font:15px/1.4 system-ui,"Liberation Sans",sans-serif;padding:12px 16px;background:#fff;color:#1d1f1c}h1{font-size:15px;font-weight:600;margin:0}p{margin:0}
section{position:relative;overflow:hidden;background:#fff;outline:1px solid #7f8276;margin:16px auto}
svg{display:block;position:absolute;left:0;top:0}
text{font-family:paper;font-kerning:normal;font-variant-ligatures:none;text-rendering:geometricPrecision;white-space:pre}.i{font-style:italic}
line,rect{stroke:#000;fill:none}
@media print{html{background:none}header{display:none}section{outline:0;margin:0;break-after:page;break-inside:avoid}section:last-child{break-after:auto}}
`

// sizes are the sizes of the pages, each once.
func (p *Paper) sizes() []Size {
	var all []Size
	for _, page := range p.Pages {
		if !slices.Contains(all, page.Size) {
			all = append(all, page.Size)
		}
	}
	return all
}

func sizeNames(sizes []Size) string {
	var names []string
	for _, s := range sizes {
		name := measures(s.W, s.H)
		if s.Name != "" {
			name = s.Name + " (" + name + ")"
		}
		names = append(names, html.EscapeString(name))
	}
	return strings.Join(names, ", ")
}

// facesUsed are the faces that any text of p is set in.
func (p *Paper) facesUsed() (used [2]bool) {
	for _, page := range p.Pages {
		for _, it := range page.Items {
			if t, ok := it.(Text); ok {
				for _, r := range t.Runs {
					used[r.Face] = true
				}
			}
		}
	}
	return used
}

// htmlText writes one line of letters; each run of a style begins where it
// does in the PDF and is as wide.
func htmlText(b *strings.Builder, t Text) {
	fmt.Fprintf(b, "<text y=\"%s\"", mm(t.Y))
	if t.Turn != 0 {
		fmt.Fprintf(b, " transform=\"rotate(%s %s %s)\"", mm(-t.Turn), mm(t.X), mm(t.Y))
	}
	b.WriteString(">")
	x := t.X
	for _, r := range merged(t.Runs) {
		wide, text := Width(r), drawn(faces()[r.Face], r.Text)
		fmt.Fprintf(b, "<tspan x=\"%s\" font-size=\"%s\"", mm(x), mm(r.Size*Point))
		if r.Face == Italic {
			b.WriteString(` class="i"`)
		}
		if r.Grey != 0 {
			fmt.Fprintf(b, " fill=\"%s\"", grey(r.Grey))
		}
		switch {
		case r.Spread != 0:
			fmt.Fprintf(b, " letter-spacing=\"%s\"", mm(r.Spread*r.Size*Point))
		case len(text) > 1:
			fmt.Fprintf(b, " textLength=\"%s\"", mm(wide))
		}
		b.WriteString(">" + html.EscapeString(text) + "</tspan>")
		x += wide
	}
	b.WriteString("</text>\n")
}

// mm is a measure to a thousandth of a millimetre.
func mm(v float64) string {
	return strconv.FormatFloat(math.Round(v*1000)/1000+0, 'f', -1, 64) // + 0: never "-0"
}

// greyLevel is how bright a grey is in 255ths, in every medium alike.
func greyLevel(grey float64) int { return int(grey*255 + 0.5) }

func grey(g float64) string {
	n := greyLevel(g)
	return fmt.Sprintf("#%02x%02x%02x", n, n, n)
}
