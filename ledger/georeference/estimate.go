package georeference

import (
	"math"
	"strconv"
	"strings"

	"blotter/ledger/places"
)

// Part is one share of the error of a point.
type Part struct {
	Name   string   // which share: one of the constants below
	Metres float64  // what it adds to the radius
	Why    string   // in plain words
	Quotes []string // the record's or a place's own words in Why, in order
}

// The shares of an error.
const (
	Stated    = "stated"    // what a person or the label says of the whole
	Precision = "precision" // how closely the coordinates are written
	Datum     = "datum"     // not known, or brought to WGS84
	Device    = "device"    // what the device showed
	Source    = "source"    // nobody says how the position was found
	Map       = "map"       // how well the map is drawn
	Measuring = "measuring" // taking the point off the map
	Extent    = "extent"    // how large the named place is
	Distance  = "distance"  // how closely the distance is written
	Direction = "direction" // how closely the direction is named
	Road      = "road"      // the distance was not measured in a straight line
)

// Estimate is a point on WGS84 and the radius about it within which the plant
// grew.
type Estimate struct {
	Known    bool
	Lat, Lon float64 // WGS84, degrees, north and east positive
	Metres   float64 // the radius; the sum of Parts
	Parts    []Part
	Unsaid   []Part // what nobody stated and is not counted, without metres
	From     string // of a locality: what the point was reckoned from
	Why      string // when not Known: why nothing can be reckoned
}

func (e *Estimate) add(name string, metres float64, why string, quotes ...string) {
	if metres > 0 {
		e.Parts = append(e.Parts, Part{name, metres, why, quotes})
		e.Metres += metres
	}
}

func (e *Estimate) unsaid(name, what string, quotes ...string) {
	e.Unsaid = append(e.Unsaid, Part{Name: name, Why: what, Quotes: quotes})
}

// Point is the point with as many decimals as the radius bears out: 60.7033° N,
// 6.6514° E.
func (e Estimate) Point() string {
	return places.Position{Lat: e.Lat, Lon: e.Lon, Form: places.Decimal}.Within(e.Metres)
}

// String is point and radius: 60.7033° N, 6.6514° E, ± 51 m; empty when not
// Known.
func (e Estimate) String() string {
	if !e.Known {
		return ""
	}
	return e.Point() + ", ± " + Metres(e.Metres)
}

// String is a share in words: ± 16 m: the device showed 8 m; what is not
// counted: not stated, and not counted: how large Voss is.
func (p Part) String() string {
	if p.Metres == 0 {
		return "not stated, and not counted: " + p.Why
	}
	return "± " + Metres(p.Metres) + ": " + p.Why
}

// Metres is a length in words, with no more figures than it deserves: 8 m, 43 m,
// 1,240 m, 12 km. It is never rounded down.
func Metres(m float64) string {
	up := func(step float64) float64 { return math.Ceil(m/step-1e-9) * step }
	switch {
	case m >= 10000:
		return grouped(up(1000)/1000) + " km"
	case m >= 100:
		return grouped(up(10)) + " m"
	}
	return grouped(up(1)) + " m"
}

// grouped is a whole number with commas between thousands.
func grouped(v float64) string {
	s := strconv.FormatFloat(v, 'f', 0, 64)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

// figure is a number as short as it can be, to three decimals.
func figure(v float64) string {
	s := strconv.FormatFloat(v, 'f', 3, 64)
	return strings.TrimRight(strings.TrimRight(s, "0"), ".")
}
