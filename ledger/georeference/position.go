package georeference

import (
	"math"
	"strconv"
	"strings"

	"blotter/ledger/geodesy"
	"blotter/ledger/places"
)

// Era is when a position was found, which bounds how good it can be when
// nobody says how.
type Era uint8

const (
	NotAsked  Era = iota // nothing is counted for the source, and Unsaid says so
	Degraded             // before 1 May 2000, when satellite positions were made worse on purpose; also when no date is known
	Undimmed             // from 1 May 2000 on
	ByAPerson            // found later by a person, on a map or otherwise
)

// The least error of a position of which nobody says how it was found, in
// metres: Darwin Core, examples of coordinateUncertaintyInMeters.
const (
	leastUndimmed = 30
	leastDegraded = 100
)

// Said is what a record says of a position, each as written; empty: nothing.
type Said struct {
	Position    places.Position
	Datum       string // of the datum; that in the position's own words goes before it
	Uncertainty string // of the whole
	Accuracy    string // what the device showed
	From        string // what the position was taken from: "map 1:50 000"
	Era         Era
	Of          string // whose position it is, for the reasons; empty: the record's
}

// Of is the point on WGS84 of a position and the shares of its error; not
// Known when the position could not be read.
func Of(s Said) Estimate {
	p := s.Position
	if !p.Known() {
		return Estimate{Why: "there is no position that could be read"}
	}
	e := Estimate{Known: true, Lat: p.Lat, Lon: p.Lon}
	shift, why := e.toWGS84(s)
	precision := p.Precision()
	stated := places.ReadLength(s.Uncertainty)
	if stated.Known() && stated.Max >= precision {
		e.add(Stated, stated.Max, s.whose()+"uncertainty is stated as "+s.Uncertainty+", for the whole")
		return e
	}
	e.add(Precision, precision, s.whose()+"coordinates are written to "+step(p))
	e.add(Datum, shift, why)
	if stated.Known() {
		e.add(Stated, stated.Max, s.whose()+"uncertainty is stated as "+s.Uncertainty+"; the coordinates are written more coarsely than that, so both count")
		return e
	}
	e.source(s)
	return e
}

// whose begins a reason: "the " or "of Voss church the ".
func (s Said) whose() string {
	if s.Of == "" {
		return "the "
	}
	return s.Of + ": the "
}

// toWGS84 applies the datum; it returns what that adds to the error, and why.
func (e *Estimate) toWGS84(s Said) (metres float64, why string) {
	words := strings.TrimSpace(s.Datum)
	if s.Position.Datum != "" {
		words = s.Position.Datum
	}
	d, ok := geodesy.DatumOf(words)
	if !ok {
		why = "no datum is stated"
		if words != "" && !absent(words) {
			why = "the datum " + words + " is not known here"
		}
		return geodesy.UnknownDatum, s.of(why + "; between any two datums a point moves by this much at the most (Chapman & Wieczorek 2020)")
	}
	e.Lat, e.Lon, metres = d.ToWGS84(e.Lat, e.Lon)
	switch {
	case metres == geodesy.UnknownDatum:
		return metres, s.of("the datum " + d.Name + " is not used there, so it counts as not known")
	case metres > 0:
		return metres, s.of("the shift from " + d.Name + " to WGS 84 is good to that (EPSG)")
	}
	return 0, ""
}

func (s Said) of(why string) string {
	if s.Of == "" {
		return why
	}
	return s.Of + ": " + why
}

// absent reports whether words say that there is none.
func absent(words string) bool { return places.ReadLength(words).None != places.Stated }

// source adds the shares of how the position was found: the device, or the
// map and the measuring on it; without either what is the least.
func (e *Estimate) source(s Said) {
	device, m := places.ReadLength(s.Accuracy), scaleOf(s.From)
	if device.Known() && device.Max > 0 {
		e.add(Device, 2*device.Max, s.of("the device showed "+s.Accuracy+"; doubled, since devices show less than the error of 95 readings in 100 (Chapman & Wieczorek 2020)"))
	}
	if m.scale > 0 {
		e.drawn(s, m)
	}
	switch {
	case device.Known() && device.Max > 0 || m.scale > 0:
	case s.Era == Undimmed:
		e.add(Source, leastUndimmed, s.of("nobody says how the position was found; the least that counts since May 2000 (Darwin Core)"))
	case s.Era == Degraded:
		e.add(Source, leastDegraded, s.of("nobody says how the position was found; the least that counts before May 2000 (Darwin Core)"))
	case s.Era == ByAPerson:
		e.unsaid(s.of("how good the source of the position is (a map without a scale, or nothing)"))
	default:
		e.unsaid(s.of("how the position was found"))
	}
}

// drawn adds the shares of a map.
func (e *Estimate) drawn(s Said, m sheet) {
	scale := "1:" + grouped(m.scale)
	e.add(Map, MapError(m.scale, m.standard), s.of("a map of "+scale+" is drawn "+[...]string{
		"to 1 mm on paper, its standard not being stated", "to 0.5 mm on paper", "by the standard of the US, 1/50 inch (1/30 on maps of a greater scale than 1:20,000)"}[m.standard]))
	if !m.screen {
		e.add(Measuring, MeasuringError(m.scale), s.of("a point is taken off a printed map of "+scale+" to 1 mm"))
	}
}

// step says to what unit a position is written.
func step(p places.Position) string {
	d := p.Step
	switch {
	case p.Form == places.DegMinSec:
		return unitStep(d*3600, "″") + " (the cell of that size, corner to corner)"
	case p.Form == places.DegMin:
		return unitStep(d*60, "′") + " (the cell of that size, corner to corner)"
	}
	return unitStep(d, "°") + " (the cell of that size, corner to corner)"
}

func unitStep(v float64, mark string) string {
	v = math.Round(v*1e9) / 1e9
	return strconv.FormatFloat(v, 'f', -1, 64) + mark
}
