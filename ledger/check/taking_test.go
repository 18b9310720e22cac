package check

import "testing"

// TestMayBeTaken: 19 -> 0, 20 -> 1, 39 -> 1, 40 -> 2, 100 -> 5, worked out from
// the rule of thumb of Wagner 1995, one of twenty.
func TestMayBeTaken(t *testing.T) {
	for seen, want := range map[int]int{0: 0, 19: 0, 20: 1, 39: 1, 40: 2, 100: 5} {
		if got := mayBeTaken(seen, 20); got != want {
			t.Errorf("of %d: %d, want %d", seen, got, want)
		}
	}
}
