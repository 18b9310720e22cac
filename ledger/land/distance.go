package land

import (
	"math"

	"blotter/ledger/geodesy"
)

// WGS84: semi-major axis in metres, first eccentricity squared.
const (
	semiMajor    = 6378137.0
	eccentricity = 0.00669437999014
)

// scale is the metres of a step east and north at a latitude in steps.
func scale(y float64) (east, north float64) {
	const radians = math.Pi / 180 / perDegree
	sin, cos := math.Sincos(y * radians)
	w := 1 - eccentricity*sin*sin
	n := semiMajor / math.Sqrt(w)
	return n * cos * radians, n * (1 - eccentricity) / w * radians
}

// near is the search for what is nearest to a place, on a plane that touches
// the Earth there: it tells what is nearer, and finds a point that is within a
// few per cent the nearest. How far that is, the geodesic tells.
type near struct {
	x, y, east, north float64
	best              float64 // metres squared on the plane
	px, py            float64 // the nearest point, in metres on the plane
}

// metres is the geodesic from the place to the nearest point.
func (n *near) metres() float64 {
	return geodesic(n.x, n.y, n.x+n.px/n.east, n.y+n.py/n.north)
}

// geodesic is the metres between two places in steps.
func geodesic(x, y, x2, y2 float64) float64 {
	return geodesy.Distance(y/perDegree, x/perDegree, min(max(y2/perDegree, -90), 90), x2/perDegree)
}

func nearTo(x, y, within float64) *near {
	n := &near{x: x, y: y, best: within * within}
	n.east, n.north = scale(y)
	n.east = max(n.east, 1e-9)
	return n
}

// toBox is the square of the least distance that anything in a box can have,
// a little less for boxes nearer to a pole, where a degree east is shorter.
func (n *near) toBox(b box) float64 {
	dx := max(float64(b.west)-n.x, n.x-float64(b.east), 0) * n.east
	dy := max(float64(b.south)-n.y, n.y-float64(b.north), 0) * n.north
	return dx*dx + dy*dy
}

// outline looks at the steps of a shape; only at shores when shores is set. It
// reports whether one was nearer than what was found before.
func (n *near) outline(s *shape, shores bool) bool {
	found := false
	for i := range s.runs {
		r := &s.runs[i]
		if shores && !r.shore || n.toBox(r.box) >= n.best {
			continue
		}
		ps := s.points[r.from:r.to]
		ax, ay := n.plane(ps[0])
		for _, p := range ps[1:] {
			bx, by := n.plane(p)
			if px, py := nearestOf(ax, ay, bx, by); px*px+py*py < n.best {
				n.best, n.px, n.py, found = px*px+py*py, px, py, true
			}
			ax, ay = bx, by
		}
	}
	return found
}

// plane is a point in metres from the place.
func (n *near) plane(p point) (x, y float64) {
	return (float64(p.x) - n.x) * n.east, (float64(p.y) - n.y) * n.north
}

// nearestOf is the point of the step from a to b that is nearest to the origin.
func nearestOf(ax, ay, bx, by float64) (x, y float64) {
	dx, dy := bx-ax, by-ay
	t := -(ax*dx + ay*dy)
	if l := dx*dx + dy*dy; t > 0 && l > 0 {
		t = min(t/l, 1)
		ax, ay = ax+t*dx, ay+t*dy
	}
	return ax, ay
}

// turns are the x under which a place may be met: itself, and its other name
// beyond the date line when that is near.
func turns(x float64) []float64 {
	const margin = 20 * perDegree
	switch {
	case x > 180*perDegree-margin:
		return []float64{x, x - 360*perDegree}
	case x < -180*perDegree+margin:
		return []float64{x, x + 360*perDegree}
	}
	return []float64{x}
}

// farther is from where on the nearest is looked for on the sphere.
const farther = 300_000

// distance is the metres from a place in steps to the outlines of units.
func distance(units []*unit, x, y float64) float64 {
	best := math.Inf(1)
	for _, x := range turns(x) {
		n := nearTo(x, y, farther)
		for _, u := range units {
			if n.toBox(u.box) < n.best && n.outline(u.shape(), false) {
				best = min(best, n.metres())
			}
		}
	}
	if !math.IsInf(best, 1) {
		return best
	}
	return sphere(units, x, y)
}

// sphere is the metres to the nearest point of units, as the sphere has it:
// first by one point of each run, then by all points of the runs that may be
// nearer.
func sphere(units []*unit, x, y float64) float64 {
	at := vectorOf(x, y)
	best := math.Inf(1) // chord on the unit sphere
	var nearest point
	take := func(p point) {
		d := at.chord(p)
		if d < best {
			best, nearest = d, p
		}
	}
	for _, u := range units {
		s := u.shape()
		for i := range s.runs {
			take(s.points[s.runs[i].from])
		}
	}
	const radians = math.Pi / 180 / perDegree
	for _, u := range units {
		s := u.shape()
		for i := range s.runs {
			r := &s.runs[i]
			size := math.Hypot(float64(r.box.east-r.box.west), float64(r.box.north-r.box.south)) * radians
			if at.chord(s.points[r.from])-size >= best {
				continue
			}
			for _, p := range s.points[r.from:r.to] {
				take(p)
			}
		}
	}
	return geodesic(x, y, float64(nearest.x), float64(nearest.y))
}

// vector is a place on the unit sphere.
type vector struct{ x, y, z float64 }

func vectorOf(x, y float64) vector {
	const radians = math.Pi / 180 / perDegree
	sinLat, cosLat := math.Sincos(y * radians)
	sinLon, cosLon := math.Sincos(x * radians)
	return vector{cosLat * cosLon, cosLat * sinLon, sinLat}
}

func (v vector) chord(p point) float64 {
	o := vectorOf(float64(p.x), float64(p.y))
	return math.Sqrt((v.x-o.x)*(v.x-o.x) + (v.y-o.y)*(v.y-o.y) + (v.z-o.z)*(v.z-o.z))
}
