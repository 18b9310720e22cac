package render

import (
	"math"

	"blotter/ledger/reading"
	"blotter/render/figure"
	"blotter/render/page"
)

// positionFields adds position and elevation, when the label or a person
// gives them.
func (x *sheet) positionFields(f *page.Fields) {
	if x.held {
		return
	}
	if p := x.d.Position; x.r.Place.Position.Set() || p.ByHand != nil {
		out := page.Field{Name: x.fieldName("position")}
		if reading.AbsenceOf(p.Words) == reading.Present {
			out.Words = []page.Run{page.Words(p.Words)}
			if x.r.Place.Datum.Set() {
				out.Words = append(out.Words, page.Words(", "+x.r.Place.Datum.Text))
			}
			if p.Written.Known() {
				out.Readings = append(out.Readings, []page.Part{said(page.Fill(x.lang.ReadAs, x.positionWords(p)))})
			} else {
				out.None = page.Absence{Kind: page.NotRead}
			}
		} else {
			out.None = absence(reading.AbsenceOf(p.Words))
		}
		if p.ByHand != nil {
			out.Readings = append(out.Readings, x.byHand(p.ByHand, p.ByHand.Is.Text))
		}
		f.List = append(f.List, out)
	}
	x.lengthField(f)
}

// positionWords is the position with as many decimals as its error bears out.
func (x *sheet) positionWords(p reading.Position) string {
	r := p.Radius()
	if p.FromHand || r <= 0 {
		return p.Written.String()
	}
	return p.Written.Within(r) + ", ± " + metres(r)
}

// metres is a length in words with no more figures than it deserves.
func metres(m float64) string {
	switch {
	case m >= 10000:
		return page.Number(int(math.Round(m/1000))) + " km"
	case m >= 100:
		return page.Number(int(math.Round(m/10)*10)) + " m"
	}
	return itoa(int(math.Ceil(m))) + " m"
}

func (x *sheet) lengthField(f *page.Fields) {
	e := x.d.Elevation
	if !x.r.Place.Elevation.Set() && e.ByHand == nil {
		return
	}
	out := page.Field{Name: x.fieldName("elevation")}
	if a := reading.AbsenceOf(e.Words); a != reading.Present {
		out.None = absence(a)
	} else {
		out.Words = []page.Run{page.Words(e.Words)}
		if e.Read.Known() {
			if s := e.Read.String(); s != e.Words {
				out.Readings = append(out.Readings, []page.Part{said(page.Fill(x.lang.ReadAs, s))})
			}
		} else {
			out.None = page.Absence{Kind: page.NotRead}
		}
	}
	if e.ByHand != nil {
		out.Readings = append(out.Readings, x.byHand(e.ByHand, e.ByHand.Is.Text))
	}
	f.List = append(f.List, out)
}

// place says where it grew: a map, and each share of the error with its
// reason. Without a position it is one sentence.
func (x *sheet) place() []page.Block {
	if x.held {
		return []page.Block{page.Para{Parts: []page.Part{said(x.lang.NoMapWithheld), x.hold, said(".")}}}
	}
	p := x.d.Position
	if !p.Known {
		return []page.Block{page.Para{Parts: []page.Part{said(x.lang.NoPosition)}}}
	}
	r := p.Radius()
	where := placeWords(x.e)
	sentence := page.Fill(x.lang.MapSentence, where)
	if r > 0 {
		sentence = page.Fill(x.lang.MapSentenceError, where, metres(r))
	}
	m := page.Map{Spots: []page.Spot{{Lat: p.Lat, Lon: p.Lon, Metres: r, N: 1}}}
	m.Sentence = page.Said(sentence + " " + x.mapNote(m))
	out := []page.Block{m}
	if lines := x.shares(p); len(lines) > 0 {
		out = append(out, page.Lines{List: lines})
	}
	return out
}

// mapNote says what the ring on the map means (interface.md 2.4).
func (x *sheet) mapNote(m page.Map) string {
	switch figure.RingOf(m) {
	case figure.SmallRing:
		return x.lang.MapRingSmall
	case figure.ErrorCircle:
		return x.lang.MapErrorCircle
	case figure.NoRing:
		return x.lang.MapErrorLarge
	}
	return x.lang.MapErrorUnknown
}

// shares are the parts of the error, each with its reason.
func (x *sheet) shares(p reading.Position) [][]page.Part {
	var out [][]page.Part
	if !p.FromHand && p.Written.Known() {
		if m := p.Written.Precision(); m > 0 {
			out = append(out, []page.Part{said("± " + metres(m) + ": " + x.lang.ErrorWords)})
		}
	}
	pl := x.r.Place
	switch {
	case p.FromHand && p.ByHand.Uncertainty.Set():
		out = append(out, []page.Part{said("± "), page.Person(p.ByHand.Uncertainty.Text), said(": " + x.lang.ErrorPerson)})
	case pl.Uncertainty.Set():
		out = append(out, []page.Part{said("± "), page.Person(pl.Uncertainty.Text), said(": " + x.lang.ErrorStated)})
	case pl.GPSAccuracy.Set():
		out = append(out, []page.Part{said("± "), page.Person(pl.GPSAccuracy.Text), said(": " + x.lang.ErrorDevice)})
	}
	if !pl.Datum.Set() && !p.FromHand {
		out = append(out, []page.Part{said(x.lang.ErrorDatum)})
	}
	return out
}
