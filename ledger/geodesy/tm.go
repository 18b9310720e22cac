package geodesy

import (
	"math"
	"math/cmplx"
)

// TM is a transverse Mercator projection. The zero value is of no use; make
// one with NewTM.
type TM struct {
	e           Ellipsoid
	lon0, k0    float64
	fe, fn      float64    // false easting; false northing less the northing of the origin
	ecc, radius float64    // eccentricity; rectifying radius
	alpha, beta [6]float64 // series: conformal to rectifying and back
}

// NewTM is the projection of e with natural origin lat0, lon0, scale k0 there,
// and false easting and northing fe, fn. It is the series of Krüger (1912) in
// the third flattening, to the sixth order (coefficients: Karney, Transverse
// Mercator with an accuracy of a few nanometers, J. Geodesy 85, 2011, from
// memory; checked against GeographicLib): within 3900 km of the central
// meridian its error is below a micrometre.
func NewTM(e Ellipsoid, lat0, lon0, k0, fe, fn float64) *TM {
	n := e.F / (2 - e.F)
	n2, n3, n4, n5, n6 := n*n, n*n*n, n*n*n*n, n*n*n*n*n, n*n*n*n*n*n
	t := &TM{e: e, lon0: lon0, k0: k0, fe: fe, ecc: math.Sqrt(e.e2())}
	t.radius = e.A / (1 + n) * (1 + n2/4 + n4/64 + n6/256)
	t.alpha = [6]float64{
		n/2 - 2*n2/3 + 5*n3/16 + 41*n4/180 - 127*n5/288 + 7891*n6/37800,
		13*n2/48 - 3*n3/5 + 557*n4/1440 + 281*n5/630 - 1983433*n6/1935360,
		61*n3/240 - 103*n4/140 + 15061*n5/26880 + 167603*n6/181440,
		49561*n4/161280 - 179*n5/168 + 6601661*n6/7257600,
		34729*n5/80640 - 3418889*n6/1995840,
		212378941 * n6 / 319334400,
	}
	t.beta = [6]float64{
		n/2 - 2*n2/3 + 37*n3/96 - n4/360 - 81*n5/512 + 96199*n6/604800,
		n2/48 + n3/15 - 437*n4/1440 + 46*n5/105 - 1118711*n6/3870720,
		17*n3/480 - 37*n4/840 - 209*n5/4480 + 5569*n6/90720,
		4397*n4/161280 - 11*n5/504 - 830251*n6/7257600,
		4583*n5/161280 - 108847*n6/3991680,
		20648693 * n6 / 638668800,
	}
	_, north := t.Forward(lat0, lon0)
	t.fn = fn - north
	return t
}

// Forward projects a point.
func (t *TM) Forward(lat, lon float64) (easting, northing float64) {
	sinLam, cosLam := math.Sincos(turn(lon-t.lon0) * math.Pi / 180)
	tau := t.conformal(math.Tan(lat * math.Pi / 180))
	xi := math.Atan2(tau, cosLam)
	eta := math.Asinh(sinLam / math.Hypot(tau, cosLam))
	zeta := complex(xi, eta)
	zeta += series(t.alpha, zeta)
	return t.fe + t.k0*t.radius*imag(zeta), t.fn + t.k0*t.radius*real(zeta)
}

// Inverse gives the point of an easting and northing.
func (t *TM) Inverse(easting, northing float64) (lat, lon float64) {
	zeta := complex((northing-t.fn)/(t.k0*t.radius), (easting-t.fe)/(t.k0*t.radius))
	zeta -= series(t.beta, zeta)
	sinXi, cosXi := math.Sincos(real(zeta))
	sinhEta := math.Sinh(imag(zeta))
	tau := t.geodetic(sinXi / math.Hypot(sinhEta, cosXi))
	return math.Atan(tau) * 180 / math.Pi, turn(t.lon0 + math.Atan2(sinhEta, cosXi)*180/math.Pi)
}

// conformal turns the tangent of the latitude into that of the conformal
// latitude.
func (t *TM) conformal(tau float64) float64 {
	root := math.Hypot(1, tau)
	sigma := math.Sinh(t.ecc * math.Atanh(t.ecc*tau/root))
	return tau*math.Hypot(1, sigma) - sigma*root
}

// geodetic is the inverse of conformal, by Newton's method.
func (t *TM) geodetic(want float64) float64 {
	e2 := t.e.e2()
	tau := want / (1 - e2)
	if math.Abs(want) > 70 {
		tau = want * math.Exp(t.ecc*math.Atanh(t.ecc))
	}
	if math.IsInf(tau, 0) || math.Abs(tau) > 1e15 {
		return tau
	}
	for range 5 {
		got := t.conformal(tau)
		d := (want - got) / math.Hypot(1, got) * (1 + (1-e2)*tau*tau) / ((1 - e2) * math.Hypot(1, tau))
		tau += d
		if math.Abs(d) < 1e-13*math.Max(1, math.Abs(tau)) {
			break
		}
	}
	return tau
}

// series sums c[j] sin(2(j+1)z) by Clenshaw's rule.
func series(c [6]float64, z complex128) complex128 {
	z *= 2
	twice := 2 * cmplx.Cos(z)
	var b1, b2 complex128
	for j := len(c) - 1; j >= 0; j-- {
		b1, b2 = complex(c[j], 0)+twice*b1-b2, b1
	}
	return b1 * cmplx.Sin(z)
}

// turn brings a longitude into [-180, 180).
func turn(lon float64) float64 {
	if lon >= -180 && lon < 180 {
		return lon
	}
	lon = math.Mod(lon+180, 360)
	if lon < 0 {
		lon += 360
	}
	return lon - 180
}
