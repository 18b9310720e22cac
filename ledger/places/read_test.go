package places

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

func TestReadPosition(t *testing.T) {
	for _, c := range []struct {
		why, text string
		lat, lon  float64
		form      Form
		code      string
	}{
		{"record.md", `60°42'12"N 6°39'05"E`, 60.703333, 6.651389, DegMinSec, ""},
		{"record.md", "60.7034, 6.6512", 60.7034, 6.6512, Decimal, ""},
		{"decimal commas", "60,7034 6,6512", 60.7034, 6.6512, Decimal, ""},
		{"decimal commas and a semicolon", "60,7034; 6,6512", 60.7034, 6.6512, Decimal, ""},
		{"letters first", "N60 42.2 E6 39.1", 60.703333, 6.651667, DegMin, ""},
		{"longitude first", "6°39'E 60°42'N", 60.7, 6.65, DegMin, ""},
		{"Norwegian words", "60°42′12″ nord, 6°39′05″ øst", 60.703333, 6.651389, DegMinSec, ""},
		{"letters for marks", "17d 33m 5s N/99d 30m 3s W", 17.551389, -99.500833, DegMinSec, ""},
		{"south and west", "S 33.5 W 70.25", -33.5, -70.25, Decimal, ""},
		{"minus signs", "−33.5, −70.25", -33.5, -70.25, Decimal, ""},
		{"words say which is which", "Lon: 6.65 Lat: 60.7", 60.7, 6.65, Decimal, ""},
		{"words behind", "60.7 lat, -6.65 long", 60.7, -6.65, Decimal, ""},
		{"words and letters", "lat 60°42'N long 6°39'E", 60.7, 6.65, DegMin, ""},
		{"as a program prints it", "{lat: 60.7, lng: 6.65}", 60.7, 6.65, Decimal, ""},
		{"well-known text has x first", "POINT(6.65 60.7)", 60.7, 6.65, Decimal, ""},
		{"tab", "60.7\t6.65", 60.7, 6.65, Decimal, ""},
		{"line end", "60°42'12\"\n6°39'05\"E", 60.703333, 6.651389, DegMinSec, "position-no-side"},
		{"bar", "60.7 | 6.65", 60.7, 6.65, Decimal, ""},
		{"brackets", "[60.7, 6.65]", 60.7, 6.65, Decimal, ""},
		{"the letter in place of the degree sign", "60N42 6E39", 60.7, 6.65, DegMin, ""},
		{"points between", "60.42.12N 6.39.05E", 60.703333, 6.651389, DegMinSec, ""},
		{"colons between", "60:42:12N 6:39:05E", 60.703333, 6.651389, DegMinSec, ""},
		{"pilots run them together", "604212N 0063905E", 60.703333, 6.651389, DegMinSec, ""},
		{"receivers too", "6042.20,N,00639.08,E", 60.703333, 6.651333, DegMin, ""},
		{"letters before what is run together", "S0133000 W0784500", 0, 0, Unread, "position-unread"},
		{"comma decimals and a comma between", "-46,33, 51,8717", -46.33, 51.8717, Decimal, ""},
		{"comma decimals, blank between", "-46,33 51,8717", -46.33, 51.8717, Decimal, ""},
		{"comma decimals in minutes", "60°42,2'N, 6°39,1'E", 60.703333, 6.651667, DegMin, ""},
		{"seconds left empty", "35d 3m 14s N 114d 18m s W", 35.053889, -114.3, DegMinSec, ""},
		{"nines for seconds not known", "30 25 99 N 108 2 6 W", 30.425, -108.035, DegMinSec, "position-doubtful"},
		{"nines for nothing known", "99 99 99 N 999 99 99 W", 0, 0, Unread, "position-unknown"},
		{"nines of machines", "9999, 9999", 0, 0, Unread, "position-unknown"},
		{"nought", "0, 0", 0, 0, Decimal, "position-zero"},
		{"decimals that could be minutes", "60.42N 6.39E", 60.42, 6.39, Decimal, "position-doubtful"},
		{"no letter at a degree sign", "32.6217° 110.5252°", 32.6217, 110.5252, Decimal, "position-no-side"},
		{"minus and letter agree", "-33.5 S, 70.25 W", -33.5, -70.25, Decimal, "position-doubtful"},
		{"minus and letters agree", "-33.5 S, -70.25 W", -33.5, -70.25, Decimal, "position-doubtful"},
		{"letter, hyphen, figures", "S-33.5, W-70.25", -33.5, -70.25, Decimal, "position-doubtful"},
		{"a dash between", "22°54'N - 43°12'E", 22.9, 43.2, DegMin, ""},
		{"a dash between, no blanks", "22°54'N-43°12'E", 22.9, 43.2, DegMin, ""},
		{"decimals behind the mark", "60°42'.2 N 6°39'.1 E", 60.0 + 42.2/60, 6.0 + 39.1/60, DegMin, ""},
		{"decimals behind the mark of degrees", "60°.7033 N 6°.6514 E", 60.7033, 6.6514, Decimal, ""},
		{"decimals behind the mark of seconds", "60°42'12\".5 N 6°39'05\".5 E", 60.7034722, 6.6515278, DegMinSec, ""},
		{"commas alone", "-46,33,51,8717", -46.33, 51.8717, Decimal, ""},
		{"whole degrees with their mark", "10°N 8°W", 10, -8, Decimal, ""},
		{"whole degrees in columns", "10N\t8W", 10, -8, Decimal, ""},
		{"whole degrees with words", "lat. 10 N, long. 8 W", 10, -8, Decimal, ""},
		{"beyond any range of the survey", "45N 150W", 45, -150, Decimal, ""},
		{"another meridian", "48°50'N 2°20'E Paris", 0, 0, Unread, "position-unread"},
		{"word and letter disagree", "lat 60 E, lon 6 N", 0, 0, Unread, "position-unread"},
		{"height behind", "60°42'N 6°39'E, 350 m", 60.7, 6.65, DegMin, ""},
		{"whole degrees are no cell", "E151 S33", -33, 151, Decimal, ""},
		{"poles and the date line", "90 S 180 W", -90, -180, Decimal, ""},
		{"beyond the pole", "90.1 N 10 E", 0, 0, Unread, "position-range"},
		{"too many marks of decimals", "20,432,12 13,4", 0, 0, Unread, "position-unread"},
		{"one number", "12344", 0, 0, Unread, "position-unread"},
		{"one number", ",11.12", 0, 0, Unread, "position-unread"},
		{"three numbers", "1,2,3", 0, 0, Unread, "position-unread"},
		{"two minute marks are seconds", "60°42''N 6°39''E", 0, 0, Unread, "position-unread"},
		{"datum in the words", "60.7034, 6.6512 (WGS84)", 60.7034, 6.6512, Decimal, ""},
		{"no side: half the world away", "32° 4' 18'' 112° 43' 39''", 0, 0, Unread, "position-no-side"},
		{"one side", "32° 4' 18'' N 112° 43' 39''", 32.071667, 112.7275, DegMinSec, "position-no-side"},
		{"O is two things", "60°42'N 6°39'O", 60.7, 6.65, DegMin, "position-letter-o"},
		{"swapped is not turned round", "100°N 20°W", 0, 0, Unread, "position-range"},
		{"minutes go to 59", "60°72'N 6°39'E", 0, 0, Unread, "position-unread"},
		{"sign and letter contradict", "-60.7 N, 6.65 E", 0, 0, Unread, "position-unread"},
		{"sign and letter contradict", "60.7N -6.6E", 0, 0, Unread, "position-unread"},
		{"a piece of a township, perhaps", "10N 8W", 0, 0, Unread, "position-township"},
		{"a piece of a township, perhaps", "S 33, E 18", 0, 0, Unread, "position-township"},
		{"one value", "60°42'N", 0, 0, Unread, "position-unread"},
		{"two latitudes", "60°42'N 6°39'S", 0, 0, Unread, "position-unread"},
		{"words", "by the church", 0, 0, Unread, "position-unread"},
	} {
		p := ReadPosition(c.text)
		code := ""
		if len(p.Warnings) > 0 {
			code = p.Warnings[0].Code
		}
		if p.Form != c.form || math.Abs(p.Lat-c.lat) > 1e-6 || math.Abs(p.Lon-c.lon) > 1e-6 || code != c.code {
			t.Errorf("%s (%s): %v %.6f %.6f %q, want %v %.6f %.6f %q", c.text, c.why, p.Form, p.Lat, p.Lon, code, c.form, c.lat, c.lon, c.code)
		}
	}
	if p := ReadPosition("60.7034, 6.6512 WGS 84"); p.Datum != "WGS 84" {
		t.Errorf("datum %q", p.Datum)
	}
}

func TestPositionWithin(t *testing.T) {
	p := ReadPosition(`60°42'12"N 6°39'05"E`)
	for metres, want := range map[float64]string{
		41:   "60.7033° N, 6.6514° E", // interface.md 2.4
		2:    "60.70333° N, 6.65139° E",
		1200: "60.70° N, 6.65° E", 12e3: "60.7° N, 6.7° E", 2e5: "61° N, 7° E",
	} {
		if got := p.Within(metres); got != want {
			t.Errorf("± %g m: %s, want %s", metres, got, want)
		}
	}
	if got := (Position{Lat: -0.001, Lon: -0.001, Form: Decimal}).Within(1e5); got != "0.0° N, 0.0° E" {
		t.Error("nothing is minus nought:", got)
	}
}

func TestReadLength(t *testing.T) {
	for _, c := range []struct {
		why, text string
		min, max  float64
		words     string
		code      string
	}{
		{"metres", "348 m", 348, 348, "348 m", ""},
		{"the international foot is 0.3048 m", "1200 ft", 365.76, 365.76, "366 m", ""},
		{"range", "1,150-1,200 m", 1150, 1200, "1150 to 1200 m", ""},
		{"about", "ca. 300 m", 300, 300, "about 300 m", ""},
		{"accuracy", "± 8 m", 8, 8, "8 m", ""},
		{"above the sea", "350 m a.s.l.", 350, 350, "350 m", ""},
		{"above the sea", "300 moh", 300, 300, "300 m", ""},
		{"thousands by a blank", "1 200 m", 1200, 1200, "1200 m", ""},
		{"decimal comma", "0,5 m", 0.5, 0.5, "0.5 m", ""},
		{"foot mark", "2500'", 762, 762, "762 m", ""},
		{"kilometres", "1.2 km", 1200, 1200, "1200 m", ""},
		{"fathom is six feet", "10 fathoms", 18.288, 18.288, "18 m", ""},
		{"below", "<4000ft", 0, 1219.2, "up to 1219 m", ""},
		{"below the sea", "-2 m", -2, -2, "-2 m", ""},
		{"no unit", "1150", 1150, 1150, "1150 m", "length-no-unit"},
		{"order", "300-200 m", 200, 300, "200 to 300 m", "length-order"},
		{"words", "high up", 0, 0, "", "length-unread"},
		{"two figures", "30 40 m", 0, 0, "", "length-unread"},
	} {
		l := ReadLength(c.text)
		code := ""
		if len(l.Warnings) > 0 {
			code = l.Warnings[0].Code
		}
		if math.Abs(l.Min-c.min) > 1e-9 || math.Abs(l.Max-c.max) > 1e-9 || l.String() != c.words || code != c.code {
			t.Errorf("%s (%s): %g to %g %q %q, want %g to %g %q %q", c.text, c.why, l.Min, l.Max, l, code, c.min, c.max, c.words, c.code)
		}
	}
}

func TestNone(t *testing.T) {
	for text, want := range map[string]None{"": NotTyped, "not recorded": NotRecorded, "[illegible]": Illegible, "[...]": Illegible, "unknown": NotRecorded} {
		if p, l := ReadPosition(text), ReadLength(text); p.None != want || p.Known() || l.None != want || l.Known() {
			t.Errorf("%q: none %d and %d, want %d", text, p.None, l.None, want)
		}
	}
}

func FuzzReadPosition(f *testing.F) {
	for _, s := range []string{`60°42'12"N 6°39'05"E`, "60,7034 6,6512", "17d 33m 5s N/99d 30m 3s W", "T28S R19W", "32V 372000 6732000", "UTM 32 N E 361500 N 6730000", "32V LN 615 300", "E032S18CB", "TQ 123 456", "+27.5916+086.5640+8850CRSWGS_84/", "geo:60.7,6.6;u=3", "604212N 0063905E", "Lon: 6.65 Lat: 60.7 ED50", "99 99 99 N", "60.42.12N 6.39.05E", "º'\"N", "-46,33 51,8717", "1,2,3"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p := ReadPosition(text)
		if !p.Known() {
			if p.None == Stated && len(p.Warnings) == 0 {
				t.Errorf("%q: not read and no reason", text)
			}
			return
		}
		if math.IsNaN(p.Lat+p.Lon) || math.Abs(p.Lat) > 90 || math.Abs(p.Lon) > 180 || !(p.Step > 0) {
			t.Errorf("%q: %+v", text, p)
		}
		if q := ReadPosition(p.Within(0.01)); math.Abs(q.Lat-p.Lat) > 1e-6 || math.Abs(q.Lon-p.Lon) > 1e-6 {
			t.Errorf("%q: written %s, read again %v", text, p.Within(0.01), q)
		}
	})
}

func FuzzReadLength(f *testing.F) {
	for _, s := range []string{"348 m", "1,150-1,200 ft", "ca. 300 m", "± 8 m", "1 200 m", "-2 m", "1.2.3", "2500'"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		l := ReadLength(text)
		if !l.Known() {
			if l.None == Stated && len(l.Warnings) == 0 {
				t.Errorf("%q: not read and no reason", text)
			}
			return
		}
		if math.IsNaN(l.Min+l.Max) || l.Min > l.Max || !(l.Error > 0) {
			t.Errorf("%q: %+v", text, l)
		}
		_ = l.String()
	})
}

// A position written out in each form is read as that position.
func TestReadsWhatIsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat := rapid.IntRange(-90*3600, 90*3600).Draw(t, "lat")
		lon := rapid.IntRange(-180*3600, 180*3600).Draw(t, "lon")
		wantLat, wantLon := float64(lat)/3600, float64(lon)/3600
		side := func(v int, plus, minus string) (int, string) {
			if v < 0 {
				return -v, minus
			}
			return v, plus
		}
		a, ns := side(lat, "N", "S")
		b, ew := side(lon, "E", "W")
		for _, text := range []string{
			fmt.Sprintf(`%d°%02d'%02d"%s %d°%02d'%02d"%s`, a/3600, a/60%60, a%60, ns, b/3600, b/60%60, b%60, ew),
			fmt.Sprintf(`%s %d° %d′ %d″, %s %d° %d′ %d″`, ns, a/3600, a/60%60, a%60, ew, b/3600, b/60%60, b%60),
			fmt.Sprintf(`%d %d %d %s / %d %d %d %s`, a/3600, a/60%60, a%60, ns, b/3600, b/60%60, b%60, ew),
			fmt.Sprintf(`%d°%.6f'%s %d°%.6f'%s`, a/3600, float64(a%3600)/60, ns, b/3600, float64(b%3600)/60, ew),
			strconv.FormatFloat(wantLat, 'f', 8, 64) + ", " + strconv.FormatFloat(wantLon, 'f', 8, 64),
		} {
			p := ReadPosition(text)
			if math.Abs(p.Lat-wantLat) > 1e-7 || math.Abs(p.Lon-wantLon) > 1e-7 || !p.Known() {
				t.Fatalf("%s: %v %v, want %v %v; %v", text, p.Lat, p.Lon, wantLat, wantLon, p.Warnings)
			}
		}
	})
}

func BenchmarkReadPosition(b *testing.B) {
	for name, texts := range map[string][]string{
		"degrees": {`60°42'12"N 6°39'05"E`, "60.7034, 6.6512", "60°42.2'N 6°39.1'E"},
		"words":   {"latitud norte 19°25'18'', longitud oeste 99°10'15''", "60.7034, 6.6512 (North American Datum 1927)"},
		"grids":   {"32V 361500 6730000", "UTM 32V E 361500 N 6730000", "32V LN 615 300", "E032S18CB", "TQ 123 456", "T12N R4W Sec. 23 NE1/4"},
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				ReadPosition(texts[i%len(texts)])
			}
		})
	}
}

func BenchmarkReadLength(b *testing.B) {
	texts := []string{"348 m", "1,150-1,200 ft", "ca. 300 m"}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		ReadLength(texts[i%len(texts)])
	}
}
