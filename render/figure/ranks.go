package figure

import (
	"bytes"

	"blotter/render/page"
)

// Lying bars: a name above each bar, so that a long one has room.
const (
	rankStep = 28.0
	rankTop  = 16.0
	rankBar  = 9.0
)

// AppendRanks appends lying bars, one below the other, as one <svg> to dst;
// each has its label above it and its figure behind it. title must say in one
// sentence what the bars show.
func AppendRanks(dst []byte, title string, bars []page.Bar) []byte {
	d := drawing{dst}
	d.open(width, int(rankStep)*len(bars)+8, title)
	top := 1
	for _, b := range bars {
		top = max(top, b.N)
	}
	const room = width - 2*left - 56 // for the figure behind the longest bar
	for i, b := range bars {
		y := rankTop + float64(i)*rankStep
		d.text(left, y, "start", b.Label)
		w := room * float64(b.N) / float64(top)
		if b.N > 0 {
			d.rect("bar", left, y+4, max(w, 1), rankBar)
		}
		d.text(left+w+5, y+4+rankBar, "start", page.Number(b.N))
	}
	d.str("</svg>")
	return d.b
}

// paint is the look of a drawing that stands alone, without the site's CSS.
const paint = `<style>svg{background:#fff}text{font:400 12.5px system-ui,"Liberation Sans",sans-serif;fill:#222}.bar{fill:#3a5a78}.doubt{fill:none;stroke:#3a5a78}.hatch,.axis{stroke:#555;fill:none}</style>`

// Alone makes a drawing for a page into a file of its own.
func Alone(svg []byte) []byte {
	out := bytes.Replace(svg, []byte("<svg "), []byte(`<svg xmlns="http://www.w3.org/2000/svg" `), 1)
	return append(bytes.Replace(out, []byte(">"), []byte(">"+paint), 1), '\n')
}
