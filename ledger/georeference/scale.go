package georeference

import (
	"strconv"
	"strings"
)

// Standard is how well a map is drawn.
type Standard uint8

const (
	UnknownStandard Standard = iota
	HalfMillimetre           // Geoscience Australia: a line of 0.5 mm
	NMAS                     // the National Map Accuracy Standards of the US
)

// MapError is the error in metres of a point on a map of 1 : scale. Where the
// standard is not known it is 1 mm on the paper, with that of Geoscience
// Australia 0.5 mm (Chapman & Wieczorek 2020, table of horizontal accuracy and
// its text); with that of the US 1/30 inch on maps of a greater scale than
// 1:20,000 and 1/50 inch on others (ibid., text; the figures of its column
// "USGS" from 1:25,000 on do not follow it, those of Wieczorek 2001 do).
func MapError(scale float64, s Standard) float64 {
	const inch = 0.0254
	switch {
	case s == HalfMillimetre:
		return scale * 0.0005
	case s == NMAS && scale < 20000:
		return scale * inch / 30
	case s == NMAS:
		return scale * inch / 50
	}
	return scale * 0.001
}

// MeasuringError is the error in metres of taking a point off a printed map by
// hand: 1 mm on the paper (ibid.).
func MeasuringError(scale float64) float64 { return scale * 0.001 }

// standards are words that say by which standard a map was drawn; from memory.
var standards = []struct {
	word string
	is   Standard
}{{"usgs", NMAS}, {"geological survey quad", NMAS}, {"7.5", NMAS}, {"geoscience australia", HalfMillimetre}, {"natmap", HalfMillimetre}, {"auslig", HalfMillimetre}}

// onScreen are words that say that a map was no printed one.
var onScreen = []string{"screen", "digital", "online", "web map", "website", "gis", "satellite", "skjerm", "bildschirm", "écran", "pantalla"}

// sheet is a map that somebody took a position from.
type sheet struct {
	scale    float64
	standard Standard
	screen   bool
}

// scaleOf reads the scale of a map in words such as "map 1:50 000", "1/25000",
// "1:50k"; scale 0: none is stated.
func scaleOf(words string) sheet {
	var m sheet
	lower := strings.ToLower(words)
	for i := 0; i+2 < len(lower) && m.scale == 0; i++ {
		if lower[i] == '1' && (i == 0 || !digit(lower[i-1])) && strings.IndexByte(":/", lower[i+1]) >= 0 {
			m.scale = scaleFigure(strings.TrimLeft(lower[i+2:], " "))
		}
	}
	if m.scale == 0 {
		return m
	}
	for _, s := range standards {
		if strings.Contains(lower, s.word) {
			m.standard = s.is
			break
		}
	}
	for _, w := range onScreen {
		m.screen = m.screen || strings.Contains(lower, w)
	}
	return m
}

// scaleFigure reads 50 000, 50,000, 50.000, 50'000, 50000 or 50k; 0 when it is
// no scale of a map from 1:100 on.
func scaleFigure(s string) float64 {
	var digits strings.Builder
	i := 0
	for i < len(s) {
		switch {
		case digit(s[i]):
			digits.WriteByte(s[i])
		case strings.IndexByte(" ,.'", s[i]) >= 0 && i+3 < len(s) && digit(s[i+1]) && digit(s[i+2]) && digit(s[i+3]) && (i+4 == len(s) || !digit(s[i+4])):
		default:
			goto done
		}
		i++
	}
done:
	v, err := strconv.ParseFloat(digits.String(), 64)
	if err != nil || digits.Len() > 9 {
		return 0
	}
	if i < len(s) && s[i] == 'k' {
		v *= 1000
	}
	if v < 100 {
		return 0
	}
	return v
}

func digit(c byte) bool { return c >= '0' && c <= '9' }
