package pictures

import (
	"math"
	"strings"
	"time"
	"unicode/utf8"
)

// Moment is a time as a camera's clock showed it.
type Moment struct {
	Clock time.Time      // the clock's figures, as if in UTC; zero: not said
	Zone  *time.Location // the clock's offset from UTC; nil: not said
}

// Known reports whether the picture says when it was taken.
func (m Moment) Known() bool { return !m.Clock.IsZero() }

// In is the instant of m; a clock of unknown offset is taken to show the time
// of zone.
func (m Moment) In(zone *time.Location) time.Time {
	if m.Zone != nil {
		zone = m.Zone
	}
	c := m.Clock
	return time.Date(c.Year(), c.Month(), c.Day(), c.Hour(), c.Minute(), c.Second(), 0, zone)
}

// momentOf reads 2026:03:02 14:05:06 and an offset such as +01:00.
func momentOf(clock, offset string) Moment {
	t, err := time.Parse("2006:01:02 15:04:05", clock)
	if err != nil || t.Year() < 1800 {
		return Moment{}
	}
	m := Moment{Clock: t}
	if z, err := time.Parse("-07:00", offset); err == nil {
		_, seconds := z.Zone()
		m.Zone = time.FixedZone(offset, seconds)
	}
	return m
}

// GPS is where the camera says that it stood.
type GPS struct {
	Known    bool
	Lat, Lon float64 // degrees, north and east positive, in Datum
	Step     float64 // degrees: the size of the last figure given for Lat
	Altitude float64 // metres above sea level; NaN: not said
	DOP      float64 // dilution of precision, no unit; NaN: not said
	Error    float64 // metres, horizontal, as the receiver reckons; NaN: not said
	Datum    string  // as written; "" not said
	At       time.Time
}

// gps reads the directory of the position. Without both coordinates and both
// of their letters nothing is known; 0, 0 is what a receiver without a fix
// writes, and counts as nothing.
func (x *exif) gps(d map[uint16]field) GPS {
	g := GPS{Altitude: math.NaN(), DOP: math.NaN(), Error: math.NaN()}
	lat, okLat := x.angle(d[tagGPSLat], d[tagGPSLatRef], "N", "S", 90)
	lon, okLon := x.angle(d[tagGPSLon], d[tagGPSLonRef], "E", "W", 180)
	if !okLat || !okLon || lat == 0 && lon == 0 {
		return g
	}
	g.Known, g.Lat, g.Lon = true, lat, lon
	g.Step = x.step(d[tagGPSLat])
	g.Datum = x.words(d[tagGPSDatum])
	if v := x.rationals(d[tagGPSAlt], 1); v != nil {
		g.Altitude = v[0]
		if f := d[tagGPSAltRef]; f.kind == typeByte && f.value[0] == 1 {
			g.Altitude = -v[0]
		}
	}
	if v := x.rationals(d[tagGPSDOP], 1); v != nil && v[0] > 0 {
		g.DOP = v[0]
	}
	if v := x.rationals(d[tagGPSErrorHori], 1); v != nil && v[0] > 0 {
		g.Error = v[0]
	}
	if day, err := time.Parse("2006:01:02", x.words(d[tagGPSDate])); err == nil {
		if v := x.rationals(d[tagGPSTime], 3); v != nil && v[0] < 24 && v[1] < 60 && v[2] < 61 {
			g.At = day.Add(time.Duration((v[0]*3600 + v[1]*60 + v[2]) * float64(time.Second)))
		}
	}
	return g
}

// angle is degrees, minutes and seconds with their letter.
func (x *exif) angle(f, ref field, plus, minus string, most float64) (float64, bool) {
	v := x.rationals(f, 3)
	if v == nil || v[1] >= 60.0001 || v[2] >= 60.0001 {
		return 0, false
	}
	a := v[0] + v[1]/60 + v[2]/3600
	if a > most {
		return 0, false
	}
	switch strings.ToUpper(x.words(ref)) {
	case plus:
		return a, true
	case minus:
		return -a, true
	}
	return 0, false
}

// step is the size of the last figure of an angle in degrees: that of the
// smallest part that is given, by its denominator.
func (x *exif) step(f field) float64 {
	var b [24]byte
	if !x.at(b[:], int64(x.order.Uint32(f.value[:]))) {
		return 0
	}
	for i, unit := range []float64{3600, 60, 1} { // seconds first
		num, den := x.order.Uint32(b[16-8*i:]), x.order.Uint32(b[20-8*i:])
		if num != 0 && den != 0 {
			return 1 / unit / float64(den)
		}
	}
	return 1
}

func validUTF8(s string) bool { return utf8.ValidString(s) }
