package figure

import (
	"math"

	"blotter/render/page"
)

// MaxDots is how many places a map shows one by one; more are counted in
// squares.
const MaxDots = 200

// cell is the side of a square of counts, in units.
const cell = 40

// windowFor is the window of a map: of a single place its own, of many the
// narrowest that holds them all, the world if there is no other.
func windowFor(m page.Map) window {
	if !m.Many {
		return windowOf(m.Spots[0].Lat, m.Spots[0].Lon)
	}
	a, b := m.Spots[0], m.Spots[0]
	for _, s := range m.Spots[1:] {
		a.Lat, b.Lat = math.Min(a.Lat, s.Lat), math.Max(b.Lat, s.Lat)
		a.Lon, b.Lon = math.Min(a.Lon, s.Lon), math.Max(b.Lon, s.Lon)
	}
	for level := range world {
		w := windowAt(level, (a.Lat+b.Lat)/2, (a.Lon+b.Lon)/2)
		if w.holds(a) && w.holds(b) && (level == world-1 || w.hasLine()) {
			return w
		}
	}
	return window{level: world}
}

// holds reports whether the dot of a place lies whole in the window.
func (w window) holds(s page.Spot) bool {
	edge := 4.0
	if s.Degrees > 0 {
		edge = max(s.Degrees*w.perLat(), leastSquare) / 2
	}
	x, y := w.at(s.Lat, s.Lon)
	return x >= edge && x <= width-edge && y >= edge && y <= mapHeight-edge
}

// many draws the places of many sheets: a dot each, or counts in squares.
func (d *drawing) many(m page.Map, up string) {
	if len(m.Spots) == 0 {
		return
	}
	w := windowFor(m)
	d.ground(w, up)
	if len(m.Spots) <= MaxDots {
		for _, s := range m.Spots {
			if s.Degrees > 0 {
				d.held(w, s)
				continue
			}
			x, y := w.at(s.Lat, s.Lon)
			d.circle("dot", x, y, 3.5)
		}
		return
	}
	var count [mapHeight / cell][width / cell]int
	for _, s := range m.Spots {
		x, y := w.at(s.Lat, s.Lon)
		count[min(max(int(y)/cell, 0), len(count)-1)][min(max(int(x)/cell, 0), len(count[0])-1)] += s.N
	}
	for row := range count {
		for col, n := range count[row] {
			if n == 0 {
				continue
			}
			d.rect("square", float64(col)*cell+0.5, float64(row)*cell+0.5, cell-1, cell-1)
			d.text((float64(col)+0.5)*cell, (float64(row)+0.5)*cell+4.5, "middle", page.Number(n))
		}
	}
}
