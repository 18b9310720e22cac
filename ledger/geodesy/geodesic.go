package geodesy

import "math"

// Distance is the length in metres of the shortest way between two points on
// the WGS84 ellipsoid; within 0.1 mm of GeographicLib up to some thousand
// kilometres, within a millimetre anywhere.
func Distance(lat1, lon1, lat2, lon2 float64) float64 {
	s, _ := Inverse(lat1, lon1, lat2, lon2)
	return s
}

// Inverse is Distance with the bearing of the way at its start, in degrees
// clockwise from north, 0 to 360 (0 when the points are one). Formula:
// Vincenty, Survey Review 23 (1975); where it does not converge, for points
// nearly opposite each other, the bearing is found by halving.
func Inverse(lat1, lon1, lat2, lon2 float64) (metres, bearing float64) {
	g := line{f: WGS84Ellipsoid.F, a: WGS84Ellipsoid.A}
	u1, u2 := g.reduced(lat1), g.reduced(lat2)
	l := turn(lon2-lon1) * math.Pi / 180
	if lat1 == lat2 && l == 0 {
		return 0, 0
	}
	lam := l
	for range 60 {
		sinS, cosS, sinA, cos2A, cos2M, az := g.triangle(u1, u2, lam)
		if sinS == 0 {
			return 0, 0
		}
		sigma := math.Atan2(sinS, cosS)
		next := l + g.spin(sinA, cos2A, sigma, sinS, cosS, cos2M)
		if math.Abs(next) > math.Pi {
			break
		}
		if math.Abs(next-lam) < 1e-14 {
			return g.length(cos2A, sigma, sinS, cosS, cos2M), degreesOf(az)
		}
		lam = next
	}
	return g.opposite(lat1, lat2, l)
}

// line is a geodesic problem on an ellipsoid.
type line struct{ a, f float64 }

// reduced is the reduced latitude, as sine and cosine.
func (g line) reduced(lat float64) [2]float64 {
	s, c := math.Sincos(lat * math.Pi / 180)
	s *= 1 - g.f
	h := math.Hypot(s, c)
	return [2]float64{s / h, c / h}
}

// triangle solves the triangle on the auxiliary sphere.
func (g line) triangle(u1, u2 [2]float64, lam float64) (sinS, cosS, sinA, cos2A, cos2M, azimuth float64) {
	sinL, cosL := math.Sincos(lam)
	y, x := u2[1]*sinL, u1[1]*u2[0]-u1[0]*u2[1]*cosL
	sinS = math.Hypot(y, x)
	cosS = u1[0]*u2[0] + u1[1]*u2[1]*cosL
	if sinS > 0 {
		sinA = u1[1] * u2[1] * sinL / sinS
	}
	cos2A = 1 - sinA*sinA
	if cos2A > 1e-20 {
		cos2M = cosS - 2*u1[0]*u2[0]/cos2A
	}
	return sinS, cosS, sinA, cos2A, cos2M, math.Atan2(y, x)
}

// spin is the difference of the longitudes on the sphere and the ellipsoid.
func (g line) spin(sinA, cos2A, sigma, sinS, cosS, cos2M float64) float64 {
	c := g.f / 16 * cos2A * (4 + g.f*(4-3*cos2A))
	return (1 - c) * g.f * sinA * (sigma + c*sinS*(cos2M+c*cosS*(2*cos2M*cos2M-1)))
}

// series are Vincenty's A and B.
func (g line) series(cos2A float64) (a, b float64) {
	bb := g.a * (1 - g.f)
	u2 := cos2A * (g.a*g.a - bb*bb) / (bb * bb)
	a = 1 + u2/16384*(4096+u2*(-768+u2*(320-175*u2)))
	b = u2 / 1024 * (256 + u2*(-128+u2*(74-47*u2)))
	return a, b
}

func delta(b, sinS, cosS, cos2M float64) float64 {
	return b * sinS * (cos2M + b/4*(cosS*(2*cos2M*cos2M-1)-b/6*cos2M*(4*sinS*sinS-3)*(4*cos2M*cos2M-3)))
}

func (g line) length(cos2A, sigma, sinS, cosS, cos2M float64) float64 {
	a, b := g.series(cos2A)
	return g.a * (1 - g.f) * a * (sigma - delta(b, sinS, cosS, cos2M))
}

// Destination is the point metres away along the geodesic that starts at
// bearing degrees clockwise from true north, on the WGS84 ellipsoid.
func Destination(lat, lon, bearing, metres float64) (lat2, lon2 float64) {
	g := line{f: WGS84Ellipsoid.F, a: WGS84Ellipsoid.A}
	sinAz, cosAz := math.Sincos(bearing * math.Pi / 180)
	u := g.reduced(lat)
	sigma1 := math.Atan2(u[0], u[1]*cosAz)
	sinA := u[1] * sinAz
	cos2A := 1 - sinA*sinA
	a, b := g.series(cos2A)
	base := metres / (g.a * (1 - g.f) * a)
	sigma := base
	var sinS, cosS, cos2M float64
	for range 50 {
		cos2M = math.Cos(2*sigma1 + sigma)
		sinS, cosS = math.Sincos(sigma)
		next := base + delta(b, sinS, cosS, cos2M)
		done := math.Abs(next-sigma) < 1e-14
		sigma = next
		if done {
			break
		}
	}
	sinS, cosS = math.Sincos(sigma)
	cos2M = math.Cos(2*sigma1 + sigma)
	t := u[0]*sinS - u[1]*cosS*cosAz
	phi := math.Atan2(u[0]*cosS+u[1]*sinS*cosAz, (1-g.f)*math.Hypot(sinA, t))
	lam := math.Atan2(sinS*sinAz, u[1]*cosS-u[0]*sinS*cosAz)
	l := lam - g.spin(sinA, cos2A, sigma, sinS, cosS, cos2M)
	return phi * 180 / math.Pi, turn(lon + l*180/math.Pi)
}

func degreesOf(rad float64) float64 {
	d := rad * 180 / math.Pi
	if d < 0 {
		d += 360
	}
	return d
}
