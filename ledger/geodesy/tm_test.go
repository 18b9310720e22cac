package geodesy

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

var (
	grs80 = Ellipsoid{6378137, 1 / 298.257222101}
	// The British National Grid and its parameters on another ellipsoid.
	britishGrid = NewTM(AiryEllipsoid, 49, -2, 0.9996012717, 400000, -100000)
	gigsBritish = NewTM(WGS84Ellipsoid, 49, -2, 0.9996012717, 400000, -100000)
	gigsUTM31   = NewTM(WGS84Ellipsoid, 0, 3, 0.9996, 500000, 0)
	gigsMGA54   = NewTM(grs80, 0, 141, 0.9996, 500000, 10000000)
	snyderUTM18 = NewTM(Clarke1866Ellipsoid, 0, -75, 0.9996, 0, 0)
)

// Published values of the transverse Mercator projection. GIGS: IOGP GIGS test
// series 5101 parts 1 to 3, as carried in PROJ's test/gigs, tolerance 0.03 m.
// OS: Ordnance Survey, A guide to coordinate systems in Great Britain, annex
// C. EPSG: Guidance Note 7-2, example of the method (printed with k0 0.9996013,
// computed with 0.9996012717). Snyder: Map projections, a working manual, USGS
// PP 1395 (1987), from memory.
func TestTransverseMercatorPublished(t *testing.T) {
	for _, c := range []struct {
		source                          string
		tm                              *TM
		lat, lon, east, north, tolerate float64
	}{
		{"GIGS 5101 part 2", gigsUTM31, 80, -2, 403186.945, 8885748.708, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, 60, -2, 221288.77, 6661953.041, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, 40, -2, 73106.698, 4439746.917, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, 20, -2, -23538.687, 2219308.238, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, 0, -2, -57087.12, 0, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, -20, -2, -23538.687, -2219308.238, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, -40, -2, 73106.698, -4439746.917, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, -60, -2, 221288.77, -6661953.041, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, -80, -2, 403186.945, -8885748.708, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, 60, -5, 54506.435, 6678411.623, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, 60, -4, 110043.299, 6672079.494, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, 60, -3, 165640.332, 6666593.572, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, 60, -1, 276979.926, 6658157.202, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, 60, 0, 332705.179, 6655205.484, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, 60, 1, 388455.958, 6653097.435, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, 60, 2, 444223.733, 6651832.735, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, 60, 3, 500000, 6651411.19, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, 60, 4, 555776.267, 6651832.735, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, 60, 5, 611544.042, 6653097.435, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, 60, 6, 667294.821, 6655205.484, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, 60, 7, 723020.074, 6658157.202, 0.03},
		{"GIGS 5101 part 2", gigsUTM31, 60, 8, 778711.23, 6661953.041, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, 80, 146, 596813.055, 18885748.71, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, 60, 146, 778711.23, 16661953.04, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, 40, 146, 926893.302, 14439746.92, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, 20, 146, 1023538.687, 12219308.24, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, 0, 146, 1057087.12, 10000000.0, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, -20, 146, 1023538.687, 7780691.762, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, -40, 146, 926893.302, 5560253.083, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, -60, 146, 778711.23, 3338046.96, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, -80, 146, 596813.055, 1114251.292, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, -60, 136, 221288.77, 3338046.96, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, -60, 137, 276979.926, 3341842.798, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, -60, 138, 332705.179, 3344794.516, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, -60, 139, 388455.958, 3346902.565, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, -60, 140, 444223.733, 3348167.265, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, -60, 141, 500000.0, 3348588.81, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, -60, 142, 555776.267, 3348167.265, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, -60, 143, 611544.042, 3346902.565, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, -60, 144, 667294.821, 3344794.516, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, -60, 145, 723020.074, 3341842.798, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, -60, 147, 834359.668, 3333406.428, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, -60, 148, 889956.701, 3327920.506, 0.03},
		{"GIGS 5101 part 3", gigsMGA54, -60, 149, 945493.565, 3321588.377, 0.03},
		{"GIGS 5101 part 1", gigsBritish, 60, 3, 678711.584, 1134498.83, 0.03},
		{"GIGS 5101 part 1", gigsBritish, 40, 3, 826893.845, -1087710.121, 0.03},
		{"GIGS 5101 part 1", gigsBritish, 49, -2, 400000, -100000, 0.03},
		{"GIGS 5101 part 1", gigsBritish, 60, -5, 232704.966, 1127751.264, 0.03},
		{"GIGS 5101 part 1", gigsBritish, 60, 8, 956351.967, 1166164.18, 0.03},
		{"GIGS 5101 part 1", gigsBritish, -40, 3, 826893.845, -9967215.251, 0.03},
		{"GIGS 5101 part 1", gigsBritish, 49.7661327, -7.5559037, 0, 0, 0.03},
		{"OS", britishGrid, 52.6575703056, 1.7179215833, 651409.903, 313177.270, 0.001},
		{"EPSG", britishGrid, 50.5, 0.5, 577274.99, 69740.50, 0.02},
		{"Snyder", snyderUTM18, 40.5, -73.5, 127106.5, 4484124.4, 0.05},
	} {
		e, n := c.tm.Forward(c.lat, c.lon)
		if math.Abs(e-c.east) > c.tolerate || math.Abs(n-c.north) > c.tolerate {
			t.Errorf("%s: %g %g: %.3f %.3f, published %.3f %.3f", c.source, c.lat, c.lon, e, n, c.east, c.north)
		}
		lat, lon := c.tm.Inverse(c.east, c.north)
		if m := flat(lat, lon, c.lat, c.lon); m > 2*c.tolerate {
			t.Errorf("%s: %g %g back: %.9f %.9f, %.4f m off", c.source, c.lat, c.lon, lat, lon, m)
		}
	}
}

func TestZones(t *testing.T) {
	for _, c := range []struct {
		name     string
		lat, lon float64
		zone     int
		band     byte
	}{
		{"Bergen lies in 32V, which reaches west to 3° E", 60.39, 5.32, 32, 'V'},
		{"west of 3° E it is 31V", 60.39, 2.99, 31, 'V'},
		{"and south of 56° N the rule ends", 55.99, 5.32, 31, 'U'},
		{"and at 64° N", 64, 5.32, 31, 'W'},
		{"Longyearbyen", 78.22, 15.64, 33, 'X'},
		{"9° E begins 33X", 72, 9, 33, 'X'},
		{"west of 9° E is 31X", 72, 8.99, 31, 'X'},
		{"21° E begins 35X", 80, 21, 35, 'X'},
		{"33° E begins 37X", 80, 33, 37, 'X'},
		{"42° E is 38X", 80, 42, 38, 'X'},
		{"below X the zones are plain", 71.99, 9, 32, 'W'},
		{"0, 0", 0, 0, 31, 'N'},
		{"the equator is north", -0.000001, 0, 31, 'M'},
		{"180°", 10, 180, 1, 'P'},
		{"-180°", 10, -180, 1, 'P'},
		{"80° S is in", -80, 0, 31, 'C'},
		{"just below 84° N", 83.99, 0, 31, 'X'},
		{"51.5° N is U (a published example says T)", 51.500721, -0.124430, 30, 'U'},
	} {
		u, err := ToUTM(c.lat, c.lon)
		if err != nil || u.Zone != c.zone || u.Band != c.band || u.North != (c.lat >= 0) {
			t.Errorf("%s: %v %v, want %d%c", c.name, u, err, c.zone, c.band)
		}
	}
	for _, lat := range []float64{84, -80.001, 90, math.NaN()} {
		if u, err := ToUTM(lat, 0); err == nil {
			t.Errorf("%g: %v", lat, u)
		}
	}
	// GeographicLib: northing 9999999.889 (computed there).
	if u, _ := ToUTM(-0.000001, 0); math.Abs(u.Northing-9999999.889) > 0.001 {
		t.Errorf("just south of the equator: %v", u)
	}
}

// Points over the whole grid against GeoConvert of GeographicLib, and back.
func TestUTMOfGeographicLib(t *testing.T) {
	points := somePoints(3000)
	lines := make([]string, len(points))
	for i, p := range points {
		lines[i] = fmt.Sprintf("%.10f %.10f", p[0], p[1])
	}
	for i, s := range outside(t, lines, "GeoConvert", "-u", "-p", "6") {
		var zone int
		var half byte
		var east, north float64
		if _, err := fmt.Sscanf(s, "%d%c %f %f", &zone, &half, &east, &north); err != nil {
			t.Fatalf("%q: %v", s, err)
		}
		u, err := ToUTM(points[i][0], points[i][1])
		if err != nil || u.Zone != zone || u.North != (half == 'n') || math.Abs(u.Easting-east) > 1e-4 || math.Abs(u.Northing-north) > 1e-4 {
			t.Errorf("%s: %v %v, GeoConvert %s", lines[i], u, err, s)
		}
		if lat, lon := u.LatLon(); flat(lat, lon, points[i][0], points[i][1]) > 1e-5 {
			t.Errorf("%s: back at %.10f %.10f", lines[i], lat, lon)
		}
		if why := u.Check(); why != "" {
			t.Errorf("%s: %v is refused: %s", lines[i], u, why)
		}
	}
}

// somePoints are points in reach of UTM, half of them in the north, where
// herbaria lie and zones have exceptions, and the corners of zones and bands.
func somePoints(n int) [][2]float64 {
	r := rand.New(rand.NewPCG(5, 6))
	var out [][2]float64
	for i := range n {
		lat := r.Float64()*163.99 - 80
		if i%2 == 0 {
			lat = 56 + r.Float64()*27.99
		}
		out = append(out, [2]float64{lat, r.Float64()*360 - 180})
	}
	for lat := -80.0; lat < 84; lat += 8 {
		for lon := -180.0; lon < 180; lon += 6 {
			out = append(out, [2]float64{lat, lon})
		}
	}
	return append(out, [2]float64{83.9999, 0}, [2]float64{-79.9999, 179.9999}, [2]float64{0, 0}, [2]float64{-1e-6, 0}, [2]float64{60.39, 5.32}, [2]float64{78.22, 15.64})
}

func BenchmarkToUTM(b *testing.B) {
	for b.Loop() {
		ToUTM(60.7, 6.6)
	}
}
