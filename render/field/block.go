package field

import "blotter/render/paper"

// draw is the gathering as a drawing, its lines pitch apart. Its parts are the
// questions by their keys: where each is written.
func (f *form) draw(s *Sheet, number string, pitch float64) *paper.Block {
	b := &paper.Block{W: f.width, H: f.height(pitch), Of: number}
	b.Add(paper.Rule{X1: 0, Y1: 0, X2: f.width, Y2: 0, Width: heavyLine})
	f.drawNumber(b, number)
	y := headPitch
	for i, line := range f.head {
		if i > 0 {
			y += pitch
		}
		line.draw(b, numberRoom+cellGap, y, headPitchOr(i, pitch), pitch)
	}
	framed, top := false, 0.0
	for _, line := range f.body {
		if line.inside != framed {
			if framed = line.inside; framed {
				top = y + frameTop
				y = top + frameHead
				s.drawFrameHead(b, top)
			} else {
				y += frameFoot
				b.Add(paper.Frame{B: paper.Box{X: 0, Y: top, W: f.width, H: y - top}, Width: frameLine})
			}
		}
		left := 0.0
		if line.inside {
			left = frameSide
		}
		y += pitch
		line.draw(b, left, y, pitch, pitch)
		y += pitch * float64(line.lines-1)
	}
	return b
}

// headPitchOr is how high a line of the head is.
func headPitchOr(i int, pitch float64) float64 {
	if i == 0 {
		return headPitch
	}
	return pitch
}

// drawNumber sets the number large, or leaves a line for it.
func (f *form) drawNumber(b *paper.Block, number string) {
	base := headPitch - underBase
	box := paper.Box{X: 0, Y: headPitch - linePitch, W: numberRoom, H: linePitch}
	if number == "" {
		f.number.x, f.number.w = 0, numberRoom
		f.number.draw(b, 0, headPitch, headPitch)
		return
	}
	style := paper.Style{Size: numberSize}
	if w := paper.Width(paper.Run{Style: style, Text: number}); w > numberRoom {
		style.Size *= numberRoom / w
	}
	b.Add(paper.Text{X: 0, Y: base, Runs: []paper.Run{{Style: style, Text: number}}})
	b.Parts = append(b.Parts, paper.Part{Name: f.number.q.Key, Box: box, Text: number})
}

func (s *Sheet) drawFrameHead(b *paper.Block, top float64) {
	b.Add(paper.Text{X: frameSide, Y: top + 4.1, Runs: []paper.Run{
		{Style: paper.Style{Size: 8, Spread: 0.06}, Text: s.Language.Say(saysDrying)},
		{Style: paper.Style{Face: paper.Italic, Size: labelSize}, Text: "   " + s.Language.Say(saysDryingIt)},
	}})
}

// draw draws the line of questions at y, high millimetres below what is above
// it; further lines stand pitch apart.
func (l *band) draw(b *paper.Block, left, y, high, pitch float64) {
	for _, c := range l.cells {
		c.draw(b, left, y, high)
	}
	if l.lines == 1 {
		return
	}
	for i := 1; i < l.lines; i++ {
		b.Add(paper.Rule{X1: left, Y1: y + pitch*float64(i), X2: left + l.width, Y2: y + pitch*float64(i), Width: hairline})
	}
	b.Parts = append(b.Parts, paper.Part{Name: l.cells[len(l.cells)-1].q.Key, Box: paper.Box{X: left, Y: y, W: l.width, H: pitch * float64(l.lines-1)}})
}

// draw draws a question with its line at y.
func (c *cell) draw(b *paper.Block, left, y, high float64) {
	x := left + c.x
	base := y - underBase
	put := func(at float64, style paper.Style, words string) float64 {
		run := paper.Run{Style: style, Text: words}
		b.Add(paper.Text{X: at, Y: base, Runs: []paper.Run{run}})
		return at + paper.Width(run)
	}
	b.Parts = append(b.Parts, paper.Part{Name: c.q.Key, Box: paper.Box{X: x, Y: y - high, W: c.w, H: high}, Text: c.label})
	from, to := put(x, labelStyle, c.label)+labelGap, x+c.w
	for _, t := range c.ticks {
		b.Add(paper.Frame{B: paper.Box{X: from, Y: base - tickBox + 0.6, W: tickBox, H: tickBox}, Width: tickLine})
		from = put(from+tickBox+tickGap, labelStyle, t) + tickApart
	}
	if c.after != "" {
		to -= paper.Width(paper.Run{Style: labelStyle, Text: c.after})
		put(to, labelStyle, c.after)
		to -= labelGap
	}
	if c.value != "" {
		put(from+0.5, fitted(paper.Run{Style: paper.Style{Size: valueSize}, Text: c.value}, to-from-1).Style, c.value)
	}
	if len(c.ticks) == 0 {
		b.Add(paper.Rule{X1: from, Y1: y, X2: to, Y2: y, Width: hairline})
	}
}
