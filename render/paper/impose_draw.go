package paper

import (
	"math"
	"strings"
)

// edge is the border of the paper that takes no ink of ours, in millimetres.
const edge = 5

// Cut marks are crosses whose arms lie on the cuts.
const (
	markArm   = 1.5 // each
	markWidth = 0.1
)

// cutMarks are crosses at the corners of the blocks. An arm is left out where
// it would run into a block, over what is drawn, or into the edge of the paper.
func cutMarks(size Size, on []placed, foot []Item) []Item {
	m := marker{size: size, on: on, foot: foot}
	type corner struct{ x, y int } // in hundredths of a millimetre
	seen := map[corner]bool{}
	for _, b := range on {
		for _, y := range []float64{b.Y, b.Bottom()} {
			for _, x := range []float64{b.X, b.Right()} {
				c := corner{int(math.Round(x * 100)), int(math.Round(y * 100))}
				if !seen[c] {
					seen[c] = true
					m.cross(x, y)
				}
			}
		}
	}
	return m.items
}

type marker struct {
	size  Size
	on    []placed
	foot  []Item
	items []Item
}

func (m *marker) cross(x, y float64) {
	if up, down := m.arm(x, y, 0, -1), m.arm(x, y, 0, 1); up+down > 0 {
		m.items = append(m.items, Rule{X1: x, Y1: y - up, X2: x, Y2: y + down, Width: markWidth})
	}
	if left, right := m.arm(x, y, -1, 0), m.arm(x, y, 1, 0); left+right > 0 {
		m.items = append(m.items, Rule{X1: x - left, Y1: y, X2: x + right, Y2: y, Width: markWidth})
	}
}

// arm is how far the arm of a cross reaches in one direction; 0: it is left out.
func (m *marker) arm(x, y, dx, dy float64) float64 {
	if x < edge || y < edge || x > m.size.W-edge || y > m.size.H-edge {
		return 0
	}
	endX, endY := x+dx*markArm, y+dy*markArm
	endX, endY = min(max(endX, edge), m.size.W-edge), min(max(endY, edge), m.size.H-edge)
	long := (endX-x)*dx + (endY-y)*dy
	if long < 0.5 {
		return 0
	}
	b := Box{min(x, endX) - markWidth/2, min(y, endY) - markWidth/2, math.Abs(endX-x) + markWidth, math.Abs(endY-y) + markWidth}
	midX, midY := (x+endX)/2, (y+endY)/2
	for _, p := range m.on {
		if midX > p.X+0.01 && midX < p.Right()-0.01 && midY > p.Y+0.01 && midY < p.Bottom()-0.01 {
			return 0
		}
		if !meets(b, p.Box) {
			continue
		}
		for _, it := range p.block.Items {
			if meets(b, it.moved(p.X, p.Y).Box()) {
				return 0
			}
		}
	}
	for _, it := range m.foot {
		if meets(b, it.Box()) {
			return 0
		}
	}
	return long
}

// meets tells whether the two have more than an edge in common.
func meets(a, b Box) bool {
	return a.X < b.Right()-epsilon && b.X < a.Right()-epsilon && a.Y < b.Bottom()-epsilon && b.Y < a.Bottom()-epsilon
}

// draft is the word across a block, from its lower left to its upper right.
func draft(w, h float64) Text {
	const word, capital = "DRAFT", 0.64 // height of capitals in ems
	r := Run{Style: Style{Size: 100, Grey: 0.78, Spread: 0.08}, Text: word}
	turn := min(math.Atan2(h, w), math.Pi/6)
	sin, cos := math.Sincos(turn)
	wide, high := Width(r)-r.Spread*r.Size*Point, capital*r.Size*Point
	scale := 0.86 * min(w/(wide*cos+high*sin), h/(wide*sin+high*cos))
	r.Size *= scale
	wide, high = wide*scale/2, high*scale/2
	return Text{X: w/2 - cos*wide + sin*high, Y: h/2 + sin*wide + cos*high, Runs: []Run{r}, Turn: turn * 180 / math.Pi}
}

// footer is what stands below the last cut: a line to be measured, since a
// printer may shrink what it prints, and where the page comes from.
type footer struct {
	size        Size
	line        bool // there is room for it
	check, from Run
	rows        int
}

// Of the foot: letters of 6 points have 2.4 mm, which Letter leaves below four
// labels. Its height is that of the paper's width alone, never of its words, so
// that a sheet has the same places whatever its file is called.
const (
	footSize = 6
	footRow  = 2.4
	footFrom = 45.0 // of the words at the right at least, or they have a row of their own
	checkBy  = 50.0 // length of the line
)

func newFooter(foot Foot, size Size) *footer {
	style := Style{Size: footSize}
	f := &footer{size: size, rows: 1, line: size.W >= checkBy+2*edge, check: Run{Style: style, Text: "this line must measure 50 mm"}}
	revision := foot.Revision
	if revision != "" {
		revision = "revision " + revision
	}
	room := size.W - 2*edge
	if beside := room - f.left() - 3; f.line && beside >= footFrom {
		room = beside
	} else {
		f.rows = 2
	}
	for file := foot.File; ; file = shorter(file) {
		f.from = Run{Style: style, Text: join(", ", file, foot.Day, revision)}
		if file == "" || Width(f.from) <= room {
			return f
		}
	}
}

// shorter is a file's name with less of its middle.
func shorter(name string) string {
	letters := []rune(strings.Replace(name, "…", "", 1))
	if len(letters) < 8 {
		return ""
	}
	half := (len(letters) - 1) / 2
	return string(letters[:half]) + "…" + string(letters[half+1:])
}

func join(sep string, words ...string) string {
	var all []string
	for _, w := range words {
		if w != "" {
			all = append(all, w)
		}
	}
	return strings.Join(all, sep)
}

// left is how far the line and its words reach from the left margin.
func (f *footer) left() float64 {
	if !f.line {
		return 0
	}
	words := Width(f.check)
	if f.tight() {
		words = 0
	}
	return checkBy + 2 + words
}

// tight is paper too narrow for the words beside the line.
func (f *footer) tight() bool { return checkBy+2+Width(f.check) > f.size.W-2*edge }

// reserve is the strip that the foot needs, the edge of the paper included.
func (f *footer) reserve() float64 { return edge + footRow*float64(f.rows) }

// items draws the foot below y, the last cut: at its middle where the strip is
// high, at the lowest that the edge allows where it is not.
func (f *footer) items(y float64) []Item {
	low := f.size.H - edge - Descent*footSize*Point
	first := min(y+5, low-footRow*float64(f.rows-1))
	var out []Item
	if f.line {
		mid := first - 0.7
		out = append(out, Rule{X1: edge, Y1: mid, X2: edge + checkBy, Y2: mid, Width: 0.2})
		for _, x := range []float64{edge, edge + checkBy} {
			in := x + 0.1
			if x > edge {
				in = x - 0.1
			}
			out = append(out, Rule{X1: in, Y1: mid - 0.7, X2: in, Y2: mid + 0.7, Width: 0.2})
		}
		if !f.tight() {
			out = append(out, Text{X: edge + checkBy + 2, Y: first, Runs: []Run{f.check}})
		}
	}
	if f.from.Text != "" {
		from := Text{X: f.size.W - edge - Width(f.from), Y: first, Runs: []Run{f.from}}
		if f.rows == 2 {
			from.X, from.Y = edge, first+footRow
		}
		out = append(out, from)
	}
	return out
}
