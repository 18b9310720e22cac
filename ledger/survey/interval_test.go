package survey_test

import (
	"math"
	"testing"

	"blotter/ledger/survey"

	"pgregory.net/rapid"
)

// Newcombe (1998), Two-sided confidence intervals for the single proportion,
// Statistics in Medicine 17: 857-872, table I (from memory), four decimals.
func TestIntervalsOfThePublishedTable(t *testing.T) {
	for _, c := range []struct {
		x, n                   int
		wilson, clopperPearson [2]float64
	}{
		{81, 263, [2]float64{0.2553, 0.3662}, [2]float64{0.2527, 0.3676}},
		{15, 148, [2]float64{0.0624, 0.1605}, [2]float64{0.0578, 0.1617}},
		{0, 20, [2]float64{0, 0.1611}, [2]float64{0, 0.1684}},
		{1, 29, [2]float64{0.0061, 0.1718}, [2]float64{0.0009, 0.1776}},
	} {
		f := survey.Found{Marked: c.x, Drawn: c.n}
		w, err := f.Wilson(0.95)
		b, err2 := f.Bounds(0.95)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		for i, got := range [4]float64{w.Low, w.High, b.Low, b.High} {
			if want := [4]float64{c.wilson[0], c.wilson[1], c.clopperPearson[0], c.clopperPearson[1]}[i]; math.Abs(got-want) > 5.1e-5 {
				t.Errorf("%d of %d: bound %d is %.5f, not %.4f", c.x, c.n, i, got, want)
			}
		}
	}
}

// The exact bounds of a small collection, found by trying every number of
// marked sheets and counting draws one by one.
func TestExactBoundsAgainstTryingAll(t *testing.T) {
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
		size := rapid.IntRange(1, 40).Draw(t, "size")
		n := rapid.IntRange(1, size).Draw(t, "n")
		x := rapid.IntRange(0, n).Draw(t, "x")
		confidence := rapid.SampledFrom([]float64{0.8, 0.9, 0.95, 0.99}).Draw(t, "confidence")
		low, high := size, 0
		for k := x; k <= size-(n-x); k++ {
			atLeast, atMost := 0.0, 0.0
			for i := 0; i <= n; i++ {
				p := choose(k, i) * choose(size-k, n-i) / choose(size, n)
				if i >= x {
					atLeast += p
				}
				if i <= x {
					atMost += p
				}
			}
			if atLeast > (1-confidence)/2-1e-9 {
				low = min(low, k)
			}
			if atMost > (1-confidence)/2-1e-9 {
				high = max(high, k)
			}
		}
		b, err := survey.Found{Marked: x, Drawn: n, Size: size}.Bounds(confidence)
		if err != nil {
			t.Fatal(err)
		}
		if math.Round(b.Low*float64(size)) != float64(low) || math.Round(b.High*float64(size)) != float64(high) {
			t.Errorf("%d of %d drawn of %d: %v to %v, not %d to %d sheets", x, n, size, b.Low, b.High, low, high)
		}
	})
}

// The share lies within its bounds; a collection with an end gives narrower
// ones, and all looked at none; what is looked for and what is not mirror each
// other; a very large collection is as one without end.
func TestIntervalsHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 2000).Draw(t, "n")
		x := rapid.IntRange(0, n).Draw(t, "x")
		size := n + rapid.IntRange(0, 100000).Draw(t, "others")
		confidence := rapid.Float64Range(0.5, 0.999).Draw(t, "confidence")
		for _, of := range []func(survey.Found) survey.Interval{
			func(f survey.Found) survey.Interval { i, _ := f.Wilson(confidence); return i },
			func(f survey.Found) survey.Interval { i, _ := f.Bounds(confidence); return i },
		} {
			whole, part := of(survey.Found{Marked: x, Drawn: n}), of(survey.Found{Marked: x, Drawn: n, Size: size})
			other := of(survey.Found{Marked: n - x, Drawn: n, Size: size})
			// A count of sheets need not come nearer to a share than one sheet: 1 of 8 drawn of 9.
			if sheet := 1/float64(size) + 1e-12; !(part.Low <= part.Share+sheet && part.Share <= part.High+sheet && part.Low >= 0 && part.High <= 1) {
				t.Errorf("%d of %d of %d: %+v", x, n, size, part)
			}
			if part.High-part.Low > whole.High-whole.Low+1/float64(size)+1e-9 {
				t.Errorf("%d of %d: with an end %+v, without %+v", x, n, part, whole)
			}
			if math.Abs(part.Low+other.High-1) > 1e-9 {
				t.Errorf("%d of %d of %d: %+v is not the mirror of %+v", x, n, size, part, other)
			}
			if all := of(survey.Found{Marked: x, Drawn: n, Size: n}); math.Abs(all.Low-all.Share)+math.Abs(all.High-all.Share) > 1e-12 {
				t.Errorf("all of %d looked at: %+v", n, all)
			}
			big := of(survey.Found{Marked: x, Drawn: n, Size: 100_000_000})
			if math.Abs(big.Low-whole.Low)+math.Abs(big.High-whole.High) > 1e-4 {
				t.Errorf("%d of %d: of 100 million %+v, without end %+v", x, n, big, whole)
			}
		}
	})
}

func TestIntervalsRefuse(t *testing.T) {
	for name, f := range map[string]survey.Found{
		"none drawn": {}, "more marked than drawn": {Marked: 3, Drawn: 2}, "fewer than none": {Marked: -1, Drawn: 2}, "more drawn than there are": {Marked: 1, Drawn: 5, Size: 4},
	} {
		if _, err := f.Wilson(0.95); err == nil {
			t.Errorf("%s: Wilson gave no error", name)
		}
		if _, err := f.Bounds(0.95); err == nil {
			t.Errorf("%s: Bounds gave no error", name)
		}
	}
	if _, err := (survey.Found{Marked: 1, Drawn: 2}).Bounds(95); err == nil {
		t.Error("confidence 95 gave no error")
	}
}

func TestAccepts(t *testing.T) {
	// By hand: 10 sheets, 2 wrong, 3 drawn, none may be wrong: 8/10 7/9 6/8.
	got, err := survey.Accepts(10, 2, 3, 0)
	if want := 8.0 / 10 * 7 / 9 * 6 / 8; err != nil || math.Abs(got-want) > 1e-12 {
		t.Errorf("%v, %v, not %v", got, err, want)
	}
	if _, err := survey.Accepts(10, 11, 3, 0); err == nil {
		t.Error("11 wrong of 10 gave no error")
	}
}
