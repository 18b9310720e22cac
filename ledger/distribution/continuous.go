package distribution

import "math"

// NormalCDF is the probability that a standard normal variable is at most x.
func NormalCDF(x float64) float64 { return math.Erfc(-x/math.Sqrt2) / 2 }

// NormalQuantile is the x of which NormalCDF is p; 0 gives -Inf, 1 +Inf.
func NormalQuantile(p float64) float64 {
	if !(p >= 0 && p <= 1) {
		return math.NaN()
	}
	return -math.Sqrt2 * math.Erfcinv(2*p)
}

// BetaCDF is the regularized incomplete beta function I_x(a, b): the
// probability that a beta variable of shapes a and b (both above 0) is at most
// x. By the continued fraction of Abramowitz and Stegun 26.5.8, summed by
// Lentz's method.
func BetaCDF(x, a, b float64) float64 {
	switch {
	case !(a > 0 && b > 0) || math.IsInf(a, 0) || math.IsInf(b, 0) || math.IsNaN(x):
		return math.NaN()
	case x <= 0:
		return 0
	case x >= 1:
		return 1
	}
	front := math.Exp(lnGamma(a+b) - lnGamma(a) - lnGamma(b) + a*math.Log(x) + b*math.Log1p(-x))
	if x > (a+1)/(a+b+2) {
		return 1 - front*betaFraction(1-x, b, a)/b
	}
	return front * betaFraction(x, a, b) / a
}

func betaFraction(x, a, b float64) float64 {
	const tiny, steps = 1e-300, 10000
	bound := func(v float64) float64 {
		if math.Abs(v) < tiny {
			return tiny
		}
		return v
	}
	c, d := 1.0, 1/bound(1-(a+b)*x/(a+1))
	h := d
	for i := 1; i <= steps; i++ {
		m := float64(i)
		even := m * (b - m) * x / ((a + 2*m - 1) * (a + 2*m))
		d = 1 / bound(1+even*d)
		c = bound(1 + even/c)
		h *= d * c
		odd := -(a + m) * (a + b + m) * x / ((a + 2*m) * (a + 2*m + 1))
		d = 1 / bound(1+odd*d)
		c = bound(1 + odd/c)
		h *= d * c
		if math.Abs(d*c-1) < 1e-15 {
			break
		}
	}
	return h
}

// BetaQuantile is the x between 0 and 1 of which BetaCDF is p, found by
// bisection down to neighbouring floating-point numbers.
func BetaQuantile(p, a, b float64) float64 {
	if !(p >= 0 && p <= 1 && a > 0 && b > 0) {
		return math.NaN()
	}
	if p == 0 || p == 1 {
		return p
	}
	low, high := 0.0, 1.0
	for range 1100 {
		mid := low + (high-low)/2
		if mid == low || mid == high {
			break
		}
		if BetaCDF(mid, a, b) < p {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// StudentCDF is the probability that a variable of Student's t distribution
// with freedom degrees of freedom (above 0) is at most t.
func StudentCDF(t, freedom float64) float64 {
	if math.IsNaN(t) || !(freedom > 0) {
		return math.NaN()
	}
	tail := BetaCDF(freedom/(freedom+t*t), freedom/2, 0.5) / 2
	if t > 0 {
		return 1 - tail
	}
	return tail
}

// StudentQuantile is the t of which StudentCDF is p; 0 gives -Inf, 1 +Inf.
func StudentQuantile(p, freedom float64) float64 {
	switch {
	case !(p >= 0 && p <= 1 && freedom > 0):
		return math.NaN()
	case p == 0.5:
		return 0
	case p < 0.5:
		return -StudentQuantile(1-p, freedom)
	case p == 1:
		return math.Inf(1)
	}
	x := BetaQuantile(2*(1-p), freedom/2, 0.5)
	return math.Sqrt(freedom * (1 - x) / x)
}

func lnGamma(x float64) float64 { v, _ := math.Lgamma(x); return v }
