package public_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"

	"blotter/ledger/geodesy"
	"blotter/ledger/public"
)

// TestHalfDiagonal: Chapman 2020 wants the uncertainty to cover the whole
// square; its half diagonal on WGS84 by GeographicLib's lengths of a degree
// (standards, c5, reckoned).
func TestHalfDiagonal(t *testing.T) {
	for _, c := range []struct{ lat, degrees, metres float64 }{
		{0, 0.1, 7845.2}, {50, 0.1, 6616.7},
		{0, 0.01, 784.5}, {50, 0.01, 661.7},
		{0, 0.001, 78.5}, {50, 0.001, 66.2},
	} {
		if got := public.HalfDiagonal(c.lat, c.degrees); math.Abs(got-c.metres) > 0.051 {
			t.Errorf("half diagonal of %g degree at %g: %.2f m, want %.1f", c.degrees, c.lat, got, c.metres)
		}
	}
}

func TestCellOf(t *testing.T) {
	for _, c := range []struct {
		lat, lon float64
		class    public.Class
		point    string
		reason   string
	}{
		{60.63858, 6.11861, public.High, "60.65, 6.15", "floor, then the centre"},
		{60.63858, 6.11861, public.Medium, "60.635, 6.115", "a hundredth"},
		{60.63858, 6.11861, public.Low, "60.6385, 6.1185", "a thousandth"},
		{60.7, 6.6, public.High, "60.75, 6.65", "a point on a line lies in the square north and east of it"},
		{60.703, 6.651, public.Low, "60.7035, 6.6515", "decimals are not exact in binary"},
		{-33.99, -70.01, public.High, "-33.95, -70.05", "floor goes south and west, not towards 0"},
		{-0.00001, -0.00001, public.High, "-0.05, -0.05", "beside the equator"},
		{0, 0, public.High, "0.05, 0.05", "on it"},
		{90, 10, public.High, "89.95, 10.05", "the pole lies in the last row"},
		{-90, 10, public.High, "-89.95, 10.05", "the other pole in the first"},
		{10, 180, public.High, "10.05, -179.95", "180 east is 180 west"},
		{10, -180, public.High, "10.05, -179.95", "180 west"},
		{10, 179.99999, public.High, "10.05, 179.95", "just west of it"},
	} {
		if got := public.CellOf(c.lat, c.lon, 0, c.class).Point(); got != c.point {
			t.Errorf("%g %g, %s: %s, want %s: %s", c.lat, c.lon, c.class.Category(), got, c.point, c.reason)
		}
	}
	for _, class := range []public.Class{public.Open, public.Extreme} {
		if public.CellOf(60, 6, 0, class) != nil {
			t.Errorf("class %d has a square", class)
		}
	}
	c := public.CellOf(60.63858, 6.11861, 14, public.High)
	if south, west, north, east := c.Bounds(); south != 60.6 || west != 6.1 || north != 60.7 || east != 6.2 {
		t.Errorf("bounds %g %g %g %g", south, west, north, east)
	}
	if wide, high := c.Size(); math.Abs(wide-5.5) > 0.05 || math.Abs(high-11.1) > 0.05 {
		t.Errorf("size %g by %g km", wide, high)
	}
}

// TestCellCovers: the square holds the point, and its radius every corner and
// the circle of the old error wherever in it the point lies.
func TestCellCovers(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		lat := rapid.Float64Range(-90, 90).Draw(r, "lat")
		lon := rapid.Float64Range(-180, 180).Draw(r, "lon")
		metres := rapid.Float64Range(0, 30000).Draw(r, "metres")
		class := rapid.SampledFrom([]public.Class{public.Low, public.Medium, public.High}).Draw(r, "class")
		c := public.CellOf(lat, lon, metres, class)
		south, west, north, east := c.Bounds()
		const slack = 2e-9
		turned := lon
		if turned >= 180-slack && west < 0 {
			turned -= 360
		}
		if lat < south-slack || lat > north+slack || turned < west-slack || turned > east+slack {
			t.Fatalf("%v %v is not in %v to %v, %v to %v", lat, lon, south, north, west, east)
		}
		if d := geodesy.Distance(c.Lat, c.Lon, lat, lon) + metres; d > c.Metres {
			t.Fatalf("the old circle reaches %v m from the centre, the radius is %v", d, c.Metres)
		}
		for _, corner := range [][2]float64{{south, west}, {south, east}, {north, west}, {north, east}} {
			if d := geodesy.Distance(c.Lat, c.Lon, corner[0], corner[1]) + metres; d > c.Metres {
				t.Fatalf("a corner is %v m away with the error, the radius is %v", d, c.Metres)
			}
		}
		if again := public.CellOf(c.Lat, c.Lon, 0, class); again.Lat != c.Lat || again.Lon != c.Lon {
			t.Fatalf("the centre of %v lies in the square of %v", c, again)
		}
	})
}

// TestCellTellsNoDistance: two points of one square with one error are shown
// alike to the metre, so that the radius tells nothing of where they lie.
func TestCellTellsNoDistance(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		inCell := func(name string) (float64, float64) {
			return 60.6 + rapid.Float64Range(0.0001, 0.0999).Draw(r, name+" lat"), 6.1 + rapid.Float64Range(0.0001, 0.0999).Draw(r, name+" lon")
		}
		metres := rapid.Float64Range(0, 500).Draw(r, "metres")
		lat1, lon1 := inCell("a")
		lat2, lon2 := inCell("b")
		if a, b := public.CellOf(lat1, lon1, metres, public.High), public.CellOf(lat2, lon2, metres, public.High); *a != *b {
			t.Fatalf("%v and %v", a, b)
		}
	})
}
