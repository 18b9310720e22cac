package public

import (
	"math"
	"strconv"

	"blotter/ledger/geodesy"
)

// Cell is a square of the decimal grid of degrees in which a place is shown
// instead of its position: the same square for every position in it, never a
// random one (Chapman 2020, 2.5).
type Cell struct {
	Lat, Lon float64 // of its centre, degrees on WGS84
	Degrees  float64 // its side: 0.1, 0.01 or 0.001
	Metres   float64 // from the centre: covers the whole square, and the error that the position has wherever in it it lies
}

// CellOf is the square of a class around a position on WGS84, whose error is
// metres; nil for a class that has none.
func CellOf(lat, lon, metres float64, c Class) *Cell {
	deg := c.Degrees()
	if deg == 0 {
		return nil
	}
	scale := math.Round(1 / deg)
	row := max(-90*scale, min(90*scale-1, floor(lat*scale)))
	col := floor(lon * scale)
	col -= 360 * scale * math.Floor((col+180*scale)/(360*scale))
	cell := &Cell{Lat: (row*10 + 5) / (scale * 10), Lon: (col*10 + 5) / (scale * 10), Degrees: deg}
	cell.Metres = math.Ceil(cell.reach() + roundedUp(metres))
	return cell
}

// floor is the grid line at or below v. Decimals such as 60.7 are not exact
// in binary: what is as good as on a line stands on it.
func floor(v float64) float64 {
	if r := math.Round(v); math.Abs(v-r) < 1e-8 {
		return r
	}
	return math.Floor(v)
}

// roundedUp is an error in metres to two figures, upwards. A radius to the
// millimetre is reckoned from the latitude and would tell it.
func roundedUp(metres float64) float64 {
	if metres <= 0 || math.IsNaN(metres) {
		return 0
	}
	unit := math.Pow(10, math.Floor(math.Log10(metres))-1)
	return math.Ceil(metres/unit-1e-9) * unit
}

// HalfDiagonal is half the diagonal, in metres, of a square of the grid of a
// side in degrees, by the lengths that a degree has on WGS84 at latitude lat:
// 7845.2 for 0.1 degree at the equator, 6616.7 at 50 degrees.
func HalfDiagonal(lat, degrees float64) float64 {
	ofLat, ofLon := degree(lat)
	return math.Hypot(ofLat*degrees/2, ofLon*degrees/2)
}

// reach is the distance from the centre to the furthest corner or a little
// more: a degree of longitude is longest at the edge nearest the equator, one
// of latitude at the other.
func (c *Cell) reach() float64 {
	_, ofLon := degree(math.Abs(c.Lat) - c.Degrees/2)
	ofLat, _ := degree(math.Abs(c.Lat) + c.Degrees/2)
	return math.Hypot(ofLat*c.Degrees/2, ofLon*c.Degrees/2)
}

// degree is the lengths in metres of a degree of latitude and of longitude.
func degree(lat float64) (ofLat, ofLon float64) {
	return geodesy.WGS84Ellipsoid.Degree(math.Max(-90, math.Min(90, lat)))
}

// Bounds are the edges of the square in degrees.
func (c *Cell) Bounds() (south, west, north, east float64) {
	h := c.Degrees / 2
	return c.round(c.Lat - h), c.round(c.Lon - h), c.round(c.Lat + h), c.round(c.Lon + h)
}

func (c *Cell) round(v float64) float64 { return math.Round(v*1e4) / 1e4 }

// Size is how wide and how high the square is, in kilometres.
func (c *Cell) Size() (wide, high float64) {
	ofLat, ofLon := degree(c.Lat)
	return ofLon * c.Degrees / 1000, ofLat * c.Degrees / 1000
}

// Point is the centre as decimals that a reader takes for a position:
// "60.65, 6.15".
func (c *Cell) Point() string {
	decimals := 1 + int(math.Round(-math.Log10(c.Degrees)))
	return strconv.FormatFloat(c.Lat, 'f', decimals, 64) + ", " + strconv.FormatFloat(c.Lon, 'f', decimals, 64)
}
