package geodesy

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

func TestReadCell(t *testing.T) {
	for _, c := range []struct {
		why, text         string
		south, west, size float64
		written           string
	}{
		{"Georeferencing Best Practices 2.3.4", "E032S18CB", -18.75, 32.25, 0.25, "E032S18CB"},
		{"a degree", "E032S18", -19, 32, 1, "E032S18"},
		{"half a degree", "e032 s18 c", -19, 32, 0.5, "E032S18C"},
		{"west and north", "W074N40AD", 40.5, -74.75, 0.25, "W074N40AD"},
		{"the older form: Cape Town lies in 3318CD (from memory)", "3318CD", -34, 18.25, 0.25, "E018S33CD"},
		{"the older form: Pretoria lies in 2528CA (from memory)", "2528 CA", -25.75, 28, 0.25, "E028S25CA"},
	} {
		got, ok := ReadCell(c.text)
		if !ok || got.South != c.south || got.West != c.west || got.Size != c.size || got.String() != c.written {
			t.Errorf("%s: %s: %+v %v, want %g %g %g %s", c.why, c.text, got, got, c.south, c.west, c.size, c.written)
		}
	}
	for _, text := range []string{"", "E032S18CE", "E180S18", "E032S90", "E032S18CBABABA", "321", "9918CB", "E32S18CB", "3218", "3218C", "321800"} {
		if c, ok := ReadCell(text); ok {
			t.Errorf("%q: %v", text, c)
		}
	}
}

func TestCellReadsWhatIsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat, lon := rapid.Float64Range(-90, 90).Draw(t, "lat"), rapid.Float64Range(-180, 179.999).Draw(t, "lon")
		c := CellOf(lat, lon, rapid.IntRange(0, 6).Draw(t, "letters"))
		if lat < c.South || lat > c.South+c.Size || lon < c.West || lon > c.West+c.Size {
			t.Fatalf("%g %g is outside %+v", lat, lon, c)
		}
		if back, ok := ReadCell(c.String()); !ok || back != c {
			t.Fatalf("%+v written %s read %+v", c, c, back)
		}
	})
}

func TestReadSquare(t *testing.T) {
	for _, c := range []struct {
		source, text   string
		easting, north float64
		side           float64
		lat, lon       float64 // of the centre; 0: not published
	}{
		// OS guide, annex C: 52°39′27.2531″N 1°43′04.5177″E is E 651409.903 N 313177.270.
		{"OS guide, to a metre", "TG 51409 13177", 651409, 313177, 1, 52.6575703056, 1.7179215833},
		{"Ordnance Survey's own square, from memory", "SU 387 148", 438700, 114800, 100, 0, 0},
		{"no blanks", "TQ123456", 512300, 145600, 100, 0, 0},
		{"the false origin", "SV0000", 0, 0, 1000, 0, 0},
		{"Shetland", "HP", 400000, 1200000, 100e3, 0, 0},
		{"Irish: Dublin, from memory", "O 159 344", 315900, 234400, 100, 0, 0},
	} {
		q, ok := ReadSquare(c.text)
		if !ok || q.Easting != c.easting || q.Northing != c.north || q.Side != c.side {
			t.Errorf("%s: %s: %+v", c.source, c.text, q)
		}
		if c.lat != 0 && flat(q.Latitude, q.Longitude, c.lat, c.lon) > 1 {
			t.Errorf("%s: %s: %.7f %.7f, want %.7f %.7f", c.source, c.text, q.Latitude, q.Longitude, c.lat, c.lon)
		}
	}
	for _, text := range []string{"", "TQ 12 345", "IQ 123 456", "AA 123 456", "N", "N 12", "TQX 1234", "TQ 123 45", "60"} {
		if q, ok := ReadSquare(text); ok {
			t.Errorf("%q: %+v", text, q)
		}
	}
	// The same square as Irish Grid through PROJ.
	q, _ := ReadSquare("H 123 456")
	got := numbers(t, outside(t, []string{"212350 345650 0 0"}, "cct", "-I", "-d", "10", "+proj=tmerc", "+lat_0=53.5", "+lon_0=-8", "+k=1.000035", "+x_0=200000", "+y_0=250000", "+a=6377340.189", "+rf=299.3249646")[0])
	if math.Abs(got[0]-q.Longitude) > 1e-8 || math.Abs(got[1]-q.Latitude) > 1e-8 {
		t.Errorf("%+v, PROJ %v", q, got)
	}
}
