package drying

import "math"

// shape is the least-squares fit of m = p + a exp(-k t) to points whose first
// time is 0 and whose last is 1.
//
// For a given k the best p and a are those of a straight line in
// x = (1 - exp(-k t)) / k, which for k = 0 is t itself: the square sum is a
// function of k alone (variable projection: Golub and Pereyra 1973). It is
// looked through on a grid of the logarithm of k, then narrowed by the golden
// section, so that no first guess is needed and the least of several minima is
// found.
type shape struct {
	k, p, m0 float64 // per span; grams
	rss      float64
	line     float64 // the square sum of the best straight line
	low      bool    // k ended at its lower bound: as good as straight
	high     bool    // k ended at its upper bound: all loss before the second time
	// The covariance matrix of (p, m0, k) over the residual variance.
	cov    [3][3]float64
	solved bool // cov is there
}

// leastK and mostDecay bound k: below, the line bends by less than a thousandth
// part of its fall; above, less than 1e-6 of the loss is left at the second
// time.
const (
	leastK    = 1e-3
	mostDecay = 13.8
)

func fitExponential(t, m []float64) shape {
	second := 1.0
	for _, v := range t {
		if v > 0 {
			second = min(second, v)
		}
	}
	from, to := math.Log(leastK), math.Log(mostDecay/second)
	at := func(q float64) float64 { rss, _, _ := project(math.Exp(q), t, m); return rss }
	const steps = 240
	best, bestRSS := 0, math.Inf(1)
	for i := 0; i <= steps; i++ {
		if rss := at(from + (to-from)*float64(i)/steps); rss < bestRSS {
			best, bestRSS = i, rss
		}
	}
	step := (to - from) / steps
	q := golden(at, max(from, from+step*float64(best-1)), min(to, from+step*float64(best+1)))
	s := shape{k: math.Exp(q), low: q < from+step, high: q > to-step}
	var slope float64
	s.rss, s.m0, slope = project(s.k, t, m)
	s.p = s.m0 + slope/s.k
	s.line, _, _ = project(0, t, m)
	s.cov, s.solved = s.covariance(t)
	return s
}

// project is the best m = m0 + slope x for a k, and its square sum.
func project(k float64, t, m []float64) (rss, m0, slope float64) {
	n := float64(len(t))
	x := func(t float64) float64 {
		if k == 0 {
			return t
		}
		return -math.Expm1(-k*t) / k
	}
	var sx, sm float64
	for i := range t {
		sx += x(t[i])
		sm += m[i]
	}
	mx, mm := sx/n, sm/n
	var xx, xm float64
	for i := range t {
		d := x(t[i]) - mx
		xx += d * d
		xm += d * (m[i] - mm)
	}
	if xx > 0 {
		slope = xm / xx
	}
	m0 = mm - slope*mx
	for i := range t {
		r := (m[i] - mm) - slope*(x(t[i])-mx)
		rss += r * r
	}
	return rss, m0, slope
}

// golden narrows a minimum of f between a and b.
func golden(f func(float64) float64, a, b float64) float64 {
	ratio := (math.Sqrt(5) - 1) / 2
	c, d := b-ratio*(b-a), a+ratio*(b-a)
	fc, fd := f(c), f(d)
	for range 80 {
		if fc <= fd {
			b, d, fd = d, c, fc
			c = b - ratio*(b-a)
			fc = f(c)
		} else {
			a, c, fc = c, d, fd
			d = a + ratio*(b-a)
			fd = f(d)
		}
	}
	return (a + b) / 2
}

// covariance is the inverse of J'J, J being the derivatives of m by p, m0 and
// k at the fit.
func (s shape) covariance(t []float64) ([3][3]float64, bool) {
	var a [3][3]float64
	for _, u := range t {
		e := math.Exp(-s.k * u)
		j := [3]float64{1 - e, e, -(s.m0 - s.p) * u * e}
		for r := range 3 {
			for c := range 3 {
				a[r][c] += j[r] * j[c]
			}
		}
	}
	return invert(a)
}

// invert inverts a symmetric matrix after bringing its diagonal to 1; false
// when it has no inverse that numbers can give.
func invert(a [3][3]float64) ([3][3]float64, bool) {
	var scale [3]float64
	for i := range 3 {
		if !(a[i][i] > 0) {
			return a, false
		}
		scale[i] = math.Sqrt(a[i][i])
	}
	var b, out [3][3]float64
	for i := range 3 {
		for j := range 3 {
			b[i][j] = a[i][j] / scale[i] / scale[j]
		}
	}
	minor := func(i, j int) float64 {
		r, c := [2]int{(i + 1) % 3, (i + 2) % 3}, [2]int{(j + 1) % 3, (j + 2) % 3}
		return b[r[0]][c[0]]*b[r[1]][c[1]] - b[r[0]][c[1]]*b[r[1]][c[0]]
	}
	det := b[0][0]*minor(0, 0) + b[0][1]*minor(0, 1) + b[0][2]*minor(0, 2)
	if !(det > 1e-14) {
		return a, false
	}
	for i := range 3 {
		for j := range 3 {
			out[i][j] = minor(j, i) / det / scale[i] / scale[j]
		}
	}
	return out, true
}
