package distribution

import "math"

// BinomialCDF is the probability of at most x successes in n trials of
// probability p each.
func BinomialCDF(x, n int, p float64) float64 {
	switch {
	case n < 0 || !(p >= 0 && p <= 1):
		return math.NaN()
	case x < 0:
		return 0
	case x >= n:
		return 1
	}
	return BetaCDF(1-p, float64(n-x), float64(x+1))
}

// HypergeometricCDF is the probability that of n drawn without putting back,
// from a population of size of which marked have a mark, at most x have it.
func HypergeometricCDF(x, n, marked, size int) float64 {
	if n < 0 || marked < 0 || n > size || marked > size {
		return math.NaN()
	}
	low, high := max(0, n-(size-marked)), min(n, marked)
	switch {
	case x < low:
		return 0
	case x >= high:
		return 1
	}
	// The shorter tail is summed, from its largest term on.
	if mean := float64(n) * float64(marked) / float64(size); float64(x) > mean {
		return 1 - hypergeometricSum(x+1, high, n, marked, size)
	}
	return hypergeometricSum(low, x, n, marked, size)
}

func hypergeometricSum(from, to, n, marked, size int) float64 {
	all := lnChoose(size, n)
	sum := 0.0
	for k := from; k <= to; k++ {
		sum += math.Exp(lnChoose(marked, k) + lnChoose(size-marked, n-k) - all)
	}
	return min(sum, 1)
}

func lnChoose(n, k int) float64 {
	return lnGamma(float64(n)+1) - lnGamma(float64(k)+1) - lnGamma(float64(n-k)+1)
}
