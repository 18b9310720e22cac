package places

import (
	"math"
	"testing"

	"blotter/ledger/geodesy"
)

func TestOnWGS84(t *testing.T) {
	for _, c := range []struct {
		why, text, datum string
		lat, lon, metres float64
		name             string
	}{
		{"the record's datum", "60.63, 6.42", "European Datum 1950", 60.629529, 6.418453, 7, "ED50"},
		{"the words' own datum goes before it", "60.63, 6.42 (ED 1950)", "WGS84", 60.629529, 6.418453, 7, "ED50"},
		{"WGS84 is left as it is", "60.63, 6.42", "wgs 1984", 60.63, 6.42, 0, "WGS 84"},
		{"no datum: what could be used there", "60.63, 6.42", "", 60.63, 6.42, 261, ""},
		{"none recorded", "60.63, 6.42", "not recorded", 60.63, 6.42, 261, ""},
		{"at sea nothing is known", "0.5, 0.5", "", 0.5, 0.5, geodesy.UnknownDatum, ""},
		{"nothing read", "by the church", "WGS84", 0, 0, 0, ""},
	} {
		lat, lon, m, name := ReadPosition(c.text).OnWGS84(c.datum)
		if math.Abs(lat-c.lat) > 1e-6 || math.Abs(lon-c.lon) > 1e-6 || m != c.metres || name != c.name {
			t.Errorf("%s: %s, %s: %.6f %.6f ± %g %q, want %.6f %.6f ± %g %q", c.why, c.text, c.datum, lat, lon, m, name, c.lat, c.lon, c.metres, c.name)
		}
	}
}

func TestCutDatum(t *testing.T) {
	for _, c := range []struct{ text, rest, datum string }{
		{"60.7034, 6.6512 WGS84", "60.7034, 6.6512", "WGS 84"},
		{"60.7034, 6.6512 (WGS 84)", "60.7034, 6.6512", "WGS 84"},
		{"60.7034 6.6512 [datum: NAD 1927]", "60.7034 6.6512", "NAD27"},
		{"60.7034 N 6.6512 E, North American Datum 1983", "60.7034 N 6.6512 E", "NAD83"},
		{"60.7034 N 6.6512 E, datum unknown", "60.7034 N 6.6512 E", ""},
		{"60.7034 N 6.6512 E (datum: not recorded)", "60.7034 N 6.6512 E", ""},
		{"60.7034, 6.6512 datum=WGS84", "60.7034, 6.6512", "WGS 84"},
		{"60.7034 N 6.6512 E", "60.7034 N 6.6512 E", ""},
		{"60.7034, 6.6512", "60.7034, 6.6512", ""},
		{"WGS84", "WGS84", ""},
	} {
		if rest, datum := cutDatum(c.text); rest != c.rest || datum != c.datum {
			t.Errorf("%q: %q %q, want %q %q", c.text, rest, datum, c.rest, c.datum)
		}
	}
}
