package geodesy

import "math"

// Ellipsoid is a figure of the earth.
type Ellipsoid struct {
	A float64 // semi-major axis, metres
	F float64 // flattening
}

// The ellipsoids that this package names in code; the others stand in
// datums.tsv. Source: EPSG Geodetic Parameter Dataset v10.076, ellipsoids
// 7030, 7001, 7002, 7008.
var (
	WGS84Ellipsoid        = Ellipsoid{6378137, 1 / 298.257223563}
	AiryEllipsoid         = Ellipsoid{6377563.396, 1 / 299.3249646}
	AiryModifiedEllipsoid = Ellipsoid{6377340.189, 1 / 299.3249646}
	Clarke1866Ellipsoid   = Ellipsoid{6378206.4, 1 - 6356583.8/6378206.4}
)

// e2 is the first eccentricity squared.
func (e Ellipsoid) e2() float64 { return e.F * (2 - e.F) }

// Degree returns, at latitude lat, the metres of a degree of latitude and of a
// degree of longitude.
func (e Ellipsoid) Degree(lat float64) (ofLat, ofLon float64) {
	sin, cos := math.Sincos(lat * math.Pi / 180)
	w := 1 - e.e2()*sin*sin
	return math.Pi / 180 * e.A * (1 - e.e2()) / (w * math.Sqrt(w)), math.Pi / 180 * e.A / math.Sqrt(w) * cos
}

// cartesian turns a point at height 0 into earth-centred metres.
func (e Ellipsoid) cartesian(lat, lon float64) (x, y, z float64) {
	sinLat, cosLat := math.Sincos(lat * math.Pi / 180)
	sinLon, cosLon := math.Sincos(lon * math.Pi / 180)
	n := e.A / math.Sqrt(1-e.e2()*sinLat*sinLat)
	return n * cosLat * cosLon, n * cosLat * sinLon, n * (1 - e.e2()) * sinLat
}

// geographic turns earth-centred metres into latitude and longitude; the
// height is left out. Bowring's iteration, which for points near the surface
// is good to far below a millimetre after three rounds.
func (e Ellipsoid) geographic(x, y, z float64) (lat, lon float64) {
	p := math.Hypot(x, y)
	b := e.A * (1 - e.F)
	ep2 := e.e2() / (1 - e.e2())
	beta := math.Atan2(z*e.A, p*b)
	phi := 0.0
	for range 3 {
		s, c := math.Sincos(beta)
		phi = math.Atan2(z+ep2*b*s*s*s, p-e.e2()*e.A*c*c*c)
		sp, cp := math.Sincos(phi)
		beta = math.Atan2((1-e.F)*sp, cp)
	}
	return phi * 180 / math.Pi, math.Atan2(y, x) * 180 / math.Pi
}
