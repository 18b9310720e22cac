package distribution_test

import (
	"math"
	"testing"

	. "blotter/ledger/distribution"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance }

func TestNormal(t *testing.T) {
	// The quantiles of every printed table of the normal distribution.
	for _, c := range []struct{ p, x float64 }{
		{0.5, 0}, {0.9, 1.281552}, {0.95, 1.644854}, {0.975, 1.959964}, {0.99, 2.326348}, {0.995, 2.575829}, {0.9995, 3.290527}, {0.025, -1.959964},
	} {
		if got := NormalQuantile(c.p); !near(got, c.x, 5e-7) {
			t.Errorf("quantile %v: %v, not %v", c.p, got, c.x)
		}
		if got := NormalCDF(c.x); !near(got, c.p, 1e-7) {
			t.Errorf("distribution function at %v: %v, not %v", c.x, got, c.p)
		}
	}
}

func TestStudent(t *testing.T) {
	// The printed table of Student's t (three decimals), two-sided 95 % and 99 %.
	for _, c := range []struct{ p, freedom, t float64 }{
		{0.975, 1, 12.706}, {0.975, 2, 4.303}, {0.975, 3, 3.182}, {0.975, 4, 2.776}, {0.975, 5, 2.571}, {0.975, 10, 2.228}, {0.975, 30, 2.042}, {0.975, 120, 1.980},
		{0.995, 1, 63.657}, {0.995, 2, 9.925}, {0.995, 10, 3.169}, {0.95, 1, 6.314}, {0.95, 5, 2.015}, {0.025, 5, -2.571}, {0.5, 7, 0},
	} {
		if got := StudentQuantile(c.p, c.freedom); !near(got, c.t, 5.01e-4) {
			t.Errorf("t of %v with %v degrees: %v, not %v", c.p, c.freedom, got, c.t)
		}
	}
	// One degree of freedom is the Cauchy, two have a closed form: exact.
	for _, x := range []float64{-30, -2, -0.1, 0, 0.7, 5, 1000} {
		if got, want := StudentCDF(x, 1), 0.5+math.Atan(x)/math.Pi; !near(got, want, 1e-13) {
			t.Errorf("Cauchy at %v: %v, not %v", x, got, want)
		}
		if got, want := StudentCDF(x, 2), 0.5+x/(2*math.Sqrt(2+x*x)); !near(got, want, 1e-13) {
			t.Errorf("two degrees at %v: %v, not %v", x, got, want)
		}
	}
}

// The distribution functions are plain sums where the numbers are small.
func TestDiscreteAgainstPlainCounting(t *testing.T) {
	choose := func(n, k int) float64 {
		if k < 0 || k > n {
			return 0
		}
		v := 1.0
		for i := range k {
			v = v * float64(n-i) / float64(i+1)
		}
		return v
	}
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.IntRange(1, 60).Draw(t, "size")
		n, marked := rapid.IntRange(0, size).Draw(t, "n"), rapid.IntRange(0, size).Draw(t, "marked")
		x := rapid.IntRange(-1, size).Draw(t, "x")
		p := rapid.Float64Range(0, 1).Draw(t, "p")
		hyper, binomial := 0.0, 0.0
		for k := 0; k <= min(x, n); k++ {
			hyper += choose(marked, k) * choose(size-marked, n-k) / choose(size, n)
			binomial += choose(n, k) * math.Pow(p, float64(k)) * math.Pow(1-p, float64(n-k))
		}
		if got := HypergeometricCDF(x, n, marked, size); !near(got, hyper, 1e-10) {
			t.Errorf("hypergeometric(%d; %d, %d, %d): %v, not %v", x, n, marked, size, got, hyper)
		}
		if got := BinomialCDF(x, n, p); !near(got, binomial, 1e-10) {
			t.Errorf("binomial(%d; %d, %v): %v, not %v", x, n, p, got, binomial)
		}
	})
}

func TestQuantilesUndoTheirFunctions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.Float64Range(0.001, 0.999).Draw(t, "p")
		a, b := rapid.Float64Range(0.5, 500).Draw(t, "a"), rapid.Float64Range(0.5, 500).Draw(t, "b")
		if got := BetaCDF(BetaQuantile(p, a, b), a, b); !near(got, p, 1e-9) {
			t.Errorf("beta(%v, %v): %v, not %v", a, b, got, p)
		}
		if got := StudentCDF(StudentQuantile(p, a), a); !near(got, p, 1e-9) {
			t.Errorf("t(%v): %v, not %v", a, got, p)
		}
		if got := NormalCDF(NormalQuantile(p)); !near(got, p, 1e-12) {
			t.Errorf("normal: %v, not %v", got, p)
		}
	})
}

func TestOutsideTheDomain(t *testing.T) {
	for name, v := range map[string]float64{
		"p above 1": NormalQuantile(1.1), "p not a number": NormalQuantile(math.NaN()), "no freedom": StudentQuantile(0.9, 0),
		"shape 0": BetaCDF(0.5, 0, 1), "more drawn than there are": HypergeometricCDF(0, 3, 1, 2), "p below 0": BinomialCDF(1, 2, -0.1),
	} {
		if !math.IsNaN(v) {
			t.Errorf("%s: %v", name, v)
		}
	}
	if !math.IsInf(NormalQuantile(1), 1) || !math.IsInf(StudentQuantile(0, 3), -1) {
		t.Error("the ends are not infinite")
	}
}
