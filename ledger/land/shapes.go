package land

import (
	_ "embed"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
)

//go:embed shapes.bin
var shapesData string

//go:embed units.txt
var unitsText string

// perDegree is the steps of a degree that shapes are kept in; see
// pack/shape.go for the form of shapes.bin.
const perDegree = 2000

// runSteps is how many steps of a line are looked at together.
const runSteps = 48

// point is in steps, x east and y north.
type point struct{ x, y int32 }

// box is the least and the greatest x and y of something.
type box struct{ west, south, east, north int32 }

func (b box) holds(x, y float64) bool {
	return x >= float64(b.west) && x <= float64(b.east) && y >= float64(b.south) && y <= float64(b.north)
}

func (b *box) grow(p point) {
	b.west, b.east = min(b.west, p.x), max(b.east, p.x)
	b.south, b.north = min(b.south, p.y), max(b.north, p.y)
}

// run is some steps of one line: points[from:to].
type run struct {
	box      box
	from, to int32
	shore    bool
}

// shape is the outline of a unit: closed rings in any order, a point being
// inside by the even-odd rule.
type shape struct {
	points []point
	runs   []run
}

// unit is a first-level unit of a country.
type unit struct {
	country string   // as drawn; "" is nobody's
	also    []string // others that claim it
	name    string   // "" has none
	others  string   // its other names, parted by ;
	box     box
	data    string // its lines in shapes.bin
	drawn   atomic.Pointer[shape]
}

// of reports whether a unit is a country's, as drawn or by its claim.
func (u *unit) of(alpha2 string) bool {
	if u.country == alpha2 {
		return true
	}
	for _, c := range u.also {
		if c == alpha2 {
			return true
		}
	}
	return false
}

// world is all units, found by country and by place.
type world struct {
	units     []unit
	byCountry map[string][]*unit
	from      [cellRows*cellCols + 1]int32 // where the units of a cell begin in met
	met       []int16                      // places in units, cell after cell: those whose box meets the cell
}

// cell yields the units whose box meets a cell.
func (w *world) cell(row, col int) func(yield func(*unit) bool) {
	return func(yield func(*unit) bool) {
		c := row*cellCols + col
		for _, i := range w.met[w.from[c]:w.from[c+1]] {
			if !yield(&w.units[i]) {
				return
			}
		}
	}
}

// Cells are two degrees wide and high.
const (
	cellSize = 2 * perDegree
	cellCols = 180
	cellRows = 90
)

var whole = sync.OnceValue(makeWorld)

// makeWorld reads the table of units: every program that asks about a place
// pays for it once, so it is read in few pieces.
func makeWorld() *world {
	w := &world{units: make([]unit, 0, strings.Count(unitsText, "\n")), byCountry: make(map[string][]*unit, 256)}
	rest := shapesData
	for row := range rows(unitsText) {
		var n uint64
		n, rest = uvarint(rest)
		w.units = append(w.units, unit{data: rest[:n]})
		rest = rest[n:]
		w.units[len(w.units)-1].read(row)
	}
	for i := range w.units {
		u := &w.units[i]
		if u.country != "" {
			w.byCountry[u.country] = append(w.byCountry[u.country], u)
		}
		for _, c := range u.also {
			w.byCountry[c] = append(w.byCountry[c], u)
		}
	}
	w.place()
	return w
}

// read takes a unit's row of units.txt, and its box from the head of its data.
func (u *unit) read(row string) {
	var also string
	u.country, row, _ = strings.Cut(row, "|")
	also, row, _ = strings.Cut(row, "|")
	u.name, u.others, _ = strings.Cut(row, "|")
	if also != "" {
		u.also = strings.Fields(also)
	}
	u.box, u.data = readBox(u.data)
}

// place sorts the units into cells: it counts, then fills.
func (w *world) place() {
	each := func(do func(i, cell int)) {
		for i := range w.units {
			b := &w.units[i].box
			for y := rowOf(b.south); y <= rowOf(b.north); y++ {
				for x := colOf(b.west); x <= colOf(b.east); x++ {
					do(i, y*cellCols+x)
				}
			}
		}
	}
	each(func(_, cell int) { w.from[cell]++ })
	var all int32
	for c, n := range w.from {
		all += n
		w.from[c] = all // the end of the cell, from which filling goes backwards
	}
	w.met = make([]int16, all)
	each(func(i, cell int) {
		w.from[cell]--
		w.met[w.from[cell]] = int16(i)
	})
	for c := range cellRows * cellCols { // backwards filled: the first unit last
		slices.Reverse(w.met[w.from[c]:w.from[c+1]])
	}
}

// colOf and rowOf are the cell of a place in steps.
func colOf(x int32) int { return clamp(int(x+180*perDegree)/cellSize, cellCols) }
func rowOf(y int32) int { return clamp(int(y+90*perDegree)/cellSize, cellRows) }

func clamp(v, n int) int { return min(max(v, 0), n-1) }

func uvarint(s string) (uint64, string) {
	var v uint64
	for i := 0; ; i++ {
		b := s[i]
		v |= uint64(b&0x7f) << (7 * i)
		if b < 0x80 {
			return v, s[i+1:]
		}
	}
}

func varint(s string) (int32, string) {
	u, rest := uvarint(s)
	v := int32(u >> 1)
	if u&1 != 0 {
		v = ^v
	}
	return v, rest
}

func readBox(s string) (box, string) {
	var b box
	var w, h uint64
	b.west, s = varint(s)
	b.south, s = varint(s)
	w, s = uvarint(s)
	h, s = uvarint(s)
	b.east, b.north = b.west+int32(w), b.south+int32(h)
	return b, s
}

// shape decodes the outline at the first asking. Two that ask at once may
// both decode it; the outcome is the same.
func (u *unit) shape() *shape {
	if s := u.drawn.Load(); s != nil {
		return s
	}
	s := &shape{points: make([]point, 0, len(u.data)/3)}
	last := point{u.box.west, u.box.south}
	for rest := u.data; rest != ""; {
		var head uint64
		head, rest = uvarint(rest)
		from := len(s.points)
		for range head>>1 + 1 {
			var dx, dy int32
			dx, rest = varint(rest)
			dy, rest = varint(rest)
			last.x += dx
			last.y += dy
			s.points = append(s.points, last)
		}
		s.line(from, head&1 != 0)
	}
	u.drawn.Store(s)
	return s
}

// line parts the points of a line into runs that share their ends.
func (s *shape) line(from int, shore bool) {
	for end := len(s.points); from < end-1; from += runSteps {
		to := min(from+runSteps+1, end)
		p := s.points[from]
		r := run{box{p.x, p.y, p.x, p.y}, int32(from), int32(to), shore}
		for _, p := range s.points[from:to] {
			r.box.grow(p)
		}
		s.runs = append(s.runs, r)
	}
}

// contains reports whether a place in steps is inside. A place on a border
// of two units is inside exactly one.
func (s *shape) contains(x, y float64) bool {
	in := false
	for i := range s.runs {
		r := &s.runs[i]
		if float64(r.box.north) <= y || float64(r.box.south) > y || float64(r.box.east) < x {
			continue
		}
		ps := s.points[r.from:r.to]
		if float64(r.box.west) > x { // all crossings are east of it
			if above(ps[0], y) != above(ps[len(ps)-1], y) {
				in = !in
			}
			continue
		}
		for j := 1; j < len(ps); j++ {
			a, b := ps[j-1], ps[j]
			if above(a, y) != above(b, y) &&
				x < float64(a.x)+(y-float64(a.y))*float64(b.x-a.x)/float64(b.y-a.y) {
				in = !in
			}
		}
	}
	return in
}

func above(p point, y float64) bool { return float64(p.y) > y }
