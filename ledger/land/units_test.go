package land

import "testing"

// inner is a point inside a unit, found on a grid over its box; false when the
// unit is too small for the grid.
func inner(u *unit) (x, y float64, ok bool) {
	const grid = 41
	s := u.shape()
	for i := range grid {
		for j := range grid {
			x = float64(u.box.west) + (float64(i)+0.5)/grid*float64(u.box.east-u.box.west)
			y = float64(u.box.south) + (float64(j)+0.5)/grid*float64(u.box.north-u.box.south)
			if s.contains(x, y) {
				return x, y, true
			}
		}
	}
	return 0, 0, false
}

// TestEveryUnit: a point of a unit lies in it and in no other, and as far as
// can be from nowhere.
func TestEveryUnit(t *testing.T) {
	w := whole()
	small := 0
	for i := range w.units {
		u := &w.units[i]
		x, y, ok := inner(u)
		if !ok {
			small++
			continue
		}
		lat, lon := y/perDegree, x/perDegree
		for k := range w.units {
			o := &w.units[k]
			if o != u && o.box.holds(x, y) && o.shape().contains(x, y) {
				t.Errorf("%g, %g lies in %s %q and in %s %q", lat, lon, u.country, u.name, o.country, o.name)
			}
		}
		at, ok := At(lat, lon)
		if !ok || at.Country != u.country || at.Region != u.name || at.Metres != 0 {
			t.Errorf("%g, %g of %s %q: %+v", lat, lon, u.country, u.name, at)
		}
		if u.country == "" {
			continue
		}
		if d, known := Outside(lat, lon, u.country); d != 0 || !known {
			t.Errorf("%g, %g of %s %q is %g m outside", lat, lon, u.country, u.name, d)
		}
	}
	if small > 12 { // slivers and rings of islets
		t.Errorf("%d units have no point on the grid", small)
	}
}

// TestClosed: the lines of every unit make closed rings: each point is the end
// of an even number of lines, else even-odd says nothing.
func TestClosed(t *testing.T) {
	for i := range whole().units {
		u := &whole().units[i]
		ends := map[point]int{}
		s := u.shape()
		for _, r := range s.runs {
			ends[s.points[r.from]]++
			ends[s.points[r.to-1]]++
		}
		for p, n := range ends {
			if n%2 != 0 {
				t.Errorf("%s %q: %d lines end at %v", u.country, u.name, n, p)
				break
			}
		}
	}
}

func FuzzCountry(f *testing.F) {
	for _, s := range []string{"Norway", "U.S.A.", "Korea, South", "Norge (Norway)", "Côte d’Ivoire", "(", "[x", ",", "\xff", "USSR", "NO", "İ", ""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		c, ok := CodeOf(s)
		if ok && Name(c) == "" {
			t.Errorf("%q is %q, which has no name", s, c)
		}
		if ok && SuggestCountry(s) != "" {
			t.Errorf("%q is known and has a suggestion", s)
		}
		if n := SuggestCountry(s); n != "" {
			if _, ok := Country(n); !ok {
				t.Errorf("%q: suggests %q, which is none", s, n)
			}
		}
		if r, ok := Region("NO", s); ok {
			if _, ok := Region("NO", r); !ok {
				t.Errorf("%q: region %q is not found again", s, r)
			}
		}
		if n := SuggestRegion("NO", s); n != "" {
			if _, ok := Region("NO", n); !ok {
				t.Errorf("%q: suggests %q, which is none", s, n)
			}
		}
	})
}
