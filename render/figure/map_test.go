package figure

import (
	"strings"
	"testing"
)

// A map far from any coast or border is widened until one is on it; a place
// at the coast keeps the narrow window.
func TestWindowShowsALine(t *testing.T) {
	for _, c := range []struct {
		name     string
		lat, lon float64
		level    int
	}{
		{"Voss, between fjord and fjord", 60.63, 6.42, 0},
		{"Needles Overlook, Utah, inland", 38.26, -109.69, 1},
		{"the middle of the South Pacific", -48.9, -123.4, 2},
	} {
		w := windowOf(c.lat, c.lon)
		if w.level != c.level {
			t.Errorf("%s: window %+v, want level %d", c.name, w, c.level)
		}
		svg, err := Land(w.file())
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(string(svg), " km</text>") {
			t.Errorf("%s: no scale", c.name)
		}
		if x, y := w.at(c.lat, c.lon); x < width/4-1 || x > width*3/4+1 || y < mapHeight/4-1 || y > mapHeight*3/4+1 {
			t.Errorf("%s: stands at %.0f, %.0f, not in the middle half", c.name, x, y)
		}
	}
	if _, err := Land("data/map/9_0_0.svg"); err == nil {
		t.Error("a window of no width is drawn")
	}
}
