package document

import (
	"fmt"
	"html"
	"strings"

	"blotter/render/page"
	"blotter/render/paper"
)

// style is for paper: black on white, one column, a table's heads again on
// every page, no row parted. Margins and sizes are ours.
const style = `body{font:10pt/1.4 Georgia,"Gentium Plus",serif;color:#000;background:#fff;max-width:46rem;margin:0 auto;padding:1rem;overflow-wrap:break-word}
h1{font-size:15pt}h2{font-size:12pt;margin-top:1.2em}h1,h2,th{font-family:system-ui,"Liberation Sans",sans-serif}
h2,.caution{break-after:avoid}table{border-collapse:collapse;width:100%;margin:.6em 0}th,td{text-align:left;vertical-align:top;padding:2px 8px 2px 0;border-bottom:1px solid #999}
.w{white-space:nowrap}.ask{margin:.5em 0 0}
th.n,td.n{text-align:right;font-variant-numeric:tabular-nums}
tr,.caution{break-inside:avoid}thead{display:table-header-group}
figure{margin:1em 0;max-width:30rem;break-inside:avoid}svg{display:block;width:100%;height:auto}svg text{font:400 12.5px system-ui,"Liberation Sans",sans-serif}
svg .bar{fill:#3a5a78}svg .doubt{fill:none;stroke:#3a5a78}svg .hatch,svg .axis{stroke:#555;fill:none}figcaption{font-size:9pt}
.fill{display:flex;flex-wrap:wrap;gap:.2rem 1.2rem}.field{display:flex;align-items:flex-end;min-height:2.2em;flex:1 1 auto}.field b{font-weight:400;flex:1 1 auto;min-width:4rem;min-height:1.4em;border-bottom:1px solid #000;margin:0 .4em;padding:0 .3em}
.ticks{list-style:none;padding:0;margin:.3em 0;display:grid;grid-template-columns:repeat(auto-fill,minmax(11rem,1fr));gap:.2em 1em}
table.grid{border:1px solid #999}.grid td{border:1px solid #999;padding:2px 6px}.grid tr.empty td{height:8mm}.grid th{padding:2px 6px}
.caution{border:2px solid #000;padding:4px 8px}.page{break-before:page;border:0;margin:0}
@media print{body{padding:0;max-width:none;font-size:9.5pt;line-height:1.35}h1{margin-top:0}.ticks{grid-template-columns:repeat(auto-fill,minmax(9.5rem,1fr))}}`

// HTML is the document as one page of its own, to be printed from a browser.
// Nothing in it is fetched from elsewhere.
func (d *Document) HTML() []byte {
	var b strings.Builder
	b.WriteString("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width\">\n<title>" +
		escaped(d.Title) + "</title>\n<style>\n" + d.atPage() + style + "\n</style>\n</head>\n<body>\n<main>\n")
	if d.Title != "" {
		b.WriteString("<h1>" + escaped(d.Title) + "</h1>\n")
	}
	for _, x := range d.Blocks {
		x.html(&b, d.inline)
	}
	b.WriteString("</main>\n</body>\n</html>\n")
	return []byte(b.String())
}

// atPage are the margins of its printed pages, and their size where one is asked for.
func (d *Document) atPage() string {
	size := ""
	if w, h := d.Sheet.W, d.Sheet.H; w > 0 && h > 0 {
		if d.Wide && w < h {
			w, h = h, w
		}
		size = fmt.Sprintf("size:%gmm %gmm;", w, h)
	}
	return "@page{" + size + "margin:16mm 15mm}\n"
}

// Of words in a cell that are longer than longWord letters a browser may break
// behind every breakAfter letters; else they would push a table off the page.
const (
	longWord   = 24
	breakAfter = 8
)

// cell is the words of a cell.
func cell(s string) string {
	var b strings.Builder
	for _, w := range strings.SplitAfter(page.Visible(s), " ") {
		letters := []rune(w)
		if len(letters) <= longWord {
			b.WriteString(unparted(w))
			continue
		}
		for len(letters) > 0 {
			n := min(breakAfter, len(letters))
			b.WriteString(html.EscapeString(string(letters[:n])))
			if letters = letters[n:]; len(letters) > 0 {
				b.WriteString("<wbr>")
			}
		}
	}
	return b.String()
}

// unparted is a word that a browser does not break at its hyphen when it is
// the number of a sheet, of a work, or a day.
func unparted(w string) string {
	word := strings.TrimRight(w, " ")
	if !strings.Contains(word, "-") || !strings.ContainsAny(word, "0123456789") {
		return html.EscapeString(w)
	}
	return `<span class="w">` + html.EscapeString(word) + "</span>" + w[len(word):]
}

func escaped(s string) string { return html.EscapeString(page.Visible(s)) }

func (x *Block) html(b *strings.Builder, name func(string) string) {
	switch x.Kind {
	case Heading:
		b.WriteString("<h2>" + escaped(x.Text) + "</h2>\n")
	case Paragraph:
		b.WriteString("<p>" + escaped(x.Text) + "</p>\n")
	case Caution:
		b.WriteString("<p class=\"caution\"><strong>Caution:</strong> " + escaped(x.Text) + "</p>\n")
	case Lines:
		b.WriteString("<p>")
		for i, l := range x.Lines {
			if i > 0 {
				b.WriteString("<br>\n")
			}
			b.WriteString(escaped(l))
		}
		b.WriteString("</p>\n")
	case Items:
		b.WriteString("<ul>\n")
		for _, l := range x.Lines {
			b.WriteString("<li>" + escaped(l) + "</li>\n")
		}
		b.WriteString("</ul>\n")
	case Table:
		x.htmlTable(b, name)
	case Fill:
		b.WriteString("<div class=\"fill\">\n")
		for _, f := range x.Fill {
			b.WriteString("<span class=\"field\">" + escaped(f.Label) + "<b>" + escaped(f.Value) + "</b>" + escaped(f.After) + "</span>\n")
		}
		b.WriteString("</div>\n")
	case Tick:
		if x.Text != "" {
			b.WriteString("<p class=\"ask\">" + escaped(x.Text) + "</p>\n")
		}
		b.WriteString("<ul class=\"ticks\">\n")
		for _, t := range x.Ticks {
			b.WriteString("<li>" + sign(t.On) + " " + escaped(t.Text) + "</li>\n")
		}
		b.WriteString("</ul>\n")
	case Chart:
		b.WriteString("<figure>")
		b.Write(x.SVG)
		b.WriteString("<figcaption>" + escaped(x.Text) + "</figcaption></figure>\n")
	case Page:
		b.WriteString("<hr class=\"page\">\n")
	}
}

// figures are the columns that have nothing but figures and shares: they
// stand at the right.
func (x *Block) figures() []bool {
	all := make([]bool, len(x.Heads))
	for c := range all {
		for _, row := range x.Rows {
			if c >= len(row) || row[c] == "" {
				continue
			}
			if strings.Trim(row[c], "0123456789,. %h") != "" {
				all[c] = false
				break
			}
			all[c] = true
		}
	}
	return all
}

// htmlTable writes a table; a name is in italics where it is a column of names.
func (x *Block) htmlTable(b *strings.Builder, name func(string) string) {
	figures := x.figures()
	if x.Grid != nil {
		b.WriteString("<table class=\"grid\">\n<thead>\n<tr>")
	} else {
		b.WriteString("<table>\n<thead>\n<tr>")
	}
	for c, h := range x.Heads {
		b.WriteString("<th scope=\"col\"" + classOf(figures, c) + ">" + cell(h) + "</th>")
	}
	b.WriteString("</tr>\n</thead>\n<tbody>\n")
	for i, row := range x.written("") {
		if i < len(x.Rows) {
			b.WriteString("<tr>")
		} else {
			b.WriteString("<tr class=\"empty\">")
		}
		for c, given := range row {
			words := cell(given)
			switch {
			case x.Grid != nil && (given == EmptyBox || given == TickedBox):
				words = sign(given == TickedBox)
			case c < len(x.Names) && x.Names[c] && name != nil:
				words = name(given)
			}
			b.WriteString("<td" + classOf(figures, c) + ">" + words + "</td>")
		}
		b.WriteString("</tr>\n")
	}
	b.WriteString("</tbody>\n</table>\n")
}

func classOf(figures []bool, c int) string {
	if c < len(figures) && figures[c] {
		return " class=\"n\""
	}
	return ""
}

// sign is a box in words that a page may hold.
func sign(on bool) string {
	if on {
		return "☒"
	}
	return "☐"
}

// inline is a name with its Latin in italics.
func (d *Document) inline(words string) string {
	if d.Name == nil {
		return escaped(words)
	}
	var b strings.Builder
	for _, r := range d.Name(page.Visible(words), 10, 10) {
		if r.Face == paper.Italic {
			b.WriteString("<i>" + html.EscapeString(r.Text) + "</i>")
			continue
		}
		b.WriteString(html.EscapeString(r.Text))
	}
	return b.String()
}
