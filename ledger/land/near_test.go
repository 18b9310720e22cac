package land_test

import (
	"slices"
	"testing"

	"blotter/ledger/land"
)

func TestNear(t *testing.T) {
	for _, c := range []struct {
		lat, lon, metres float64
		want             []string
		reason           string
	}{
		{60.63, 6.42, 1000, []string{"NO"}, "Voss"},
		{51.0, 1.5, 40_000, []string{"FR", "GB"}, "the Strait of Dover"},
		{40, -40, 370_400, nil, "the middle of the Atlantic"},
		{-16.8, -179.99, 60_000, []string{"FJ"}, "Fiji, at the date line"},
		{91, 0, 1000, nil, "no point"},
	} {
		if got := land.Near(c.lat, c.lon, c.metres); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.reason, got, c.want)
		}
	}
}

// What lies near is what Outside says, country by country.
func TestNearIsOutside(t *testing.T) {
	for _, p := range [][2]float64{{54, 3}, {51, 1.5}, {-42.28, 145.04}, {36, -5.6}, {1.2, 103.9}, {65.75, -168.9}} {
		var want []string
		for _, code := range land.Codes() {
			if away, known := land.Outside(p[0], p[1], code); known && away <= 50_000 {
				want = append(want, code)
			}
		}
		if got := land.Near(p[0], p[1], 50_000); !slices.Equal(got, want) {
			t.Errorf("%v: %v, Outside says %v", p, got, want)
		}
	}
}

func BenchmarkNearAtSea(b *testing.B) {
	for b.Loop() {
		land.Near(54, 3, 170_000)
	}
}
