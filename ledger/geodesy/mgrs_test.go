package geodesy

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Tests of github.com/ngageoint/mgrs-java, MGRSTest.java at 0921e99c, and
// GeographicLib, tests/CMakeLists.txt and manual page of GeoConvert. The NGA
// row of latitude 84 is as GeographicLib has it: UTM ends below 84° N.
func TestMGRSPublished(t *testing.T) {
	for _, c := range []struct {
		source   string
		lat, lon float64
		digits   int
		want     string
	}{
		{"NGA", 63.98863, 29.06757, 5, "35VPL0115697387"},
		{"NGA", 12.4, 53.51, 5, "39PYP7290672069"},
		{"NGA", 21.309444, -157.916861, 5, "4QFJ1234056781"},
		{"NGA", 8.1258235, 17.3714337, 5, "33PYJ6132198972"},
		{"NGA", 83.7, 50.920338, 5, "39XVN9902494603"},
		{"NGA", -79.2, 128.4525, 5, "52CDT8854707650"},
		{"NGA", -80, 128.4525, 5, "52CDS8938618364"},
		{"GeographicLib, where NGA's code goes on with band X", 84, 50.920338, 5, "ZHC1756079694"},
		{"GeoConvert0", 33.3, 44.4, 2, "38SMB4484"},
		{"man GeoConvert", 33 + 20./60, 44 + 24./60, 2, "38SMB4488"},
		{"man GeoConvert", -79.9, 6.1, 2, "32CMS4328"},
		{"man GeoConvert", -79.9, 6.1, 5, "32CMS4324728161"},
		{"the equator, GeoConvert 2.1.2 run", 0, 0, 5, "31NAA6602100000"},
		{"just south of it", -0.000001, 0, 5, "31MAV6602199999"},
		{"Big Ben; the published 30T is a slip, computed", 51.500721, -0.124430, 5, "30UXC9957909430"},
	} {
		m, err := MGRSOf(c.lat, c.lon, c.digits)
		if err != nil || m.String() != c.want {
			t.Errorf("%s: %g %g: %v %v, want %s", c.source, c.lat, c.lon, m, err, c.want)
		}
	}
	// GeoConvert16 and 17: millimetres, cut off without loss.
	for _, c := range []struct {
		u    UTM
		want string
	}{
		{UTM{Zone: 38, North: true, Easting: 444140.6, Northing: 3684706.3}, "38SMB4414060084706300"},
		{UTM{Zone: 38, North: true, Easting: 500000, Northing: 63.811}, "38NNF0000000000063811"},
	} {
		if m, err := c.u.MGRS(8); err != nil || m.String() != c.want {
			t.Errorf("%v: %v %v, want %s", c.u, m, err, c.want)
		}
	}
}

func TestReadMGRSPublished(t *testing.T) {
	for _, c := range []struct {
		source, text string
		lat, lon     float64 // of the south-west corner
	}{
		{"NGA", "33XVG", 77.445472, 10.8756458},
		{"NGA", "33XVG74", 77.8324735, 13.7248758},
		{"NGA", "33XVG7443", 77.8600782, 13.8924385},
		{"NGA", "33XVG745435", 77.8646415, 13.9133378},
		{"NGA", "33XVG74594359", 77.8654628, 13.9171014},
		{"NGA", "33XVG7459743593", 77.8654908, 13.9173973},
		{"blanks and lower case", "33x vg 74594 359 30", 0, 0},
		{"blanks and lower case", "33x vg 7459 4359", 77.8654628, 13.9171014},
	} {
		m, err := ReadMGRS(c.text)
		if c.lat == 0 {
			if err == nil {
				t.Errorf("%s: %v", c.text, m)
			}
			continue
		}
		u, _ := m.Corner()
		if lat, lon := u.LatLon(); err != nil || math.Abs(lat-c.lat) > 1e-7 || math.Abs(lon-c.lon) > 2e-7 {
			t.Errorf("%s %s: %.7f %.7f %v, want %.7f %.7f", c.source, c.text, lat, lon, err, c.lat, c.lon)
		}
	}
	m, _ := ReadMGRS("33XVG74594359") // NGA: UTM 33 N 474590 8643590
	if u, _ := m.Corner(); u.Zone != 33 || u.Easting != 474590 || u.Northing != 8643590 {
		t.Errorf("%v", u)
	}
	m, _ = ReadMGRS("38SMB4488") // man GeoConvert: 33.33424 44.40363, 38n 444500 3688500
	if lat, lon, ok := m.Centre(); !ok || math.Abs(lat-33.33424) > 5e-6 || math.Abs(lon-44.40363) > 5e-6 || m.Side() != 1000 {
		t.Errorf("%g %g, side %g", lat, lon, m.Side())
	}
	// GeoConvert8: 86 0 is n 2000000.000000 1555731.570643.
	if u := ToUPS(86, 0); !u.North || math.Abs(u.Easting-2e6) > 1e-6 || math.Abs(u.Northing-1555731.570643) > 1e-6 {
		t.Errorf("%+v", u)
	}
	m, _ = ReadMGRS("38smb") // GeoConvert1: 32d59'14.1"N 044d27'53.4"E
	if lat, lon, ok := m.Centre(); !ok || math.Abs(lat-(32+59./60+14.1/3600)) > 2e-5 || math.Abs(lon-(44+27./60+53.4/3600)) > 2e-5 {
		t.Errorf("%g %g", lat, lon)
	}
}

func TestMGRSRefused(t *testing.T) {
	for text, why := range map[string]string{
		"61VLN615300":   "zones go from 1 to 60",
		"0VLN615300":    "zones go from 1 to 60",
		"32ILN615300":   "bands go from C to X",
		"32ALN615300":   "bands go from C to X",
		"32VAN615300":   "columns of zone 32 go from J to R",
		"32VLI615300":   "rows go from A to V",
		"32VLZ615300":   "rows go from A to V",
		"32XLN615300":   "in band X there is no zone 32",
		"32VLA615300":   "row A of column L does not lie in band V",
		"32VLN61530":    "as many figures each",
		"32V LN 615 30": "as many figures each",
		"32VLN":         "",
		"ZDC1756079694": "columns of band Z are ABCFGHJ",
		"YZZ1756079694": "rows of band Y go from A to P",
		"AJA":           "not lie at the pole",
		"32V":           "three letters",
		"":              "zones go",
		"VLN615300":     "zones go",
		"32VLN6153OO":   "figures only",
	} {
		m, err := ReadMGRS(text)
		if why == "" {
			if err != nil {
				t.Errorf("%s: %v", text, err)
			}
			continue
		}
		if err == nil || !strings.Contains(err.Error(), why) {
			t.Errorf("%q: %v %v, want %q", text, m, err, why)
		}
	}
}

func TestMGRSOfGeographicLib(t *testing.T) {
	points := somePoints(2000)
	for lon := -180.0; lon < 180; lon += 7.3 {
		points = append(points, [2]float64{84, lon}, [2]float64{87.6 + lon/100, lon}, [2]float64{-80.0001, lon}, [2]float64{-85 + lon/50, lon})
	}
	points = append(points, [2]float64{90, 0}, [2]float64{-90, 0})
	lines := make([]string, len(points))
	for i, p := range points {
		lines[i] = fmt.Sprintf("%.10f %.10f", p[0], p[1])
	}
	for i, s := range outside(t, lines, "GeoConvert", "-m", "-p", "0") {
		m, err := MGRSOf(points[i][0], points[i][1], 5)
		if err != nil || m.String() != strings.TrimPrefix(s, "0") {
			t.Errorf("%s: %v %v, GeoConvert %s", lines[i], m, err, s)
		}
		if back, err := ReadMGRS(s); err != nil || back != m {
			t.Errorf("%s: back %v %v", s, back, err)
		}
	}
}

// Every square of three neighbouring zones that letters can name: read where
// GeographicLib reads it, with the same centre, and refused where it refuses.
// What differs: squares wholly beyond 80° S and 84° N (rows of 1000 and 9400
// km), which GeographicLib reads and we refuse.
func TestSquaresOfGeographicLib(t *testing.T) {
	var lines []string
	for _, zone := range []int{31, 32, 33} {
		for _, b := range bandLetters {
			for _, c := range columnLetters[(zone-1)%3*8:][:8] {
				for _, r := range rowLetters {
					if zone == 32 && b == 'X' {
						continue // GeographicLib reads them; there are none
					}
					lines = append(lines, fmt.Sprintf("%d%c%c%c", zone, b, c, r))
				}
			}
		}
	}
	read := 0
	for i, s := range outside(t, lines, "GeoConvert", "-u", "-p", "0") {
		m, err := ReadMGRS(lines[i])
		if strings.HasPrefix(s, "ERROR") {
			if err == nil {
				u, _ := m.Corner()
				t.Errorf("%s: read as %v, GeoConvert %s", lines[i], u, s)
			}
			continue
		}
		if err != nil {
			if !strings.HasSuffix(s, " 1050000") && !strings.HasSuffix(s, " 9450000") {
				t.Errorf("%v; GeoConvert %s", err, s)
			}
			continue
		}
		read++
		u, _ := m.Corner()
		if want := numbers(t, s[4:]); u.Easting+50e3 != want[0] || u.Northing+50e3 != want[1] {
			t.Errorf("%s: %v, GeoConvert %s", lines[i], u, s)
		}
	}
	t.Logf("%d of %d are squares", read, len(lines))
}

func TestMGRSReadsWhatIsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat, lon := rapid.Float64Range(-90, 90).Draw(t, "lat"), rapid.Float64Range(-180, 180).Draw(t, "lon")
		digits := rapid.IntRange(0, 5).Draw(t, "digits")
		m, err := MGRSOf(lat, lon, digits)
		if err != nil {
			t.Fatal(err)
		}
		back, err := ReadMGRS(m.String())
		if err != nil || back != m {
			t.Fatalf("%v read as %v: %v", m, back, err)
		}
		if a, o, ok := m.Centre(); !ok || Distance(lat, lon, a, o) > m.HalfDiagonal()*1.007+1e-3 {
			t.Fatalf("%g %g lies %g m from the centre of %v", lat, lon, Distance(lat, lon, a, o), m)
		}
	})
}

func FuzzReadMGRS(f *testing.F) {
	for _, s := range []string{"32VLN615300", "33x vg 7459 4359", "ZHC17", "1", "60X", "38smb", "32V LN 6 1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		m, err := ReadMGRS(text)
		if err != nil {
			return
		}
		if back, err := ReadMGRS(m.String()); err != nil || back != m {
			t.Errorf("%q: %v, read again %v %v", text, m, back, err)
		}
	})
}

func BenchmarkReadMGRS(b *testing.B) {
	for b.Loop() {
		m, _ := ReadMGRS("32VLN615300")
		m.Centre()
	}
}
