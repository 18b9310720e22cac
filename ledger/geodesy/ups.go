package geodesy

import (
	"fmt"
	"math"
	"strings"
)

// UPS is a point of the Universal Polar Stereographic grid, which goes on where
// UTM ends: from 84° N and beyond 80° S to the poles. False easting and northing
// are 2,000,000 m, the scale at the pole is 0.994.
type UPS struct {
	North             bool
	Easting, Northing float64
}

const (
	upsScale  = 0.994
	upsOrigin = 2000e3
)

// polar is a projection of no zone, for its conformal latitude alone.
var polar = NewTM(WGS84Ellipsoid, 0, 0, 1, 0, 0)

// upsRadius is the factor of the polar stereographic projection (Snyder, Map
// projections, USGS PP 1395, 1987, equations 21-33, 21-34, from memory; checked
// against GeographicLib).
func upsRadius() float64 {
	return 2 * upsScale * WGS84Ellipsoid.A / ((1 - WGS84Ellipsoid.F) * math.Exp(polar.ecc*math.Atanh(polar.ecc)))
}

// ToUPS is the point in the grid of its pole, on WGS84; any latitude but the
// other pole has one, UTM's place is left to the caller.
func ToUPS(lat, lon float64) UPS {
	u := UPS{North: lat >= 0}
	tau := polar.conformal(math.Tan(math.Abs(lat) * math.Pi / 180))
	rho := upsRadius() / (math.Hypot(1, tau) + tau)
	if math.Abs(lat) >= 90 {
		rho = 0
	}
	sin, cos := math.Sincos(turn(lon) * math.Pi / 180)
	if turn(lon) == -180 {
		sin = 0 // exactly
	}
	if u.North {
		cos = -cos
	}
	u.Easting, u.Northing = upsOrigin+rho*sin, upsOrigin+rho*cos
	return u
}

// LatLon is the point on WGS84.
func (u UPS) LatLon() (lat, lon float64) {
	x, y := u.Easting-upsOrigin, u.Northing-upsOrigin
	rho := math.Hypot(x, y) / upsRadius()
	if rho == 0 {
		lat = 90
	} else {
		lat = math.Atan(polar.geodetic((1/rho-rho)/2)) * 180 / math.Pi
	}
	if u.North {
		return lat, math.Atan2(x, -y) * 180 / math.Pi
	}
	return -lat, math.Atan2(x, y) * 180 / math.Pi
}

// The letters of polar squares: of columns by band (A and B south, Y and Z
// north; A and Y west of the pole), of rows by pole (the United States' grid
// manual, from memory; checked against GeographicLib).
var (
	polarColumns = [4]string{"JKLPQRSTUXYZ", "ABCFGHJKLPQR", "RSTUXYZ", "ABCFGHJ"}
	polarRows    = [2]string{"ABCDEFGHJKLMNPQRSTUVWXYZ", "ABCDEFGHJKLMNP"}
	polarFirst   = [2]int{8, 13} // the first column and row, in units of 100 km
)

const polarBands = "ABYZ"

// MGRS is the square of so many digits an axis in which the point lies.
func (u UPS) MGRS(digits int) (MGRS, error) {
	if digits < 0 || digits > mostDigits {
		return MGRS{}, fmt.Errorf("mgrs: %d digits: 0 to %d can be", digits, mostDigits)
	}
	e, n := int64(math.Floor(u.Easting*1e6)), int64(math.Floor(u.Northing*1e6))
	const square = 100e9
	pole, band := 0, 0
	if u.North {
		pole, band = 1, 2
	}
	col, row := int(e/square), int(n/square)-polarFirst[pole]
	if col >= 20 {
		band++
		col -= 20
	} else {
		col -= polarFirst[pole]
	}
	if col < 0 || col >= len(polarColumns[band]) || row < 0 || row >= len(polarRows[pole]) {
		return MGRS{}, fmt.Errorf("mgrs of %.0f, %.0f: beyond the polar grid", u.Easting, u.Northing)
	}
	unit := int64(math.Pow10(11 - digits))
	return MGRS{
		Band: polarBands[band], Column: polarColumns[band][col], Row: polarRows[pole][row], Digits: digits,
		East: int(e % square / unit), North: int(n % square / unit),
	}, nil
}

// Polar reports whether the reference is one of the polar grid.
func (m MGRS) Polar() bool { return m.Zone == 0 }

// polarCorner is the south-west corner, as the grid lies, of a polar square;
// why says what is wrong with its letters.
func (m MGRS) polarCorner() (u UPS, why string) {
	band := strings.IndexByte(polarBands, m.Band)
	pole := band / 2
	col, row := strings.IndexByte(polarColumns[band], m.Column), strings.IndexByte(polarRows[pole], m.Row)
	if col < 0 {
		return u, fmt.Sprintf("columns of band %c are %s", m.Band, polarColumns[band])
	}
	if row < 0 {
		return u, fmt.Sprintf("rows of band %c go from A to %c", m.Band, polarRows[pole][len(polarRows[pole])-1])
	}
	if band%2 == 1 {
		col += 20
	} else {
		col += polarFirst[pole]
	}
	u = UPS{North: pole == 1}
	u.Easting = float64(col)*100e3 + float64(m.East)*m.Side()
	u.Northing = float64(row+polarFirst[pole])*100e3 + float64(m.North)*m.Side()
	// The grid ends where UTM begins, with half a degree of overlap.
	if lat, _ := (UPS{u.North, u.Easting + m.Side()/2, u.Northing + m.Side()/2}).LatLon(); math.Abs(lat) < 79 || u.North && lat < 83 {
		return u, "the square does not lie at the pole"
	}
	return u, ""
}
