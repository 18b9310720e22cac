package geodesy

import (
	"fmt"
	"math"
	"strings"
)

// Cell is a piece of the grid of degrees: a degree, halved in both directions
// once for each of its letters.
type Cell struct {
	South, West float64 // degrees
	Size        float64 // degrees: 1, 0.5, 0.25 for the quarter-degree cell
	Letters     string  // A north-west, B north-east, C south-west, D south-east
	Old         bool    // written in the older form of southern Africa, 3218CB
}

// ReadCell reads a reference of the quarter-degree grid: E032S18CB, with no
// letter to six; or the older form of southern Africa, 3218CB, two figures of
// south latitude, two of east longitude and two letters (three, with one more
// halving, are read too). In both the degrees are those of the corner nearest
// to 0, 0 and the letters count from the north-west. (New form: Chapman &
// Wieczorek, Georeferencing Best Practices, GBIF 2020, 2.3.4. Old form: common
// practice in southern Africa, from memory; the same page sets 3218CB equal to
// E032S18CB, which names the figures in the other order.)
func ReadCell(text string) (Cell, bool) {
	s := strings.ToUpper(strings.Join(strings.Fields(text), ""))
	var lat, lon int
	switch {
	case len(s) >= 7 && len(s) <= 13 && (s[0] == 'E' || s[0] == 'W') && isDigits(s[1:4]) && (s[4] == 'N' || s[4] == 'S') && isDigits(s[5:7]):
		lon, lat = figures(s[1:4]), figures(s[5:7])
		if lon > 179 || lat > 89 {
			return Cell{}, false
		}
		c := Cell{South: float64(lat), West: float64(lon), Size: 1, Letters: s[7:]}
		if s[0] == 'W' {
			c.West = -c.West - 1
		}
		if s[4] == 'S' {
			c.South = -c.South - 1
		}
		return c.halved()
	case (len(s) == 6 || len(s) == 7) && isDigits(s[:4]):
		lat, lon = figures(s[:2]), figures(s[2:4])
		if lat > 39 || lon > 59 {
			return Cell{}, false
		}
		return Cell{South: float64(-lat - 1), West: float64(lon), Size: 1, Letters: s[4:], Old: true}.halved()
	}
	return Cell{}, false
}

func figures(s string) int {
	n := 0
	for i := range len(s) {
		n = n*10 + int(s[i]-'0')
	}
	return n
}

func (c Cell) halved() (Cell, bool) {
	for _, l := range c.Letters {
		if l < 'A' || l > 'D' {
			return Cell{}, false
		}
		c.Size /= 2
		if l == 'B' || l == 'D' {
			c.West += c.Size
		}
		if l == 'A' || l == 'B' {
			c.South += c.Size
		}
	}
	return c, true
}

// CellOf is the cell of so many letters (2: quarter of a degree) in which a
// point lies.
func CellOf(lat, lon float64, letters int) Cell {
	c := Cell{South: min(89, math.Floor(lat)) + 0, West: math.Floor(turn(lon)) + 0, Size: 1} // + 0: no minus nought
	for range letters {
		c.Size /= 2
		l := byte('C')
		if lat >= c.South+c.Size {
			l = 'A'
			c.South += c.Size
		}
		if turn(lon) >= c.West+c.Size {
			l++
			c.West += c.Size
		}
		c.Letters += string(l)
	}
	return c
}

// Centre is the middle of the cell and the metres from there to its farthest
// corner.
func (c Cell) Centre() (lat, lon, metres float64) {
	lat, lon = c.South+c.Size/2, c.West+c.Size/2
	return lat, lon, max(Distance(lat, lon, c.South, c.West), Distance(lat, lon, c.South+c.Size, c.West))
}

// String writes the cell in the newer form: E032S18CB.
func (c Cell) String() string {
	size := 1.0
	south, west := c.South, c.West
	for _, l := range c.Letters {
		size /= 2
		if l == 'B' || l == 'D' {
			west -= size
		}
		if l == 'A' || l == 'B' {
			south -= size
		}
	}
	ew, ns := 'E', 'N'
	if west < 0 {
		ew, west = 'W', -west-1
	}
	if south < 0 {
		ns, south = 'S', -south-1
	}
	return fmt.Sprintf("%c%03.0f%c%02.0f%s", ew, west, ns, south, c.Letters)
}
