package places

import (
	"math"
	"strings"
	"testing"
)

// Ways to write one degree, two minutes, three seconds. The marks are those
// that GeographicLib documents (from memory of its manual page) and look-alikes
// from labels; that there are as many as in its published sample of 29 is by
// design, that they are the same is not known.
func TestMarks(t *testing.T) {
	const want = 1 + 2./60 + 3./3600
	for _, text := range []string{
		"1°2′3″", "1º2'3\"", "1˚2’3”", "1∘2‘3“", "1⁰2´3´´", "1d2m3s", "1D2M3S", "1°2`3``", "1°2ʹ3ʺ", "1°2‛3‟", "1°2ˊ3ˊˊ", "1°2ˋ3ˋˋ",
		"1°2'3''", "1°2′3′′", "1°2’3’’", "1°2´3˝", "1°2‵3‶", "1゜2＇3＂", "1*2'3\"", "1:2:3", "1°2'3.0\"", "1° 2′ 3″", "1°\u00a02′\u20093″", "1°\u200b2′\u202f3″",
		"1 2 3", "1-2-3", "1°02'03\"", "001°02′03″", "1deg 2min 3sec", "1 deg. 2 min. 3 sec.", "1o2'3\"", "1g2m3s", "1.2.3", "1°2.05′", "1.0341666666667°",
		"+1°2′3″", "1§2'3\"", "1&deg;2&prime;3&Prime;", "1Â°2'3\"", "1°2â€²3â€³", "1\ufffd2'3\"", "1?2'3\"", "１°２′３″", "1 度 2 分 3 秒", "1°2'3“",
	} {
		if got, ok := ReadAngle(text); !ok || math.Abs(got-want) > 1e-9 {
			t.Errorf("%q: %.9f %v", text, got, ok)
		}
		both := text + " N, " + text + " E"
		if p := ReadPosition(both); !p.Known() || math.Abs(p.Lat-want) > 1e-9 || math.Abs(p.Lon-want) > 1e-9 {
			t.Errorf("%q: %+v", both, p)
		}
	}
	for _, minus := range []string{"-", "−", "‐", "‑", "‒", "–", "—", "―", "﹣", "－", "➖", "⁻"} {
		if got, ok := ReadAngle(minus + "1°2′3″"); !ok || math.Abs(got+want) > 1e-9 {
			t.Errorf("%q: %.9f %v", minus, got, ok)
		}
	}
}

// ReadAngle refuses what is no angle, and what could be two.
func TestAnglesRefused(t *testing.T) {
	for why, texts := range map[string][]string{
		"minutes and seconds go to 59":    {"5d60", "5d70.0", "5°60'", "5°2'60\"", "131°47'132\"", "5°60.5'"},
		"run together":                    {"043300S", "0433S", "043300 S", "0433 S", "12344"},
		"beyond 180°":                     {"432", "180.0001", "181 E"},
		"two letters":                     {"N60S", "60 N N"},
		"decimals in the middle":          {"60.5°30'"},
		"no figures, or none of an angle": {"", " ", "N", "°", "tim", "1°2'3\"4", "1'2°", "--1", "1e5", "0x10"},
	} {
		for _, text := range texts {
			if got, ok := ReadAngle(text); ok {
				t.Errorf("%s: %q read as %g", why, text, got)
			}
		}
	}
	// As GeographicLib: exactly 60 with a point may stand.
	if got, ok := ReadAngle("5d60."); !ok || got != 6 {
		t.Errorf("5d60.: %g %v", got, ok)
	}
}

// Words for the sides of the world, before and after.
func TestSides(t *testing.T) {
	const lat, lon = 60.7, 6.65
	for _, c := range []struct {
		ns, ew   string
		lat, lon float64
	}{
		{"N", "E", lat, lon}, {"S", "W", -lat, -lon}, {"n", "w", lat, -lon}, {"North", "West", lat, -lon}, {"Nord", "Est", lat, lon}, {"Sud", "Ouest", -lat, -lon},
		{"Norte", "Oeste", lat, -lon}, {"Sur", "Este", -lat, lon}, {"Sul", "Leste", -lat, lon}, {"nord", "øst", lat, lon}, {"lat. bor.", "long. or.", lat, lon}, {"lat. austr.", "long. occ.", -lat, -lon}, {"sør", "vest", -lat, -lon}, {"Süd", "Ost", -lat, lon},
		{"n.Br.", "ö.L.", lat, lon}, {"s. Br.", "w. L.", -lat, -lon}, {"NB", "OL", lat, lon}, {"ZB", "WL", -lat, -lon}, {"nördl. Breite", "östl. Länge", lat, lon}, {"südlicher Breite", "westlicher Länge", -lat, -lon},
		{"lat. N", "long. W", lat, -lon}, {"N. lat.", "E. long.", lat, lon}, {"latitud norte", "longitud oeste", lat, -lon}, {"LN", "LO", lat, -lon}, {"с.ш.", "в.д.", lat, lon}, {"ю. ш.", "з. д.", -lat, -lon},
		{"lat. austr.", "long. occ.", -lat, -lon}, {"latitude sud", "longitude ouest", -lat, -lon}, {"N", "E Gr.", lat, lon}, {"N", "W of Greenwich", lat, -lon}, {"V", "V", 0, 0},
	} {
		for _, f := range []string{"60°42' %s, 6°39' %s", "%s 60°42', %s 6°39'", "60.7 %s 6.65 %s", "60 42 %s / 6 39 %s", "60°42' %s\t6°39' %s"} {
			text := strings.Replace(strings.Replace(f, "%s", c.ns, 1), "%s", c.ew, 1)
			p := ReadPosition(text)
			if c.lat == 0 {
				if p.Known() {
					t.Errorf("%q: %v", text, p)
				}
				continue
			}
			if !p.Known() || math.Abs(p.Lat-c.lat) > 1e-9 || math.Abs(p.Lon-c.lon) > 1e-9 {
				t.Errorf("%q: %v %v, want %g %g", text, p, p.Warnings, c.lat, c.lon)
			}
		}
	}
}
