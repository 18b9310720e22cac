package geodesy

import (
	_ "embed"
	"math"
	"strconv"
	"strings"
	"sync"
	"unicode"
)

// UnknownDatum is the error in metres of a position whose datum is not known:
// the worst case, between any two datums anywhere. Chapman & Wieczorek,
// Georeferencing Best Practices (GBIF 2020), "Uncertainty from Unknown Datum".
const UnknownDatum = 5359

// Datum is a geodetic datum with what is published of its way to WGS84.
type Datum struct {
	Code      int    // EPSG code of its geographic coordinates: 4326 for WGS 84
	Name      string // as EPSG has it
	Ellipsoid Ellipsoid
	Figure    string // the name of the ellipsoid
	Shifts    []Shift
}

// Shift is one published set of Helmert parameters from a datum to WGS84.
type Shift struct {
	Operation                int     // EPSG code of the operation
	Accuracy                 float64 // metres, as EPSG states it
	X, Y, Z                  float64 // metres
	RX, RY, RZ               float64 // arc seconds, position vector convention
	PPM                      float64 // scale difference in millionths
	South, West, North, East float64 // the box about its area of use; West > East crosses 180°
	Area                     string
}

//go:embed datums.tsv
var datumTable string

// datumBook is the table as read.
type datumBook struct {
	all    []Datum
	byName map[string]int // folded name or EPSG code -> index into all
}

var datums = sync.OnceValue(func() datumBook { return readDatums(datumTable) })

// common is the first datum of the table alone, WGS 84: most labels that name
// a datum name it, and need not wait for the others.
var common = sync.OnceValue(func() datumBook {
	const head = "\ndatum\t"
	from := strings.Index(datumTable, head) + 1
	return readDatums(datumTable[from : from+strings.Index(datumTable[from:], head)+1])
})

func readDatums(table string) datumBook {
	b := datumBook{byName: map[string]int{}}
	for line := range strings.Lines(table) {
		f := strings.Split(strings.TrimSuffix(line, "\n"), "\t")
		switch f[0] {
		case "datum":
			b.add(f)
		case "shift":
			d := &b.all[len(b.all)-1]
			d.Shifts = append(d.Shifts, shiftOf(f))
		}
	}
	return b
}

func (b *datumBook) add(f []string) {
	code, _ := strconv.Atoi(f[1])
	figure := Ellipsoid{A: number(f[3]), F: 1 / number(f[4])}
	b.all = append(b.all, Datum{Code: code, Name: f[2], Ellipsoid: figure, Figure: f[5]})
	for _, n := range append(strings.Split(f[6], ";"), f[1], f[2]) {
		if n = foldDatum(n); n != "" {
			if _, taken := b.byName[n]; !taken {
				b.byName[n] = len(b.all) - 1
			}
		}
	}
}

func shiftOf(f []string) Shift {
	var v [13]float64
	for i := range v {
		v[i] = number(f[i+1])
	}
	return Shift{
		Operation: int(v[0]), Accuracy: v[1], X: v[2], Y: v[3], Z: v[4], RX: v[5], RY: v[6], RZ: v[7], PPM: v[8],
		South: v[9], West: v[10], North: v[11], East: v[12], Area: f[14],
	}
}

func number(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		panic("datums.tsv: " + err.Error())
	}
	return v
}

// foldDatum brings the spellings of a datum's name together: letters and
// figures only, in lower case, without the century of a year and without the
// word datum.
func foldDatum(words string) string {
	var b strings.Builder
	for _, r := range words {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || r == '+' {
			b.WriteRune(unicode.ToLower(r))
		}
	}
	s := strings.ReplaceAll(b.String(), "datum", "")
	if strings.HasPrefix(s, "northamericanof") {
		s = strings.Replace(s, "of", "", 1)
	}
	for i := 1; i+4 <= len(s); i++ {
		if s[i:i+2] == "19" && isDigit(s[i+2]) && isDigit(s[i+3]) && !isDigit(s[i-1]) && (i+4 == len(s) || !isDigit(s[i+4])) {
			s = s[:i] + s[i+2:]
		}
	}
	return s
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// DatumOf is the datum that words name: its name, an alias, with or without
// its century, or the EPSG code of its geographic coordinates ("WGS84", "WGS
// 1984", "EPSG:4326", "North American Datum 1927"). Of a projected system
// "NAME / PROJECTION" the name counts.
func DatumOf(words string) (Datum, bool) {
	if len(words) > 100 {
		return Datum{}, false
	}
	if strings.Contains(words, "opengis") {
		words = words[strings.LastIndexByte(words, '/')+1:]
	}
	name, _, _ := strings.Cut(words, "/")
	s := strings.TrimPrefix(strings.TrimPrefix(foldDatum(name), "urnogcdefcrs"), "epsg")
	if i, ok := common().byName[s]; ok {
		return common().all[i], true
	}
	b := datums()
	for _, try := range []string{s, strings.TrimSuffix(strings.TrimSuffix(s, "2d"), "3d"), strings.TrimPrefix(s, "the")} {
		if i, ok := b.byName[try]; ok && try != "" {
			return b.all[i], true
		}
	}
	if i, ok := b.byName[projected(s)]; ok {
		return b.all[i], true
	}
	return Datum{}, false
}

// UTMOfEPSG is the zone, half of the earth and datum that an EPSG code of a UTM
// zone names (32632: WGS 84, 32 north); ok is false for other codes.
func UTMOfEPSG(code string) (zone int, north bool, datum string, ok bool) {
	i, ok := datums().byName[projected(code)]
	if !ok {
		return 0, false, "", false
	}
	n, _ := strconv.Atoi(code)
	return n % 100, n/100 != 327, datums().all[i].Name, true
}

// projected is the code of the geographic coordinates under the EPSG code of
// a UTM zone; empty for others. The blocks of codes are EPSG's: 32601 to
// 32660 and 32701 to 32760 WGS 84, 25828 to 25838 ETRS89, 23028 to 23038
// ED50, 26701 to 26722 NAD27, 26901 to 26923 NAD83.
func projected(code string) string {
	n, err := strconv.Atoi(code)
	zone := n % 100
	switch block := n / 100; {
	case err != nil || len(code) != 5 || zone < 1 || zone > 60:
	case block == 326 || block == 327:
		return "4326"
	case block == 258 && zone >= 28 && zone <= 38:
		return "4258"
	case block == 230 && zone >= 28 && zone <= 38:
		return "4230"
	case block == 267 && zone <= 22:
		return "4267"
	case block == 269 && zone <= 23:
		return "4269"
	}
	return ""
}

// Datums are all datums of the table.
func Datums() []Datum { return datums().all }

// WGS84 reports whether d is WGS 84 itself.
func (d Datum) WGS84() bool { return d.Code == 4326 }

// ToWGS84 brings a point of the datum to WGS84; metres is the error that this
// brings in: the accuracy that EPSG states for the set of parameters used,
// and more where another set for the same place disagrees by more than either
// says. Of the sets in whose box the point lies the most accurate is used.
// Where there is none the datum is not used there: the point is handed back as
// it is, and metres is UnknownDatum.
func (d Datum) ToWGS84(lat, lon float64) (lat2, lon2, metres float64) {
	if d.WGS84() {
		return lat, lon, 0
	}
	best := -1
	for i := range d.Shifts {
		if s := &d.Shifts[i]; s.covers(lat, lon) && (best < 0 || s.Accuracy < d.Shifts[best].Accuracy) {
			best = i
		}
	}
	if best < 0 {
		return lat, lon, UnknownDatum
	}
	lat2, lon2 = d.Shifts[best].apply(d.Ellipsoid, lat, lon)
	metres = d.Shifts[best].Accuracy
	for i := range d.Shifts {
		if s := &d.Shifts[i]; i != best && s.covers(lat, lon) {
			a, o := s.apply(d.Ellipsoid, lat, lon)
			metres = max(metres, flat(lat2, lon2, a, o)-s.Accuracy)
		}
	}
	return lat2, lon2, math.Ceil(metres*10) / 10
}

// covers reports whether the point lies in the box of the shift.
func (s *Shift) covers(lat, lon float64) bool {
	if lat < s.South || lat > s.North {
		return false
	}
	if s.West > s.East {
		return lon >= s.West || lon <= s.East
	}
	return lon >= s.West && lon <= s.East
}

// apply does the seven-parameter transformation (EPSG method 9606, three
// parameters 9603) at height 0 above the ellipsoid.
func (s *Shift) apply(from Ellipsoid, lat, lon float64) (lat2, lon2 float64) {
	if s.X == 0 && s.Y == 0 && s.Z == 0 && s.RX == 0 && s.RY == 0 && s.RZ == 0 && s.PPM == 0 {
		return lat, lon // the ellipsoids of such datums differ by a tenth of a millimetre
	}
	const second = math.Pi / 180 / 3600
	x, y, z := from.cartesian(lat, lon)
	m, rx, ry, rz := 1+s.PPM*1e-6, s.RX*second, s.RY*second, s.RZ*second
	return WGS84Ellipsoid.geographic(
		s.X+m*(x-rz*y+ry*z),
		s.Y+m*(rz*x+y-rx*z),
		s.Z+m*(-ry*x+rx*y+z))
}

// flat is the distance of two points near each other.
func flat(lat1, lon1, lat2, lon2 float64) float64 {
	ofLat, ofLon := WGS84Ellipsoid.Degree(lat1)
	return math.Hypot((lat2-lat1)*ofLat, turn(lon2-lon1)*ofLon)
}

// UnknownDatumAt is how far a point whose datum nobody states can be off at
// the most: the greatest shift of the datums of this table that are used at
// the place, and which that is; UnknownDatum and "" where the table has none
// (a place is as well known as the table: sea, ice, small islands). Best
// Practices (see UnknownDatum) ask for such a look-up by place and for the
// worst case only without one.
func UnknownDatumAt(lat, lon float64) (metres float64, datum string) {
	old := false // else only new frames, which agree to metres, are known there
	b := datums()
	for i := range b.all {
		d := &b.all[i]
		for k := range d.Shifts {
			s := &d.Shifts[k]
			if !s.covers(lat, lon) || s.East-s.West > 300 {
				continue
			}
			a, o := s.apply(d.Ellipsoid, lat, lon)
			old = old || math.Abs(s.X)+math.Abs(s.Y)+math.Abs(s.Z) > 30
			if m := flat(lat, lon, a, o) + s.Accuracy; m > metres && s.Accuracy < 999 {
				metres, datum = m, d.Name
			}
		}
	}
	if !old {
		return UnknownDatum, ""
	}
	return math.Ceil(metres), datum
}
