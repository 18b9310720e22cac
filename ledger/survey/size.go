package survey

import (
	"fmt"
	"math"

	"blotter/ledger/distribution"
)

// Aim is what a survey of a share wants to know.
type Aim struct {
	Margin     float64 // half the width of the interval wanted: 0.05 for ±5 %
	Confidence float64 // 0.95: the interval holds the true share in 95 of 100 surveys
	Expected   float64 // the share expected; 0.5 asks for most sheets and is right when nothing is known
	Size       int     // sheets in the population; 0 for one without end
}

// problem says what of a is no aim, "" when all is.
func (a Aim) problem() string {
	switch {
	case !(a.Margin > 0 && a.Margin < 1):
		return fmt.Sprintf("margin %v: write a share between 0 and 1, for example 0.05 for ±5 %%", a.Margin)
	case !(a.Confidence > 0 && a.Confidence < 1):
		return fmt.Sprintf("confidence %v: write a share between 0 and 1, for example 0.95", a.Confidence)
	case !(a.Expected >= 0 && a.Expected <= 1):
		return fmt.Sprintf("expected share %v: write a share between 0 and 1, 0.5 when nothing is known", a.Expected)
	case a.Size < 0:
		return fmt.Sprintf("population of %d sheets: there cannot be fewer than none", a.Size)
	}
	return ""
}

// z is the normal quantile of a two-sided confidence, 1.96 for 0.95.
func z(confidence float64) float64 { return distribution.NormalQuantile(0.5 + confidence/2) }

// Exact is the number of sheets to draw before rounding up:
//
//	n0 = z² p (1-p) / margin²    n = n0 / (1 + (n0-1)/Size)
//
// z being the normal quantile of the confidence (1.96 for 0.95), p the share
// expected; the second step is the finite population correction.
func (a Aim) Exact() (float64, error) {
	if why := a.problem(); why != "" {
		return 0, fmt.Errorf("sample size: %s", why)
	}
	q := z(a.Confidence)
	n := q * q * a.Expected * (1 - a.Expected) / (a.Margin * a.Margin)
	if a.Size > 0 && n > 0 {
		n /= 1 + (n-1)/float64(a.Size)
		n = min(n, float64(a.Size)) // an n0 below 1
	}
	return n, nil
}

// Sheets is the number of sheets to draw: Exact rounded up, at least 1. With
// ±5 % at 95 %, half expected and no end of sheets it is 385.
func (a Aim) Sheets() (int, error) {
	n, err := a.Exact()
	if err != nil {
		return 0, err
	}
	if n > math.MaxInt32 {
		return 0, fmt.Errorf("sample size: %.3g sheets: the margin %v is too small", n, a.Margin)
	}
	if a.Size > 0 {
		return min(max(1, int(math.Ceil(n-1e-9))), a.Size), nil
	}
	return max(1, int(math.Ceil(n-1e-9))), nil
}
