package geodesy

import (
	"fmt"
	"math"
	"testing"
)

// Every set of parameters against PROJ, which takes operation and figures
// from its own copy of the EPSG dataset: this checks the copying as well as
// the formula. In a short run every twentieth.
func TestShiftsOfPROJ(t *testing.T) {
	step := 20
	if testing.Verbose() {
		step = 1
	}
	n := 0
	for _, d := range Datums() {
		for i := range d.Shifts {
			s := &d.Shifts[i]
			if n++; n%step != 0 {
				continue
			}
			lat, lon := (2*s.South+s.North)/3, s.West+1e-3
			got := outside(t, []string{fmt.Sprintf("%.9f %.9f 0 0", lat, lon)}, "cct", "-d", "10", fmt.Sprintf("EPSG:%d", s.Operation))
			want := numbers(t, got[0][:len(got[0])-3])
			a, o := s.apply(d.Ellipsoid, lat, lon)
			// PROJ turns by small angles too; what differs is that ours takes height 0 into the arcs.
			if m := flat(a, o, want[0], want[1]); m > 0.001 {
				t.Errorf("%s, EPSG:%d: %.9f %.9f, PROJ %.9f %.9f: %.4f m", d.Name, s.Operation, a, o, want[0], want[1], m)
			}
		}
	}
	t.Logf("%d sets of %d datums", n, len(Datums()))
}

func TestDatumOf(t *testing.T) {
	for words, code := range map[string]int{
		"WGS84": 4326, "WGS 84": 4326, "WGS1984": 4326, "World Geodetic System 1984": 4326, "EPSG:4326": 4326, "epsg 4326": 4326, "wgs-84": 4326,
		"urn:ogc:def:crs:EPSG::4326": 4326, "http://www.opengis.net/def/crs/EPSG/0/4326": 4326, "WGS 84 / UTM zone 32N": 4326, "EPSG:32632": 4326,
		"NAD27": 4267, "NAD 1927": 4267, "North American Datum 1927": 4267, "North American Datum of 1927": 4267, "NAD83": 4269, "NAD-83": 4269, "EPSG:26912": 4269,
		"ED50": 4230, "European Datum 1950": 4230, "ED 50": 4230, "EPSG:4230": 4230,
		"OSGB36": 4277, "OSGB 1936": 4277, "Tokyo": 4301, "Pulkovo 1942": 4284, "DHDN": 4314, "Potsdam": 4314,
		"AGD66": 4202, "AGD 1966": 4202, "GDA94": 4283, "Cape": 4222, "Arc 1950": 4209, "NGO1948": 4273, "NGO 48": 4273, "SAD-69": 4618,
		"Hermannskogel": 4312, "NTF": 4275, "CH1903": 4149, "CH1903+": 4150, "EUREF89": 4258, "ETRS89": 4258,
	} {
		if d, ok := DatumOf(words); !ok || d.Code != code {
			t.Errorf("%q: %d %q, want %d", words, d.Code, d.Name, code)
		}
	}
	for _, words := range []string{"", "not recorded", "unknown", "datum", "EPSG:", "EPSG:99999", "Voss", "/", "19"} {
		if d, ok := DatumOf(words); ok {
			t.Errorf("%q: %s", words, d.Name)
		}
	}
}

func TestToWGS84(t *testing.T) {
	for _, c := range []struct {
		name, datum          string
		lat, lon, lat2, lon2 float64
		metres               float64
	}{
		// PROJ 9.1.1: EPSG:1314, EPSG:1139, EPSG:1654.
		{"Caister water tower", "OSGB36", 52.657570306, 1.717921583, 52.657979, 1.716052, 2},
		{"Voss", "ED50", 60.63, 6.42, 60.629529, 6.418453, 7},
		{"Voss", "NGO 1948", 60.63, 6.42, 60.630582, 6.415438, 3},
		{"no shift is published for ED50 there", "ED50", -30, 20, -30, 20, UnknownDatum},
		{"WGS84 is itself", "WGS84", 60.63, 6.42, 60.63, 6.42, 0},
		{"EPSG holds both for one to some metres", "NAD83", 40, -105, 40, -105, 4},
	} {
		d, ok := DatumOf(c.datum)
		lat, lon, m := d.ToWGS84(c.lat, c.lon)
		if !ok || math.Abs(lat-c.lat2) > 2e-6 || math.Abs(lon-c.lon2) > 2e-6 || m != c.metres {
			t.Errorf("%s, %s: %.6f %.6f ± %g, want %.6f %.6f ± %g", c.name, c.datum, lat, lon, m, c.lat2, c.lon2, c.metres)
		}
	}
	// Two sets for one place that lie 100 m apart and say 1 m and 10 m: one is
	// wrong by 90 m.
	d := Datum{Ellipsoid: WGS84Ellipsoid, Shifts: []Shift{{Accuracy: 1, South: -1, West: 179, North: 1, East: -179}, {Accuracy: 10, Z: 100, South: -1, West: 179, North: 1, East: -179}}}
	if _, _, m := d.ToWGS84(0, 180); math.Abs(m-90) > 0.2 {
		t.Errorf("± %g m, though the sets disagree by 100", m)
	}
}

func BenchmarkToWGS84(b *testing.B) {
	d, _ := DatumOf("NAD27")
	for b.Loop() {
		d.ToWGS84(40, -105)
	}
}

func BenchmarkDatumOf(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		DatumOf("WGS 84")
	}
}
