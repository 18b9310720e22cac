package geodesy

import "math"

// opposite solves the inverse problem for points nearly opposite each other:
// by halving the bearing at the point farther from the equator, put into the
// south, until the longitude comes out, which grows with the bearing (Karney,
// Algorithms for geodesics, J. Geodesy 87, 2013, section 4).
func (g line) opposite(lat1, lat2, l float64) (metres, bearing float64) {
	west := l < 0
	if west {
		l = -l
	}
	swapped := math.Abs(lat1) < math.Abs(lat2)
	if swapped {
		lat1, lat2 = lat2, lat1
	}
	flipped := lat1 > 0
	if flipped {
		lat1, lat2 = -lat1, -lat2
	}
	u1, u2 := g.reduced(lat1), g.reduced(lat2)
	if u1[0] == 0 {
		u1[0] = math.Copysign(0, -1) // on the equator: the bearing decides where on the sphere
	}
	u1[1] = math.Max(u1[1], 1e-300)
	u2[1] = math.Max(u2[1], 1e-300)
	low, high := 0.0, math.Pi
	var lam, s, az1, az2 float64
	for range 64 {
		az1 = (low + high) / 2
		lam, s, az2 = g.across(u1, u2, az1)
		if lam > l {
			high = az1
		} else {
			low = az1
		}
	}
	// Back to the points as given.
	if flipped {
		az1, az2 = math.Pi-az1, math.Pi-az2
	}
	if swapped {
		az1 = math.Pi - az2
	}
	if west {
		az1 = -az1
	}
	return s, degreesOf(az1)
}

// across follows the geodesic that leaves u1 at az1 to the latitude of u2, on
// its way north there: the difference of longitudes, the length, the bearing
// at u2.
func (g line) across(u1, u2 [2]float64, az1 float64) (lam, metres, az2 float64) {
	sinA1, cosA1 := math.Sincos(az1)
	sinA := sinA1 * u1[1]
	cosA2 := math.Sqrt(math.Max(0, cosA1*cosA1*u1[1]*u1[1]+(u2[1]*u2[1]-u1[1]*u1[1]))) / u2[1]
	sinA2 := sinA / u2[1]
	sigma1, sigma2 := math.Atan2(u1[0], cosA1*u1[1]), math.Atan2(u2[0], cosA2*u2[1])
	omega := math.Atan2(sinA*u2[0], cosA2*u2[1]) - math.Atan2(sinA*u1[0], cosA1*u1[1])
	sigma := math.Max(0, sigma2-sigma1)
	sinS, cosS := math.Sincos(sigma)
	cos2A, cos2M := 1-sinA*sinA, math.Cos(sigma1+sigma2)
	lam = omega - g.spin(sinA, cos2A, sigma, sinS, cosS, cos2M)
	return lam, g.length(cos2A, sigma, sinS, cosS, cos2M), math.Atan2(sinA2, cosA2)
}
