package geodesy

import (
	"strings"
	"sync"
)

// Square is a reference of the British or the Irish grid, which names a
// square like MGRS.
type Square struct {
	Name                string // British National Grid, Irish Grid
	Datum               string // OSGB36, TM75
	Letters             string
	Digits              int     // of each axis, 0 to 5
	Side                float64 // metres
	Easting, Northing   float64 // of the south-west corner, in the national grid
	Latitude, Longitude float64 // of the centre, on Datum
}

var (
	// OS, A guide to coordinate systems in Great Britain, annex A.
	britishNational = sync.OnceValue(func() *TM { return NewTM(AiryEllipsoid, 49, -2, 0.9996012717, 400000, -100000) })
	// EPSG:29903, TM75 / Irish Grid.
	irishNational = sync.OnceValue(func() *TM { return NewTM(AiryModifiedEllipsoid, 53.5, -8, 1.000035, 200000, 250000) })
)

const gridLetters = "ABCDEFGHJKLMNOPQRSTUVWXYZ" // without I

// ReadSquare reads a reference of the British National Grid (TQ 123 456: two
// letters) or of the Irish Grid (H 123 456: one letter), with none to five
// (British) or three to five (Irish) digits an axis, blanks or none. Irish
// squares that hold no land are left out.
func ReadSquare(text string) (Square, bool) {
	groups := strings.Fields(strings.ToUpper(text))
	s := strings.Join(groups, "")
	n := 0
	for n < len(s) && strings.IndexByte(gridLetters, s[n]) >= 0 {
		n++
	}
	figs := s[n:]
	q := Square{Digits: len(figs) / 2, Letters: s[:n], Side: 100e3}
	last := ""
	if len(groups) > 0 {
		last = groups[len(groups)-1]
	}
	if n < 1 || n > 2 || len(figs)%2 != 0 || len(figs) > 10 || !isDigits(figs) || n == 1 && (q.Digits < 3 || strings.IndexByte("AEKPZ", s[0]) >= 0) ||
		len(groups) > 3 || len(groups) == 3 && len(last) != q.Digits {
		return Square{}, false
	}
	if !q.origin() {
		return Square{}, false
	}
	for range q.Digits {
		q.Side /= 10
	}
	q.Easting += float64(figures(figs[:q.Digits])) * q.Side
	q.Northing += float64(figures(figs[q.Digits:])) * q.Side
	tm := britishNational()
	q.Datum, q.Name = "OSGB36", "British National Grid"
	if n == 1 {
		tm = irishNational()
		q.Datum, q.Name = "TM75", "Irish Grid"
	}
	q.Latitude, q.Longitude = tm.Inverse(q.Easting+q.Side/2, q.Northing+q.Side/2)
	return q, true
}

// origin sets the corner of the square of 100 km by its letters. The letters
// run from north-west to south-east in five rows of five; the first of the
// British ones names a square of 500 km.
func (q *Square) origin() bool {
	at := func(c byte) (col, row int) {
		i := strings.IndexByte(gridLetters, c)
		return i % 5, 4 - i/5
	}
	col, row := at(q.Letters[len(q.Letters)-1])
	if len(q.Letters) == 1 {
		q.Easting, q.Northing = float64(col)*100e3, float64(row)*100e3
		return true
	}
	// Only the squares of Great Britain: H, N, S and the edges O, T, J.
	if strings.IndexByte("HNSOTJ", q.Letters[0]) < 0 {
		return false
	}
	c5, r5 := at(q.Letters[0])
	e, n := (c5-2)*5+col, (r5-1)*5+row
	if e < 0 || e > 6 || n < 0 || n > 12 {
		return false
	}
	q.Easting, q.Northing = float64(e)*100e3, float64(n)*100e3
	return true
}
