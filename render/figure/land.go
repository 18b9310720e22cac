package figure

import (
	"bytes"
	"compress/gzip"
	_ "embed"
	"encoding/binary"
	"io"
	"sync"
)

//go:embed land.bin.gz
var packed []byte

// perDegree is the step of the packed coordinates.
const perDegree = 500

// point is a place in degrees, east and north.
type point struct{ x, y float64 }

// atlas is the base map: rings of countries, and the lines that bound them.
type atlas struct {
	arcs  [][]point
	rings [][]point
	twice []bool // the arc is a border, not coast
}

// land is the base map, unpacked at its first use.
var land = sync.OnceValue(unpack)

func unpack() *atlas {
	z, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		return &atlas{}
	}
	raw, err := io.ReadAll(z)
	if err != nil {
		return &atlas{}
	}
	next := func() int {
		v, n := binary.Varint(raw)
		raw = raw[max(n, 0):]
		return int(v)
	}
	a := &atlas{arcs: make([][]point, next())}
	for i := range a.arcs {
		arc := make([]point, next())
		x, y := 0, 0
		for k := range arc {
			x, y = x+next(), y+next()
			arc[k] = point{float64(x) / perDegree, float64(y) / perDegree}
		}
		a.arcs[i] = arc
	}
	a.twice = make([]bool, len(a.arcs))
	seen := make([]bool, len(a.arcs))
	for range next() {
		var ring []point
		for range next() {
			i := next()
			back := i < 0
			if back {
				i = -1 - i
			}
			a.twice[i] = seen[i]
			seen[i] = true
			ring = join(ring, a.arcs[i], back)
		}
		a.rings = append(a.rings, unwrap(ring))
	}
	return a
}

// join adds an arc to a ring; their shared point stands once.
func join(ring, arc []point, back bool) []point {
	for k := range arc {
		p := arc[k]
		if back {
			p = arc[len(arc)-1-k]
		}
		if k > 0 || len(ring) == 0 {
			ring = append(ring, p)
		}
	}
	return ring
}

// unwrap lets a ring that crosses 180 degrees run on beyond it.
func unwrap(ring []point) []point {
	shift := 0.0
	for i := 1; i < len(ring); i++ {
		switch d := ring[i].x + shift - ring[i-1].x; {
		case d > 180:
			shift -= 360
		case d < -180:
			shift += 360
		}
		ring[i].x += shift
	}
	return ring
}

// clip cuts a ring to a box (Sutherland and Hodgman, 1974: one side after
// another). What runs along the sides is drawn outside the picture.
func clip(ring []point, west, south, east, north float64) []point {
	sides := []struct {
		in  func(point) bool
		cut func(a, b point) point
	}{
		{func(p point) bool { return p.x >= west }, func(a, b point) point { return atX(a, b, west) }},
		{func(p point) bool { return p.x <= east }, func(a, b point) point { return atX(a, b, east) }},
		{func(p point) bool { return p.y >= south }, func(a, b point) point { return atY(a, b, south) }},
		{func(p point) bool { return p.y <= north }, func(a, b point) point { return atY(a, b, north) }},
	}
	for _, s := range sides {
		var out []point
		for i, p := range ring {
			before := ring[(i+len(ring)-1)%len(ring)]
			switch {
			case s.in(p) && !s.in(before):
				out = append(out, s.cut(before, p), p)
			case s.in(p):
				out = append(out, p)
			case s.in(before):
				out = append(out, s.cut(before, p))
			}
		}
		ring = out
	}
	return ring
}

func atX(a, b point, x float64) point { return point{x, a.y + (b.y-a.y)*(x-a.x)/(b.x-a.x)} }
func atY(a, b point, y float64) point { return point{a.x + (b.x-a.x)*(y-a.y)/(b.y-a.y), y} }
