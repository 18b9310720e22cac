package public

import (
	"math"
	"slices"

	"blotter/ledger"
	"blotter/ledger/geodesy"
	"blotter/ledger/places"
	"blotter/ledger/reading"
)

// point is one exact position to be looked for. A record may have several: as
// written, by a person, each on its own datum and on WGS84.
type point struct {
	value    int32   // place in Secrets.values
	lat, lon float64 // degrees without their sign: a side left out does not hide a place
	cell     float64 // side in degrees of the square that is published; forms that are no finer tell nothing

	grid      bool // it has a place in UTM
	east      float64
	north     float64
	square    [2]byte // letters of the 100 km square
	gridSteps float64 // side in metres of the square that is published, along its shorter side
}

// coarsest is the side in degrees of the square that stands in the place of
// one for a record that shows no square: whole degrees tell no more than the
// country and province do.
const coarsest = 1.0

// degreesOfLatitude is the length of a degree of latitude in metres, near
// enough to compare steps with squares.
const degreesOfLatitude = 111_320

// pointOf makes a point of signed degrees and the square shown instead.
func pointOf(lat, lon float64, cell *Cell) point {
	p := point{lat: math.Abs(lat), lon: math.Abs(lon), cell: coarsest}
	if cell != nil {
		p.cell = cell.Degrees
	}
	p.gridSteps = p.cell * degreesOfLatitude * math.Cos(lat*math.Pi/180)
	if u, err := geodesy.ToUTM(lat, lon); err == nil {
		p.grid, p.east, p.north = true, u.Easting, u.Northing
		if m, err := u.MGRS(5); err == nil {
			p.square = [2]byte{m.Column, m.Row}
		}
	}
	return p
}

// positionsOf are the points that a record's words and a person's reading
// name: as written and brought to WGS84; of a grid also the degrees that its
// figures have on WGS84.
func positionsOf(r *ledger.Record, d *reading.Reading) []places.Position {
	var out []places.Position
	add := func(lat, lon float64) {
		p := places.Position{Lat: lat, Lon: lon, Form: places.Decimal}
		if !slices.ContainsFunc(out, func(q places.Position) bool { return q.Lat == p.Lat && q.Lon == p.Lon }) {
			out = append(out, p)
		}
	}
	for _, words := range []struct{ position, datum string }{
		{r.Place.Position.Text, r.Place.Datum.Text}, {r.Read.Position.Is.Text, "WGS84"},
	} {
		if p := places.ReadPosition(words.position); p.Known() {
			add(p.Lat, p.Lon)
			lat, lon, _, _ := p.OnWGS84(words.datum)
			add(lat, lon)
		}
	}
	if d != nil && d.Position.Known {
		add(d.Position.Lat, d.Position.Lon)
	}
	return out
}

// figure is a coordinate as a text writes it.
type figure struct {
	value  float64 // degrees, without sign
	scale  float64 // units of its last place in a degree: 1000 of three decimals, 3600 of whole seconds
	marked bool    // a mark for degrees, or a side, stands with it
	end    int     // where it ends in the text
}

// step is its last place in degrees.
func (f figure) step() float64 { return 1 / f.scale }

// is reports whether the figure is v, cut or rounded to its last place.
func (f figure) is(v float64) bool {
	k, q := math.Round(f.value*f.scale), v*f.scale
	const slip = 1e-4 // what conversion from one form to another may lose, in last places
	return math.Abs(q-k) <= 0.5+slip || k <= q+slip && q < k+1
}

// finer reports whether the figure says more than the published square, whose
// corners and centre are figures too.
func (p *point) finer(lat, lon figure) bool {
	if lat.step() > p.cell*0.999 && lon.step() > p.cell*0.999 {
		return false
	}
	if p.cell == coarsest && lat.scale < 15 && !(lat.marked && lon.marked) {
		return false // 60.7, 6.6 may be anything
	}
	return !(onGrid(lat.value, p.cell, 0) && onGrid(lon.value, p.cell, 0) || onGrid(lat.value, p.cell, 0.5) && onGrid(lon.value, p.cell, 0.5))
}

// onGrid reports whether a figure is a line of the published grid, or one that
// lies a share of a square beyond it: 0.5 of the centre.
func onGrid(v, cell, share float64) bool {
	q := v/cell - share
	return math.Abs(q-math.Round(q)) < 1e-6
}

// pair reports whether two figures are the point's latitude and longitude.
func (p *point) pair(lat, lon figure) bool {
	return lat.is(p.lat) && lon.is(p.lon) && p.finer(lat, lon)
}

// alone reports whether one coordinate without the other is precise enough to
// be no chance: five decimals, or seconds with their marks.
func (p *point) alone(f figure) bool {
	if f.step() > p.cell*0.999 || onGrid(f.value, p.cell, 0) || onGrid(f.value, p.cell, 0.5) {
		return false
	}
	return f.scale >= 99_999 || f.marked && f.scale >= 3599
}

// metric is a figure of a grid in metres, with its last place.
type metric struct {
	value, step float64
	end         int
}

// metricSlip is what conversion by way of rounded degrees may lose, in metres.
const metricSlip = 2

func (m metric) is(v float64) bool {
	return m.value <= v+metricSlip && v < m.value+m.step+metricSlip || math.Abs(m.value-v) <= m.step/2+metricSlip
}
