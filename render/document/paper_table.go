package document

import (
	"fmt"
	"slices"

	"blotter/render/page"
	"blotter/render/paper"
)

// Of tables, in millimetres.
const (
	columnGap = 4.0
	rowRoom   = 0.9 // above and below the words of a row
	gridRoom  = 1.6 // between words and the lines of a grid
	leastCol  = 8.0
	leastWide = 5.0 // of a column, however many there are
	emptyRow  = 8.0
	keptRows  = 9 // so many are not parted, heads included
)

// tableSizes are tried in turn until the words of every column fit.
var tableSizes = []lead{{paper.Style{Size: 9.5}, 4.3}, {paper.Style{Size: 9}, 4.1}, {paper.Style{Size: 8.5}, 3.9}, {paper.Style{Size: 8}, 3.7}}

// sheet is a table being set.
type sheet struct {
	*setter
	of      *Block
	cells   lead
	figures []bool
	at, w   []float64 // where a column begins and how wide it is
	gap     float64   // between columns
	wide    float64   // of the whole table
}

// table is a row a piece, with heads again on every page.
func (s *setter) table(b *Block) []piece {
	if len(b.Heads) == 0 {
		return nil
	}
	t := &sheet{setter: s, of: b, figures: b.figures()}
	if n := len(b.Heads); float64(n)*(leastWide+gridRoom) > s.width {
		s.lacks = fmt.Errorf("set %q: a table of %d columns does not fit a page of %g mm", s.doc.Title, n, s.size.W)
		return nil
	}
	t.columns()
	head := t.row(b.Heads, true, 0)
	again := head[0]
	if len(head) > 1 {
		again = nil // too high to stand on every page
	}
	const before = 3.0
	var all []piece
	add := func(p piece) {
		if len(all) == 0 {
			for _, h := range head {
				all = append(all, piece{block: h, before: before * float64(1-min(len(all), 1)), glue: len(head) == 1})
			}
		}
		all = append(all, p)
	}
	for _, row := range b.Rows {
		for _, block := range t.row(row, false, t.height(row)) {
			add(piece{block: block, heads: again})
		}
	}
	if g := b.Grid; g != nil {
		empty := t.row(nil, false, g.high())[0]
		for range max(g.Blank, 0) {
			add(piece{block: empty, heads: again})
		}
		if g.ToFoot {
			all = append(all, piece{foot: true, heads: empty})
		}
	}
	if len(head) == 1 && len(all) <= keptRows {
		together(all)
	}
	if len(head) == 1 && len(all) > 2 && !all[len(all)-1].foot {
		all[1].glue = true          // two rows below the heads
		all[len(all)-2].glue = true // two rows on the last page
	}
	return all
}

func (g *Grid) high() float64 {
	if g.Height > 0 {
		return g.Height
	}
	return emptyRow
}

// height is the least height of a row: one that is written on has room.
func (t *sheet) height(row []string) float64 {
	if t.of.Grid != nil && (len(row) < len(t.of.Heads) || slices.Contains(row, "")) {
		return t.of.Grid.high()
	}
	return 0
}

// cell are the runs of a cell.
func (t *sheet) cell(row []string, c int, l lead) []paper.Run {
	if c >= len(row) || row[c] == "" || t.box(row, c) {
		return nil
	}
	if c < len(t.of.Names) && t.of.Names[c] && t.doc.Name != nil {
		runs := t.doc.Name(onLine(page.Visible(row[c])), l.Size, l.Size)
		t.see(runs)
		return runs
	}
	return t.run(l.Style, row[c])
}

func (t *sheet) box(row []string, c int) bool {
	return t.of.Grid != nil && c < len(row) && (row[c] == EmptyBox || row[c] == TickedBox)
}

// headOf is how heads of columns are set beside cells.
func headOf(l lead) lead { return lead{paper.Style{Size: l.Size - 0.5}, l.line} }

// columns finds sizes and widths.
func (t *sheet) columns() {
	n := len(t.of.Heads)
	t.gap = min(columnGap, t.width/2/float64(n))
	if t.of.Grid != nil {
		t.gap = 2 * gridRoom
	}
	room := t.width - t.gap*float64(n-1)
	if t.of.Grid != nil {
		room -= t.gap
	}
	var least, want []float64
	for _, t.cells = range tableSizes {
		least, want = t.needs()
		if sum(least) <= room {
			break
		}
	}
	if g := t.of.Grid; g != nil && len(g.Wide) == n {
		t.w = shared(least, g.Wide, max(room, 1))
	} else {
		t.w = level(least, want, max(room, 1))
	}
	t.spread(room)
	t.at = make([]float64, n)
	x := 0.0
	if t.of.Grid != nil {
		x = gridRoom
	}
	for c := range t.at {
		t.at[c] = x
		x += t.w[c] + t.gap
	}
	t.wide = x - t.gap
	if t.of.Grid != nil {
		t.wide += gridRoom
	}
}

// spread makes a table that nearly fills the line as wide as the line; a grid
// always is.
func (t *sheet) spread(room float64) {
	taken := sum(t.w)
	spare, last := room-taken, len(t.w)-1
	switch {
	case spare <= 0 || t.of.Grid == nil && spare > room*0.35:
	case t.of.Grid != nil:
		for c := range t.w {
			t.w[c] *= room / taken
		}
	case t.figures[last]:
		for c := range t.w {
			t.w[c] += spare / float64(len(t.w))
		}
	default:
		t.w[last] += spare
	}
}

// needs are the widest word and the widest cell of each column.
func (t *sheet) needs() (least, want []float64) {
	n := len(t.of.Heads)
	least, want = make([]float64, n), make([]float64, n)
	see := func(row []string, l lead) {
		for c := range n {
			if t.box(row, c) {
				least[c], want[c] = max(least[c], boxSide), max(want[c], boxSide)
				continue
			}
			runs := t.cell(row, c, l)
			w := paper.Width(runs...)
			want[c] = max(want[c], w)
			if w <= least[c] {
				continue
			}
			for _, line := range paper.Set(runs, 0) {
				least[c] = max(least[c], line.Width)
			}
		}
	}
	see(t.of.Heads, headOf(t.cells))
	for _, row := range t.of.Rows {
		see(row, t.cells)
	}
	for c := range n {
		least[c], want[c] = max(least[c], leastCol)+slack, max(want[c], leastCol)+slack
	}
	return least, want
}

func sum(ws []float64) (all float64) {
	for _, w := range ws {
		all += w
	}
	return all
}

// level gives every column what it wants, up to a width at which all together
// fill the room, but no column less than its widest word. When even those
// words are wider than the room, they are levelled in the same way.
func level(least, want []float64, room float64) []float64 {
	if sum(want) <= room {
		return slices.Clone(want)
	}
	if sum(least) > room {
		least, want = make([]float64, len(least)), least
	}
	low, high := 0.0, slices.Max(want)
	out := make([]float64, len(want))
	for range 60 {
		most := (low + high) / 2
		for c := range out {
			out[c] = max(least[c], min(want[c], most))
		}
		if sum(out) > room {
			high = most
		} else {
			low = most
		}
	}
	for c := range out {
		out[c] = max(least[c], min(want[c], low))
	}
	return out
}

// shared gives columns their shares of the room, but none less than its widest
// word while there is room.
func shared(least, shares []float64, room float64) []float64 {
	want := make([]float64, len(shares))
	all := max(sum(shares), slack)
	for c := range want {
		want[c] = max(room*shares[c]/all, leastCol)
	}
	for c := range want {
		want[c] = max(want[c], least[c])
	}
	return level(least, want, room)
}

// row is a row; one higher than a page is several blocks.
func (t *sheet) row(cells []string, head bool, high float64) []*paper.Block {
	l := t.cells
	if head {
		l = headOf(l)
	}
	lines := make([][]paper.Line, len(t.w))
	n := 1
	for c := range t.w {
		lines[c] = paper.Set(broken(t.cell(cells, c, l), t.w[c]), t.w[c])
		n = max(n, len(lines[c]))
	}
	most := max(int((t.size.H-headRoom-footRoom)*0.6/l.line), 1)
	if head {
		most = max(most/2, 1)
	}
	var all []*paper.Block
	for from := 0; from < n; from += most {
		k := min(most, n-from)
		b := &paper.Block{W: t.width, H: max(float64(k)*l.line+2*rowRoom, high)}
		top := rowRoom
		if t.of.Grid != nil && !head {
			top = (b.H - float64(k)*l.line) / 2 // beside what is written by hand, which stands in the middle
		}
		for c := range t.w {
			for i, line := range lines[c][min(from, len(lines[c])):min(from+most, len(lines[c]))] {
				x := t.at[c]
				if t.figures[c] {
					x += max(t.w[c]-line.Width, 0)
				}
				b.Add(paper.Text{X: x, Y: top + float64(i)*l.line + l.base(), Runs: line.Runs})
			}
			if from == 0 && !head && t.box(cells, c) {
				tickBox(b, t.at[c], max((b.H-boxSide)/2, rowRoom), cells[c] == TickedBox)
			}
		}
		t.rules(b, head)
		all = append(all, b)
	}
	return all
}

// rules are the lines of a row: below it, and of a grid beside every column.
func (t *sheet) rules(b *paper.Block, head bool) {
	width := 0.1
	if head {
		width = 0.25
	}
	b.Add(paper.Rule{X1: 0, Y1: b.H, X2: t.wide, Y2: b.H, Width: width})
	if t.of.Grid == nil {
		return
	}
	for c := range len(t.w) + 1 {
		x := t.wide
		if c < len(t.w) {
			x = t.at[c] - gridRoom
		}
		if head {
			continue
		}
		b.Add(paper.Rule{X1: x, Y1: 0, X2: x, Y2: b.H, Width: 0.1})
	}
}
