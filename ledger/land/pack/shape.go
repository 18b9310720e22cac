package main

import (
	"encoding/binary"
	"math"
)

// perDegree is the steps of a degree that shapes are kept in: 0.0005 degree,
// 56 m of latitude, so that no point moves by more than 40 m.
const perDegree = 2000

// The data stop short of the date line and the pole, at 179.9 and -89.9; what
// ends there is drawn out to the line itself.
const cutLon, cutLat = 179.899, -89.899

type point struct{ x, y int32 }

func snap(v vertex) point {
	if math.Abs(v.lon) > cutLon {
		v.lon = math.Copysign(180, v.lon)
	}
	if v.lat < cutLat {
		v.lat = -90
	}
	return point{int32(math.Round(v.lon * perDegree)), int32(math.Round(v.lat * perDegree))}
}

// ringOf is a ring in steps, closed, no point twice in a row.
func ringOf(r []vertex) []point {
	var out []point
	for _, v := range r {
		if p := snap(v); len(out) == 0 || out[len(out)-1] != p {
			out = append(out, p)
		}
	}
	if n := len(out); n > 0 && out[0] != out[n-1] {
		out = append(out, out[0])
	}
	if len(out) < 4 {
		return nil
	}
	return out
}

// edge is one step of a ring, whichever way.
type edge struct{ a, b point }

func edgeOf(a, b point) edge {
	if b.x < a.x || b.x == a.x && b.y < a.y {
		a, b = b, a
	}
	return edge{a, b}
}

// line is a part of a ring that is all shore or all border.
type line struct {
	shore  bool
	points []point
}

// encode is shapes.bin: for each unit a uvarint with the bytes that follow for
// it; the least x and y, the width and height of its box; then lines: a
// uvarint of twice the number of its steps, plus 1 for a shore, the first
// point and the steps, each x and y as a varint of the difference to what came
// before (the least corner of the box at first). The lines of a unit make
// closed rings, holes among them; a point is inside by the even-odd rule.
func encode(units []*unit) (out []byte, points int) {
	rings := make([][][]point, len(units))
	times := map[edge]int{}
	for i, u := range units {
		for _, r := range u.rings {
			if p := ringOf(r); p != nil {
				rings[i] = append(rings[i], p)
				for j := 1; j < len(p); j++ {
					times[edgeOf(p[j-1], p[j])]++
				}
			}
		}
	}
	for _, rs := range rings {
		body, n := encodeUnit(rs, times)
		points += n
		out = binary.AppendUvarint(out, uint64(len(body)))
		out = append(out, body...)
	}
	return out, points
}

func encodeUnit(rings [][]point, times map[edge]int) (out []byte, points int) {
	least, most := rings[0][0], rings[0][0]
	for _, r := range rings {
		for _, p := range r {
			least.x, least.y = min(least.x, p.x), min(least.y, p.y)
			most.x, most.y = max(most.x, p.x), max(most.y, p.y)
		}
	}
	for _, v := range []int32{least.x, least.y} {
		out = binary.AppendVarint(out, int64(v))
	}
	for _, v := range []int32{most.x - least.x, most.y - least.y} {
		out = binary.AppendUvarint(out, uint64(v))
	}
	last := least
	for _, r := range rings {
		for _, l := range linesOf(r, times) {
			n := uint64(len(l.points)-1) << 1
			if l.shore {
				n |= 1
			}
			out = binary.AppendUvarint(out, n)
			for _, p := range l.points {
				out = binary.AppendVarint(out, int64(p.x-last.x))
				out = binary.AppendVarint(out, int64(p.y-last.y))
				last = p
			}
			points += len(l.points)
		}
	}
	return out, points
}

// linesOf parts a ring where shore and border meet. A step that only one unit
// has is shore, but for those along the date line and at the pole.
func linesOf(r []point, times map[edge]int) []line {
	shore := func(a, b point) bool {
		atLine := a.x == b.x && (a.x == 180*perDegree || a.x == -180*perDegree)
		return times[edgeOf(a, b)] == 1 && !atLine && !(a.y == -90*perDegree && b.y == a.y)
	}
	var out []line
	for i := 1; i < len(r); i++ {
		s := shore(r[i-1], r[i])
		if n := len(out); n == 0 || out[n-1].shore != s {
			out = append(out, line{s, []point{r[i-1]}})
		}
		l := &out[len(out)-1]
		l.points = append(l.points, r[i])
	}
	return out
}
