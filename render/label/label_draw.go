package label

import (
	"strings"

	"blotter/ledger"
	"blotter/render/paper"
)

// draw sets the label at its step, in as many parts as it needs there.
func (s *setting) draw() []*paper.Block {
	n, l, bodies := s.parts, s.laid, s.bodies
	if l == nil { // another of the gathering needs a larger step, where fewer parts may do
		for n = 1; ; n++ {
			ok := false
			l = s.layout(s.at, n)
			if bodies, ok = s.divide(l, n); ok || n >= s.parts {
				break
			}
		}
	}
	var out []*paper.Block
	for i, body := range bodies {
		out = append(out, s.block(l, body, i+1, n))
	}
	return out
}

// block draws part i of n.
func (s *setting) block(l *layout, body []para, i, n int) *paper.Block {
	b := &paper.Block{W: Width, H: l.height, Of: s.in.Record.Specimen.Text}
	d := drawing{b: b}
	y := topIn
	for _, line := range s.headOf(l, i, n) {
		y = d.line(line, y)
	}
	rule := topIn + l.rule
	b.Add(paper.Rule{X1: sideIn, Y1: rule, X2: sideIn + Measure, Y2: rule, Width: thin})
	y = rule + bodyGap
	for k, p := range body {
		if k > 0 {
			y += p.gap
		}
		y = d.para(p, y)
	}
	y = l.height - topIn - heightOf(l.foot)
	b.Add(paper.Rule{X1: sideIn, Y1: y, X2: sideIn + Measure, Y2: y, Width: thin})
	s.drawBarcode(b, l.height-topIn)
	for _, line := range l.foot {
		y = d.line(line, y)
	}
	return b
}

// headOf is the head of l with the number of this part in it.
func (s *setting) headOf(l *layout, i, n int) []footLine {
	if n == 1 {
		return l.head
	}
	head := make([]footLine, len(l.head))
	copy(head, l.head)
	last := head[len(head)-1]
	last.cells = []cell{rightCell("part", Fill(s.lang.PartOf, itoa(i), itoa(n)), paper.Style{Size: headSize})}
	head[len(head)-1] = last
	return head
}

type drawing struct{ b *paper.Block }

// baseline is where letters of size points stand in a row of row millimetres.
func baseline(size, row float64) float64 {
	em := size * paper.Point
	return (row-(paper.Ascent+paper.Descent)*em)/2 + paper.Ascent*em
}

func (d drawing) line(l footLine, y float64) float64 {
	y += l.above
	for _, c := range l.cells {
		if len(c.runs) == 0 {
			continue
		}
		d.text(c.part, sideIn+c.x, y+baseline(c.runs[0].Size, l.row), c.runs)
	}
	return y + l.row
}

func (d drawing) para(p para, y float64) float64 {
	x, top, wide := sideIn+p.in, y, 0.0
	if p.framed {
		x, y = x+2*framePad, y+framePad
	}
	for _, l := range p.lines {
		d.text(p.part, x, y+baseline(p.size, p.row), l.Runs)
		wide = max(wide, l.Width)
		y += p.row
	}
	if p.framed {
		y += framePad
		f := paper.Frame{B: paper.Box{X: sideIn + p.in + frameWidth/2, Y: top + frameWidth/2, W: wide + 4*framePad - frameWidth, H: y - top - frameWidth}, Width: frameWidth}
		d.b.Add(f)
		d.grow(p.part, f.Box(), "")
	}
	return y
}

// text draws a line of words and counts it to its part.
func (d drawing) text(part string, x, y float64, runs []paper.Run) {
	t := paper.Text{X: x, Y: y, Runs: runs}
	d.b.Add(t)
	d.grow(part, t.Box(), textOf(runs))
}

// grow takes a box into the part of that name.
func (d drawing) grow(part string, box paper.Box, words string) {
	for i := range d.b.Parts {
		p := &d.b.Parts[i]
		if p.Name != part {
			continue
		}
		right, bottom := max(p.Box.Right(), box.Right()), max(p.Box.Bottom(), box.Bottom())
		p.Box.X, p.Box.Y = min(p.Box.X, box.X), min(p.Box.Y, box.Y)
		p.Box.W, p.Box.H = right-p.Box.X, bottom-p.Box.Y
		if words != "" {
			p.Text = strings.TrimSpace(p.Text + " " + words)
		}
		return
	}
	d.b.Parts = append(d.b.Parts, paper.Part{Name: part, Box: box, Text: words})
}

// head is the heading at the left with the family at the right, the line of a
// transcript, the line of a part.
func (s *setting) head(n int) []footLine {
	st := paper.Style{Size: headSize}
	var out []footLine
	family := rightCell("family", s.name.family, st)
	if s.in.Issued != nil {
		family = s.fascicle(st)
	}
	room := Measure
	if len(family.runs) > 0 {
		room -= paper.Width(family.runs...) + columnGap
	}
	for _, words := range s.heading() {
		st := st
		if words == strings.ToUpper(words) {
			st.Spread = headSpread
		}
		for _, l := range paper.Set([]paper.Run{{Style: st, Text: words}}, room) {
			out = append(out, footLine{row: headRow, cells: []cell{{part: "heading", runs: l.Runs}}})
		}
	}
	if len(out) == 0 {
		out = append(out, footLine{row: headRow})
	}
	out[0].cells = append(out[0].cells, family)
	for _, l := range paper.Set(prose(s.transcript(), st, Measure), Measure) {
		out = append(out, footLine{row: headRow, cells: []cell{{part: "transcript", runs: l.Runs}}})
	}
	if n > 1 {
		out = append(out, footLine{row: headRow})
	}
	return out
}

// heading are the lines of the project that has a heading of its own, else
// those of the museum, else its name in capitals.
func (s *setting) heading() []string {
	if s.in.Issued != nil {
		return s.in.issuedHeading(s.lang)
	}
	for _, h := range s.set.Headings {
		if s.in.Record.Project.Set() && strings.EqualFold(h.Project.Text, s.in.Record.Project.Text) {
			return leafTexts(h.Lines)
		}
	}
	if len(s.set.Heading) > 0 {
		return leafTexts(s.set.Heading)
	}
	return []string{strings.ToUpper(s.in.Museum.Name.Text)}
}

// rightCell is words that end at the right edge of the text.
func rightCell(part, words string, st paper.Style) cell { return endCell(part, words, st, Measure) }

// endCell is words that end at x.
func endCell(part, words string, st paper.Style, x float64) cell {
	c := cell{part: part}
	if words = strings.Join(strings.Fields(words), " "); words != "" {
		c.runs = []paper.Run{{Style: st, Text: words, Keep: true}}
		c.x = x - paper.Width(c.runs...)
	}
	return c
}

// foot is collector and number at the left and the date at the right; below,
// the others at the left and the museum's number at the right, with permit,
// project and the like between them where there is room, else above.
func (s *setting) foot() []footLine {
	out, measure := s.footFirst(), s.footWidth()
	st := paper.Style{Size: footSize}
	number := endCell("number", s.museumNumber(), st, measure)
	var with []paper.Run
	for _, l := range s.in.Record.With {
		if !present(l) {
			continue
		}
		if len(with) == 0 {
			with = append(with, paper.Run{Style: st, Text: s.lang.With + " "})
		} else {
			with = append(with, paper.Run{Style: st, Text: ", "})
		}
		with = append(with, whole(l.Text, st, measure)...)
	}
	between := s.between(st)
	wide, mid := paper.Width(with...), paper.Width(between...)
	room := measure - paper.Width(number.runs...) - columnGap
	switch {
	case mid == 0:
	case wide == 0 && mid <= room:
		return append(out, footLine{above: footBetween, row: footRow, cells: []cell{{part: "between", runs: between}, number}})
	case wide+columnGap+mid <= room:
		free := room - wide - columnGap - mid
		return append(out, footLine{above: footBetween, row: footRow, cells: []cell{{part: "with", runs: with}, {part: "between", x: wide + columnGap + free/2, runs: between}, number}})
	default:
		for _, l := range paper.Set(between, measure) {
			out = append(out, footLine{row: footRow, cells: []cell{{part: "between", runs: l.Runs}}})
		}
	}
	lines := paper.Set(with, room)
	for i, l := range lines {
		cells := []cell{{part: "with", runs: l.Runs}}
		if i == len(lines)-1 {
			cells = append(cells, number)
		}
		out = append(out, footLine{row: footRow, cells: cells})
	}
	if len(lines) == 0 {
		out = append(out, footLine{row: footRow, cells: []cell{number}})
	}
	out[len(out)-1].above = footBetween
	return out
}

// footFirst is the collector with the number, and the date: on one line where
// both fit.
func (s *setting) footFirst() []footLine {
	st := paper.Style{Size: collectorSize}
	r, measure := s.in.Record, s.footWidth()
	who := strings.TrimSpace(r.Collector.Text + " " + r.CollNo.Text)
	runs := whole(who, st, measure)
	date := endCell("date", r.Date.Text, st, measure)
	wd := paper.Width(date.runs...)
	if paper.Width(runs...)+wd+columnGap <= measure {
		return []footLine{{above: footAbove, row: collectorRow, cells: []cell{{part: "collector", runs: runs}, date}}}
	}
	// Over several lines the last word of the collector stays with the number.
	runs = append(prose(r.Collector.Text, st, measure), paper.Run{Style: st, Text: " ", Keep: true}, paper.Run{Style: st, Text: r.CollNo.Text, Keep: true})
	room, beside := measure-wd-columnGap, wd < measure/2
	if !beside {
		room = measure
	}
	var out []footLine
	for _, l := range paper.Set(runs, room) {
		out = append(out, footLine{row: collectorRow, cells: []cell{{part: "collector", runs: l.Runs}}})
	}
	if last := len(out) - 1; last >= 0 && beside {
		out[last].cells = append(out[last].cells, date)
	} else {
		for _, l := range paper.Set(prose(r.Date.Text, st, measure), measure) {
			out = append(out, footLine{row: collectorRow, cells: []cell{{part: "date", x: measure - l.Width, runs: l.Runs}}})
		}
	}
	if len(out) == 0 {
		out = append(out, footLine{row: collectorRow})
	}
	out[0].above = footAbove
	return out
}

// museumNumber is the specimen's number; on a copy for a duplicate it says
// whose duplicate that is, so that no second sheet seems to bear the number.
func (s *setting) museumNumber() string {
	if s.in.Issued != nil {
		return "" // the same words on every set
	}
	n := s.in.Record.Specimen.Text
	if s.in.Copy && s.set.Duplicates.Text != "same" {
		return Fill(s.lang.DuplicateOf, n)
	}
	return n
}

// between is what stands between the others and the museum's number: which
// sheet of several it is, permit, project.
func (s *setting) between(st paper.Style) []paper.Run {
	var all [][]paper.Run
	if s.in.Sheets > 1 {
		all = append(all, whole(Fill(s.lang.SheetOf, itoa(s.in.Sheet), itoa(s.in.Sheets)), st, s.footWidth()))
	}
	for _, sec := range s.set.Sections {
		var l ledger.Leaf
		word := ""
		switch sec.Text {
		case "permit":
			l, word = s.in.Record.Permit, s.lang.Permit
		case "project":
			l, word = s.in.Record.Project, s.lang.Project
		}
		if present(l) {
			all = append(all, append([]paper.Run{{Style: st, Text: word + " "}}, prose(l.Text, st, s.footWidth())...))
		}
	}
	var out []paper.Run
	for i, runs := range all {
		if i > 0 {
			out = append(out, paper.Run{Style: st, Text: "; "})
		}
		out = append(out, runs...)
	}
	return out
}
