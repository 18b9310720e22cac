package land_test

import (
	"math"
	"slices"
	"sync"
	"testing"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"

	"blotter/ledger/land"
)

// TestAt: where well-known places lie. Their coordinates are common knowledge,
// from memory, to a hundredth of a degree.
func TestAt(t *testing.T) {
	for _, c := range []struct {
		place           string
		lat, lon        float64
		country, region string
	}{
		{"Voss church", 60.63, 6.42, "NO", "Hordaland"},
		{"Oslo cathedral", 59.91, 10.75, "NO", "Oslo"},
		{"Longyearbyen", 78.21, 15.60, "SJ", "Svalbard"},
		{"Jan Mayen", 71.02, -8.40, "SJ", "Jan Mayen"},
		{"London", 51.50, -0.13, "GB", "Westminster"},
		{"Edinburgh", 55.95, -3.19, "GB", "Edinburgh"},
		{"Paris", 48.86, 2.35, "FR", "Paris"},
		{"Cayenne", 4.92, -52.31, "GF", "Guyane française"},
		{"Kralendijk", 12.15, -68.27, "BQ", "Bonaire"},
		{"Berlin", 52.52, 13.40, "DE", "Berlin"},
		{"Maseru, in an enclave", -29.31, 27.48, "LS", "Maseru"},
		{"San Marino, in an enclave", 43.94, 12.45, "SM", ""},
		{"Lesotho seen from Bloemfontein", -29.12, 26.21, "ZA", "Free State"},
		{"Denver", 39.74, -104.99, "US", "Colorado"},
		{"Attu, beyond the date line", 52.9, 172.9, "US", "Alaska"},
		{"Hobart", -42.88, 147.33, "AU", "Tasmania"},
		{"Suva", -18.14, 178.44, "FJ", "Central"},
		{"Taveuni, east of the date line", -16.85, -179.97, "FJ", "Northern"},
		{"Chatham Islands", -43.95, -176.55, "NZ", "Chatham Islands Territory"},
		{"Wrangel Island, on the date line", 71.2, 180, "RU", "Chukchi Autonomous Okrug"},
		{"the same from the west", 71.2, -180, "RU", "Chukchi Autonomous Okrug"},
		{"South Pole", -90, 0, "AQ", ""},
		{"Lake Superior counts as land", 47.5, -87.5, "US", "Michigan"},
		{"Ulaanbaatar", 47.92, 106.91, "MN", "Ulaanbaatar"},
		{"Quito", -0.22, -78.51, "EC", "Pichincha"},
		{"Cape Town", -33.93, 18.42, "ZA", "Western Cape"},
	} {
		w, ok := land.At(c.lat, c.lon)
		if !ok || w.Country != c.country || c.region != "" && w.Region != c.region || w.Metres != 0 {
			t.Errorf("%s: %+v, want %s %s", c.place, w, c.country, c.region)
		}
		if d, known := land.Outside(c.lat, c.lon, c.country); d != 0 || !known {
			t.Errorf("%s: %.0f m outside %s", c.place, d, c.country)
		}
		if w.Region != "" {
			if d, known := land.OutsideRegion(c.lat, c.lon, c.country, w.Region); d != 0 || !known {
				t.Errorf("%s: %.0f m outside its region", c.place, d)
			}
		}
	}
}

func TestClaims(t *testing.T) {
	for _, c := range []struct {
		place    string
		lat, lon float64
		both     []string
	}{
		{"Simferopol", 44.95, 34.10, []string{"RU", "UA"}},
		{"Pristina", 42.66, 21.16, []string{"XK", "RS"}},
		{"north of Nicosia", 35.25, 33.3, []string{"CY"}},
		{"Laayoune", 27.15, -13.20, []string{"MA", "EH"}},
		{"Hargeisa", 9.56, 44.06, []string{"SO"}},
		{"Taipei", 25.04, 121.56, []string{"TW", "CN"}},
	} {
		for _, code := range c.both {
			if d, known := land.Outside(c.lat, c.lon, code); d != 0 || !known {
				t.Errorf("%s: %.0f m outside %s", c.place, d, code)
			}
		}
	}
}

// TestAtSea: in the open sea and just off a coast.
func TestAtSea(t *testing.T) {
	if w, ok := land.At(0, 0); ok {
		t.Errorf("0, 0: %+v", w) // some 570 km off Ghana
	}
	if d := land.Ashore(0, 0); !math.IsInf(d, 1) {
		t.Errorf("0, 0 is %.0f m from land", d)
	}
	w, ok := land.At(60.4, 4.0) // the North Sea west of Bergen
	if !ok || w.Country != "NO" || w.Region != "Hordaland" || w.Metres < 30_000 || w.Metres > 70_000 {
		t.Errorf("the North Sea: %+v", w)
	}
	if d := land.Ashore(60.4, 4.0); d != w.Metres {
		t.Errorf("%.0f m from land, %.0f m from Hordaland", d, w.Metres)
	}
	if d := land.Inland(60.4, 4.0); d != 0 {
		t.Errorf("%.0f m inland at sea", d)
	}
	if d := land.Inland(60.39, 5.32); d == 0 || d > 5_000 {
		t.Errorf("Bergen is %.0f m inland", d)
	}
	if d := land.Inland(47.92, 106.91); !math.IsInf(d, 1) {
		t.Errorf("Ulaanbaatar is %.0f m inland", d)
	}
}

// TestOutside: distances against others. the bounds are great circles
// (haversine) to the ends of the country, whose coordinates are from memory.
func TestOutside(t *testing.T) {
	for _, c := range []struct {
		what        string
		lat, lon    float64
		code        string
		least, most float64
	}{
		{"Stockholm to Norway", 59.33, 18.07, "NO", 300_000, 360_000},
		{"Gothenburg to Norway", 57.71, 11.97, "NO", 120_000, 160_000},
		{"New York to Norway", 40.71, -74.01, "NO", 5_300_000, 5_700_000},
		{"Raundal turned about, in the Arabian Sea", 6.65, 60.70, "NO", 7_100_000, 7_200_000},
		{"McMurdo to New Zealand", -77.85, 166.67, "NZ", 2_500_000, 2_900_000},
		{"east of the date line to Fiji's west", -17.5, -179.0, "FJ", 1_000, 130_000},
	} {
		d, known := land.Outside(c.lat, c.lon, c.code)
		if !known || d < c.least || d > c.most {
			t.Errorf("%s: %.0f m, want %.0f to %.0f", c.what, d, c.least, c.most)
		}
	}
	for _, code := range []string{"VA", "XZ", "ZZ", "QQ", ""} {
		if _, known := land.Outside(60, 6, code); known {
			t.Errorf("%q has a boundary", code)
		}
	}
	if _, known := land.Outside(91, 6, "NO"); known {
		t.Error("91 N is somewhere")
	}
	if _, ok := land.At(math.NaN(), 6); ok {
		t.Error("no number is somewhere")
	}
}

// TestEveryCountryIsDrawn: all of ISO 3166-1 but the Holy See.
func TestEveryCountryIsDrawn(t *testing.T) {
	var none []string
	for _, c := range land.Codes() {
		if _, known := land.Outside(0, 0, c); !known {
			none = append(none, c)
		}
	}
	if !slices.Equal(none, []string{"VA"}) {
		t.Errorf("without a boundary: %v", none)
	}
}

// TestSomewhere: whatever the point, the answers agree with each other.
func TestSomewhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat, lon := rapid.Float64Range(-90, 90).Draw(t, "lat"), rapid.Float64Range(-180, 180).Draw(t, "lon")
		w, ok := land.At(lat, lon)
		ashore, inland := land.Ashore(lat, lon), land.Inland(lat, lon)
		switch {
		case !ok:
			if !math.IsInf(ashore, 1) || inland != 0 {
				t.Fatalf("nowhere, but %g m from land, %g m inland", ashore, inland)
			}
		case w.Metres == 0:
			if ashore != 0 || inland == 0 {
				t.Fatalf("in %s, but %g m from land, %g m inland", w.Country, ashore, inland)
			}
		case ashore != w.Metres || inland != 0:
			t.Fatalf("%g m from %s, but %g m from land", w.Metres, w.Country, ashore)
		}
		if ok && w.Country != "" {
			d, known := land.Outside(lat, lon, w.Country)
			if !known || math.Abs(d-w.Metres) > 0.01*w.Metres+1 {
				t.Fatalf("%g m from %s by At, %g m by Outside", w.Metres, w.Country, d)
			}
		}
	})
}

// TestTogether: several goroutines get what one gets.
func TestTogether(t *testing.T) {
	var all sync.WaitGroup
	for g := range 8 {
		all.Go(func() {
			for i := range 200 {
				lat, lon := -60+float64((i*7+g)%120), -175+float64((i*13)%350)
				a, _ := land.At(lat, lon)
				b, _ := land.At(lat, lon)
				if a.Country != b.Country || a.Region != b.Region || a.Metres != b.Metres {
					t.Errorf("%g, %g: %v and %v", lat, lon, a, b)
				}
			}
		})
	}
	all.Wait()
}

func BenchmarkAtLand(b *testing.B) {
	for i := 0; b.Loop(); i++ {
		land.At(60+float64(i%100)/50, 6.65+float64(i%77)/40)
	}
}

func BenchmarkAtSea(b *testing.B) {
	for i := 0; b.Loop(); i++ {
		land.At(60+float64(i%100)/50, 2.65+float64(i%77)/40)
	}
}

func BenchmarkAtAnywhere(b *testing.B) {
	for i := 0; b.Loop(); i++ {
		land.At(-80+float64(i*37%1600)/10, -180+float64(i*61%3600)/10)
	}
}

func BenchmarkOutside(b *testing.B) {
	b.Run("inside", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			land.Outside(60+float64(i%100)/50, 6.65+float64(i%77)/40, "NO")
		}
	})
	b.Run("near", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			land.Outside(59+float64(i%77)/40, 14+float64(i%100)/50, "NO")
		}
	})
	b.Run("far", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			land.Outside(6.65+float64(i%77)/40, 60+float64(i%100)/50, "NO")
		}
	})
}
