package paper

import (
	"fmt"
	"strings"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// SVG is a picture of the page in millimetres that needs no font: each letter
// used is drawn once and put where it stands. Who shows it says in words what
// it shows.
func (p *Page) SVG() []byte {
	var body strings.Builder
	o := outlines{drawn: map[string]string{}}
	for _, it := range p.Items {
		if t, ok := it.(Text); ok {
			o.text(&body, t)
		} else {
			svgShape(&body, it)
		}
	}
	var b strings.Builder
	w, h := mm(p.Size.W), mm(p.Size.H)
	fmt.Fprintf(&b, "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\">\n<defs>\n", w, h, w, h)
	for _, id := range o.order {
		fmt.Fprintf(&b, "<path id=\"%s\" d=\"%s\"/>\n", id, o.drawn[id])
	}
	fmt.Fprintf(&b, "</defs>\n<rect width=\"%s\" height=\"%s\" fill=\"#fff\"/>\n<g fill=\"none\" stroke=\"#000\">\n", w, h)
	b.WriteString(body.String())
	b.WriteString("</g>\n</svg>\n")
	return []byte(b.String())
}

// svgShape draws what is no text, where lines are black and nothing is filled.
func svgShape(b *strings.Builder, it Item) {
	switch it := it.(type) {
	case Rule:
		fmt.Fprintf(b, "<line x1=\"%s\" y1=\"%s\" x2=\"%s\" y2=\"%s\" stroke-width=\"%s\"", mm(it.X1), mm(it.Y1), mm(it.X2), mm(it.Y2), mm(it.Width))
		if it.Dash > 0 {
			fmt.Fprintf(b, " stroke-dasharray=\"%s\"", mm(it.Dash))
		}
		b.WriteString("/>\n")
	case Frame:
		fmt.Fprintf(b, "<rect x=\"%s\" y=\"%s\" width=\"%s\" height=\"%s\" stroke-width=\"%s\"/>\n", mm(it.B.X), mm(it.B.Y), mm(it.B.W), mm(it.B.H), mm(it.Width))
	case Area:
		if len(it.Boxes) == 0 {
			return
		}
		b.WriteString(`<path fill="#000" stroke="none" d="`)
		for _, box := range it.Boxes {
			x, y, right, bottom := mm(box.X), mm(box.Y), mm(box.Right()), mm(box.Bottom())
			fmt.Fprintf(b, "M%s %sH%sV%sH%sz", x, y, right, bottom, x)
		}
		b.WriteString("\"/>\n")
	}
}

// outlines are the letters that a picture uses, in the order of their first
// use, in thousandths of an em.
type outlines struct {
	drawn map[string]string // by their id; "": nothing to draw
	order []string
}

// text puts the letters of a line.
func (o *outlines) text(b *strings.Builder, t Text) {
	x := t.X
	for _, r := range merged(t.Runs) {
		var uses strings.Builder
		for _, p := range faces()[r.Face].pieces(r.Text) {
			o.piece(&uses, r.Style, p)
		}
		if uses.Len() > 0 {
			turn := ""
			if t.Turn != 0 {
				turn = fmt.Sprintf("rotate(%s %s %s) ", mm(-t.Turn), mm(t.X), mm(t.Y))
			}
			scale := fmt.Sprintf("%.6g", r.Size*Point/1000)
			fmt.Fprintf(b, "<g fill=\"%s\" stroke=\"none\" transform=\"%stranslate(%s %s) scale(%s)\">%s</g>\n", grey(r.Grey), turn, mm(x), mm(t.Y), scale, uses.String())
		}
		x += Width(r)
	}
}

// piece puts letters that stand side by side.
func (o *outlines) piece(b *strings.Builder, s Style, p piece) {
	a, at, n := faces()[s.Face], p.at, p.letters
	for _, r := range p.text {
		id := fmt.Sprintf("%s%x", [2]string{"r", "i"}[s.Face], r)
		path, seen := o.drawn[id]
		if !seen {
			path = a.outline(r)
			o.drawn[id] = path
			if path != "" {
				o.order = append(o.order, id)
			}
		}
		if path != "" {
			fmt.Fprintf(b, "<use href=\"#%s\"", id)
			if x := mm(float64(at) + s.Spread*1000*float64(n)); x != "0" {
				fmt.Fprintf(b, " x=\"%s\"", x)
			}
			if p.up != 0 {
				fmt.Fprintf(b, " y=\"%d\"", -p.up)
			}
			b.WriteString("/>")
		}
		w, _ := a.advance(r)
		at, n = at+int(w), n+1
	}
}

// outline is the shape of a letter, one em 1000, y downwards.
func (a *face) outline(r rune) string {
	a.mu.Lock()
	defer a.mu.Unlock()
	i, err := a.font.GlyphIndex(&a.buf, r)
	if err != nil {
		return ""
	}
	segments, err := a.font.LoadGlyph(&a.buf, i, fixed.I(1000), nil)
	if err != nil {
		return ""
	}
	var b strings.Builder
	for k, s := range segments {
		n := 1
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if k > 0 {
				b.WriteString("z")
			}
			b.WriteString("M")
		case sfnt.SegmentOpLineTo:
			b.WriteString("L")
		case sfnt.SegmentOpQuadTo:
			b.WriteString("Q")
			n = 2
		case sfnt.SegmentOpCubeTo:
			b.WriteString("C")
			n = 3
		}
		for j, at := range s.Args[:n] {
			if j > 0 {
				b.WriteString(" ")
			}
			fmt.Fprintf(&b, "%d %d", at.X.Round(), at.Y.Round())
		}
	}
	if b.Len() > 0 {
		b.WriteString("z")
	}
	return b.String()
}
