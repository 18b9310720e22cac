package field

import (
	"blotter/render/paper"
)

// Measures of the form, in millimetres and points. A line to write on is at
// least 8 mm from the next: a soft pencil and cold fingers (own judgement).
const (
	linePitch  = 8.0  // least
	mostPitch  = 9.5  // where a page has room left
	headPitch  = 10.5 // the line of the number
	frameTop   = 2.2  // above the frame
	frameHead  = 4.8  // the words over what dries away
	frameFoot  = 1.8  // below its last line
	frameSide  = 2.0
	apart      = 3.5 // between two gatherings
	cellGap    = 3.0
	labelGap   = 1.2 // from a question to where its answer begins
	underBase  = 1.1 // from the base line of a question to the line
	tickBox    = 3.4
	tickGap    = 1.0
	tickApart  = 3.0
	hairline   = 0.15
	heavyLine  = 0.5
	frameLine  = 0.3
	labelSize  = 8.5
	numberSize = 22.0
	valueSize  = 11.0
	tickLine   = 0.2
)

var labelStyle = paper.Style{Size: labelSize}

// cell is one question on paper.
type cell struct {
	q     *Question
	label string
	value string   // printed ahead
	ticks []string // words to be ticked
	after string   // small words behind the line: "at most 1 of 20 seen"
	least float64  // width
	x, w  float64  // where it came to stand
}

// band is one line of cells; a long one has further lines below it.
type band struct {
	cells  []*cell
	lines  int // of which the last question has all
	width  float64
	inside bool // within the frame
}

func (s *Sheet) cell(q *Question) *cell {
	c := &cell{q: q, label: s.word(q)}
	for _, t := range q.Ticks {
		c.ticks = append(c.ticks, s.Language.Say(t.Says))
	}
	if q.Path == "taken" && s.OneIn > 0 {
		c.after = s.taking()
	}
	c.least = c.labelWidth() + labelGap + q.room
	for _, t := range c.ticks {
		c.least += tickBox + tickGap + paper.Width(paper.Run{Style: labelStyle, Text: t}) + tickApart
	}
	if c.after != "" {
		c.least += labelGap + paper.Width(paper.Run{Style: labelStyle, Text: c.after})
	}
	return c
}

// grow is the cell's share of room that is left over.
func (c *cell) grow() float64 {
	if c.q.long {
		return max(c.q.grow, 1)
	}
	return c.q.grow
}

func (c *cell) labelWidth() float64 { return paper.Width(paper.Run{Style: labelStyle, Text: c.label}) }

// bands lays the cells out in lines of a width, in their order.
func bands(cells []*cell, width float64, inside bool) []*band {
	var out []*band
	var cur *band
	used := 0.0
	flush := func() {
		if cur != nil {
			cur.stretch(width)
			out, cur, used = append(out, cur), nil, 0
		}
	}
	for _, c := range cells {
		gap := 0.0
		if cur != nil {
			gap = cellGap
		}
		if cur != nil && used+gap+c.least > width {
			flush()
			gap = 0
		}
		if cur == nil {
			cur = &band{lines: 1, inside: inside, width: width}
		}
		cur.cells = append(cur.cells, c)
		used += gap + c.least
		if c.q.long {
			flush()
		}
	}
	flush()
	return out
}

// stretch gives the cells of a line the room that is left over.
func (b *band) stretch(width float64) {
	used, grow := cellGap*float64(len(b.cells)-1), 0.0
	for _, c := range b.cells {
		used += c.least
		grow += c.grow()
	}
	left, x := width-used, 0.0
	for _, c := range b.cells {
		c.x, c.w = x, c.least
		switch {
		case grow > 0:
			c.w += left * c.grow() / grow
		case len(c.ticks) == 0:
			c.w += left / float64(len(b.cells))
		}
		x += c.w + cellGap
	}
}

// form is the lines of one gathering, before they are drawn.
type form struct {
	width  float64
	number *cell
	head   []*band // the line of the number, and what did not fit beside it
	body   []*band
}

// numberRoom is the width kept for the number on top.
const numberRoom = 29.0

func (s *Sheet) form(width float64) *form {
	f := &form{width: width}
	var first, upper, drying, lower []*cell
	for i := range questions {
		q := &questions[i]
		switch c := s.cell(q); {
		case q.Once:
		case q.Key == "number":
			f.number = c
		case q.first:
			first = append(first, c)
		case q.Drying:
			drying = append(drying, c)
		case len(drying) > 0:
			lower = append(lower, c)
		default:
			upper = append(upper, c)
		}
	}
	f.head = bands(first, width-numberRoom-cellGap, false)
	f.body = bands(upper, width, false)
	f.body = append(f.body, bands(drying, width-2*frameSide, true)...)
	f.body = append(f.body, bands(lower, width, false)...)
	return f
}

// lines is how many lines the body has.
func (f *form) lines() int {
	n := 0
	for _, b := range f.body {
		n += b.lines
	}
	return n
}

// height of the gathering when its lines stand pitch apart.
func (f *form) height(pitch float64) float64 {
	return headPitch + float64(len(f.head)-1+f.lines())*pitch + frameTop + frameHead + frameFoot
}

// spareLines are the long answers in the order in which they get a line more where
// a page has room.
var spareLines = []string{"locality", "description", "colours", "habitat", "associates"}

// fill gives the long answers more lines until the form is as high as high.
func (f *form) fill(high float64) (pitch float64) {
	for i := 0; f.height(linePitch)+linePitch <= high; i++ {
		for _, b := range f.body {
			if last := b.cells[len(b.cells)-1]; last.q.Key == spareLines[i%len(spareLines)] {
				b.lines++
			}
		}
	}
	n := float64(len(f.head) - 1 + f.lines())
	return min((high-headPitch-frameTop-frameHead-frameFoot)/n, mostPitch)
}
