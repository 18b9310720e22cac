package geodesy

import (
	"fmt"
	"math"
	"sync"
)

// UTM is a point of the Universal Transverse Mercator grid.
type UTM struct {
	Zone              int  // 1 to 60
	North             bool // the northern half of the earth; the false northing is 0 there, 10,000,000 m in the south
	Band              byte // C to X without I and O, of the latitude; 0 when not said
	Easting, Northing float64
}

// The bounds of UTM: 80° S to 84° N, the latter outside (a point at 84° N is
// polar, as in GeographicLib).
const (
	utmSouth = -80
	utmNorth = 84
)

const bandLetters = "CDEFGHJKLMNPQRSTUVWX"

// BandOf is the letter of the band of 8° (X: 12°) of a latitude; 0 outside
// 80° S to 84° N.
func BandOf(lat float64) byte {
	if !(lat >= utmSouth && lat < utmNorth) {
		return 0
	}
	return bandLetters[min(19, int(math.Floor((lat+80)/8)))]
}

// BandLatitudes are the bounds of a band; ok is false for a letter that is
// none.
func BandLatitudes(band byte) (south, north float64, ok bool) {
	for i := range len(bandLetters) {
		if bandLetters[i] == band {
			south = float64(8*i - 80)
			north = south + 8
			if band == 'X' {
				north = utmNorth
			}
			return south, north, true
		}
	}
	return 0, 0, false
}

// ZoneOf is the UTM zone of a point, with the exceptions of south-west Norway
// (32V reaches west to 3° E) and Svalbard (in band X only 31, 33, 35 and 37
// between 0° and 42° E).
func ZoneOf(lat, lon float64) int {
	lon = turn(lon)
	zone := int(math.Floor((lon+180)/6)) + 1
	switch {
	case lat >= 56 && lat < 64 && zone == 31 && lon >= 3:
		return 32
	case lat >= 72 && lat < 84 && lon >= 0 && lon < 42:
		return 31 + 2*int(math.Floor((lon+3)/12))
	}
	return zone
}

// ToUTM is the point in its zone, on the WGS84 ellipsoid; an error outside
// 80° S to 84° N.
func ToUTM(lat, lon float64) (UTM, error) { return WGS84Ellipsoid.ToUTM(lat, lon) }

// ToUTM is the point in its zone; an error outside 80° S to 84° N.
func (e Ellipsoid) ToUTM(lat, lon float64) (UTM, error) {
	if lat < 0 && lat > -1e-11 {
		lat = 0 // within a micrometre of the equator
	}
	band := BandOf(lat)
	if band == 0 || math.IsNaN(lon) || math.IsInf(lon, 0) {
		return UTM{}, fmt.Errorf("utm of %g, %g: the grid reaches from 80° S to 84° N", lat, lon)
	}
	u := UTM{Zone: ZoneOf(lat, lon), North: lat >= 0, Band: band}
	u.Easting, u.Northing = e.zone(u.Zone, u.North).Forward(lat, lon)
	return u, nil
}

// LatLon is the point on the WGS84 ellipsoid.
func (u UTM) LatLon() (lat, lon float64) { return u.On(WGS84Ellipsoid) }

// On is the point on the ellipsoid of its datum: the same figures name other
// latitudes and longitudes on NAD27 (Clarke 1866) than on WGS84.
func (u UTM) On(e Ellipsoid) (lat, lon float64) {
	return e.zone(u.Zone, u.North).Inverse(u.Easting, u.Northing)
}

// Check says what is wrong with a point that cannot be: zone, band, easting
// between 100,000 and 900,000 m, northing in its half of the earth, a band
// that does not fit the northing. Empty when nothing is. A point may stand in
// a neighbouring zone and up to 100 km outside its band: that is done.
func (u UTM) Check() string {
	switch {
	case u.Zone < 1 || u.Zone > 60:
		return "UTM zones go from 1 to 60"
	case !(u.Easting >= 100e3 && u.Easting <= 900e3):
		return "a UTM easting lies between 100,000 and 900,000 m"
	case u.North && !(u.Northing >= 0 && u.Northing <= 9400e3):
		return "a UTM northing lies between 0 and 9,400,000 m in the northern half of the earth"
	case !u.North && !(u.Northing >= 1000e3 && u.Northing <= 10000e3):
		return "a UTM northing lies between 1,000,000 and 10,000,000 m in the southern half of the earth"
	}
	if u.Band == 0 {
		return ""
	}
	south, north, ok := BandLatitudes(u.Band)
	if !ok {
		return "UTM bands go from C to X, without I and O"
	}
	if u.Band == 'X' && (u.Zone == 32 || u.Zone == 34 || u.Zone == 36) {
		return "in band X there is no zone 32, 34 or 36: Svalbard has 31, 33, 35 and 37"
	}
	if lat, _ := u.LatLon(); lat < south-0.9 || lat > north+0.9 {
		return fmt.Sprintf("northing %.0f does not lie in band %c", u.Northing, u.Band)
	}
	return ""
}

// String writes the point to a metre: 32V 372000 6732000; without a band 32N,
// 32S for the half of the earth.
func (u UTM) String() string {
	half := u.Band
	if half == 0 {
		half = 'S'
		if u.North {
			half = 'N'
		}
	}
	return fmt.Sprintf("%d%c %.0f %.0f", u.Zone, half, u.Easting, u.Northing)
}

type zoneKey struct {
	e     Ellipsoid
	zone  int
	north bool
}

var zones sync.Map // zoneKey -> *TM

// zone is the projection of a zone; made once.
func (e Ellipsoid) zone(zone int, north bool) *TM {
	k := zoneKey{e, zone, north}
	if t, ok := zones.Load(k); ok {
		return t.(*TM)
	}
	fn := 10000e3
	if north {
		fn = 0
	}
	t := NewTM(e, 0, float64(6*zone-183), 0.9996, 500e3, fn)
	zones.Store(k, t)
	return t
}
