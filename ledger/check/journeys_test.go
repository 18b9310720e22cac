package check

import (
	"testing"

	"blotter/ledger/dates"
)

// TestFarCountries: neighbours are never far apart, whatever lies between
// their middles; distances are those of the map.
func TestFarCountries(t *testing.T) {
	for _, c := range []struct {
		a, b  string
		reach float64
		want  bool
		why   string
	}{
		{"Norway", "Kenya", 640, true, "two continents"},
		{"Norway", "Sweden", 160, false, "neighbours"},
		{"Norway", "Denmark", 160, false, "a ferry apart"},
		{"Norway", "Norge", 1, false, "one country in two languages"},
		{"Russia", "Norway", 160, false, "the largest country has a border there"},
		{"Mexico", "United States of America", 160, false, "neighbours"},
		{"Chile", "Argentina", 160, false, "a long country and its neighbour"},
		{"Australia", "New Zealand", 160, true, "1,500 km of sea"},
		{"Australia", "New Zealand", 640, false, "of a large country one is less sure"},
		{"Iceland", "Portugal", 640, true, "2,500 km of sea"},
		{"Norway", "Nowhere", 1, false, "no country"},
		{"Norway", "", 1, false, "nothing said"},
	} {
		if got := farCountries(c.a, c.b, c.reach); got != c.want {
			t.Errorf("%s and %s within %v km: far is %v: %s", c.a, c.b, c.reach, got, c.why)
		}
		if farCountries(c.b, c.a, c.reach) != c.want {
			t.Errorf("%s and %s: not the same both ways", c.a, c.b)
		}
	}
}

// TestReach: the speeds of trade.md, section 11: 80 km/h by road, 20 on foot
// or by boat.
func TestReach(t *testing.T) {
	s := Standard()
	if got := s.reach(dates.DayOf(1970, 7, 14)); got != 640 {
		t.Errorf("in 1970: %v km", got)
	}
	if got := s.reach(dates.DayOf(1870, 7, 14)); got != 160 {
		t.Errorf("in 1870: %v km", got)
	}
}
