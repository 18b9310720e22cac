package due

import "testing"

// TestTooMany: 1, 2, 3 have the mean 2 and, by n - 1, the standard deviation 1,
// so that the bound of two deviations is 4; worked by hand.
func TestTooMany(t *testing.T) {
	for _, c := range []struct {
		earlier []float64
		now     float64
		want    bool
		reason  string
	}{
		{[]float64{1, 2, 3}, 4, false, "at the bound"},
		{[]float64{1, 2, 3}, 5, true, "above it"},
		{[]float64{0, 0, 0}, 1, true, "nothing before: any catch"},
		{[]float64{1, 2}, 9, false, "fewer readings than the museum asks for"},
	} {
		if got := tooMany(c.earlier, c.now, 2, 3); got != c.want {
			t.Errorf("%v, then %g (%s): %v", c.earlier, c.now, c.reason, got)
		}
	}
}
