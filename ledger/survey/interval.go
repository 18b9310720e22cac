package survey

import (
	"fmt"
	"math"

	"blotter/ledger/distribution"
)

// Found is what a survey met: of Drawn sheets, Marked had what was looked for.
type Found struct {
	Marked int
	Drawn  int
	Size   int // sheets in the population; 0 for one without end
}

// Interval is a share with its bounds at a confidence.
type Interval struct {
	Share      float64 // Marked / Drawn
	Low, High  float64
	Confidence float64
	Method     string // in words, for the report
}

func (f Found) problem(confidence float64) string {
	switch {
	case f.Drawn < 1:
		return "no sheet was drawn"
	case f.Marked < 0 || f.Marked > f.Drawn:
		return fmt.Sprintf("%d of %d sheets: more than were drawn, or fewer than none", f.Marked, f.Drawn)
	case f.Size != 0 && f.Size < f.Drawn:
		return fmt.Sprintf("%d sheets drawn of a population of %d", f.Drawn, f.Size)
	case !(confidence > 0 && confidence < 1):
		return fmt.Sprintf("confidence %v: write a share between 0 and 1, for example 0.95", confidence)
	}
	return ""
}

// Wilson is the score interval of Wilson (1927), without continuity
// correction. In a population of Size the number drawn is first made
// n (Size-1)/(Size-n), that which without an end of sheets would be as sure; all
// drawn, the share is known and both bounds are it.
func (f Found) Wilson(confidence float64) (Interval, error) {
	if why := f.problem(confidence); why != "" {
		return Interval{}, fmt.Errorf("interval: %s", why)
	}
	p := float64(f.Marked) / float64(f.Drawn)
	out := Interval{Share: p, Low: p, High: p, Confidence: confidence, Method: "all sheets looked at"}
	if f.Drawn == f.Size {
		return out, nil
	}
	n, q := float64(f.Drawn), z(confidence)
	out.Method = "Wilson score"
	if f.Size > 0 {
		n *= float64(f.Size-1) / float64(f.Size-f.Drawn)
		out.Method = "Wilson score with finite population correction"
	}
	mid := (p + q*q/(2*n)) / (1 + q*q/n)
	half := q / (1 + q*q/n) * math.Sqrt(p*(1-p)/n+q*q/(4*n*n))
	out.Low, out.High = max(0, mid-half), min(1, mid+half)
	// 0 and all are bounds of their own, rounding or not.
	if f.Marked == 0 {
		out.Low = 0
	}
	if f.Marked == f.Drawn {
		out.High = 1
	}
	return out, nil
}

// Bounds is the exact interval: Clopper and Pearson (1934) by the binomial
// distribution without an end of sheets, else the numbers of marked sheets in
// the population under which neither so few nor so many in the draw are rarer
// than (1-confidence)/2, by the hypergeometric distribution. It is never
// narrower than the confidence says, and mostly wider than Wilson.
func (f Found) Bounds(confidence float64) (Interval, error) {
	if why := f.problem(confidence); why != "" {
		return Interval{}, fmt.Errorf("interval: %s", why)
	}
	out := Interval{Share: float64(f.Marked) / float64(f.Drawn), Low: 0, High: 1, Confidence: confidence, Method: "exact (Clopper-Pearson)"}
	tail := (1 - confidence) / 2
	if f.Size > 0 {
		low, high := f.marks(tail)
		out.Low, out.High = float64(low)/float64(f.Size), float64(high)/float64(f.Size)
		out.Method = "exact (hypergeometric)"
		if f.Drawn == f.Size {
			out.Method = "all sheets looked at"
		}
		return out, nil
	}
	x, rest := float64(f.Marked), float64(f.Drawn-f.Marked)
	if f.Marked > 0 {
		out.Low = distribution.BetaQuantile(tail, x, rest+1)
	}
	if f.Marked < f.Drawn {
		out.High = distribution.BetaQuantile(1-tail, x+1, rest)
	}
	return out, nil
}

// tie is what rounding may do to a probability that is the tail exactly, as 1 of
// 10 sheets at 80 % is: a tie goes with what was found.
const tie = 1e-9

// marks are the least and the greatest number of marked sheets in the
// population that go with what was found.
func (f Found) marks(tail float64) (low, high int) {
	least, most := f.Marked, f.Size-(f.Drawn-f.Marked)
	tail -= tie
	// So many or more grow likelier with the marks in the population.
	from, to := least, most
	for from < to {
		mid := from + (to-from)/2
		if 1-distribution.HypergeometricCDF(f.Marked-1, f.Drawn, mid, f.Size) >= tail {
			to = mid
		} else {
			from = mid + 1
		}
	}
	low = from
	from, to = least, most
	for from < to {
		mid := from + (to-from+1)/2
		if distribution.HypergeometricCDF(f.Marked, f.Drawn, mid, f.Size) >= tail {
			from = mid
		} else {
			to = mid - 1
		}
	}
	return low, from
}

// Accepts is the chance that a lot of Size sheets of which wrong are wrong
// passes a proof-reading that draws n and lets up to allowed of them be wrong:
// what a rule such as "20 of 100, none wrong" is worth.
func Accepts(size, wrong, n, allowed int) (float64, error) {
	if n < 0 || wrong < 0 || n > size || wrong > size {
		return 0, fmt.Errorf("proof-reading: %d drawn and %d wrong of %d sheets", n, wrong, size)
	}
	return distribution.HypergeometricCDF(allowed, n, wrong, size), nil
}
