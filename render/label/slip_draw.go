package label

import (
	"slices"

	"blotter/render/paper"
)

// Measures of the slip in millimetres and points (interface.md 3, own design).
const (
	slipIn                       = 2.5 // above and below the text
	slipName, slipUpright        = 11.5, 10.0
	slipNameRow                  = 4.8
	slipNameLines, slipActLines  = 2, 3
	slipNote, slipNoteRow        = 8.5, 3.6
	slipNoteLines                = 2
	slipFoot, slipRight          = 9.5, 8.5
	slipFootRow, slipFootNext    = 4.2, 3.8 // the last line of the foot, those above it
	slipRule, slipFootGap        = 0.1, 0.6 // from the rule to the foot
	slipMuseumWidth              = 45.0     // of the museum's name, where it stands below the number
	typeRule, typeEdge, typeRoom = 1.0, 2.0, 3.2
	typeFootRow                  = 3.7
)

// slipLayout is a slip set in a height.
type slipLayout struct {
	height float64
	head   []paper.Line
	notes  []paper.Line
	left   []paper.Line // who and when
	right  []cell       // number and museum, a line an entry; one alone stands on the last line
	single bool         // all of the foot stands on one line
}

// layouts are the ways to set the foot, the best first: all on one line; who
// and when beside a column of number and museum; the number alone, whose code
// is the museum's.
func (s *slip) layouts(height float64) []slipLayout {
	notes := content{part: "grounds", size: slipNote, row: slipNoteRow, sentences: s.notes}
	base := slipLayout{height: height, head: paper.Set(s.head, Measure)}
	if len(s.notes) > 0 {
		base.notes = notes.set().lines
	}
	who := s.signature()
	st := paper.Style{Size: slipRight}
	number, museum := s.in.Record.Specimen.Text, s.in.Museum.Name.Text
	foot := func(lines ...string) slipLayout {
		l, wide := base, 0.0
		for _, words := range lines {
			c := rightCell("museum", words, st)
			wide = max(wide, paper.Width(c.runs...))
			l.right = append(l.right, c)
		}
		l.right[0].part = "number"
		l.left = paper.Set(who, Measure-wide-columnGap)
		return l
	}
	one := number
	if museum != "" {
		one += ", " + museum
	}
	column := []string{number}
	for _, l := range paper.Set(prose(museum, st, slipMuseumWidth), slipMuseumWidth) {
		column = append(column, l.Text())
	}
	first := foot(one)
	first.single = true
	return []slipLayout{first, foot(column...), foot(number)}
}

// feet is how many lines the foot has.
func (l *slipLayout) feet() int { return max(len(l.left), len(l.right), 1) }

// footHeight is that of the foot with the room above it.
func (s *slip) footHeight(l *slipLayout) float64 {
	n := float64(l.feet())
	if s.kind == typeLabel {
		return n * typeFootRow
	}
	return slipFootGap + slipFootRow + (n-1)*slipFootNext
}

// fits reports whether the slip has room for all of it, in lines no wider than
// it is.
func (s *slip) fits(l *slipLayout) bool {
	wide := 0.0
	for _, c := range l.right {
		wide = max(wide, paper.Width(c.runs...))
	}
	if l.single && len(l.left) > 1 || wide > Measure || paper.Overflow(l.left, Measure-wide-columnGap) != "" || len(l.left) > 0 && wide+columnGap > Measure {
		return false
	}
	if s.short {
		return float64(l.feet())*slipFootNext+2*slipIn <= l.height+tiny
	}
	most := slipNameLines
	if s.part == "act" {
		most = slipActLines
	}
	// A third line of the grounds may stand where a second of the name would.
	lines := slipNoteLines + max(slipNameLines-len(l.head), 0)
	if l.height <= SlipHeight && (len(l.head) > most || len(l.notes) > lines) {
		return false
	}
	room := l.height - 2*slipIn
	if s.kind == typeLabel {
		room = l.height - 2*typeRoom
	}
	return float64(len(l.head))*slipNameRow+float64(len(l.notes))*slipNoteRow+s.footHeight(l) <= room+tiny
}

// fit sets the slip in one place, else in as few of parts as it needs. A conf
// of the name above it takes half a place.
func (s *slip) fit(parts int) (*paper.Block, *Refusal) {
	if r := s.unsettable(); r != nil {
		return nil, r
	}
	if s.short {
		for _, l := range s.layouts(SlipHeight / 2) {
			if s.fits(&l) {
				return s.draw(&l), nil
			}
		}
		s.short = false
	}
	for n := 1; n <= max(parts, 1); n++ {
		if l := s.fitting(n); l != nil {
			return s.draw(l), nil
		}
	}
	return nil, s.tooLong(parts)
}

// fitting is the first layout that fits n places; nil: none does.
func (s *slip) fitting(n int) *slipLayout {
	for _, l := range s.layouts(float64(n) * SlipHeight) {
		if s.fits(&l) {
			return &l
		}
	}
	return nil
}

func (s *slip) draw(l *slipLayout) *paper.Block {
	b := &paper.Block{W: Width, H: l.height, Of: s.in.Record.Specimen.Text}
	d := drawing{b: b}
	if s.short {
		s.foot(d, l, (l.height+float64(l.feet())*slipFootNext)/2, slipFootNext, slipFootNext)
		return b
	}
	top, bottom, last, next := slipIn, l.height-slipIn, slipFootRow, slipFootNext
	if s.kind == typeLabel {
		top, bottom, last, next = typeRoom, l.height-typeRoom, typeFootRow, typeFootRow
		b.Add(paper.Area{Boxes: []paper.Box{{X: sideIn, Y: typeEdge, W: Measure, H: typeRule}, {X: sideIn, Y: l.height - typeEdge - typeRule, W: Measure, H: typeRule}}})
	}
	y := top
	for _, line := range l.head {
		d.text(s.part, sideIn, y+baseline(slipName, slipNameRow), line.Runs)
		y += slipNameRow
	}
	rule := bottom - s.footHeight(l)
	notes := float64(len(l.notes)) * slipNoteRow
	switch grid := top + slipNameLines*slipNameRow; {
	case s.kind == typeLabel:
		y += min(0.6, max(rule-y-notes, 0))
	case y < grid: // below the room of a second line, where it is not wanted
		y = max(y, min(grid, rule-notes-slipFootGap))
	}
	for _, line := range l.notes {
		d.text("grounds", sideIn, y+baseline(slipNote, slipNoteRow), line.Runs)
		y += slipNoteRow
	}
	if s.kind == plainSlip {
		b.Add(paper.Rule{X1: sideIn, Y1: rule, X2: sideIn + Measure, Y2: rule, Width: slipRule})
	}
	s.foot(d, l, bottom, last, next)
	return b
}

// foot draws who and number in lines that end at bottom; last is the height of
// the last line, next that of those above it.
func (s *slip) foot(d drawing, l *slipLayout, bottom, last, next float64) {
	n := l.feet()
	base := func(i int) float64 { // of line i from the top
		if i == n-1 {
			return bottom - last + baseline(slipFoot, last)
		}
		return bottom - last - float64(n-1-i)*next + baseline(slipFoot, next)
	}
	for i, line := range l.left {
		d.text("signature", sideIn, base(i), line.Runs)
	}
	from := n - len(l.right)
	if len(l.right) > 1 {
		from = 0
	}
	for i, c := range l.right {
		if len(c.runs) > 0 {
			d.text(c.part, sideIn+c.x, base(from+i), c.runs)
		}
	}
}

// runs are all words of the slip with the fields they come from.
func (s *slip) runs() []piece {
	out := []piece{{s.field + "." + map[string]string{"name": "name", "act": "what"}[s.part], s.head, Measure}}
	for _, n := range s.notes {
		out = append(out, piece{s.field + "." + n.field, n.runs, Measure})
	}
	out = append(out, piece{s.field + ".by", s.signature(), Measure})
	st := paper.Style{Size: slipRight}
	return slices.Concat(out, []piece{{"specimen", rightCell("number", s.in.Record.Specimen.Text, st).runs, Measure}, {"name of the museum", prose(s.in.Museum.Name.Text, st, Measure), Measure}})
}
