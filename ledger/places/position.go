package places

import (
	"math"
	"strconv"
	"strings"

	"blotter/ledger/geodesy"
)

// Form is how a position is written.
type Form uint8

const (
	Unread        Form = iota
	Decimal            // 60.7033, 6.6514
	DegMin             // 60°42.2' N
	DegMinSec          // 60°42'12" N
	ISO6709            // +60.7033+006.6514/, geo:60.7033,6.6514
	UTM                // 32V 372000 6732000
	MGRS               // 32VLN615300
	NationalGrid       // TQ 123 456
	QuarterDegree      // E032S18CB
)

var formNames = [...]string{
	"", "decimal degrees", "degrees decimal minutes", "degrees minutes seconds", "ISO 6709", "UTM", "MGRS", "national grid", "quarter-degree cell",
}

// String is the form in the words of Darwin Core's verbatimCoordinateSystem,
// where that has them.
func (f Form) String() string { return formNames[f] }

// Position is a point as read, on the datum of the label; OnWGS84 brings it to
// WGS84.
type Position struct {
	Lat, Lon float64 // decimal degrees; north and east positive
	// Step is the smallest unit that both coordinates show, in degrees: 1/3600
	// for whole seconds, 0.01 for two decimals. Of a grid: its metres in degrees
	// of latitude.
	Step  float64
	Form  Form
	Datum string // when it stands in the same words or the grid has its own; EPSG's name: WGS 84
	// Cell is half the diagonal in metres of the square that a reference of
	// MGRS, a national grid or the quarter-degree grid names; the point is then
	// its centre. 0: a point was written.
	Cell float64
	// Height is the height in metres that stands with the coordinates, when
	// HasHeight; Uncertainty the metres of a geo: address, 0 when none.
	Height      float64
	HasHeight   bool
	Uncertainty float64
	Township    *Township // of the United States' land survey; then Form is Unread
	None        None
	Warnings    []Warning

	grid *grid // nil: the degrees themselves were written
}

// Known reports whether there is a reading.
func (p Position) Known() bool { return p.Form != Unread }

// Precision is the error in metres that comes from how closely the
// coordinates are written (see CoordinatePrecision); for a square, Cell; for
// UTM, the diagonal of the square of the figures' smallest unit.
func (p Position) Precision() float64 {
	switch {
	case !p.Known():
		return 0
	case p.Cell > 0:
		return p.Cell
	case p.Form == UTM:
		return p.StepMetres() * math.Sqrt2
	}
	return CoordinatePrecision(p.Lat, p.Step)
}

// StepMetres is the smallest unit in metres that the figures of a UTM point or
// the side of a square show; 0 for degrees.
func (p Position) StepMetres() float64 {
	if p.Form < UTM || p.Form == QuarterDegree {
		return 0
	}
	return math.Round(p.Step*metresPerDegree*1e6) / 1e6
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
	return Degrees(p.Lat, p.Lon, Decimals(metres))
}

// Degrees writes a point with so many decimals: 60.7033° N, 6.6514° E.
func Degrees(lat, lon float64, decimals int) string {
	return oneAxis(lat, decimals, "N", "S") + ", " + oneAxis(lon, decimals, "E", "W")
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

func oneAxis(v float64, decimals int, plus, minus string) string {
	s := strconv.FormatFloat(math.Abs(v), 'f', decimals, 64)
	side := plus
	if v < 0 && strings.Trim(s, "0.") != "" {
		side = minus
	}
	return s + "° " + side
}

// CoordinatePrecision is the error in metres of a point at latitude lat whose
// coordinates are given to step degrees: the diagonal of the cell of one step
// in latitude and one in longitude on the WGS84 ellipsoid. Formula: Wieczorek
// et al. 2004, from memory; it gives the 52 published values of Chapman &
// Wieczorek, Georeferencing Best Practices (GBIF 2020), table of uncertainty
// due to coordinate precision, to a metre.
func CoordinatePrecision(lat, step float64) float64 {
	ofLat, ofLon := geodesy.WGS84Ellipsoid.Degree(lat)
	return step * math.Hypot(ofLat, ofLon)
}

const maxText = 200

func noPosition(code, message string) Position {
	return Position{Warnings: []Warning{{code, message}}}
}

func (p *Position) warn(code, message string) {
	p.Warnings = append(p.Warnings, Warning{code, message})
}
