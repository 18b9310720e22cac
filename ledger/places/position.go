package places

import (
	"math"
	"strconv"
	"strings"
)

// Form is how a position is written.
type Form uint8

const (
	Unread    Form = iota
	Decimal        // 60.7033, 6.6514
	DegMin         // 60°42.2' N
	DegMinSec      // 60°42'12" N
)

var formNames = [...]string{"", "decimal degrees", "degrees decimal minutes", "degrees minutes seconds"}

// String is the form in the words of Darwin Core's verbatimCoordinateSystem.
func (f Form) String() string { return formNames[f] }

// Position is a point as read, on the datum of the label; OnWGS84 brings it to
// WGS84.
type Position struct {
	Lat, Lon float64 // decimal degrees; north and east positive
	// Step is the smallest unit that both coordinates show, in degrees: 1/3600
	// for whole seconds, 0.01 for two decimals.
	Step  float64
	Form  Form
	Datum string // when it stands in the same words or the grid has its own; EPSG's name: WGS 84
	// Cell is half the diagonal in metres of the square that a reference of
	// MGRS, a national grid or the quarter-degree grid names; the point is then
	// its centre. 0: a point was written.
	Cell     float64
	None     None
	Warnings []Warning

	grid *grid // nil: the degrees themselves were written
}

// Known reports whether there is a reading.
func (p Position) Known() bool { return p.Form != Unread }

// Precision is the error in metres that comes from how closely the
// coordinates are written (see CoordinatePrecision); for a square, Cell.
func (p Position) Precision() float64 {
	if !p.Known() {
		return 0
	}
	if p.Cell > 0 {
		return p.Cell
	}
	return CoordinatePrecision(p.Lat, p.Step)
}

// String is the position with as many decimals as its own precision bears
// out: 60.7033° N, 6.6514° E. Empty when unknown.
func (p Position) String() string { return p.Within(p.Precision()) }

// Within is the position with as many decimals as an error of metres bears
// out: the last figure stands for no more than the error.
func (p Position) Within(metres float64) string {
	if !p.Known() {
		return ""
	}
	d := Decimals(metres)
	return axis(p.Lat, d, "N", "S") + ", " + axis(p.Lon, d, "E", "W")
}

// metresPerDegree is a degree of latitude at the equator and of the meridian
// on the average, near enough to choose decimals.
const metresPerDegree = 111320

// Decimals is the number of decimals of a degree, 0 to 7, that an error in
// metres bears out.
func Decimals(metres float64) int {
	d := 0
	for unit := float64(metresPerDegree); d < 7 && !(unit <= metres); d++ {
		unit /= 10
	}
	return d
}

func axis(v float64, decimals int, plus, minus string) string {
	s := strconv.FormatFloat(math.Abs(v), 'f', decimals, 64)
	side := plus
	if v < 0 && strings.Trim(s, "0.") != "" {
		side = minus
	}
	return s + "° " + side
}

// WGS84 ellipsoid: semi-major axis in metres and first eccentricity squared
// (a 6378137 m, 1/f 298.257223563).
const (
	semiMajor    = 6378137
	flattening   = 1 / 298.257223563
	eccentricity = flattening * (2 - flattening)
)

// CoordinatePrecision is the error in metres of a point at latitude lat whose
// coordinates are given to step degrees: the diagonal of the cell of one step
// in latitude and one in longitude on the WGS84 ellipsoid. Formula: Wieczorek
// et al. 2004, from memory; it gives the 52 published values of Chapman &
// Wieczorek, Georeferencing Best Practices (GBIF 2020), table of uncertainty
// due to coordinate precision, to a metre.
func CoordinatePrecision(lat, step float64) float64 {
	phi := lat * math.Pi / 180
	w := 1 - eccentricity*math.Sin(phi)*math.Sin(phi)
	meridian := semiMajor * (1 - eccentricity) / math.Pow(w, 1.5)
	parallel := semiMajor / math.Sqrt(w) * math.Cos(phi)
	rad := step * math.Pi / 180
	return math.Hypot(meridian*rad, parallel*rad)
}

// ReadPosition reads a latitude and a longitude written together. It never
// returns an error: what cannot be read has Form Unread and a warning, or None
// set when the words say that there is none.
func ReadPosition(text string) Position {
	text = strings.TrimSpace(text)
	if n, ok := noneOf(text); ok {
		return Position{None: n}
	}
	if len(text) > maxText {
		return noPosition("position-unread", "too long for a position")
	}
	if why := gridReference(text); why != "" {
		return noPosition("position-grid", why)
	}
	text, datum := cutDatum(text)
	toks, bad := lex(text, decimalCommas(text))
	if bad != "" {
		return noPosition("position-unread", "cannot read "+strconv.Quote(bad)+" as part of a position")
	}
	a, b, ok := halves(toks)
	if !ok {
		return noPosition("position-unread", "cannot be read as latitude and longitude; for example 60°42'12\"N 6°39'05\"E or 60.7033, 6.6514")
	}
	p := pair(a, b)
	p.Datum = datum
	return p
}

// ReadPair reads latitude and longitude written apart.
func ReadPair(lat, lon string) Position {
	if n, ok := noneOf(strings.TrimSpace(lat)); ok {
		return Position{None: n}
	}
	if n, ok := noneOf(strings.TrimSpace(lon)); ok {
		return Position{None: n}
	}
	ta, bada := lex(lat, true)
	tb, badb := lex(lon, true)
	if bad := bada + badb; bad != "" || len(lat)+len(lon) > maxText {
		return noPosition("position-unread", "cannot read "+strconv.Quote(bad)+" as part of a position")
	}
	return pair(ta, tb)
}

const maxText = 200

func noPosition(code, message string) Position {
	return Position{Warnings: []Warning{{code, message}}}
}

// pair puts two angles together.
func pair(ta, tb []token) Position {
	a, whyA := angleOf(ta)
	b, whyB := angleOf(tb)
	if why := whyA; why != "" || whyB != "" {
		if why == "" {
			why = whyB
		}
		return noPosition("position-unread", why)
	}
	if a.side == east && b.side != east || b.side == north && a.side != north {
		a, b = b, a
	}
	if a.side == east || b.side == north {
		return noPosition("position-unread", "both values are of the same axis")
	}
	p := Position{Lat: a.value, Lon: b.value, Step: max(a.step, b.step), Form: max(a.form, b.form)}
	if math.Abs(p.Lat) > 90 || math.Abs(p.Lon) > 180 {
		w := "latitude goes to 90° and longitude to 180°"
		if math.Abs(p.Lat) <= 180 && math.Abs(p.Lon) <= 90 {
			w += "; are the two swapped?"
		}
		return noPosition("position-range", w)
	}
	if p.Form > Decimal && !a.sided && !b.sided {
		return noPosition("position-no-side", "no N, S, E or W says on which side of the world; write them, or a reading beside the words")
	}
	if p.Form > Decimal && !(a.sided && b.sided) {
		p.Warnings = append(p.Warnings, Warning{"position-no-side", "one value has no N, S, E or W: read as north or east"})
	}
	if a.letterO || b.letterO {
		p.Warnings = append(p.Warnings, Warning{"position-letter-o",
			"O is read as east (German, Scandinavian); in French, Spanish and Portuguese it is west: write E or W"})
	}
	return p
}
