package document

import "blotter/render/paper"

// Of places to write on: their height is that of a pencil's writing.
const (
	fieldHigh = 9.0
	fieldGap  = 5.0
	leastRule = 14.0
	boxSide   = 3.2
	boxGap    = 1.6
)

// fill is fields side by side, on as many lines as they need.
func (s *setter) fill(b *Block) []piece {
	var all []piece
	before := 1.0
	var short []Field
	for _, f := range b.Fill {
		over, rest := s.split(f)
		for _, words := range over {
			all = append(all, s.words(words, fieldLead, s.width, 1, "")...)
		}
		short = append(short, rest)
	}
	for rest := short; len(rest) > 0; {
		n, need := 0, 0.0
		for _, f := range rest {
			w := s.fieldNeeds(f)
			if n > 0 && need+fieldGap+w > s.width {
				break
			}
			if n > 0 {
				need += fieldGap
			}
			need += w
			n++
		}
		all = append(all, piece{block: s.fields(rest[:n]), before: before})
		rest, before = rest[n:], 0
	}
	together(all)
	return all
}

// split takes from a field the words that are too long to stand beside or on
// its rule: they stand above it.
func (s *setter) split(f Field) (over []string, rest Field) {
	for _, x := range []struct {
		words *string
		most  float64
	}{{&f.Label, 0.55}, {&f.Value, 0.9}, {&f.After, 0.3}} {
		if paper.Width(s.run(bodyLead.Style, *x.words)...) > x.most*s.width {
			over, *x.words = append(over, *x.words), ""
		}
	}
	return over, f
}

// fieldNeeds is the least width of a field.
func (s *setter) fieldNeeds(f Field) float64 {
	w := leastRule * max(f.share(), 1)
	if f.Value != "" {
		w = max(leastRule, paper.Width(s.run(bodyLead.Style, f.Value)...)+2)
	}
	return min(w+s.labelRoom(f.Label)+s.labelRoom(f.After), s.width)
}

// labelRoom is the width of words beside a rule, with the room between.
func (s *setter) labelRoom(words string) float64 {
	if words == "" {
		return 0
	}
	return min(paper.Width(s.run(fieldLead.Style, words)...)+1.8, s.width*0.7)
}

// fields are fields that fit into one line: what they do not need is shared.
func (s *setter) fields(fs []Field) *paper.Block {
	need, shares := fieldGap*float64(len(fs)-1), 0.0
	for _, f := range fs {
		need += s.fieldNeeds(f)
		shares += f.share()
	}
	spare := max(s.width-need, 0)
	b := &paper.Block{W: s.width, H: fieldHigh}
	x := 0.0
	for _, f := range fs {
		w := s.fieldNeeds(f) + spare*f.share()/shares
		b.H = max(b.H, s.field(b, f, x, w))
		x += w + fieldGap
	}
	return b
}

// field draws one field and says how high it is: a label or a value that is
// wider than its room stands on several lines.
func (s *setter) field(b *paper.Block, f Field, x, w float64) float64 {
	l, a := s.labelRoom(f.Label), s.labelRoom(f.After)
	label := s.lines(f.Label, fieldLead, max(l-1.8, 1)+slack)
	after := s.lines(f.After, fieldLead, max(a-1.8, 1)+slack)
	ruled := max(w-l-a, 1)
	value := s.lines(f.Value, bodyLead, ruled-1)
	high := max(fieldHigh, 2+max(float64(len(label))*fieldLead.line, float64(len(after))*fieldLead.line, float64(len(value))*bodyLead.line))
	base := high - 2.4
	stack(b, label, fieldLead, x, base)
	stack(b, after, fieldLead, x+w-a+1.8, base)
	stack(b, value, bodyLead, x+l+0.8, base)
	b.Add(paper.Rule{X1: x + l, Y1: base + 1, X2: x + l + ruled, Y2: base + 1, Width: 0.15})
	return high
}

func (s *setter) lines(words string, l lead, width float64) []paper.Line {
	return paper.Set(broken(s.run(l.Style, words), width), width)
}

// stack draws lines of which the last stands on base.
func stack(b *paper.Block, lines []paper.Line, l lead, x, base float64) {
	for i, line := range lines {
		b.Add(paper.Text{X: x, Y: base - float64(len(lines)-1-i)*l.line, Runs: line.Runs})
	}
}

// tick is a label, then boxes in columns.
func (s *setter) tick(b *Block) []piece {
	var all []piece
	before := 2.6
	if b.Text != "" {
		all = s.words(b.Text, fieldLead, s.width, before, "")
		before = 1
	}
	const high, between = 6.4, 6.0
	wide := 0.0
	for _, t := range b.Ticks {
		wide = max(wide, boxSide+boxGap+paper.Width(s.run(fieldLead.Style, t.Text)...))
	}
	wide = min(wide+0.1, s.width)
	columns := max(int((s.width+between)/(wide+between)), 1)
	if lines := (len(b.Ticks) + columns - 1) / columns; lines > 0 {
		columns = (len(b.Ticks) + lines - 1) / lines
	}
	for i := 0; i < len(b.Ticks); i += columns {
		row := &paper.Block{W: s.width, H: high}
		for c, t := range b.Ticks[i:min(i+columns, len(b.Ticks))] {
			x := float64(c) * (wide + between)
			lines := s.lines(t.Text, fieldLead, wide-boxSide-boxGap)
			row.H = max(row.H, float64(len(lines))*fieldLead.line+2)
			for k, l := range lines {
				row.Add(paper.Text{X: x + boxSide + boxGap, Y: 1 + fieldLead.base() + float64(k)*fieldLead.line, Runs: l.Runs})
			}
			tickBox(row, x, 1+(fieldLead.line-boxSide)/2, t.On)
		}
		all = append(all, piece{block: row, before: before})
		before = 0
	}
	together(all)
	return all
}

// tickBox is a box whose corner is at x, y.
func tickBox(b *paper.Block, x, y float64, on bool) {
	b.Add(paper.Frame{B: paper.Box{X: x + 0.1, Y: y + 0.1, W: boxSide - 0.2, H: boxSide - 0.2}, Width: 0.2})
	if on {
		b.Add(paper.Rule{X1: x + 0.6, Y1: y + 0.6, X2: x + boxSide - 0.6, Y2: y + boxSide - 0.6, Width: 0.3},
			paper.Rule{X1: x + 0.6, Y1: y + boxSide - 0.6, X2: x + boxSide - 0.6, Y2: y + 0.6, Width: 0.3})
	}
}
