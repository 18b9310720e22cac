package places

import (
	"math"
	"strings"
	"testing"
)

func TestReadUTM(t *testing.T) {
	// 32n 361500 6730000 in GeoConvert 2.1.2, and so the others below.
	const lat, lon = 60.6816328, 6.4641605
	for _, text := range []string{
		"32V 361500 6730000", "32 V 361500 6730000", "UTM 32V 361500 6730000", "UTM 32V E 361500 N 6730000", "UTM 32 V N 6730000 E 361500", "32V 361500E 6730000N", "32V 6730000N 361500E",
		"361500mE 6730000mN zone 32N", "361500 m E, 6730000 m N, UTM zone 32 N", "UTM32N 361500 6730000", "32N 0361500 6730000", "32V0361500 6730000", "UTM: 6730000N 361500E 32V", "zone 32V, 361,500 E, 6,730,000 N",
		"32V 361 500 6 730 000", "UTM 32N 361 500 6 730 000", "UTM 32 north 361500 6730000", "Easting: 361500 Northing: 6730000 Zone: 32V", "X=361500, Y=6730000, UTM 32N", "UTM sone 32V 361500, 6730000",
		"UTM 32 N E 361500 N 6730000", "32V 6730000 361500", "UTM (32V) 361500.0 6730000.0", "UTM 32N 6730000 361500", "WGS84 UTM 32V 361500 6730000", "UTM 32V 361500 6730000 (WGS84)", "32v 361500 6730000",
	} {
		p := ReadPosition(text)
		if p.Form != UTM || math.Abs(p.Lat-lat) > 1e-6 || math.Abs(p.Lon-lon) > 1e-6 {
			t.Errorf("%q: %v %.7f %.7f %v", text, p.Form, p.Lat, p.Lon, p.Warnings)
		}
	}
	for _, c := range []struct {
		why, text string
		lat, lon  float64
		code      string
	}{
		{"southern half by the band", "56H 334000 6250000", -33.877291, 151.205137, ""},
		{"S that is no band there is south", "56S 334000 6250000", -33.877291, 151.205137, ""},
		{"S in its band", "13S 327400E 4261450N", 38.484691, -106.978898, "position-doubtful"},
		{"S and a datum of the south", "56S 334000 4000000 (GDA94)", -54.121300, 150.459915, ""},
		{"south by the word", "UTM zone 13 south 327400 4261450", -51.771185, -107.501635, ""},
		{"no half, a datum of the north", "13 0411876E 4385843N NAD83", 39.617812, -106.026673, "position-doubtful"},
		{"no half, a northing of the south", "UTM 31 500000 9889470", -1, 3, ""},
		{"the datum in the middle", "UTM 32V WGS 84 361500 6730000", 60.6816328, 6.4641605, ""},
		{"no half, and a datum that settles it", "Zone 12 NAD 27 0360538E 3660333N", 33.074373, -112.494069, "position-doubtful"},
		{"as labels of the United States have it", "12S 0360538 3660333 NAD27 CONUS", 33.074373, -112.494069, "position-doubtful"},
		{"with its height", "11N 478920 4036120; elev. 1200 ft", 36.470126, -117.235295, ""},
		{"no half", "13 0411876E 4385843N WGS84", 0, 0, "position-grid"},
		{"no zone", "UTM478,920E4,036,120N", 0, 0, "position-grid"},
		{"zone 61", "UTM 61V 361500 6730000", 0, 0, "position-grid"},
		{"band I", "32I 361500 6730000", 0, 0, "position-grid"},
		{"32X is none", "32X 361500 8730000", 0, 0, "position-grid"},
		{"band and northing disagree", "32T 361500 6730000", 0, 0, "position-grid"},
		{"easting out of bounds", "32V 1361500 6730000", 0, 0, "position-grid"},
		{"no figures", "UTM", 0, 0, "position-grid"},
	} {
		p := ReadPosition(c.text)
		code := ""
		if len(p.Warnings) > 0 {
			code = p.Warnings[0].Code
		}
		if p.Known() != (c.lat != 0) || math.Abs(p.Lat-c.lat) > 2e-5 || math.Abs(p.Lon-c.lon) > 2e-5 || code != c.code {
			t.Errorf("%s: %q: %v %.6f %.6f %v", c.why, c.text, p.Form, p.Lat, p.Lon, p.Warnings)
		}
	}
	// The datum's own ellipsoid counts: on NAD27 (Clarke 1866) the same figures
	// are another latitude. PROJ 9.1.1: cs2cs EPSG:26713 to EPSG:4267, then cct
	// EPSG:1175.
	lat27, lon27, _, _ := ReadPosition("13S 327400E 4261450N").OnWGS84("NAD27")
	if math.Abs(lat27-38.48654105) > 1e-7 || math.Abs(lon27+106.97951837) > 1e-7 {
		t.Errorf("on NAD27: %.8f %.8f", lat27, lon27)
	}
}

func TestUTMPrecision(t *testing.T) {
	for text, metres := range map[string]float64{
		"32V 361517 6730003":       math.Sqrt2,
		"32V 361500 6730000":       100 * math.Sqrt2,
		"32V 361500 6730004":       math.Sqrt2,
		"32V 361517.25 6730003.50": 0.01 * math.Sqrt2,
	} {
		if p := ReadPosition(text); math.Abs(p.Precision()-metres) > 1e-9 {
			t.Errorf("%s: %g m, want %g", text, p.Precision(), metres)
		}
	}
}

func TestReadSquares(t *testing.T) {
	for _, c := range []struct {
		why, text string
		form      Form
		lat, lon  float64
		cell      float64
		code      string
	}{
		{"man GeoConvert: the centre of a kilometre", "38SMB4488", MGRS, 33.33424, 44.40363, 707.10678, ""},
		{"Darwin Core: 71 m for a square of 100 m", "32V LN 615 300", MGRS, 60.682099, 6.465040, 70.710678, ""},
		{"named", "MGRS: 32VLN615300", MGRS, 60.682099, 6.465040, 70.710678, ""},
		{"as Norwegian labels have it", "UTM 32V LN 615,300", MGRS, 60.682099, 6.465040, 70.710678, ""},
		{"in small letters", "32vln 615 300", MGRS, 60.682099, 6.465040, 70.710678, ""},
		{"no zone", "LN 615 300", Unread, 0, 0, 0, "position-grid"},
		{"a column of another zone", "32V AN 615 300", Unread, 0, 0, 0, "position-grid"},
		{"odd figures", "32V LN 61530", Unread, 0, 0, 0, "position-grid"},
		{"polar: the mgrs of 84 50.920338, GeoConvert 2.1.2", "ZHC1756079694", MGRS, 84.000002, 50.920308, 0.70710678, ""},
		{"quarter of a degree", "E032S18CB", QuarterDegree, -18.625, 32.375, 19119.43, ""},
		{"the older form", "3318CD", QuarterDegree, -33.875, 18.375, 18060.41, "position-doubtful"},
		{"named", "QDS 3318CD", QuarterDegree, -33.875, 18.375, 18060.41, "position-doubtful"},
		{"British", "TG 51409 13177", NationalGrid, 52.657573, 1.717916, 0.70710678, "position-doubtful"},
	} {
		p := ReadPosition(c.text)
		code := ""
		if len(p.Warnings) > 0 {
			code = p.Warnings[0].Code
		}
		if p.Form != c.form || math.Abs(p.Lat-c.lat) > 6e-6 || math.Abs(p.Lon-c.lon) > 6e-6 || math.Abs(p.Cell-c.cell) > 0.1 || code != c.code {
			t.Errorf("%s: %q: %v %.6f %.6f cell %.4f %v", c.why, c.text, p.Form, p.Lat, p.Lon, p.Cell, p.Warnings)
		}
	}
	// A national grid has its own datum, whatever the record says.
	if _, _, m, name := ReadPosition("TG 51409 13177").OnWGS84("WGS84"); name != "OSGB36" || m != 2 {
		t.Errorf("%s %g", name, m)
	}
}

func TestOtherGrids(t *testing.T) {
	for text, want := range map[string]string{
		"RT90 6580000 1628000":      "Swedish grid",
		"Koord. 600 000 / 200 000":  "Swiss grid",
		"CH1903 600000/200000":      "Swiss grid",
		"R 4412345 H 5312345":       "Gauss-Krüger",
		"MTB 7220":                  "German 1:25 000",
		"Lambert 93 652000 6862000": "Lambert",
	} {
		p := ReadPosition(text)
		if p.Known() || len(p.Warnings) != 1 || p.Warnings[0].Code != "position-grid" || !strings.Contains(p.Warnings[0].Message, want) {
			t.Errorf("%q: %v %v", text, p, p.Warnings)
		}
	}
}

func TestTownship(t *testing.T) {
	for text, want := range map[string]string{
		"T12N R4W Sec. 23 NE1/4":                       "T12N R4W Sec. 23 NE1/4",
		"T28S R19W sec12 SE/4":                         "T28S R19W Sec. 12 SE/4",
		"TRS: T28S R14W sec 30 NW 1/4":                 "T28S R14W Sec. 30 NW 1/4",
		"T14S R12E S10 SW1/4":                          "T14S R12E Sec. 10 SW1/4",
		"T23S R18W sec":                                "T23S R18W",
		"NE¼ SW¼ Sec 5, T12N, R4W":                     "T12N R4W Sec. 5 NE¼ SW¼",
		"Township 12 North, Range 4 West, Section 23":  "T12N R4W Sec. 23",
		"T. 4 N., R. 2 E., Sec. 5":                     "T4N R2E Sec. 5",
		"R4W T12N":                                     "T12N R4W",
		"N3837950, E323250; T15N R6W NW1/4 NE1/4 S.19": "T15N R6W Sec. 19 NW1/4 NE1/4",
	} {
		p := ReadPosition(text)
		if p.Known() || p.Township == nil || p.Township.String() != want || p.Warnings[0].Code != "position-township" {
			t.Errorf("%q: %+v %v, want %s", text, p.Township, p.Warnings, want)
		}
		if q := ReadPosition(want); q.Township == nil || *q.Township != *p.Township {
			t.Errorf("%q read again: %+v", want, q.Township)
		}
	}
}

// Examples of ISO 6709 (standards.md names where they stand) and RFC 5870.
func TestISO6709(t *testing.T) {
	for _, c := range []struct {
		text     string
		lat, lon float64
		step     float64
		height   float64
		datum    string
	}{
		{"+40.75-074.00/", 40.75, -74, 0.01, 0, ""},
		{"+4852+00220/", 48.866667, 2.333333, 1. / 60, 0, ""},
		{"+48.8577+002.295/", 48.8577, 2.295, 0.001, 0, ""},
		{"+00-025/", 0, -25, 1, 0, ""},
		{"-90+000+2800/", -90, 0, 1, 2800, ""},
		{"+27.5916+086.5640+8850CRSWGS_84/", 27.5916, 86.5640, 0.0001, 8850, "WGS 84"},
		{"+404500-0740000/", 40.75, -74, 1. / 3600, 0, ""},
		{"+4045.5-07400.25/", 40.758333, -74.004167, 0.01 * 10 / 60, 0, ""},
		{"+40.75-074.00", 40.75, -74, 0.01, 0, ""},
		{"geo:60.7033,6.6514", 60.7033, 6.6514, 0.0001, 0, "WGS 84"},
		{"geo:60.7033,6.6514,348;crs=wgs84;u=35", 60.7033, 6.6514, 0.0001, 348, "WGS 84"},
	} {
		p := ReadPosition(c.text)
		if p.Form != ISO6709 || math.Abs(p.Lat-c.lat) > 1e-6 || math.Abs(p.Lon-c.lon) > 1e-6 || math.Abs(p.Step-c.step) > 1e-9 || p.Height != c.height || p.Datum != c.datum {
			t.Errorf("%s: %+v", c.text, p)
		}
	}
	if p := ReadPosition("geo:60.7033,6.6514;u=35"); p.Uncertainty != 35 {
		t.Errorf("%+v", p)
	}
	if p := ReadPosition("60°42′12″N 6°39′05″E 123,45m"); !p.HasHeight || p.Height != 123.45 {
		t.Errorf("%+v", p)
	}
	for _, text := range []string{"geo:", "geo:1", "geo:1,2;crs=moon", "+4865+00220/", "+91+000/", "geo:91,0"} {
		if p := ReadPosition(text); p.Known() || len(p.Warnings) == 0 {
			t.Errorf("%s: %+v", text, p)
		}
	}
}
