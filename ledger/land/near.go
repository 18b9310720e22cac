package land

import (
	"maps"
	"slices"
)

// Near lists the countries, by alpha-2 code, sorted, whose land lies within so
// many metres of a point, at most Zone; those that only claim it are left out.
func Near(lat, lon, metres float64) []string {
	x, y, ok := steps(lat, lon)
	if !ok {
		return nil
	}
	metres = min(metres, Zone)
	w, found := whole(), map[string]bool{}
	for _, x := range turns(x) {
		n := nearTo(x, y, metres)
		w.around(n, metres, func(u *unit) {
			if u.country == "" || found[u.country] || n.toBox(u.box) > metres*metres {
				return
			}
			if outside([]*unit{u}, x, y) <= metres {
				found[u.country] = true
			}
		})
	}
	return slices.Sorted(maps.Keys(found))
}
