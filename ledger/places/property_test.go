package places

import (
	"fmt"
	"math"
	"testing"

	"blotter/ledger/geodesy"
	"pgregory.net/rapid"
)

// A point written in a grid, in ISO 6709 or as an address is read as that
// point, to what its figures bear out; and what is read, written out as
// degrees, is read as itself.
func TestReadsGridsAsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat, lon := rapid.Float64Range(-79.9, 83.9).Draw(t, "lat"), rapid.Float64Range(-179.9, 179.9).Draw(t, "lon")
		u, err := geodesy.ToUTM(lat, lon)
		if err != nil {
			t.Fatal(err)
		}
		m, err := u.MGRS(rapid.IntRange(1, 5).Draw(t, "digits"))
		if err != nil {
			t.Fatal(err)
		}
		half := "south"
		if u.North {
			half = "north"
		}
		texts := map[string]float64{
			fmt.Sprintf("%d%c %06.0f %07.0f", u.Zone, u.Band, u.Easting, u.Northing):             1,
			fmt.Sprintf("UTM zone %d %s, E %.1f, N %09.1f", u.Zone, half, u.Easting, u.Northing): 0.1,
			fmt.Sprintf("%.0fmE %07.0fmN %d%c", u.Easting, u.Northing, u.Zone, u.Band):           1,
			m.String():                                  m.HalfDiagonal(),
			geodesy.CellOf(lat, lon, 2).String():        22e3,
			fmt.Sprintf("%+010.6f%+011.6f/", lat, lon):  0.2,
			fmt.Sprintf("geo:%.6f,%.6f;u=10", lat, lon): 0.2,
		}
		for text, metres := range texts {
			if u.Band == 'S' && metres == 1 {
				continue // says so, and may be the south: TestReadUTM
			}
			p := ReadPosition(text)
			if !p.Known() || geodesy.Distance(lat, lon, p.Lat, p.Lon) > metres*1.01 {
				t.Fatalf("%s: %v %v, want %.6f %.6f", text, p, p.Warnings, lat, lon)
			}
			q := ReadPosition(p.String())
			if !q.Known() || q.String() != p.String() || geodesy.Distance(p.Lat, p.Lon, q.Lat, q.Lon) > p.Precision()+1e-6 {
				t.Fatalf("%s: written out %s, read again %v", text, p, q)
			}
		}
	})
}

// Whatever a position is written as, OnWGS84 is near it: no datum of the table
// moves a point by more than two kilometres.
func TestDatumsMoveLittle(t *testing.T) {
	datums := geodesy.Datums()
	rapid.Check(t, func(t *rapid.T) {
		d := datums[rapid.IntRange(0, len(datums)-1).Draw(t, "datum")]
		p := Position{Lat: rapid.Float64Range(-80, 80).Draw(t, "lat"), Lon: rapid.Float64Range(-180, 180).Draw(t, "lon"), Form: Decimal, Step: 1e-5}
		lat, lon, metres, name := p.OnWGS84(d.Name)
		if moved := geodesy.Distance(p.Lat, p.Lon, lat, lon); name != d.Name || moved > 2000 || metres < 0 || metres > geodesy.UnknownDatum || math.IsNaN(lat+lon) {
			t.Fatalf("%s: %v moved %g m, ± %g, %q", d.Name, p, moved, metres, name)
		}
	})
}
