package land

import (
	"math"
	"sync"

	"blotter/ledger/geodesy"
)

// Centre is a point that is put for a country when nothing but the country is
// known.
type Centre struct {
	Lat, Lon float64
	What     string // "the middle of its area"
}

// Within reports whether a point lies no more than so many metres from c.
func (c Centre) Within(lat, lon, metres float64) bool {
	const leastDegree = 110_500 // metres of a degree of latitude, at the least
	if math.Abs(c.Lat-lat)*leastDegree > metres {
		return false
	}
	return geodesy.Distance(lat, lon, c.Lat, c.Lon) <= metres
}

// measured is what is computed of a country's land.
type measured struct {
	centres []Centre
	area    float64 // square metres
}

var measures sync.Map // alpha-2 -> *measured

// Centres gives the middles of a country: the centroid of its area and the
// middle of its box, both of all its land and of its mainland alone (the
// largest of the parts that hang together by borders of regions), computed
// from the boundaries on an equal-area projection; and the rounded point that
// The World Factbook prints for it, which many lists repeat.
func Centres(alpha2 string) []Centre { return measure(alpha2).centres }

// Area is the area of a country in square metres, lakes included, as far as
// the boundaries show it; 0 for a country without one here.
func Area(alpha2 string) float64 { return measure(alpha2).area }

func measure(alpha2 string) *measured {
	if m, ok := measures.Load(alpha2); ok {
		return m.(*measured)
	}
	m := &measured{}
	var units []*unit
	for _, u := range whole().byCountry[alpha2] {
		if u.country == alpha2 {
			units = append(units, u)
		}
	}
	if len(units) > 0 {
		m = measureOf(units)
	}
	if e, ok := extremes()[alpha2]; ok {
		m.centres = append(m.centres, Centre{e.lat, e.lon, "the point that lists give for it"})
	}
	kept, _ := measures.LoadOrStore(alpha2, m)
	return kept.(*measured)
}

func measureOf(units []*unit) *measured {
	turn := acrossDateLine(units)
	var all, mainland piece
	for _, part := range parts(units) {
		var p piece
		for _, u := range part {
			p.join(pieceOf(u.shape(), turn))
		}
		if p.area > mainland.area {
			mainland = p
		}
		all.join(p)
	}
	// A radian of longitude by a unit of the sine of latitude, on the sphere
	// of the ellipsoid's area.
	const authalic = 6371007.2
	m := &measured{area: all.area * authalic * authalic}
	m.centres = []Centre{all.middle("the middle of its area"), all.boxMiddle("the middle of the box around it")}
	if mainland.area < all.area {
		m.centres = append(m.centres, mainland.middle("the middle of its mainland"), mainland.boxMiddle("the middle of the box around its mainland"))
	}
	return m
}

// acrossDateLine reports whether a country is better looked at with its west
// longitudes counted on beyond 180 degrees.
func acrossDateLine(units []*unit) bool {
	plain, turned := box{math.MaxInt32, 0, math.MinInt32, 0}, box{math.MaxInt32, 0, math.MinInt32, 0}
	for _, u := range units {
		for _, r := range u.shape().runs {
			plain.west, plain.east = min(plain.west, r.box.west), max(plain.east, r.box.east)
			d := int32(0)
			if r.box.west < 0 {
				d = 360 * perDegree
			}
			turned.west, turned.east = min(turned.west, r.box.west+d), max(turned.east, r.box.east+d)
		}
	}
	return plain.east-plain.west > 180*perDegree && turned.east-turned.west < plain.east-plain.west
}

// parts are the units that hang together by common points.
func parts(units []*unit) [][]*unit {
	owner := map[point]int{}
	up := make([]int, len(units))
	var root func(i int) int
	root = func(i int) int {
		if up[i] != i {
			up[i] = root(up[i])
		}
		return up[i]
	}
	for i, u := range units {
		up[i] = i
		for _, r := range u.shape().runs {
			if r.shore {
				continue
			}
			for _, p := range u.shape().points[r.from:r.to] {
				if o, ok := owner[p]; ok {
					up[root(i)] = root(o)
				} else {
					owner[p] = i
				}
			}
		}
	}
	at := map[int]int{}
	var out [][]*unit
	for i, u := range units {
		k, ok := at[root(i)]
		if !ok {
			k = len(out)
			at[root(i)] = k
			out = append(out, nil)
		}
		out[k] = append(out[k], u)
	}
	return out
}

// piece is land on Lambert's cylindrical equal-area projection of the unit
// sphere: x the longitude in radians, y the sine of latitude.
type piece struct {
	area, mx, my             float64 // first moments
	west, east, south, north float64 // box
}

// pieceOf sums the steps of a shape's closed rings, holes running the other
// way; Green's theorem.
func pieceOf(s *shape, turn bool) piece {
	const radians = math.Pi / 180 / perDegree
	p := piece{west: math.Inf(1), east: math.Inf(-1), south: math.Inf(1), north: math.Inf(-1)}
	plane := func(q point, west bool) (x, y float64) {
		if west {
			q.x += 360 * perDegree
		}
		return float64(q.x) * radians, math.Sin(float64(q.y) * radians)
	}
	for _, r := range s.runs {
		west := turn && r.box.west < 0
		ax, ay := plane(s.points[r.from], west)
		for _, q := range s.points[r.from:r.to] {
			bx, by := plane(q, west)
			cross := ax*by - bx*ay
			p.area += cross / 2
			p.mx += (ax + bx) * cross / 6
			p.my += (ay + by) * cross / 6
			p.west, p.east = min(p.west, bx), max(p.east, bx)
			p.south, p.north = min(p.south, by), max(p.north, by)
			ax, ay = bx, by
		}
	}
	if p.area < 0 { // rings that run clockwise
		p.area, p.mx, p.my = -p.area, -p.mx, -p.my
	}
	return p
}

func (p *piece) join(o piece) {
	if p.area == 0 {
		*p = o
		return
	}
	p.area += o.area
	p.mx += o.mx
	p.my += o.my
	p.west, p.east = min(p.west, o.west), max(p.east, o.east)
	p.south, p.north = min(p.south, o.south), max(p.north, o.north)
}

func (p piece) middle(what string) Centre { return centre(p.mx/p.area, p.my/p.area, what) }

// boxMiddle is the mean of the outermost latitudes and longitudes.
func (p piece) boxMiddle(what string) Centre {
	lat := (math.Asin(p.south) + math.Asin(p.north)) / 2
	return centre((p.west+p.east)/2, math.Sin(lat), what)
}

func centre(x, y float64, what string) Centre {
	lon := x * 180 / math.Pi
	if lon > 180 {
		lon -= 360
	}
	return Centre{math.Asin(min(max(y, -1), 1)) * 180 / math.Pi, lon, what}
}
