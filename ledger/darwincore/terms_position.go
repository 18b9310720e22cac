package darwincore

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/georeference"
	"blotter/ledger/places"
	"blotter/ledger/public"
	"blotter/ledger/reading"
)

// positionTerms are about the point.
var positionTerms = []Term{
	{"decimalLatitude", DwC, "the reading of `place.position`, a person's (`read.position`) first, on WGS84", func(r Row) string { return r.degrees(r.Reading.Position.Lat) }},
	{"decimalLongitude", DwC, "the same", func(r Row) string { return r.degrees(r.Reading.Position.Lon) }},
	{"geodeticDatum", DwC, "EPSG:4326 of a position that was brought to WGS84, or whose radius has a share for a datum that nobody stated; not recorded, when none is stated and the radius is", func(r Row) string { return r.datum() }},
	{"coordinateUncertaintyInMeters", DwC, "the radius of that reading, rounded up: what is stated, else the sum of its shares", func(r Row) string { return r.radius() }},
	{"coordinatePrecision", DwC, "the smallest unit that both coordinates show, in degrees; of a position made coarser the side of the square", func(r Row) string { return r.precision() }},
	field("verbatimCoordinates", "place.position", func(r *ledger.Record) ledger.Leaf { return r.Place.Position }),
	{"verbatimCoordinateSystem", DwC, "how `place.position` is written", func(r Row) string { return r.system() }},
	field("verbatimSRS", "place.datum", func(r *ledger.Record) ledger.Leaf { return r.Place.Datum }),
	{"georeferencedBy", DwC, "`read.position.by`", func(r Row) string { return r.handPosition(func(h *ledger.ReadValue) string { return h.By.Text }) }},
	{"georeferencedDate", DwC, "the reading of `read.position.date`", func(r Row) string {
		return r.handPosition(func(h *ledger.ReadValue) string { return isoWords(h.Date.Text) })
	}},
	{"georeferenceProtocol", DwC, "how point and radius came about", func(r Row) string { return r.protocol() }},
	{"georeferenceSources", DwC, "`read.position.from` of a person's reading, else `place.position_by`", func(r Row) string { return r.sources() }},
	{"georeferenceRemarks", DwC, "each share of the radius with its reason; a person's grounds (`read.position.why`)", func(r Row) string { return r.georeferenceRemarks() }},
	{"georeferenceVerificationStatus", DwC, "requires verification of a position; requires georeference, when a place is known in words only; nothing when something is withheld", func(r Row) string { return r.verification() }},
}

// placed reports whether the sheet has a point.
func (s *Sheet) placed() bool { return s.Reading.Position.Known }

// datum is the datum of the point. Where none is stated and the radius is what
// somebody stated, no share of it stands for the datum: then it is not known,
// and the list of terms wants that said.
func (s *Sheet) datum() string {
	p := &s.Reading.Position
	if !p.Known {
		return ""
	}
	counted := slices.ContainsFunc(p.Parts, func(x georeference.Part) bool { return x.Name == georeference.Datum })
	if !counted && !p.FromHand && s.coarse() == nil {
		if _, _, _, name := p.Written.OnWGS84(s.Record.Place.Datum.Text); name == "" {
			return "not recorded"
		}
	}
	return "EPSG:4326"
}

// degrees writes one coordinate with as many decimals as its precision bears
// out, and one more, so that nothing is lost by rounding.
func (s *Sheet) degrees(v float64) string {
	p := &s.Reading.Position
	if !p.Known {
		return ""
	}
	if !p.Shifted() && p.Read.Form == places.Decimal { // the figures as they stand
		return strconv.FormatFloat(math.Round(v*1e9)/1e9, 'f', -1, 64) // without what binary fractions add
	}
	decimals := 7
	if step := p.Read.Step; step > 0 {
		decimals = min(7, max(0, int(math.Ceil(-math.Log10(step)-1e-9)))+1)
	}
	return strconv.FormatFloat(v, 'f', decimals, 64)
}

// radius is in whole metres, rounded up; 0 is not a value of the term.
func (s *Sheet) radius() string {
	p := &s.Reading.Position
	if !p.Known || p.Metres <= 0 {
		return ""
	}
	return strconv.FormatInt(int64(max(1, math.Ceil(p.Metres-1e-6))), 10)
}

// precision is the step of the coordinates in degrees.
func (s *Sheet) precision() string {
	p := &s.Reading.Position
	if !p.Known || p.Read.Step <= 0 || p.Read.Step > 1 {
		return ""
	}
	if c := s.coarse(); c != nil { // the side of the square, not the figures of its centre
		return strconv.FormatFloat(c.Degrees, 'f', -1, 64)
	}
	step, _ := strconv.ParseFloat(strconv.FormatFloat(p.Read.Step, 'g', 6, 64), 64)
	return strconv.FormatFloat(step, 'f', -1, 64)
}

// system is how the words give the position, in the words of the list of
// terms where it has them.
func (s *Sheet) system() string {
	w := &s.Reading.Position.Written
	if !w.Known() {
		return ""
	}
	return w.Form.String()
}

func (s *Sheet) handPosition(part func(*ledger.ReadValue) string) string {
	if p := &s.Reading.Position; p.FromHand {
		return part(p.ByHand)
	}
	return ""
}

func (s *Sheet) sources() string {
	if s.Reading.Position.FromHand {
		return s.Reading.Position.ByHand.From.Text
	}
	return s.Record.Place.PositionBy.Text
}

// protocol says how the point and its radius came about.
func (s *Sheet) protocol() string {
	p := &s.Reading.Position
	switch {
	case !p.Known:
		return ""
	case s.coarse() != nil:
		return "decimal grid, the centre of the cell (Chapman, Current Best Practices for Generalizing Sensitive Species Occurrence Data, 2020)"
	case len(p.Parts) == 1 && p.Parts[0].Name == georeference.Stated:
		return "coordinates and radius as stated"
	}
	return "coordinates as stated, radius by the point-radius method (Chapman & Wieczorek, Georeferencing Best Practices, 2020)"
}

// georeferenceRemarks are the shares of the radius, and a person's grounds.
func (s *Sheet) georeferenceRemarks() string {
	p := &s.Reading.Position
	if !p.Known {
		return ""
	}
	var out []string
	if p.FromHand && p.ByHand.Why.Set() {
		out = append(out, p.ByHand.Why.Text)
	}
	if len(p.Parts) > 0 && s.coarse() == nil {
		var shares []string
		for _, x := range p.Parts {
			shares = append(shares, georeference.Metres(x.Metres)+" "+x.Name+" ("+x.Why+")")
		}
		out = append(out, "radius: "+strings.Join(shares, "; "))
	}
	for _, x := range p.Unsaid {
		out = append(out, "not counted: "+x.Name+" ("+x.Why+")")
	}
	return Join(out)
}

// verification says where a georeference is wanted.
func (s *Sheet) verification() string {
	switch {
	case s.Withheld != nil && s.Partner == "":
		return ""
	case s.placed():
		return "requires verification"
	case reading.AbsenceOf(s.Record.Place.Locality.Text) == reading.Present:
		return "requires georeference"
	}
	return ""
}

// elevation is the lower or the higher end of the height above the sea.
func (s *Sheet) elevation(upper bool) (m float64, known bool) {
	e := &s.Reading.Elevation
	if !e.Known {
		return 0, false
	}
	return end(&e.Read, upper)
}

// depth is the shallower or the deeper end of the depth under water.
func (s *Sheet) depth(deeper bool) (m float64, known bool) {
	if !s.Record.Depth.Set() {
		return 0, false
	}
	l := places.ReadDepth(s.Record.Depth.Text)
	if !l.Known() {
		return 0, false
	}
	return end(&l, deeper)
}

// end is one end of a length; an open one is not known.
func end(l *places.Length, upper bool) (float64, bool) {
	if upper {
		return l.Max, !l.OpenAbove
	}
	return l.Min, !l.OpenBelow
}

// metres writes a length to a tenth of a metre, without needless decimals.
func metres(m float64, known bool) string {
	if !known {
		return ""
	}
	return strconv.FormatFloat(math.Round(m*10)/10, 'f', -1, 64)
}

// coarse is the square that a public position was made coarser to; nil: it is
// as held.
func (s *Sheet) coarse() *public.Cell {
	if s.Withheld == nil || s.Partner != "" {
		return nil
	}
	return s.Withheld.Cell
}
