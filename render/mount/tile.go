package mount

import (
	"fmt"
	"math"
	"slices"

	"blotter/render/paper"
)

// Of pages that are joined: neighbours show the same 10 mm of the sheet.
const (
	overlap    = 10.0
	edge       = 5.0 // border of the paper that takes no ink
	footHeight = 12.0
	leastTile  = 60.0 // below that a page shows too little to be of use (own judgement)
	mostTiles  = 40
	leastStep  = 40.0 // from join to join, where a page could be as narrow (own judgement)
	joinAway   = 1.0  // from a join to a piece that it does not cut, at least
	crossArm   = 3.0
	crossSize  = 8.0 // points of its letter
)

// tile is what one page shows of the sheet.
type tile struct {
	col, row int
	shows    paper.Box // of the sheet
	core     paper.Box // of that, without what neighbours show too: words stand here
	at       paper.Box // on the page, where shows is drawn
	trim     paper.Box // X, Y: cut here in sheet coordinates, 0: no join at that side
}

// tiling is how a sheet lies on pages.
type tiling struct {
	page       paper.Size
	cols, rows []float64 // joins: the middle of what two pages share
	tiles      []tile    // row by row
	whole      bool      // one page takes all
}

// tileSheet divides the sheet over pages, upright or turned, whichever needs
// fewer. The joins run where they cut the fewest pieces.
func tileSheet(s Sheet, size paper.Size, pieces []paper.Box) (*tiling, error) {
	turned := paper.Size{W: size.H, H: size.W}
	if size.Name != "" {
		turned.Name = size.Name + " landscape"
	}
	var best *tiling
	for _, page := range []paper.Size{size, turned} {
		if page.W+tiny >= s.W && page.H+tiny >= s.H {
			return onePage(s, page), nil
		}
	}
	for _, page := range []paper.Size{size, turned} {
		w, h := page.W-2*edge, page.H-2*edge-footHeight
		if w < leastTile || h < leastTile {
			continue
		}
		t := &tiling{page: page}
		t.cols = joins(s.W, w, func(x float64) int { return cut(pieces, paper.Box{X: x - overlap/2, W: overlap, H: s.H}) })
		t.rows = joins(s.H, h, func(y float64) int { return cut(pieces, paper.Box{Y: y - overlap/2, H: overlap, W: s.W}) })
		if n := t.count(); n <= mostTiles && (best == nil || n < best.count()) {
			best = t
		}
	}
	if best == nil {
		return nil, fmt.Errorf("paper of %s is too small for a guide of %s", measures(size.W, size.H), measures(s.W, s.H))
	}
	best.lay(s)
	return best, nil
}

func (t *tiling) count() int { return (len(t.cols) + 1) * (len(t.rows) + 1) }

// cut is how many pieces meet a band or nearly do.
func cut(pieces []paper.Box, band paper.Box) int {
	n := 0
	for _, p := range pieces {
		if meets(grown(p, joinAway), band) {
			n++
		}
	}
	return n
}

// joins divides a length over pages that show at most most of it: as few as
// can be; each join at the whole millimetre, within what pages can show, where
// cost is least, and of those the nearest to an even division.
func joins(length, most float64, cost func(at float64) int) []float64 {
	if length <= most+tiny {
		return nil
	}
	pages := int(math.Ceil((length - overlap - tiny) / (most - overlap)))
	step := min(leastStep, math.Floor((length-overlap)/float64(pages)))
	var all []float64
	before := overlap / 2 // the first page has no join before it
	for i := 1; i < pages; i++ {
		last := min(before+most-overlap, length-overlap/2-float64(pages-i)*step)
		first := length - most + overlap/2 - float64(pages-1-i)*(most-overlap)
		first = max(first, before+step)
		even := before + (length-overlap/2-before)/float64(pages-i+1)
		at, least, far := last, math.MaxInt, 0.0
		for x := math.Ceil(first - tiny); x <= last+tiny; x++ {
			c, f := cost(x), math.Abs(x-even)
			if c < least || c == least && f < far-tiny {
				at, least, far = x, c, f
			}
		}
		all, before = append(all, at), at
	}
	return all
}

// lay says what each page shows.
func (t *tiling) lay(s Sheet) {
	half := overlap / 2
	span := func(joins []float64, i int, length float64) (from, to, in, out float64) {
		from, to = 0, length
		in, out = from, to
		if i > 0 {
			from, in = joins[i-1]-half, joins[i-1]+half
		}
		if i < len(joins) {
			to, out = joins[i]+half, joins[i]-half
		}
		return from, to, in, out
	}
	for row := range len(t.rows) + 1 {
		for col := range len(t.cols) + 1 {
			x0, x1, cx0, cx1 := span(t.cols, col, s.W)
			y0, y1, cy0, cy1 := span(t.rows, row, s.H)
			one := tile{col: col, row: row, shows: paper.Box{X: x0, Y: y0, W: x1 - x0, H: y1 - y0}, core: paper.Box{X: cx0, Y: cy0, W: cx1 - cx0, H: cy1 - cy0}}
			one.at = paper.Box{X: (t.page.W - one.shows.W) / 2, Y: edge, W: one.shows.W, H: one.shows.H}
			if col > 0 {
				one.trim.X = t.cols[col-1]
			}
			if row > 0 {
				one.trim.Y = t.rows[row-1]
			}
			t.tiles = append(t.tiles, one)
		}
	}
}

// printerEdge is how near to the edge of the paper few printers reach (from
// memory of common practice: 3 to 4.2 mm).
const printerEdge = 4.0

// onePage lays the sheet on paper at least as large: in the middle where its
// edges can be drawn at both sides, else at the left and at the lower edge of
// the paper.
func onePage(s Sheet, page paper.Size) *tiling {
	at := paper.Box{W: s.W, H: s.H}
	if r := page.W - s.W; r >= 2*printerEdge {
		at.X = r / 2
	}
	at.Y = page.H - s.H
	if at.Y >= 2*printerEdge {
		at.Y /= 2
	}
	whole := paper.Box{W: s.W, H: s.H}
	return &tiling{page: page, whole: true, tiles: []tile{{shows: whole, core: whole, at: at}}}
}

// cross is a mark that two pages share.
type cross struct {
	X, Y   float64 // of the sheet
	upward bool    // the join runs from above to below
	Letter string
}

// crosses are two on each side that two pages share, lettered in the order of
// the pages. They keep clear of lines and of each other; where there is no
// second place that is, there is one.
func (t *tiling) crosses(lines []paper.Box) []cross {
	var all []cross
	taken := slices.Clone(lines)
	add := func(x, y float64, upward bool, from, to float64) {
		c := cross{X: x, Y: y, upward: upward, Letter: letters(len(all))}
		if !c.clear(taken, from, to) && len(all) > 0 && all[len(all)-1].joins(c) {
			return
		}
		all, taken = append(all, c), append(taken, c.box())
	}
	for _, one := range t.tiles {
		core := one.core
		if one.col > 0 {
			for _, part := range []float64{0.25, 0.75} {
				add(one.trim.X, core.Y+part*core.H, true, core.Y, core.Bottom())
			}
		}
		if one.row > 0 {
			for _, part := range []float64{0.25, 0.75} {
				add(core.X+part*core.W, one.trim.Y, false, core.X, core.Right())
			}
		}
	}
	return all
}

// box is the room of the cross with its letters.
func (c cross) box() paper.Box {
	return paper.Box{X: c.X - overlap/2, Y: c.Y - overlap/2, W: overlap, H: overlap}
}

// joins tells whether two crosses lie on the side that the same two pages share.
func (c cross) joins(other cross) bool {
	return c.upward == other.upward && (c.upward && c.X == other.X || !c.upward && c.Y == other.Y)
}

// clear moves the cross along its join, by whole millimetres and as little as
// can be, until it meets nothing; false: it would everywhere.
func (c *cross) clear(taken []paper.Box, from, to float64) bool {
	for by := 0.0; by < to-from; by++ {
		for _, d := range []float64{by, -by} {
			moved := *c
			if c.upward {
				moved.Y += d
			} else {
				moved.X += d
			}
			at := moved.Y
			if !c.upward {
				at = moved.X
			}
			if at-overlap/2 >= from && at+overlap/2 <= to && cut(taken, moved.box()) == 0 {
				*c = moved
				return true
			}
		}
	}
	return false
}

// letters are A to Z, then AA to ZZ.
func letters(n int) string {
	if n < 26 {
		return string(rune('A' + n))
	}
	return letters(n/26-1) + letters(n%26)
}

// items are the lines and letters of the cross; a letter at either side, since
// the page that lies above hides the other half of the one below.
func (c cross) items() []paper.Item {
	st := paper.Style{Size: crossSize}
	r := []paper.Run{{Style: st, Text: c.Letter}}
	out := []paper.Item{
		paper.Rule{X1: c.X - crossArm, Y1: c.Y, X2: c.X + crossArm, Y2: c.Y, Width: 0.15},
		paper.Rule{X1: c.X, Y1: c.Y - crossArm, X2: c.X, Y2: c.Y + crossArm, Width: 0.15},
	}
	w := paper.Width(r...)
	if c.upward {
		return append(out, paper.Text{X: c.X - 0.8 - w, Y: c.Y - 0.9, Runs: r}, paper.Text{X: c.X + 0.8, Y: c.Y - 0.9, Runs: r})
	}
	capital := 0.64 * crossSize * paper.Point
	return append(out, paper.Text{X: c.X + 0.8, Y: c.Y - 0.9, Runs: r}, paper.Text{X: c.X + 0.8, Y: c.Y + 0.9 + capital, Runs: r})
}
