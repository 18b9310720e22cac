package figure

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"blotter/render/page"
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

// TestWindowHoldsAllDots puts every dot of a map of many places inside its
// window, and shows the world when no narrower window holds them.
func TestWindowHoldsAllDots(t *testing.T) {
	type at = page.Spot
	for _, c := range []struct {
		name  string
		spots []page.Spot
		level int
	}{
		{"one place", []at{{Lat: 60.63, Lon: 6.42}}, 0},
		{"one district", []at{{Lat: 60.60, Lon: 6.2}, {Lat: 60.85, Lon: 6.7}}, 0},
		{"Norway, Lindesnes to Nordkapp", []at{{Lat: 57.98, Lon: 7.05}, {Lat: 71.17, Lon: 25.78}}, 2},
		{"both sides of the Atlantic", []at{{Lat: 60.63, Lon: 6.42}, {Lat: 38.26, Lon: -109.69}}, 3},
		{"both sides of the 180th meridian", []at{{Lat: -17.7, Lon: 178.0}, {Lat: -16.8, Lon: -179.9}}, 3},
		{"both poles", []at{{Lat: 90, Lon: 0}, {Lat: -90, Lon: 0}}, 3},
	} {
		m := page.Map{Many: true, Spots: c.spots}
		w := windowFor(m)
		if w.level != c.level {
			t.Errorf("%s: window %+v, want level %d", c.name, w, c.level)
		}
		for _, s := range c.spots {
			if x, y := w.at(s.Lat, s.Lon); x < 0 || x > width || y < 0 || y > mapHeight {
				t.Errorf("%s: the dot stands at %.0f, %.0f", c.name, x, y)
			}
		}
		if n := strings.Count(string(AppendMap(nil, m, "")), `class="dot"`); n != len(c.spots) {
			t.Errorf("%s: %d dots of %d", c.name, n, len(c.spots))
		}
		land, err := Land(MapFile(m))
		if err != nil || len(land) > 150_000 {
			t.Errorf("%s: the land has %d bytes, %v", c.name, len(land), err)
		}
	}
}

// TestManyDotsAreCounted counts more than 200 places in squares, none lost.
func TestManyDotsAreCounted(t *testing.T) {
	m := page.Map{Many: true}
	for i := range MaxDots + 1 {
		m.Spots = append(m.Spots, page.Spot{Lat: 60 + float64(i%20)/20, Lon: 6 + float64(i/20)/20, N: 2})
	}
	svg := string(AppendMap(nil, m, ""))
	if strings.Contains(svg, `class="dot"`) {
		t.Error("dots stand beside the squares")
	}
	sum := 0
	for _, n := range regexp.MustCompile(`>(\d+)</text>`).FindAllStringSubmatch(svg, -1) {
		v, _ := strconv.Atoi(n[1])
		sum += v
	}
	if sum != 2*(MaxDots+1) {
		t.Errorf("the squares hold %d sheets of %d", sum, 2*(MaxDots+1))
	}
}
