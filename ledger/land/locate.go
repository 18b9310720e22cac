package land

import (
	"cmp"
	"math"
	"slices"
)

// Where is the country and the first-level region of a point.
type Where struct {
	Country string   // ISO 3166-1 alpha-2 (XK Kosovo) as Natural Earth draws it; "" where it draws nobody's land
	Also    []string // other countries that claim the place; not to be changed
	Region  string   // "" when the data have none
	Metres  float64  // 0 on its land, else from the point at sea to it
}

// Zone is 200 nautical miles in metres, how far from land a point is still
// given to a country: the width of an exclusive economic zone (United Nations
// Convention on the Law of the Sea, article 57). The zones themselves are not
// embedded.
const Zone = 370_400

// InlandLimit is how far Inland looks for the sea, in metres.
const InlandLimit = 50_000

// steps takes a point into steps; false when there is no such point.
func steps(lat, lon float64) (x, y float64, ok bool) {
	if !(math.Abs(lat) <= 90 && math.Abs(lon) <= 180) {
		return 0, 0, false
	}
	return lon * perDegree, lat * perDegree, true
}

// At says where a point lies: on land, or at sea within Zone of the nearest
// land. False when there is no land so near, or no such point.
func At(lat, lon float64) (Where, bool) {
	x, y, ok := steps(lat, lon)
	if !ok {
		return Where{}, false
	}
	w := whole()
	if u := w.on(x, y); u != nil {
		return Where{Country: u.country, Also: u.also, Region: u.name}, true
	}
	u, metres := w.nearest(x, y, Zone, false)
	if u == nil {
		return Where{}, false
	}
	return Where{Country: u.country, Also: u.also, Region: u.name, Metres: metres}, true
}

// on is the unit on whose land a place is; nil at sea.
func (w *world) on(x, y float64) *unit {
	const dateLine = 180 * perDegree
	if x == dateLine || x == -dateLine { // the line itself is in the outlines of both its sides
		if u := w.on(math.Nextafter(dateLine, 0), y); u != nil {
			return u
		}
		x = math.Nextafter(-dateLine, 0)
	}
	for u := range w.cell(rowOf(int32(math.Floor(y))), colOf(int32(math.Floor(x)))) {
		if u.box.holds(x, y) && u.shape().contains(x, y) {
			return u
		}
	}
	return nil
}

// nearest is the unit whose outline is nearest to a place, and the metres; of
// its shores alone when shores is set. Nil when there is none within.
func (w *world) nearest(x, y, within float64, shores bool) (*unit, float64) {
	var best *unit
	for _, x := range turns(x) {
		n := nearTo(x, y, within)
		type candidate struct {
			u *unit
			d float64
		}
		var cs []candidate
		w.around(n, within, func(u *unit) {
			if d := n.toBox(u.box); d < n.best {
				cs = append(cs, candidate{u, d})
			}
		})
		slices.SortStableFunc(cs, func(a, b candidate) int { return cmp.Compare(a.d, b.d) })
		for _, c := range cs {
			if c.d >= n.best {
				break
			}
			if n.outline(c.u.shape(), shores) {
				best, within = c.u, n.metres()
			}
		}
	}
	return best, within
}

// around gives the units whose box may come within so many metres, each once,
// in the order of units.txt.
func (w *world) around(n *near, within float64, yield func(u *unit)) {
	dy := within / n.north
	south, north := rowOf(int32(max(n.y-dy, -90*perDegree))), rowOf(int32(min(n.y+dy, 90*perDegree)))
	// The farthest of the rows from the equator has the shortest degrees.
	far, _ := scale(min(max(math.Abs(n.y-dy), math.Abs(n.y+dy)), 89*perDegree))
	dx := within / far
	west, east := colOf(int32(max(n.x-dx, -180*perDegree))), colOf(int32(min(n.x+dx, 180*perDegree)))
	seen := map[*unit]bool{}
	for r := south; r <= north; r++ {
		for c := west; c <= east; c++ {
			for u := range w.cell(r, c) {
				if !seen[u] {
					seen[u] = true
					yield(u)
				}
			}
		}
	}
}

// Outside is how many metres a point lies outside a country: 0 inside, also
// where others claim the place. Up to some 300 km the nearest point is that on
// a plane, which may miss the nearest by a hundredth of the distance. Not known for a country without a boundary
// here (VA, XZ, ZZ and what is no code) and for no such point.
func Outside(lat, lon float64, alpha2 string) (metres float64, known bool) {
	x, y, ok := steps(lat, lon)
	if !ok {
		return 0, false
	}
	units := whole().byCountry[alpha2]
	if len(units) == 0 {
		return 0, false
	}
	return outside(units, x, y), true
}

func outside(units []*unit, x, y float64) float64 {
	for _, u := range units {
		if u.box.holds(x, y) && u.shape().contains(x, y) {
			return 0
		}
	}
	if d := distance(units, x, y); d >= 1 { // a point on the line itself counts as inside
		return d
	}
	return 0
}

// Ashore is how many metres a point lies from the nearest land: 0 on land
// (lakes count as land, the Caspian Sea does not), +Inf beyond Zone or for no
// such point.
func Ashore(lat, lon float64) float64 {
	x, y, ok := steps(lat, lon)
	if !ok {
		return math.Inf(1)
	}
	w := whole()
	if w.on(x, y) != nil {
		return 0
	}
	u, metres := w.nearest(x, y, Zone, false)
	if u == nil {
		return math.Inf(1)
	}
	return metres
}

// Inland is how many metres a point lies from the nearest sea: 0 at sea, +Inf
// beyond InlandLimit or for no such point.
func Inland(lat, lon float64) float64 {
	x, y, ok := steps(lat, lon)
	if !ok {
		return math.Inf(1)
	}
	w := whole()
	if w.on(x, y) == nil {
		return 0
	}
	u, metres := w.nearest(x, y, InlandLimit, true)
	if u == nil {
		return math.Inf(1)
	}
	return metres
}
