package figure

import (
	"fmt"
	"math"
	"sync"

	"blotter/render/page"
)

// A map shows a window of some degrees of latitude, equirectangular, true to
// scale at its middle: three degrees where a coast or border runs through
// them, else the wider one in which one does. Windows overlap by half, so that
// a place lies in the middle half of its own; the land of a window is one file
// that all maps of that window share.
const (
	mapHeight = 240
	kmPerLat  = 111.2 // kilometres a degree of latitude, on the sphere of 6371 km
)

// widths of windows: degrees of latitude, and the length of the scale bar.
var widths = []struct {
	lat float64
	bar float64 // kilometres
}{{3, 50}, {12, 200}, {48, 1000}, {270, 5000}}

// world is the level of the one window that shows the whole world; it is as
// wide as the globe, and higher.
const world = 3

// window is one of the windows by its width, row and column.
type window struct{ level, row, col int }

func (w window) latSpan() float64 { return widths[w.level].lat }

// perLat is how many units a degree of latitude has.
func (w window) perLat() float64 { return mapHeight / w.latSpan() }

func (w window) middleLat() float64 { return float64(w.row) * w.latSpan() / 2 }

// stretch is how many units a degree of longitude has.
func (w window) stretch() float64 { return w.perLat() * math.Cos(w.middleLat()*math.Pi/180) }

func (w window) lonSpan() float64 { return width / w.stretch() }

func (w window) west() float64  { return float64(w.col)*w.lonSpan()/2 - w.lonSpan()/2 }
func (w window) south() float64 { return w.middleLat() - w.latSpan()/2 }

// km is a length in units.
func (w window) km(kilometres float64) float64 { return kilometres / kmPerLat * w.perLat() }

// windowOf is the narrowest window in whose middle half a place lies and
// through which a coast or border runs; the widest short of the world if there
// is none.
func windowOf(lat, lon float64) window {
	for level := range world - 1 {
		if w := windowAt(level, lat, lon); w.hasLine() {
			return w
		}
	}
	return windowAt(world-1, lat, lon)
}

// windowAt is the window of a level in whose middle half a place lies.
func windowAt(level int, lat, lon float64) window {
	w := window{level: level}
	w.row = int(math.Round(lat / (w.latSpan() / 2)))
	top := int(85.5 / (w.latSpan() / 2)) // nearer the poles a window is not true
	w.row = max(-top, min(top, w.row))
	w.col = int(math.Round(lon / (w.lonSpan() / 2)))
	return w
}

// lined remembers which windows a line runs through.
var lined sync.Map

func (w window) hasLine() bool {
	if has, ok := lined.Load(w); ok {
		return has.(bool)
	}
	has := false
	for _, arc := range land().arcs {
		w.runs(arc, func([]point, float64) { has = true })
	}
	lined.Store(w, has)
	return has
}

// file is the path of the window's land below the site's root.
func (w window) file() string { return fmt.Sprintf("data/map/%d_%d_%d.svg", w.level, w.row, w.col) }

// x, y of a place in the window's units.
func (w window) at(lat, lon float64) (x, y float64) {
	return (lon - w.west()) * w.stretch(), (w.south() + w.latSpan() - lat) * w.perLat()
}

// Ring is how the error of a single place is drawn.
type Ring uint8

const (
	UnknownError Ring = iota // the error is not known: a ring that marks the place
	SmallRing                // the error is smaller than the ring
	ErrorCircle              // a circle to scale
	NoRing                   // the error is larger than the map
	WholeSquare              // no place but a square, to scale
	SmallSquare              // the square is smaller than the one drawn
)

const smallRing = 8.0 // radius in units

// RingOf says how the place of a map of one spot is marked.
func RingOf(m page.Map) Ring {
	if len(m.Spots) > 0 && m.Spots[0].Degrees > 0 {
		if w := windowOf(m.Spots[0].Lat, m.Spots[0].Lon); m.Spots[0].Degrees*w.perLat() < leastSquare {
			return SmallSquare
		}
		return WholeSquare
	}
	if len(m.Spots) == 0 || m.Spots[0].Metres <= 0 {
		return UnknownError
	}
	w := windowOf(m.Spots[0].Lat, m.Spots[0].Lon)
	switch r := w.km(m.Spots[0].Metres / 1000); {
	case r <= smallRing:
		return SmallRing
	case r > mapHeight/2:
		return NoRing
	}
	return ErrorCircle
}

// MapFile is the file of land that a map needs, below the site's root; "" for
// a map without a place.
func MapFile(m page.Map) string {
	if len(m.Spots) == 0 {
		return ""
	}
	return windowFor(m).file()
}

// AppendMap appends a map as one <svg> to dst; up is the way to the site's
// root.
func AppendMap(dst []byte, m page.Map, up string) []byte {
	d := drawing{dst}
	d.open(width, mapHeight, string(m.Sentence))
	switch {
	case m.Many:
		d.many(m, up)
	case len(m.Spots) > 0:
		s := m.Spots[0]
		w := windowOf(s.Lat, s.Lon)
		d.ground(w, up)
		x, y := w.at(s.Lat, s.Lon)
		switch RingOf(m) {
		case ErrorCircle:
			d.circle("dot", x, y, 2)
			d.circle("ring", x, y, w.km(s.Metres/1000))
		case NoRing:
		case WholeSquare, SmallSquare:
			d.held(w, s)
		default:
			d.circle("dot", x, y, 2)
			d.circle("ring", x, y, smallRing)
		}
	}
	d.str("</svg>")
	return d.b
}

// leastSquare is the least side, in units, of a square that stands for a
// place that is withheld.
const leastSquare = 10.0

// held draws the hatched square that is shown instead of a place.
func (d *drawing) held(w window, s page.Spot) {
	x, y := w.at(s.Lat, s.Lon)
	wide, high := max(s.Degrees*w.stretch(), leastSquare), max(s.Degrees*w.perLat(), leastSquare)
	d.rect("held", x-wide/2, y-high/2, wide, high)
	d.hatch(x-wide/2, y-high/2, wide, high)
}

// ground puts the window's land below what is drawn.
func (d *drawing) ground(w window, up string) {
	d.str(`<image width="320" height="240" href="`).esc(up + w.file()).str(`"/>`)
}

func (d *drawing) circle(class string, x, y, r float64) {
	d.str(`<circle class="`).str(class).str(`" cx="`).num(x).str(`" cy="`).num(y).str(`" r="`).num(r).str(`"/>`)
}

// landStyle has the site's tokens in both schemes, since a picture does not
// see the page's CSS; a test holds them to site.css.
const landStyle = `<style>.s{fill:#F1EEE3}.l{fill:#FBFAF5}.c{fill:none;stroke:#7F8276}.b{fill:none;stroke:#7F8276;stroke-dasharray:3 2}.t{fill:#565A52;font:12px system-ui,sans-serif}` +
	`@media (prefers-color-scheme:dark){.s{fill:#20231F}.l{fill:#161816}.c,.b{stroke:#8A8D80}.t{fill:#B1B3A6}}</style>`

// Land is the picture of a window's land for a file that MapFile named.
func Land(file string) ([]byte, error) {
	var w window
	if n, err := fmt.Sscanf(file, "data/map/%d_%d_%d.svg", &w.level, &w.row, &w.col); err != nil || n != 3 || w.level < 0 || w.level >= len(widths) {
		return nil, fmt.Errorf("draw %s: not a window of the map", file)
	}
	d := drawing{}
	d.str(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 320 240">`).str(landStyle)
	d.str(`<rect class="s" width="320" height="240"/>`)
	a := land()
	d.str(`<path class="l" d="`)
	for _, r := range a.rings {
		d.ring(w, r)
	}
	d.str(`"/>`)
	for _, class := range []string{"c", "b"} {
		d.str(`<path class="`).str(class).str(`" d="`)
		for i, arc := range a.arcs {
			if a.twice[i] == (class == "b") {
				d.line(w, arc)
			}
		}
		d.str(`"/>`)
	}
	d.scale(w)
	d.str("</svg>\n")
	return d.b, nil
}

// ring draws the part of a ring that lies in the window.
func (d *drawing) ring(w window, ring []point) {
	for _, turn := range []float64{-360, 0, 360} {
		west, east := w.west()-turn, w.west()+w.lonSpan()-turn
		if !near(ring, west, w.south(), east, w.south()+w.latSpan()) {
			continue
		}
		cut := clip(ring, west-0.05, w.south()-0.05, east+0.05, w.south()+w.latSpan()+0.05)
		if d.points(w, cut, turn) {
			d.str("Z")
		}
	}
}

// line draws the runs of an arc that lie in the window.
func (d *drawing) line(w window, arc []point) {
	w.runs(arc, func(ps []point, turn float64) {
		d.points(w, ps, turn)
	})
}

// runs yields the runs of an arc that lie in the window, with the turn of the
// globe that brings them there.
func (w window) runs(arc []point, yield func(run []point, turn float64)) {
	south, north := w.south(), w.south()+w.latSpan()
	for _, turn := range []float64{-360, 0, 360} {
		west, east := w.west()-turn, w.west()+w.lonSpan()-turn
		if !near(arc, west, south, east, north) {
			continue
		}
		from := -1
		for i := range arc {
			in := i+1 < len(arc) && math.Abs(arc[i+1].x-arc[i].x) < 180 && near(arc[i:i+2], west, south, east, north)
			if in && from < 0 {
				from = i
			}
			if !in && from >= 0 {
				yield(arc[from:i+1], turn)
				from = -1
			}
		}
	}
}

// near reports whether the box around ps touches the other.
func near(ps []point, west, south, east, north float64) bool {
	if len(ps) == 0 {
		return false
	}
	w, e, s, n := ps[0].x, ps[0].x, ps[0].y, ps[0].y
	for _, p := range ps[1:] {
		w, e, s, n = min(w, p.x), max(e, p.x), min(s, p.y), max(n, p.y)
	}
	return w <= east && e >= west && s <= north && n >= south
}

// points draws a run of points and reports whether it did. In the wide windows
// points too close to the one before are left out, and runs as short as that.
func (d *drawing) points(w window, ps []point, turn float64) bool {
	least := 0.0
	if w.level >= world-1 {
		least = 1
	}
	if len(ps) == 0 || w.small(ps, least) {
		return false
	}
	lastX, lastY := 0.0, 0.0
	for i, p := range ps {
		x, y := w.at(p.y, p.x+turn)
		if i > 0 && i < len(ps)-1 && math.Abs(x-lastX) < least && math.Abs(y-lastY) < least {
			continue
		}
		if i == 0 {
			d.str("M")
		} else {
			d.str("L")
		}
		d.num(math.Round(x*10) / 10).str(" ").num(math.Round(y*10) / 10)
		lastX, lastY = x, y
	}
	return true
}

// small reports whether ps has less than a number of units each way.
func (w window) small(ps []point, units float64) bool {
	west, south := ps[0].x, ps[0].y
	east, north := west, south
	for _, p := range ps[1:] {
		west, east = min(west, p.x), max(east, p.x)
		south, north = min(south, p.y), max(north, p.y)
	}
	return (east-west)*w.stretch() < units && (north-south)*w.perLat() < units
}

// scale draws the bar of the window's scale.
func (d *drawing) scale(w window) {
	bar := widths[w.level].bar
	length := w.km(bar)
	d.str(`<path class="c" d="M10 224v6h`).num(length).str(`v-6"/><text class="t" x="`).num(10 + length + 6).str(`" y="231">`).num(bar).str(" km</text>")
}
