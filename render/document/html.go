package document

import (
	"html"
	"strings"

	"blotter/render/page"
)

// style is for paper: black on white, one column, a table's heads again on
// every page, no row parted. Margins and sizes are ours.
const style = `@page{margin:16mm 15mm}
body{font:10pt/1.4 Georgia,"Gentium Plus",serif;color:#000;background:#fff;max-width:46rem;margin:0 auto;padding:1rem}
h1{font-size:15pt}h2{font-size:12pt;margin-top:1.2em}h1,h2,th{font-family:system-ui,"Liberation Sans",sans-serif}
table{border-collapse:collapse;width:100%}th,td{text-align:left;vertical-align:top;padding:2px 8px 2px 0;border-bottom:1px solid #999}
th.n,td.n{text-align:right;font-variant-numeric:tabular-nums}
tr,.caution{break-inside:avoid}thead{display:table-header-group}
figure{margin:1em 0;max-width:30rem;break-inside:avoid}svg{display:block;width:100%;height:auto}svg text{font:400 12.5px system-ui,"Liberation Sans",sans-serif}
svg .bar{fill:#3a5a78}svg .doubt{fill:none;stroke:#3a5a78}svg .hatch,svg .axis{stroke:#555;fill:none}figcaption{font-size:9pt}
.caution{border:2px solid #000;padding:4px 8px}.page{break-before:page;border:0;margin:0}
@media print{body{padding:0;max-width:none}}`

// HTML is the document as one page of its own, to be printed from a browser.
// Nothing in it is fetched from elsewhere.
func (d *Document) HTML() []byte {
	var b strings.Builder
	b.WriteString("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width\">\n<title>" +
		escaped(d.Title) + "</title>\n<style>\n" + style + "\n</style>\n</head>\n<body>\n<main>\n")
	if d.Title != "" {
		b.WriteString("<h1>" + escaped(d.Title) + "</h1>\n")
	}
	for _, x := range d.Blocks {
		x.html(&b)
	}
	b.WriteString("</main>\n</body>\n</html>\n")
	return []byte(b.String())
}

func escaped(s string) string { return html.EscapeString(page.Visible(s)) }

func (x *Block) html(b *strings.Builder) {
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
		figures := x.figures()
		b.WriteString("<table>\n<thead>\n")
		htmlRow(b, "th scope=\"col\"", "th", x.Heads, figures)
		b.WriteString("</thead>\n<tbody>\n")
		for _, row := range x.Rows {
			htmlRow(b, "td", "td", row, figures)
		}
		b.WriteString("</tbody>\n</table>\n")
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

func htmlRow(b *strings.Builder, begin, end string, cells []string, figures []bool) {
	b.WriteString("<tr>")
	for i, c := range cells {
		class := ""
		if i < len(figures) && figures[i] {
			class = " class=\"n\""
		}
		b.WriteString("<" + begin + class + ">" + escaped(c) + "</" + end + ">")
	}
	b.WriteString("</tr>\n")
}
