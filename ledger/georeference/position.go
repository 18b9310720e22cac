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
	NotAsked  Era = iota // nothing is counted for the source; Unsaid says so
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
	From        string // how the position was found: "map 1:50 000", "gps"
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
	e := Estimate{Known: true}
	shift, why, words := e.toWGS84(s)
	precision := p.Precision()
	if s.Uncertainty == "" && p.Uncertainty > 0 {
		s.Uncertainty = "± " + figure(p.Uncertainty) + " m"
	}
	stated := places.ReadLength(s.Uncertainty)
	if stated.Known() && stated.Max >= precision {
		e.add(Stated, stated.Max, s.whose()+"uncertainty is stated as "+s.Uncertainty+", for the whole", s.quotes(s.Uncertainty)...)
		return e
	}
	e.add(Precision, precision, s.whose()+"coordinates are written to "+step(p), s.quotes()...)
	e.add(Datum, shift, why, s.quotes(words)...)
	if stated.Known() {
		e.add(Stated, stated.Max, s.whose()+"uncertainty is stated as "+s.Uncertainty+"; the coordinates are coarser than that, so both count", s.quotes(s.Uncertainty)...)
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

// toWGS84 applies the datum; it returns what that adds to the error, why, and
// the words of a datum that why quotes.
func (e *Estimate) toWGS84(s Said) (metres float64, why, words string) {
	var name string
	e.Lat, e.Lon, metres, name = s.Position.OnWGS84(s.Datum)
	switch {
	case name == "":
		why = "no datum is stated"
		if words = strings.TrimSpace(s.Datum); words != "" && !absent(words) {
			why = "the datum " + words + " is not known here"
		} else {
			words = ""
		}
		if metres == geodesy.UnknownDatum {
			return metres, s.of(why + ": as far as any two are apart anywhere"), words
		}
		return metres, s.of(why + ": as far as any datum used there is off"), words
	case metres == geodesy.UnknownDatum:
		return metres, s.of("the datum " + name + " is not used there, so it counts as not known"), ""
	case metres > 0:
		return metres, s.of("the shift from " + name + " to WGS 84 is as good as that"), ""
	}
	return 0, "", ""
}

// quotes are the words that a reason quotes, the place's name first.
func (s Said) quotes(words ...string) []string {
	var out []string
	for _, w := range append([]string{s.Of}, words...) {
		if w != "" {
			out = append(out, w)
		}
	}
	return out
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
		e.add(Device, 2*device.Max, s.of("the device showed "+s.Accuracy+", which counts twice, to hold 95 times in 100"), s.quotes(s.Accuracy)...)
	}
	if m.scale > 0 {
		e.drawn(s, m)
	}
	switch {
	case device.Known() && device.Max > 0 || m.scale > 0:
	case s.Era == Undimmed:
		e.add(Source, leastUndimmed, s.of(s.unknown()+": the least that counts since May 2000"), s.quotes(s.From)...)
	case s.Era == Degraded:
		e.add(Source, leastDegraded, s.of(s.unknown()+": the least that counts before May 2000"), s.quotes(s.From)...)
	case s.Era == ByAPerson:
		e.unsaid(Source, s.of("how good its source is"), s.quotes()...)
	default:
		e.unsaid(Source, s.of("how it was found"), s.quotes()...)
	}
}

// unknown says that the error of a source is not known.
func (s Said) unknown() string {
	if s.From == "" {
		return "nobody says how it was found"
	}
	return "found by " + s.From + ", and nobody says how closely"
}

// drawn adds the shares of a map.
func (e *Estimate) drawn(s Said, m sheet) {
	scale := "1:" + grouped(m.scale)
	e.add(Map, MapError(m.scale, m.standard), s.of("a map of "+scale+" is drawn "+[...]string{
		"to 1 mm, its standard not being stated", "to 0.5 mm", "to the standard of the US"}[m.standard]), s.quotes()...)
	if !m.screen {
		e.add(Measuring, MeasuringError(m.scale), s.of("a point is taken off paper to 1 mm"), s.quotes()...)
	}
}

// step says to what unit a position is written.
func step(p places.Position) string {
	d := p.Step
	switch {
	case p.Cell > 0:
		return "a square of the grid"
	case p.Form == places.UTM:
		return strconv.FormatFloat(p.StepMetres(), 'f', -1, 64) + " m of the grid"
	case p.Form == places.ISO6709 && d > 0.9/3600 && d < 1.1/3600:
		return "1″"
	case p.Form == places.ISO6709 && d > 0.9/60 && d < 1.1/60:
		return "1′"
	case p.Form == places.DegMinSec:
		return unitStep(d*3600, "″")
	case p.Form == places.DegMin:
		return unitStep(d*60, "′")
	}
	return unitStep(d, "°")
}

func unitStep(v float64, mark string) string {
	v = math.Round(v*1e9) / 1e9
	return strconv.FormatFloat(v, 'f', -1, 64) + mark
}
