package label

import (
	"math"

	"blotter/ledger"
	"blotter/render/paper"
)

// step is one way to set a label: the size of its text, the grid it stands
// on, the height of the label.
type step struct{ size, row, height float64 }

// tiny is less than any paper can show, in millimetres.
const tiny = 0.001

// rowOf is the grid of a size of text: 4 mm for 9.5 points, 3.8 for 9, 3.6
// for 8.5 (interface.md 3).
func rowOf(size float64) float64 { return math.Round(size*40/9.5) / 10 }

// stepsOf are all steps in the order in which they are tried: each size in
// the first height, then in the next.
func stepsOf(set *ledger.Labels) []step {
	var out []step
	for _, h := range set.Heights {
		for _, p := range set.Sizes {
			size := number(p, 9.5)
			out = append(out, step{size, rowOf(size), number(h, 68)})
		}
	}
	if len(out) == 0 {
		out = []step{{9.5, rowOf(9.5), 68}}
	}
	return out
}

// fit finds the first step in which the label fits whole; where none is, the
// first in which it fits in as few parts as may be, at most parts.
func (s *setting) fit(parts int) *Refusal {
	first := s.layout(0, 1)
	if r := s.unsettable(first); r != nil {
		return r
	}
	for n := 1; n <= parts; n++ {
		for i := range s.steps {
			l := first
			if i > 0 || n > 1 {
				l = s.layout(i, n)
			}
			if l.wide {
				continue
			}
			if bodies, ok := s.divide(l, n); ok {
				s.at, s.parts, s.laid, s.bodies = i, n, l, bodies
				return nil
			}
		}
	}
	if r := s.tooWide(); r != nil {
		return r
	}
	return s.tooLong(parts)
}

// divide lays the body of l on n labels, each filled in its turn; false when
// it does not fit.
func (s *setting) divide(l *layout, n int) ([][]para, bool) {
	var out [][]para
	rest := l.body
	for i := range n {
		var now []para
		if i > 0 { // the name stands on every part
			rest = append(named(l.body), rest...)
		}
		now, rest = fill(rest, l.room)
		out = append(out, now)
		if len(rest) == 0 {
			return out, i == n-1
		}
	}
	return out, false
}

// named is the name line of a body.
func named(body []para) []para {
	for _, p := range body {
		if p.part == "name" {
			return []para{p}
		}
	}
	return nil
}

// fill takes from body what fits into room millimetres, whole paragraphs
// first and then lines; a framed paragraph stays whole.
func fill(body []para, room float64) (now, rest []para) {
	for i, p := range body {
		if i == 0 {
			p.gap = 0
		}
		if h := p.height(); h <= room+tiny {
			room -= h
			now = append(now, p)
			continue
		}
		n := int((room - p.gap + tiny) / p.row)
		if p.framed || n < 1 || n >= len(p.lines) {
			return now, body[i:]
		}
		first, second := p, p
		first.lines, second.lines = p.lines[:n], p.lines[n:]
		return append(now, first), append([]para{second}, body[i+1:]...)
	}
	return now, nil
}

// layout is a label at one step: the lines of its head, body and foot.
type layout struct {
	step
	of   []content // the body before it is set
	wide bool      // a word of it is wider than the line
	head []footLine
	body []para
	foot []footLine
	rule float64 // of the head, from the top of the text
	room float64 // for the body, in millimetres
}

// footLine is a line of the head or foot: words at the left, in the middle
// and at the right.
type footLine struct {
	above, row float64 // room over it; its height
	cells      []cell
}

// cell is words at a place of a line.
type cell struct {
	part string
	x    float64
	runs []paper.Run
}

// para is a paragraph of the body as it is set.
type para struct {
	part   string
	lines  []paper.Line
	gap    float64 // above
	in     float64 // from the left edge of the text
	row    float64
	size   float64
	framed bool
}

func (p para) height() float64 {
	h := p.gap + float64(len(p.lines))*p.row
	if p.framed {
		h += 2 * framePad
	}
	return h
}

// layout sets the label at step i for a label in n parts.
func (s *setting) layout(i, n int) *layout {
	l := &layout{step: s.steps[i]}
	l.head = s.head(n)
	l.foot = s.footRoom(s.foot())
	l.of = s.content(l.step)
	for _, c := range l.of {
		p := c.set()
		for _, line := range p.lines {
			l.wide = l.wide || line.Width > c.width()+tiny
		}
		l.body = append(l.body, p)
	}
	l.rule = heightOf(l.head) + headRule
	l.room = l.height - 2*topIn - l.rule - bodyGap - footGap - heightOf(l.foot)
	return l
}

func heightOf(ls []footLine) float64 {
	h := 0.0
	for _, l := range ls {
		h += l.above + l.row
	}
	return h
}

// needs is the height of a label that holds all of it, in millimetres.
func (l *layout) needs() float64 {
	h := 2*topIn + l.rule + bodyGap + footGap + heightOf(l.foot)
	for i, p := range l.body {
		if i == 0 {
			p.gap = 0
		}
		h += p.height()
	}
	return h
}
