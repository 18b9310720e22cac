package places

import (
	"math"
	"testing"
)

// Chapman & Wieczorek, Georeferencing Best Practices (GBIF 2020), table of
// uncertainty due to coordinate precision, metres at latitudes 0, 30, 60 and
// 85 degrees on WGS84. Said to be rounded up; five of the 52 are rounded
// down, so a cell agrees when it is rounded up or within a metre.
func TestCoordinatePrecision(t *testing.T) {
	for _, c := range []struct {
		precision string
		step      float64
		metres    [4]float64
	}{
		{"1.0 degree", 1.0, [4]float64{156904, 146962, 124605, 112109}},
		{"0.1 degree", 0.1, [4]float64{15691, 14697, 12461, 11211}},
		{"0.01 degree", 0.01, [4]float64{1570, 1470, 1246, 1121}},
		{"0.001 degree", 0.001, [4]float64{157, 147, 125, 112}},
		{"0.0001 degree", 0.0001, [4]float64{16, 15, 13, 12}},
		{"0.00001 degree", 0.00001, [4]float64{2, 2, 2, 2}},
		{"1.0 minute", 1.0 / 60.0, [4]float64{2615, 2450, 2077, 1869}},
		{"0.1 minute", 0.1 / 60.0, [4]float64{262, 245, 208, 187}},
		{"0.01 minute", 0.01 / 60.0, [4]float64{27, 25, 21, 19}},
		{"0.001 minute", 0.001 / 60.0, [4]float64{3, 3, 3, 2}},
		{"1.0 second", 1.0 / 3600.0, [4]float64{44, 41, 35, 32}},
		{"0.1 second", 0.1 / 3600.0, [4]float64{5, 5, 4, 4}},
		{"0.01 second", 0.01 / 3600.0, [4]float64{1, 1, 1, 1}},
	} {
		for i, lat := range []float64{0, 30, 60, 85} {
			got := CoordinatePrecision(lat, c.step)
			if math.Ceil(got) != c.metres[i] && math.Abs(got-c.metres[i]) > 1 {
				t.Errorf("%s at %g°: %g m, published %g", c.precision, lat, got, c.metres[i])
			}
		}
	}
	// Their worked example: 10.27, -123.6 to two decimals is 1.5568 km.
	if got := CoordinatePrecision(10.27, 0.01); math.Abs(got-1556.8) > 0.1 {
		t.Errorf("example: %g m, published 1556.8", got)
	}
	// Their worked example: 10.00000 with a true precision of half a degree.
	if got := CoordinatePrecision(10, 0.5); math.Abs(got-77870) > 10 {
		t.Errorf("example: %g m, published 77.87 km", got)
	}
}

// The same, table of offset precision: half of the part a figure counts in.
func TestHalfUnit(t *testing.T) {
	for written, want := range map[string]float64{
		"10.1": 0.05, "10.25": 0.125, "10.5": 0.25, "10.6": 0.05, "10.75": 0.125, "10": 0.5, "15": 0.5, "30": 0.5, "33": 0.5,
		"100": 5, "140": 5, "200": 5, "1000": 50, "2000": 50,
		"348": 0.5, "5": 0.5, // our reading: whole units
	} {
		if got := HalfUnit(written); got != want {
			t.Errorf("%s: %g, want %g", written, got, want)
		}
	}
}
