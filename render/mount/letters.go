package mount

import (
	"errors"
	"unicode"
	"unicode/utf8"

	"blotter/render/paper"
)

// textLine is a paragraph of the guide's words.
type textLine struct {
	runs   []paper.Run
	framed bool
	apart  bool // more room below it
}

func styled(size float64, words string) []paper.Run {
	return []paper.Run{{Style: paper.Style{Size: size}, Text: words}}
}

// capital is words with their first letter a capital.
func capital(words string) string {
	r, n := utf8.DecodeRuneInString(words)
	return string(unicode.ToUpper(r)) + words[n:]
}

func errLacks(r rune) error {
	return errors.New("the typeface has no letter " + paper.LetterName(r))
}

// figures is the height of figures and capitals, in times of their size.
const figures = 0.64

// ink is the room of a line of words from its base line to its capitals.
func ink(t paper.Text) paper.Box {
	high := figures * sizeOf(t.Runs) * paper.Point
	return paper.Box{X: t.X, Y: t.Y - high, W: paper.Width(t.Runs...), H: high}
}

// Room around words, and the distance of their lines in times of their size.
const (
	inset   = 2.5
	leading = 1.25
	least   = 8.0 // of a part of a piece that gets its number
)

func sizeOf(runs []paper.Run) float64 {
	size := 0.0
	for _, r := range runs {
		size = max(size, r.Size)
	}
	return size
}

// part is the largest part of a box that one page has for itself; and the
// smaller ones, which bear the number alone.
func (g *guide) part(b paper.Box) (largest paper.Box, others []paper.Box) {
	for _, t := range g.tiles.tiles {
		c := common(b, t.core)
		if c.W*c.H > largest.W*largest.H+tiny {
			c, largest = largest, c
		}
		if c.W >= least && c.H >= least {
			others = append(others, c)
		}
	}
	return largest, others
}

// numbered sets the number of a piece and its words into its box: all lines,
// else as many of the first as have room; of a low piece its name and its size,
// or the name alone.
func (g *guide) numbered(b paper.Box, no string, lines []textLine, size string) {
	in, others := g.part(b)
	for _, o := range others {
		g.figure(o, no)
	}
	x := g.figure(in, no)
	if x == 0 {
		return
	}
	room := paper.Box{X: x, Y: in.Y, W: in.Right() - inset - x, H: in.H}
	name := paper.Line{Runs: lines[0].runs}.Text()
	var tries [][]textLine
	for n := len(lines); n > 1; n-- {
		tries = append(tries, lines[:n])
	}
	tries = append(tries, []textLine{lines[0], {runs: styled(8.5, size)}}, lines[:1], []textLine{{runs: styled(8, name)}})
	for _, t := range tries {
		if g.column(room, t, in.H > 20) {
			return
		}
	}
}

// figure draws the number of a piece at the left of a box, as large as has
// room; x is where words may begin, 0: no room even for it.
func (g *guide) figure(b paper.Box, no string) (x float64) {
	size := min(22, (b.H-2)/(figures*paper.Point))
	runs := styled(size, no)
	w := paper.Width(runs...)
	if size < 6 || w > b.W-2*inset {
		return 0
	}
	high := figures * size * paper.Point
	y := b.Y + (b.H+high)/2
	if b.H > 20 {
		y = b.Y + inset + 1 + high
	}
	g.texts = append(g.texts, paper.Text{X: b.X + inset, Y: y, Runs: runs})
	return b.X + inset + max(w, 5) + 2
}

// column sets paragraphs below each other; false: they have no room.
func (g *guide) column(room paper.Box, lines []textLine, top bool) bool {
	type set struct {
		line paper.Line
		row  float64
	}
	var all []set
	high := 0.0
	for _, l := range lines {
		row := sizeOf(l.runs) * leading * paper.Point
		some := paper.Set(l.runs, room.W)
		if paper.Overflow(some, room.W) != "" {
			return false
		}
		for _, s := range some {
			all, high = append(all, set{s, row}), high+row
		}
	}
	around := 2 * inset
	if !top {
		around = 1
	}
	if high > room.H-around+tiny {
		return false
	}
	y := room.Y + (room.H-high)/2
	if top {
		y = room.Y + inset + 0.6
	}
	for _, s := range all {
		size := sizeOf(s.line.Runs)
		g.texts = append(g.texts, paper.Text{X: room.X, Y: y + s.row/2 + 0.31*size*paper.Point, Runs: s.line.Runs})
		y += s.row
	}
	return true
}

// head sets what is said of the whole into the upper left of the field, in a
// column that reads well; what has no room is left out from the last.
func (g *guide) head(b paper.Box, lines []textLine) {
	const in, measure, pad = 6.0, 110.0, 1.2
	part, _ := g.part(b)
	room := paper.Box{X: part.X + in, Y: part.Y + in, W: min(measure, part.W-2*in), H: part.H - 2*in}
	y := room.Y
	for _, l := range lines {
		size := sizeOf(l.runs)
		row := size * leading * paper.Point
		x, w := room.X, room.W
		if l.framed {
			x, w = x+2*pad, w-4*pad
		}
		set := paper.Set(l.runs, w)
		high := row * float64(len(set))
		if l.framed {
			high += 2*pad + 1
		}
		if paper.Overflow(set, w) != "" || y+high > room.Bottom() {
			continue
		}
		if l.framed {
			g.frame(paper.Box{X: room.X, Y: y + 0.5, W: room.W, H: high - 1}, pieceLine, 0)
			y += pad + 0.5
		}
		for _, s := range set {
			g.texts = append(g.texts, paper.Text{X: x, Y: y + row/2 + 0.31*size*paper.Point, Runs: s.Runs})
			y += row
		}
		if l.framed {
			y += pad + 0.5
		}
		y += 0.8
		if l.apart {
			y += 2
		}
	}
}
