package georeference

import (
	"fmt"
	"math"
	"os/exec"
	"strings"
	"testing"

	"blotter/ledger/geodesy"
	"blotter/ledger/places"
)

// Chapman & Wieczorek 2020, table of headings, and the example of 10 km NE
// with an exact distance: 3.90 km. The figures for N and NNE, and those with a
// sum of 0.5 km, are the same formula worked by hand (no published value).
func TestDirectionError(t *testing.T) {
	for _, c := range []struct {
		heading       string
		half          float64
		alone, beside float64 // km, at 10 km, with 0 and 0.5 km of other shares
	}{
		{"NE", 22.5, 3.902, 4.029}, {"N", 45, 7.654, 7.859}, {"NNE", 11.25, 1.960, 2.070},
	} {
		h, ok := pointOf(c.heading)
		if !ok || h.Half != c.half {
			t.Errorf("%s: ± %g°, published %g°", c.heading, h.Half, c.half)
		}
		if got := DirectionError(10, 0, h.Half); math.Abs(got-c.alone) > 0.001 {
			t.Errorf("%s alone: %g, want %g", c.heading, got, c.alone)
		}
		if got := DirectionError(10, 0.5, h.Half); math.Abs(got-c.beside) > 0.001 {
			t.Errorf("%s beside 0.5 km: %g, want %g", c.heading, got, c.beside)
		}
	}
}

// MapError: the column of Geoscience Australia in Chapman & Wieczorek 2020,
// and the table of Wieczorek 2001 for the National Map Accuracy Standards.
func TestMapError(t *testing.T) {
	for scale, want := range map[float64]float64{1000: 0.5, 10000: 5, 25000: 12.5, 50000: 25, 100000: 50, 1000000: 500} {
		if got := MapError(scale, HalfMillimetre); math.Abs(got-want) > 1e-9 {
			t.Errorf("0.5 mm at 1:%g: %g, published %g", scale, got, want)
		}
	}
	for scale, want := range map[float64]float64{1200: 1.0, 2400: 2.0, 4800: 4.1, 10000: 8.5, 12000: 10.2, 24000: 12.2, 25000: 12.8, 63360: 32.2, 100000: 50.9, 250000: 127} {
		if got := MapError(scale, NMAS); math.Abs(got-want) > 0.11 { // 12.8 is 41.8 ft; a fiftieth inch is 41.7 ft
			t.Errorf("NMAS at 1:%g: %g, published %g", scale, got, want)
		}
	}
	// Their text: 1 mm where the standard is not known, and 1 mm for measuring.
	if a, b := MapError(50000, UnknownStandard), MeasuringError(50000); a != 50 || b != 50 {
		t.Errorf("1 mm at 1:50 000: %g and %g", a, b)
	}
}

func TestScaleOf(t *testing.T) {
	for words, want := range map[string]sheet{
		"map 1:50 000":                 {scale: 50000},
		"map 1:50,000":                 {scale: 50000},
		"Karte 1:25.000, Blatt 12":     {scale: 25000},
		"1/100000":                     {scale: 100000},
		"1:50k":                        {scale: 50000},
		"1:25'000":                     {scale: 25000},
		"USGS 7.5' quad 1:24 000":      {scale: 24000, standard: NMAS},
		"NATMAP 1:250 000":             {scale: 250000, standard: HalfMillimetre},
		"online map 1:50 000":          {scale: 50000, screen: true},
		"map":                          {},
		"field book 11:50":             {},
		"seen 1:50":                    {},
		"map 1:50 000 1987, sheet 1:2": {scale: 50000},
	} {
		if got := scaleOf(words); got != want {
			t.Errorf("%q: %+v, want %+v", words, got, want)
		}
	}
}

func parts(e Estimate) string {
	var s []string
	for _, p := range e.Parts {
		s = append(s, fmt.Sprintf("%s %.0f", p.Name, p.Metres))
	}
	return strings.Join(s, ", ")
}

// quotes holds the words that a share says it quotes against its reason.
func quotes(t *testing.T, p Part) {
	t.Helper()
	rest := p.Why
	for _, q := range p.Quotes {
		_, after, ok := strings.Cut(rest, q)
		if !ok {
			t.Errorf("%q does not quote %q in that order", p.Why, q)
		}
		rest = after
	}
}

func TestOf(t *testing.T) {
	dms := places.ReadPosition(`60°42'12"N 6°39'05"E`)
	// 262 m: the furthest of the datums used at that place, geodesy.UnknownDatumAt.
	minute := places.ReadPosition("60°42'N 6°39'E")
	for _, c := range []struct {
		why  string
		said Said
		want string
	}{
		{"the device's accuracy is doubled", Said{Position: dms, Datum: "WGS84", Accuracy: "8 m"}, "precision 34, device 16"},
		{"no datum, no source", Said{Position: dms, Era: Undimmed}, "precision 34, datum 262, source 30"},
		{"a source without metres", Said{Position: dms, Datum: "WGS84", From: "gps", Era: Undimmed}, "precision 34, source 30"},
		{"the collector's map", Said{Position: dms, Datum: "WGS84", From: "USGS 7.5' quad 1:24 000", Era: Degraded}, "precision 34, map 12, measuring 24"},
		{"words for none are none", Said{Position: dms, Datum: "not recorded", Era: Degraded}, "precision 34, datum 262, source 100"},
		{"a datum nobody knows", Said{Position: dms, Datum: "of the map"}, "precision 34, datum 262"},
		{"a printed map", Said{Position: dms, Datum: "WGS84", From: "map 1:50 000", Era: ByAPerson}, "precision 34, map 50, measuring 50"},
		{"a map on a screen", Said{Position: dms, Datum: "WGS84", From: "online map 1:50 000", Era: ByAPerson}, "precision 34, map 50"},
		{"what is stated is the whole", Said{Position: dms, Uncertainty: "50 m", Accuracy: "8 m"}, "stated 50"},
		{"the words are coarser than what is stated", Said{Position: minute, Datum: "WGS84", Uncertainty: "50 m"}, "precision 2068, stated 50"},
		{"at sea no datum is ruled out: the published worst case", Said{Position: places.ReadPosition("30.0001 S 20.0001 W")}, "precision 15, datum 5359"},
		{"nothing read", Said{}, ""},
	} {
		e := Of(c.said)
		if got := parts(e); got != c.want {
			t.Errorf("%s: %s, want %s", c.why, got, c.want)
		}
		sum := 0.0
		for _, p := range e.Parts {
			sum += p.Metres
			if p.Why == "" {
				t.Errorf("%s: %s has no reason", c.why, p.Name)
			}
			quotes(t, p)
		}
		if math.Abs(sum-e.Metres) > 1e-9 {
			t.Errorf("%s: the shares are %g, the radius %g", c.why, sum, e.Metres)
		}
	}
	// A datum that is known is applied: the shift stands in ledger/geodesy.
	e := Of(Said{Position: places.ReadPosition("60.7034, 6.6512"), Datum: "ED50"})
	if d := geodesy.Distance(e.Lat, e.Lon, 60.7034, 6.6512); d < 50 || d > 300 {
		t.Errorf("ED50 to WGS84 moved by %g m", d)
	}
}

// valley is a gazetteer for the tests: invented extents, real places.
func valley() *Gazetteer {
	at := func(name, position, extent string) Place {
		return Place{Name: name, Country: "Norway", District: "Voss", Extent: extent, Said: Said{Position: places.ReadPosition(position), Datum: "WGS84", Accuracy: "5 m"}}
	}
	far := at("Vinje church", "59.5600, 8.0000", "30 m")
	far.District = "Vinje"
	return NewGazetteer([]Place{
		at("Voss church", "60.62960, 6.41850", "30 m"), at("Raundal chapel", "60.70000, 6.60000", ""), at("Voss", "60.63, 6.42", "2 km"),
		at("Vinje church", "60.7800, 6.5400", "20 m"), far, at("Bolstad", "60.6500, 5.9500", "500 m"), at("no position", "", ""),
	})
}

func TestReckon(t *testing.T) {
	g := valley()
	in := Within{Country: "Norway", District: "Voss"}
	for _, c := range []struct {
		why, locality, from, parts string
		north, east                float64 // of the named place, km; 0, 0: not compared
	}{
		{"one direction", "10 km NE of Voss church", "10 km NE of Voss church", "precision 1, device 10, extent 30, distance 500, direction 3501", 7.071, 7.071},
		{"to a comma", "1.2 km NE of Raundal chapel, above the track", "1.2 km NE of Raundal chapel", "precision 1, device 10, distance 50, direction 423", 0, 0},
		{"at right angles: no share of a direction", "Voss church, 8 km E and 6 km N", "8 km E and 6 km N of Voss church", "precision 1, device 10, extent 30, distance 707", 6, 8},
		{"no of", "5 km N Voss church", "5 km N of Voss church", "precision 1, device 10, extent 30, distance 500, direction 3524", 5, 0},
		{"no direction", "3 km from Voss church", "3 km from Voss church", "precision 1, device 10, extent 30, distance 500, direction 3000", 0, 0},
		{"in degrees", "10 km 45° from Voss church", "10 km 45° of Voss church", "precision 1, device 10, extent 30, distance 500, direction 7", 7.071, 7.071},
		{"by road", "10 km by road N of Voss church", "10 km by road N of Voss church", "precision 1, device 10, extent 30, distance 500, road 7071", 7.071, 0},
		{"by road, behind", "10 km N of Voss church by road", "10 km by road N of Voss church", "precision 1, device 10, extent 30, distance 500, road 7071", 7.071, 0},
		{"the place itself", "Voss, by the road", "Voss", "precision 1241, device 10, extent 2000", 0, 0},
		{"the smaller of two", "Voss, at Voss church", "Voss church", "precision 1, device 10, extent 30", 0, 0},
		{"between", "between Voss church and Bolstad", "the middle between Voss church and Bolstad", "precision 12, device 10, distance 12868, extent 500", 0, 0},
		{"the district tells two of one name apart", "1 km S of Vinje church", "1 km S of Vinje church", "precision 12, device 10, extent 20, distance 500, direction 552", 0, 0},
		{"Norwegian", "10 km nordøst for Voss church", "10 km NE of Voss church", "precision 1, device 10, extent 30, distance 500, direction 3501", 7.071, 7.071},
	} {
		e := g.Reckon(c.locality, in)
		if e.From != c.from || parts(e) != c.parts {
			t.Errorf("%s (%s): %q %s %s, want %q %s", c.locality, c.why, e.From, parts(e), e.Why, c.from, c.parts)
			continue
		}
		sum := 0.0
		for _, p := range append(e.Parts, e.Unsaid...) {
			sum += p.Metres
			quotes(t, p)
		}
		if math.Abs(sum-e.Metres) > 1e-6 {
			t.Errorf("%s: the shares are %g, the radius %g", c.locality, sum, e.Metres)
		}
		if c.north != 0 || c.east != 0 {
			d, b := geodesy.Inverse(60.62960, 6.41850, e.Lat, e.Lon)
			north, east := d*math.Cos(b*math.Pi/180)/1000, d*math.Sin(b*math.Pi/180)/1000
			if math.Abs(north-c.north) > 0.02 || math.Abs(east-c.east) > 0.02 {
				t.Errorf("%s: %.3f km north, %.3f east; want %g, %g", c.locality, north, east, c.north, c.east)
			}
		}
	}
	for _, in := range []Within{{District: "Voss", Province: "Vestland", Country: "Norway"}, {Country: "Norge"}, {District: "Gol"}, {Province: "Buskerud", Country: "Norway"}} {
		known := in.District == "Voss" || in.Province == "Buskerud" // the place states no province
		if e := g.Reckon("1 km N of Bolstad", in); e.Known != known {
			t.Errorf("in %+v: %v %s", in, e.Known, e.Why)
		}
	}
	for locality, why := range map[string]string{
		"10 km NE of Nowhere church": `"Nowhere church" is not a place of places.yaml with a position`,
		"near Voss church":           "near Voss church gives no distance",
		"3 km SE of Voss station":    `"Voss station" is not a place of places.yaml with a position`,
		"Raundal chapel":             "how large Raundal chapel is stands nowhere",
		"on a stone":                 "no place of places.yaml is named in it",
		"10 km O Voss church":        "O is east in German and the Scandinavian languages and west in French, Spanish and Portuguese; write E or W",
		"":                           "no place of places.yaml is named in it",
	} {
		if e := g.Reckon(locality, in); e.Known || e.Why != why {
			t.Errorf("%s: %v %q, want %q", locality, e.Known, e.Why, why)
		}
	}
	if e := (*Gazetteer)(nil).Reckon("10 km NE of Voss", Within{}); e.Known || e.Why == "" {
		t.Error("without places.yaml:", e)
	}
}

// TestReckonAgainstGeodSolve compares end points with GeographicLib.
func TestReckonAgainstGeodSolve(t *testing.T) {
	if _, err := exec.LookPath("GeodSolve"); err != nil {
		t.Skip("no GeodSolve here: ", err)
	}
	g := valley()
	for wind, bearing := range map[string]float64{"N": 0, "NE": 45, "ESE": 112.5, "SSW": 202.5, "WNW": 292.5} {
		for _, km := range []float64{0.5, 10, 140} {
			e := g.Reckon(fmt.Sprintf("%g km %s of Voss church", km, wind), Within{})
			cmd := exec.Command("GeodSolve", "-p", "6")
			cmd.Stdin = strings.NewReader(fmt.Sprintf("60.62960 6.41850 %g %g\n", bearing, km*1000))
			out, err := cmd.Output()
			if err != nil {
				t.Fatal(err)
			}
			var lat, lon, azi float64
			if _, err := fmt.Sscan(string(out), &lat, &lon, &azi); err != nil {
				t.Fatal(err)
			}
			if d := geodesy.Distance(lat, lon, e.Lat, e.Lon); d > 0.001 {
				t.Errorf("%g km %s: %g m from GeographicLib's", km, wind, d)
			}
		}
	}
}

func BenchmarkOf(b *testing.B) {
	dms := places.ReadPosition(`60°42'12"N 6°39'05"E`)
	said := []Said{{Position: dms, Datum: "WGS84", Accuracy: "8 m"}, {Position: dms, Era: Degraded}, {Position: dms, Datum: "ED50", From: "map 1:50 000"}, {Position: dms, Uncertainty: "50 m"}}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		Of(said[i%len(said)])
	}
}
