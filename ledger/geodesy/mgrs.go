package geodesy

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// MGRS is a reference of the military grid: it names a square, not a point.
type MGRS struct {
	Zone        int // 0: of the polar grid
	Band        byte
	Column, Row byte // of the square of 100 km
	Digits      int  // of each axis: 0 names the 100 km square, 5 a square of 1 m, at most 8
	// East and North are the figures: the south-west corner of the square
	// within the 100 km square, in units of Side.
	East, North int
}

const (
	columnLetters = "ABCDEFGHJKLMNPQRSTUVWXYZ" // without I and O; zones take 8 in turn
	rowLetters    = "ABCDEFGHJKLMNPQRSTUV"     // 20, again and again
	mostDigits    = 8
)

// MGRSOf is the square of so many digits an axis (0 to 8) in which a point
// lies, on WGS84: figures are cut off, never rounded. From 84° N and beyond 80°
// S it is one of the polar grid.
func MGRSOf(lat, lon float64, digits int) (MGRS, error) {
	if lat >= utmNorth && lat <= 90 || lat < utmSouth && lat >= -90 {
		return ToUPS(lat, lon).MGRS(digits)
	}
	u, err := ToUTM(lat, lon)
	if err != nil {
		return MGRS{}, err
	}
	return u.MGRS(digits)
}

// MGRS is the square of so many digits an axis in which a point of UTM lies;
// without a band, that of its latitude on WGS84.
func (u UTM) MGRS(digits int) (MGRS, error) {
	if digits < 0 || digits > mostDigits {
		return MGRS{}, fmt.Errorf("mgrs of %v: %d digits: 0 to %d can be", u, digits, mostDigits)
	}
	if why := u.Check(); why != "" {
		return MGRS{}, fmt.Errorf("mgrs of %v: %s", u, why)
	}
	if u.Band == 0 {
		lat, _ := u.LatLon()
		if u.Band = BandOf(lat); u.Band == 0 {
			return MGRS{}, fmt.Errorf("mgrs of %v: the grid reaches from 80° S to 84° N", u)
		}
	}
	// In whole micrometres, so that 444140.6 is cut off to 444140600 mm.
	e, n := int64(math.Floor(u.Easting*1e6)), int64(math.Floor(u.Northing*1e6))
	const square = 100e9
	m := MGRS{Zone: u.Zone, Band: u.Band, Digits: digits}
	col, row := int(e/square)-1, int(n/square)
	if col > 7 {
		return MGRS{}, fmt.Errorf("mgrs of %v: the easting is beyond the squares of the zone", u)
	}
	m.Column = columnLetters[(u.Zone-1)%3*8+col]
	m.Row = rowLetters[(row+rowShift(u.Zone))%20]
	unit := int64(math.Pow10(11 - digits))
	m.East, m.North = int(e%square/unit), int(n%square/unit)
	return m, nil
}

// rowShift is where the letters of rows begin: even zones five later.
func rowShift(zone int) int { return 5 * ((zone + 1) % 2) }

// ReadMGRS reads a reference: with or without blanks, in either case, with
// none to eight digits an axis; those of the polar grid begin with A, B, Y or Z.
func ReadMGRS(text string) (MGRS, error) {
	m, why := readMGRS(text)
	if why == "" && m.Polar() {
		_, why = m.polarCorner()
	} else if why == "" {
		_, why = m.corner(WGS84Ellipsoid)
	}
	if why != "" {
		return MGRS{}, errors.New("mgrs " + strconv.Quote(text) + ": " + why)
	}
	return m, nil
}

func readMGRS(text string) (m MGRS, why string) {
	groups := strings.Fields(strings.ToUpper(text))
	s := strings.Join(groups, "")
	i := 0
	for i < len(s) && isDigit(s[i]) && i < 3 {
		m.Zone = m.Zone*10 + int(s[i]-'0')
		i++
	}
	switch {
	case i == 0 && len(s) > 0 && strings.IndexByte(polarBands, s[0]) >= 0: // polar: no zone
	case i == 0 || m.Zone < 1 || m.Zone > 60:
		return m, "zones go from 1 to 60"
	}
	switch {
	case len(s) < i+3:
		return m, "after the zone come three letters: band, column and row of the square"
	}
	m.Band, m.Column, m.Row = s[i], s[i+1], s[i+2]
	if _, _, ok := BandLatitudes(m.Band); !ok && !m.Polar() {
		return m, "bands go from C to X, without I and O"
	}
	if m.Band == 'X' && (m.Zone == 32 || m.Zone == 34 || m.Zone == 36) {
		return m, "in band X there is no zone 32, 34 or 36: Svalbard has 31, 33, 35 and 37"
	}
	figures := s[i+3:]
	m.Digits = len(figures) / 2
	switch last := groups[len(groups)-1]; {
	case len(figures)%2 != 0, len(groups) > 1 && isDigits(last) && len(last) != m.Digits && len(last) != len(figures):
		return m, "easting and northing have as many figures each"
	case m.Digits > mostDigits:
		return m, "more figures than the grid has use for"
	case !isDigits(figures):
		return m, "after the letters come figures only"
	}
	if m.Digits > 0 {
		m.East, _ = strconv.Atoi(figures[:m.Digits])
		m.North, _ = strconv.Atoi(figures[m.Digits:])
	}
	return m, ""
}

func isDigits(s string) bool {
	for i := range len(s) {
		if !isDigit(s[i]) {
			return false
		}
	}
	return true
}

// Side is the side of the square in metres.
func (m MGRS) Side() float64 { return math.Pow10(5 - m.Digits) }

// HalfDiagonal is how far a point of the square can lie from its centre, in
// metres.
func (m MGRS) HalfDiagonal() float64 { return m.Side() * math.Sqrt2 / 2 }

// Corner is the south-west corner; ok is false for letters that name no
// square of the zone, and for a polar square, which has no place in UTM.
func (m MGRS) Corner() (u UTM, ok bool) {
	if m.Polar() {
		return UTM{}, false
	}
	u, why := m.corner(WGS84Ellipsoid)
	return u, why == ""
}

// Centre is the centre of the square, on WGS84; ok as for Corner.
func (m MGRS) Centre() (lat, lon float64, ok bool) { return m.CentreOn(WGS84Ellipsoid) }

// CentreOn is the centre on the ellipsoid of the reference's datum. On the
// ellipsoids of Bessel and Clarke the rows have other letters (see corner).
func (m MGRS) CentreOn(e Ellipsoid) (lat, lon float64, ok bool) {
	if m.Polar() {
		u, why := m.polarCorner()
		lat, lon = UPS{u.North, u.Easting + m.Side()/2, u.Northing + m.Side()/2}.LatLon()
		return lat, lon, why == ""
	}
	u, why := m.corner(e)
	if why != "" {
		return 0, 0, false
	}
	u.Easting += m.Side() / 2
	u.Northing += m.Side() / 2
	lat, lon = u.On(e)
	return lat, lon, true
}

// corner is the south-west corner on an ellipsoid. Rows bear letters again
// every 2000 km; the band says which is meant: the square must reach into
// it. Old maps on the ellipsoids of Bessel and Clarke begin the letters ten
// rows later (from memory of the United States' grid manual; not checked).
func (m MGRS) corner(e Ellipsoid) (u UTM, why string) {
	col := strings.IndexByte(columnLetters, m.Column) - (m.Zone-1)%3*8
	if col < 0 || col > 7 {
		first := (m.Zone - 1) % 3 * 8
		return u, fmt.Sprintf("columns of zone %d go from %c to %c", m.Zone, columnLetters[first], columnLetters[first+7])
	}
	letter := strings.IndexByte(rowLetters, m.Row)
	if letter < 0 {
		return u, "rows go from A to V, without I and O"
	}
	south, north, _ := BandLatitudes(m.Band)
	row := letter - rowShift(m.Zone)
	if e.olderLetters() {
		row -= 10
	}
	u = UTM{Zone: m.Zone, North: m.Band >= 'N', Band: m.Band, Easting: float64(col+1) * 100e3}
	const perRow = 0.90036 // degrees
	first := int(math.Floor(south/perRow)) - 2
	row += 20 * int(math.Ceil(float64(first-row)/20))
	for ; float64(row)*perRow < north+2; row += 20 {
		u.Northing = float64(row) * 100e3
		if !u.North {
			u.Northing += 10000e3
		}
		if u.reaches(e, south, north) {
			unit := m.Side()
			u.Easting += float64(m.East) * unit
			u.Northing += float64(m.North) * unit
			return u, ""
		}
	}
	return u, fmt.Sprintf("row %c of column %c does not lie in band %c", m.Row, m.Column, m.Band)
}

// reaches reports whether the 100 km square of corner u reaches into the
// latitudes of a band of its half of the earth.
func (u UTM) reaches(e Ellipsoid, south, north float64) bool {
	if u.North && u.Northing < 0 || !u.North && u.Northing >= 10000e3 {
		return false
	}
	low, high := 90.0, -90.0
	for _, d := range [4][2]float64{{0, 0}, {100e3, 0}, {0, 100e3}, {100e3, 100e3}} {
		c := u
		c.Easting += d[0]
		c.Northing += d[1]
		lat, _ := c.On(e)
		low, high = min(low, lat), max(high, lat)
		if lat > south+1 && lat < north-1 {
			return true
		}
	}
	return low < north && high > south
}

// olderLetters reports whether maps on e use the older letters of rows.
func (e Ellipsoid) olderLetters() bool {
	return e.A > 6378200 && e.A < 6378310 || e.A < 6377500 && e.A > 6377390
}

// String writes the reference without blanks: 32VLN615300.
func (m MGRS) String() string {
	s := string([]byte{m.Band, m.Column, m.Row})
	if !m.Polar() {
		s = strconv.Itoa(m.Zone) + s
	}
	if m.Digits > 0 {
		s += fmt.Sprintf("%0*d%0*d", m.Digits, m.East, m.Digits, m.North)
	}
	return s
}
