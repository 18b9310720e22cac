package places

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

type lengthCase struct {
	why, text string
	min, max  float64
	words     string
	code      string // of the first warning
}

func testLengths(t *testing.T, read func(string) Length, cases []lengthCase) {
	t.Helper()
	for _, c := range cases {
		l := read(c.text)
		code := ""
		if len(l.Warnings) > 0 {
			code = l.Warnings[0].Code
		}
		if math.Abs(l.Min-c.min) > 1e-6 || math.Abs(l.Max-c.max) > 1e-6 || l.String() != c.words || code != c.code {
			t.Errorf("%s (%s): %g to %g %q %v, want %g to %g %q %q", c.text, c.why, l.Min, l.Max, l, l.Warnings, c.min, c.max, c.words, c.code)
		}
	}
}

// Units by their definitions (see measures); ways of writing: common practice,
// no source, but for those that say so.
func TestReadElevation(t *testing.T) {
	testLengths(t, ReadElevation, []lengthCase{
		{"plain", "348 m", 348, 348, "348 m", ""},
		{"thousands by a comma", "1,200 m", 1200, 1200, "1200 m", ""},
		{"thousands by a point", "1.200 m ü.M.", 1200, 1200, "1200 m", "length-thousands"},
		{"no land is so high: a decimal sign", "123.456 m", 123.456, 123.456, "123.46 m", ""},
		{"thousands by a blank", "1 200 m o.h.", 1200, 1200, "1200 m", ""},
		{"thousands by an apostrophe", "1'200 m ü. M.", 1200, 1200, "1200 m", ""},
		{"thousands by a typographic apostrophe", "1’200 m", 1200, 1200, "1200 m", ""},
		{"unit first", "ft. 2600", 792.48, 792.48, "792 m", ""},
		{"Italian habit", "m 1200 s.l.m.", 1200, 1200, "1200 m", ""},
		{"Spanish", "1200 m.s.n.m.", 1200, 1200, "1200 m", ""},
		{"Spanish, together", "1200 msnm", 1200, 1200, "1200 m", ""},
		{"Swiss Italian", "1200 m s.m.", 1200, 1200, "1200 m", ""},
		{"German", "1200 m ü. d. M.", 1200, 1200, "1200 m", ""},
		{"Norwegian", "ca. 650 moh.", 650, 650, "about 650 m", ""},
		{"Swedish", "650 m ö.h.", 650, 650, "650 m", ""},
		{"Czech", "650 m n. m.", 650, 650, "650 m", ""},
		{"French", "alt. 1200 m", 1200, 1200, "1200 m", ""},
		{"French range", "entre 1200 et 1300 m", 1200, 1300, "1200 to 1300 m", ""},
		{"Spanish range", "1200 a 1300 m", 1200, 1300, "1200 to 1300 m", ""},
		{"words before", "Elevation above sea level: 300 m", 300, 300, "300 m", ""},
		{"over the sea is no bound", "høyde over havet 300 m", 300, 300, "300 m", ""},
		{"feet in a range", "500-600 ft.", 152.4, 182.88, "152 to 183 m", ""},
		{"feet in brackets", "2480 [ft]", 755.904, 755.904, "756 m", ""},
		{"below", "below 300 m", 0, 300, "up to 300 m", ""},
		{"above", "above 300 m", 300, 300, "more than 300 m", ""},
		{"above, behind", "1000+ m", 1000, 1000, "more than 1000 m", ""},
		{"the level of the sea", "sea level", 0, 0, "0 m", ""},
		{"the level of the sea", "at sea-level", 0, 0, "0 m", ""},
		{"the level of the sea", "au niveau de la mer", 0, 0, "0 m", ""},
		{"above the sea, Swedish", "1200 m över havet", 1200, 1200, "1200 m", ""},
		{"above the sea, Dutch", "1200 m boven zeeniveau", 1200, 1200, "1200 m", ""},
		{"above the sea, Russian", "1200 м над ур. м.", 1200, 1200, "1200 m", ""},
		{"above the mean sea", "1200 m above mean sea level", 1200, 1200, "1200 m", ""},
		{"more than, Swedish", "över 500 m", 500, 500, "more than 500 m", ""},
		{"at the sea", "near sea level", 0, 0, "about 0 m", ""},
		{"from and to, Dutch", "tussen 1200 en 1300 m", 1200, 1300, "1200 to 1300 m", ""},
		{"thousands left out", "5-6000 ft", 1.524, 1828.8, "2 to 1829 m", "length-order"},
		{"a short first figure is none left out", "50-100 m", 50, 100, "50 to 100 m", ""},
		{"a letter for a figure", "l200 m", 0, 0, "", "length-unread"},
		{"a letter for a figure", "120O m", 0, 0, "", "length-unread"},
		{"an exponent", "1e3 m", 0, 0, "", "length-unread"},
		{"a dash apart", "- 5 m", 0, 0, "", "length-unread"},
		{"below the sea", "20 m below sea level", -20, -20, "-20 m", ""},
		{"below the sea", "-20 m", -20, -20, "-20 m", ""},
		{"below the sea", "282 ft b.s.l.", -85.9536, -85.9536, "-86 m", ""},
		{"from below the sea", "-5 to -2 m", -5, -2, "-5 to -2 m", ""},
		{"two units that agree", "1200m (3937ft)", 1200, 1200, "1200 m", ""},
		{"two units that agree", "3937 ft (1200 m)", 1199.9976, 1199.9976, "1200 m", ""},
		{"two units, with =", "1000 ft = 305 m", 304.8, 304.8, "305 m", ""},
		{"two units, with a slash", "1200 m / 3937 ft", 1200, 1200, "1200 m", ""},
		{"two ranges in two units", "300-350 ft. (91-107 m)", 91.44, 106.68, "91 to 107 m", ""},
		{"two units that do not agree: all between", "1200 m (3000 ft)", 914.4, 1200, "914 to 1200 m", "length-two-units"},
		{"± is the error", "1200 ± 50 m", 1200, 1200, "1200 m", ""},
		{"± before is about", "± 300 m", 300, 300, "about 300 m", ""},
		{"a shortened range, both readings", "1150-80 m", 80, 1180, "80 to 1180 m", "length-order"},
		{"no unit", "1150", 1150, 1150, "1150 m", "length-no-unit"},
		{"what machines write", "-9999", 0, 0, "", "length-sentinel"},
		{"what machines write", "9999", 0, 0, "", "length-sentinel"},
		{"what machines write", "-99", 0, 0, "", "length-sentinel"},
		{"99 may be meant", "99", 99, 99, "99 m", "length-no-unit"},
		{"9999 ft may be meant", "9999 ft", 3047.6952, 3047.6952, "3048 m", ""},
		{"Austrian foot, 1.89648384/6 m", "3000 Fuss", 948.24192, 948.24192, "948 m", "length-old-unit"},
		{"French foot, 144/443.296 m", "3000 pieds", 974.518155, 974.518155, "975 m", "length-old-unit"},
		{"bare words", "on the hill", 0, 0, "", "length-unread"},
		{"an angle beside it", "1200 m, slope 30°", 0, 0, "", "length-unread"},
		{"two figures without a sign", "30 40 m", 0, 0, "", "length-unread"},
	})
	for text, want := range map[string]float64{"1200 ± 50 m": 50, "1200 m": 50, "1250 m": 5, "2600 ft": 15.24, "1200 m (3937 ft)": 50, "3937 ft (1200 m)": 50, "348 m": 0.5} {
		if l := ReadElevation(text); math.Abs(l.Error-want) > 1e-9 {
			t.Errorf("%s: error %g, want %g", text, l.Error, want)
		}
	}
}

func TestReadDepth(t *testing.T) {
	testLengths(t, ReadDepth, []lengthCase{
		{"record.md", "0.8 m", 0.8, 0.8, "0.8 m", ""},
		{"a minus is down", "-5 m", 5, 5, "5 m", ""},
		{"a minus is down, in a range", "-5 to -2 m", 2, 5, "2 to 5 m", ""},
		{"a fathom is six feet", "2-3 fathoms", 3.6576, 5.4864, "4 to 5 m", ""},
		{"brasse of five French feet, from memory", "10 brasses", 16.241969, 16.241969, "16 m", "length-old-unit"},
		{"Norwegian favn, from memory", "10 favner", 18.8244, 18.8244, "19 m", "length-old-unit"},
		{"nautical Faden, from memory", "10 Faden", 18.288, 18.288, "18 m", "length-old-unit"},
		{"Swedish famn of six fot", "10 famnar", 17.81406, 17.81406, "18 m", "length-old-unit"},
		{"below is deeper", "below 3 m", 3, 3, "more than 3 m", ""},
		{"to", "to 3 m deep", 0, 3, "up to 3 m", ""},
		{"at the surface", "surface", 0, 0, "0 m", ""},
		{"what machines write", "-999", 0, 0, "", "length-sentinel"},
		{"both ends count in the finer unit", "1-1.5 m", 1, 1.5, "1 to 1.5 m", ""},
		{"centimetres", "20-30 cm", 0.2, 0.3, "0.2 to 0.3 m", ""},
	})
}

func TestReadLengthFractions(t *testing.T) {
	testLengths(t, ReadLength, []lengthCase{
		{"half", "½ mile", 804.672, 804.672, "805 m", ""},
		{"half, by a slash", "1/2 mi", 804.672, 804.672, "805 m", ""},
		{"one and a half", "1½ km", 1500, 1500, "1500 m", ""},
		{"one and a half, apart", "1 1/2 km", 1500, 1500, "1500 m", ""},
		{"a point is decimal in a distance", "1.200 km", 1200, 1200, "1200 m", ""},
		{"an accuracy", "+/- 8 m", 8, 8, "8 m", ""},
	})
	if l := ReadLength("10½ km"); l.Error != 250 {
		t.Errorf("a half is good to a quarter: %g", l.Error)
	}
}

func TestAsFeet(t *testing.T) {
	for text, want := range map[string]bool{"2600 m": false, "9800 m": true, "12000": true, "40000 m": false, "9800 ft": false} {
		if got := ReadElevation(text).OnlyAsFeet(lowestLand, highestLand); got != want {
			t.Errorf("%s: %v, want %v", text, got, want)
		}
	}
	if f := ReadElevation("9800 m").AsFeet(); math.Abs(f.Max-2987.04) > 1e-9 {
		t.Errorf("as feet %g", f.Max)
	}
}

// TestLengthsAgain: a length written out and read again is the same.
func TestLengthsAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.IntRange(0, 8000).Draw(t, "a")
		b := a + rapid.IntRange(0, 800).Draw(t, "more")
		unit := rapid.SampledFrom([]string{"m", "ft", "moh.", "m ü.M.", "feet"}).Draw(t, "unit")
		head := rapid.SampledFrom([]string{"", "ca. ", "alt. ", "above ", "below "}).Draw(t, "head")
		text := head + fmt.Sprint(a) + " " + unit
		if b > a {
			text = fmt.Sprintf("%s%d-%d %s", head, a, b, unit)
		}
		l := ReadElevation(text)
		if !l.Known() {
			t.Fatalf("%q: %v", text, l.Warnings)
		}
		again := ReadElevation(l.String())
		if again.String() != l.String() {
			t.Fatalf("%q: %s, again %s", text, l, again)
		}
	})
}

func FuzzReadElevation(f *testing.F) {
	for _, s := range []string{"1.200-1.300 m ü.M.", "1200m (3937ft)", "20 m below sea level", "± 300 m", "1150-80 m", "-9999", "ft. 2600", "1 1/2 km", "½ mi", "1000+ m", "12 favner", "0999", "m 1200 s.l.m.", "-99(1'"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, read := range []func(string) Length{ReadElevation, ReadDepth, ReadLength} {
			l := read(text)
			if !l.Known() {
				if l.None == Stated && len(l.Warnings) == 0 {
					t.Errorf("%q: not read and no reason", text)
				}
				continue
			}
			if math.IsNaN(l.Min+l.Max) || l.Min > l.Max || !(l.Error > 0) {
				t.Errorf("%q: %+v", text, l)
			}
			if again := read(l.String()); again.String() != l.String() && math.Abs(l.Max) < 8000 {
				t.Errorf("%q: %s, again %s", text, l, again)
			}
		}
	})
}

func BenchmarkReadElevation(b *testing.B) {
	texts := []string{"348 m", "1,150-1,200 ft", "ca. 300 m ü.M.", "1200 m (3937 ft)", "20 m below sea level"}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		ReadElevation(texts[i%len(texts)])
	}
}
