package document

import (
	"fmt"
	"strings"

	"blotter/render/page"
	"blotter/render/paper"
)

// piece is what is never parted: a line, a row, a framed caution.
type piece struct {
	block  *paper.Block
	before float64      // room above it, but at the head of a page
	glue   bool         // the next piece stands on the same page
	heads  *paper.Block // of its table, drawn again when it begins a page
	page   bool         // it begins a page, and a letter when there are such
	title  string       // of the letter
	foot   bool         // rows like heads go on to the foot of the page
}

// lead is how words are set: style and distance of the base lines in
// millimetres.
type lead struct {
	paper.Style
	line float64
}

var (
	titleLead   = lead{paper.Style{Size: 17}, 7.6}
	headingLead = lead{paper.Style{Size: 12.5}, 5.6}
	bodyLead    = lead{paper.Style{Size: 10.5}, 5}
	cautionLead = lead{paper.Style{Size: 10}, 4.7}
	fieldLead   = lead{paper.Style{Size: 9.5}, 4.4}
	footStyle   = paper.Style{Size: 8}
)

// measure is the longest line of running words in millimetres: some 80
// letters, no more than an eye can follow.
const measure = 140.0

// setter makes pieces of the blocks of a document.
type setter struct {
	doc           *Document
	size          paper.Size
	margin, width float64
	lacks         error
}

// run is words in a style; what hides or turns words is written out.
func (s *setter) run(st paper.Style, words string) []paper.Run {
	r := paper.Run{Style: st, Text: onLine(page.Visible(words))}
	s.see([]paper.Run{r})
	return []paper.Run{r}
}

var onLine = strings.NewReplacer("\n", " ", "\t", " ", "\r", " ").Replace

// see notes the first letter that cannot be printed.
func (s *setter) see(runs []paper.Run) {
	if r, lacks := paper.Lacks(runs...); lacks && s.lacks == nil {
		s.lacks = fmt.Errorf("set %q: the typeface has no letter %s", paper.TextOf([]paper.Line{{Runs: runs}}), paper.LetterName(r))
	}
}

func (s *setter) pieces() []piece {
	all := []piece{{page: true, title: s.titleFrom(0)}}
	if title := s.words(s.doc.Title, titleLead, s.width, 0, ""); len(title) > 0 {
		all = append(all, title...)
		all[len(all)-1].block.H += 1.5
		rule := &paper.Block{W: s.width, H: 0.4, Items: []paper.Item{paper.Rule{X1: 0, Y1: 0.2, X2: s.width, Y2: 0.2, Width: 0.2}}}
		all = append(all, piece{block: rule})
		glued(all[1:])
	}
	for i := range s.doc.Blocks {
		b := &s.doc.Blocks[i]
		if b.Kind == Page {
			all = append(all, piece{page: true, title: s.titleFrom(i + 1)})
			continue
		}
		all = append(all, s.block(b)...)
		if n := len(s.doc.Blocks); b.Kind == Paragraph && i+1 < n && s.doc.Blocks[i+1].Kind >= Items && s.doc.Blocks[i+1].Kind != Page {
			all[len(all)-1].glue = true // it speaks of the list or table below it
		}
	}
	return all
}

// titleFrom is what the foot calls a letter: its first heading, or the title.
func (s *setter) titleFrom(i int) string {
	if s.doc.Letters || s.doc.Title == "" {
		for _, b := range s.doc.Blocks[i:] {
			if b.Kind == Page {
				break
			}
			if b.Kind == Heading {
				return b.Text
			}
		}
	}
	return s.doc.Title
}

func glued(all []piece) {
	for i := range all {
		all[i].glue = true
	}
}

func (s *setter) block(b *Block) []piece {
	var all []piece
	switch b.Kind {
	case Heading:
		all = s.words(b.Text, headingLead, s.width, 5.5, "")
		glued(all)
	case Paragraph:
		all = s.words(b.Text, bodyLead, min(s.width, measure), 2.6, "")
	case Lines:
		before := 2.6
		for _, l := range b.Lines {
			all = append(all, s.words(l, bodyLead, s.width, before, "")...)
			before = 0
		}
		together(all)
	case Items:
		before := 2.2
		for _, l := range b.Lines {
			all = append(all, s.words(l, bodyLead, min(s.width, measure), before, "–")...)
			before = 0.5
		}
	case Caution:
		all = s.caution(b.Text)
	case Table:
		all = s.table(b)
	case Chart:
		all = s.chart(b)
	case Fill:
		all = s.fill(b)
	case Tick:
		all = s.tick(b)
	}
	return all
}

// together keeps lines that belong together on one page when they are few.
func together(all []piece) {
	if len(all) > 12 {
		return
	}
	for i := range len(all) - 1 {
		all[i].glue = true
	}
}

// hang is how far the lines of an entry stand in.
const hang = 4.0

// words are words in lines; neither the first nor the last of several stands
// alone on a page. A mark stands before the first.
func (s *setter) words(text string, l lead, width, before float64, mark string) []piece {
	in := 0.0
	if mark != "" {
		in = hang
	}
	lines := paper.Set(broken(s.run(l.Style, text), width-in), width-in)
	var all []piece
	for i, line := range lines {
		b := &paper.Block{W: s.width, H: l.line}
		if i == 0 && mark != "" {
			b.Add(paper.Text{X: 0, Y: l.base(), Runs: s.run(l.Style, mark)})
		}
		b.Add(paper.Text{X: in, Y: l.base(), Runs: line.Runs})
		all = append(all, piece{block: b, before: before, glue: i == 0 && len(lines) > 1 || i == len(lines)-2})
		before = 0
	}
	return all
}

// base is how far below the top of a line its letters stand.
func (l lead) base() float64 {
	return (l.line + (paper.Ascent-paper.Descent)*l.Size*paper.Point) / 2
}

// caution is a frame; one higher than half a page is parted.
func (s *setter) caution(text string) []piece {
	const side, above = 3.5, 2.0
	width := min(s.width, measure+2*side)
	head := s.run(paper.Style{Size: 9, Spread: 0.06}, "CAUTION:")
	runs := append(head, s.run(cautionLead.Style, " "+text)...)
	lines := paper.Set(broken(runs, width-2*side), width-2*side)
	most := max(int((s.size.H-headRoom-footRoom)/2/cautionLead.line), 1)
	var all []piece
	for len(lines) > 0 {
		n := min(most, len(lines))
		b := &paper.Block{W: s.width, H: float64(n)*cautionLead.line + 2*above}
		b.Add(paper.Frame{B: paper.Box{X: 0.15, Y: 0.15, W: width - 0.3, H: b.H - 0.3}, Width: 0.3})
		for i, l := range lines[:n] {
			b.Add(paper.Text{X: side, Y: above + float64(i)*cautionLead.line + cautionLead.base(), Runs: l.Runs})
		}
		all = append(all, piece{block: b, before: 3.2, glue: true})
		lines = lines[n:]
	}
	return all
}

// chart is lying bars, a line each.
func (s *setter) chart(b *Block) []piece {
	const step, bar, number = 4.8, 2.6, 16.0
	if len(b.Bars) == 0 {
		return s.words(b.Text+": see the table.", bodyLead, s.width, 2.6, "")
	}
	top, label := 1, 0.0
	for _, x := range b.Bars {
		top, label = max(top, x.N), max(label, paper.Width(s.run(fieldLead.Style, x.Label)...))
	}
	label = min(label, s.width*0.45)
	room := min(s.width-label-3-number, 90)
	all := s.words(b.Text, lead{paper.Style{Size: 9}, 4.4}, s.width, 3, "")
	for _, x := range b.Bars {
		lines := paper.Set(broken(s.run(fieldLead.Style, x.Label), label), label)
		if len(lines) > 3 {
			all, lines = append(all, s.words(x.Label, fieldLead, s.width, 1, "")...), nil
		}
		line := &paper.Block{W: s.width, H: max(float64(len(lines)), 1) * step}
		for i, l := range lines {
			line.Add(paper.Text{X: label - l.Width, Y: float64(i)*step + fieldLead.base(), Runs: l.Runs})
		}
		w := room * float64(x.N) / float64(top)
		if x.N > 0 {
			line.Add(paper.Area{Boxes: []paper.Box{{X: label + 3, Y: (step - bar) / 2, W: max(w, 0.2), H: bar}}})
		}
		line.Add(paper.Text{X: label + 3 + w + 1.5, Y: fieldLead.base(), Runs: s.run(fieldLead.Style, page.Number(x.N))})
		all = append(all, piece{block: line})
	}
	if len(all) < 25 {
		together(all)
		for i := range len(all) - 1 {
			all[i].glue = true
		}
	}
	return all
}
