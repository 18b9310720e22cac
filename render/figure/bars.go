// Package figure draws the charts and maps of the catalogue as SVG: real
// text, a name for those who hear the page, colours from the site's CSS. The
// figures of a chart stand in a table beside it, written by html.
package figure

import (
	"math"
	"strconv"
	"unicode/utf8"

	"blotter/render/page"
)

// Drawn in units of which the width has 320; the CSS shows it at 288 to 480
// pixels, so a text of 13 units is never under 11 pixels.
const (
	width    = 320
	plotTop  = 22.0
	plotFoot = 122.0
	height   = 144
	left     = 4.0
)

// AppendBars appends a row of bars as one <svg> to dst. The largest value and
// zero are labelled; an empty bar stays empty; a doubtful one is hatched.
// title must say in one sentence what the bars show.
func AppendBars(dst []byte, title string, bars []page.Bar) []byte {
	d := drawing{dst}
	tall := height
	for _, b := range bars {
		if b.Doubt {
			tall = height + 16
		}
	}
	d.open(width, tall, title)
	top, at := 0, 0
	for i, b := range bars {
		if b.N > top {
			top, at = b.N, i
		}
	}
	slots := max(len(bars), 1)
	if len(bars) > 1 && bars[len(bars)-1].Doubt {
		slots++ // it stands apart
	}
	step := (width - 2*left) / float64(slots)
	for i, b := range bars {
		if b.N == 0 {
			continue
		}
		h := (plotFoot - plotTop) * float64(b.N) / float64(top)
		class, x := "bar", left+float64(i)*step
		if b.Doubt {
			class, x = "bar doubt", left+float64(slots-1)*step
		}
		d.rect(class, x+step*0.08, plotFoot-h, step*0.84, h)
		if b.Doubt {
			d.hatch(x+step*0.08, plotFoot-h, step*0.84, h)
		}
	}
	d.str(`<path class="axis" d="M`).num(left).str(" ").num(plotFoot).str("H").num(width - left).str(`"/>`)
	if top > 0 {
		d.text(left+(float64(at)+0.5)*step, plotTop-5, anchorAt(left+(float64(at)+0.5)*step, page.Number(top)), page.Number(top))
	}
	d.labels(bars, step)
	d.str("</svg>")
	return d.b
}

// labels writes as many labels below the bars as have room: of years and
// decades the round ones, else the first and those at an even stride. The bar
// of what is not known has its label on a line of its own.
func (d *drawing) labels(bars []page.Bar, step float64) {
	longest, numbers := 1, true
	for _, b := range bars {
		if !b.Doubt {
			longest = max(longest, utf8.RuneCountInString(b.Label))
			_, err := strconv.Atoi(b.Label)
			numbers = numbers && err == nil
		}
	}
	stride := 1
	for _, nice := range []int{1, 2, 3, 5, 10, 20, 25, 50, 100, 200, 500, 1000} {
		stride = nice
		if float64(nice)*step >= float64(longest)*7+8 {
			break
		}
	}
	for i, b := range bars {
		x := left + (float64(i)+0.5)*step
		n := i
		if numbers && !b.Doubt {
			n, _ = strconv.Atoi(b.Label)
			n /= gap(bars)
		}
		switch {
		case b.Doubt:
			d.text(width-left, plotFoot+31, "end", b.Label)
		case n%stride == 0:
			d.text(x, plotFoot+15, anchorAt(x, b.Label), b.Label)
		}
	}
}

// gap is what one bar adds to the number of the one before it: 1 for years,
// 10 for decades.
func gap(bars []page.Bar) int {
	if len(bars) < 2 {
		return 1
	}
	a, _ := strconv.Atoi(bars[0].Label)
	b, _ := strconv.Atoi(bars[1].Label)
	return max(b-a, 1)
}

// anchorAt keeps a text centred at x inside the drawing.
func anchorAt(x float64, text string) string {
	half := float64(utf8.RuneCountInString(text)) * 3.6
	switch {
	case x < half:
		return "start"
	case x > width-half:
		return "end"
	}
	return "middle"
}

// drawing is an SVG being written.
type drawing struct{ b []byte }

func (d *drawing) open(w, h int, title string) {
	d.str(`<svg viewBox="0 0 `).num(float64(w)).str(" ").num(float64(h)).str(`" role="img" aria-label="`).esc(title).str(`">`)
}

func (d *drawing) str(s string) *drawing {
	d.b = append(d.b, s...)
	return d
}

// num writes v with at most two decimals.
func (d *drawing) num(v float64) *drawing {
	d.b = strconv.AppendFloat(d.b, float64(int64(v*100+copysignHalf(v)))/100, 'f', -1, 64)
	return d
}

func copysignHalf(v float64) float64 {
	if v < 0 {
		return -0.5
	}
	return 0.5
}

func (d *drawing) rect(class string, x, y, w, h float64) {
	d.str(`<rect class="`).str(class).str(`" x="`).num(x).str(`" y="`).num(y).str(`" width="`).num(w).str(`" height="`).num(h).str(`"/>`)
}

// hatch draws slanting lines over a rectangle, clipped by their own ends, so
// that no pattern with an id is needed.
func (d *drawing) hatch(x, y, w, h float64) {
	d.str(`<path class="hatch" d="`)
	for c := 4.0; c < w+h; c += 4 { // the line u+v=c of the rectangle's own u, v
		u0, u1 := math.Max(0, c-h), math.Min(w, c)
		d.str("M").num(x + u0).str(" ").num(y + c - u0).str("L").num(x + u1).str(" ").num(y + c - u1)
	}
	d.str(`"/>`)
}

func (d *drawing) text(x, y float64, anchor, s string) {
	d.str(`<text x="`).num(x).str(`" y="`).num(y).str(`" text-anchor="`).str(anchor).str(`">`).esc(s).str("</text>")
}

// esc writes s escaped for XML.
func (d *drawing) esc(s string) *drawing {
	for _, r := range page.Visible(s) {
		switch r {
		case '&':
			d.str("&amp;")
		case '<':
			d.str("&lt;")
		case '>':
			d.str("&gt;")
		case '"':
			d.str("&#34;")
		default:
			d.b = append(d.b, string(r)...)
		}
	}
	return d
}
