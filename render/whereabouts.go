package render

import (
	"strings"

	"blotter/ledger/georeference"
	"blotter/ledger/places"
	"blotter/ledger/reading"
	"blotter/render/figure"
	"blotter/render/page"
)

// positionFields adds position and elevation, when the label or a person
// gives them.
func (x *sheet) positionFields(f *page.Fields) {
	if x.held {
		x.heldPosition(f)
		return
	}
	if p := x.d.Position; x.r.Place.Position.Set() || p.ByHand != nil {
		out := page.Field{Name: x.fieldName("position")}
		switch {
		case !x.r.Place.Position.Set(): // the reading of a person stands alone
		case reading.AbsenceOf(p.Words) != reading.Present:
			out.None = absence(reading.AbsenceOf(p.Words))
		default:
			x.writtenPosition(&out)
		}
		if p.ByHand != nil {
			out.Readings = append(out.Readings, x.byHand(p.ByHand, p.ByHand.Is.Text))
		}
		f.List = append(f.List, out)
	}
	x.plain(f, "position_by", x.r.Place.PositionBy)
	x.lengthField(f)
}

// writtenPosition is the position as the label has it, its datum and how both
// are read.
func (x *sheet) writtenPosition(out *page.Field) {
	p, datum := x.d.Position, x.r.Place.Datum
	out.Words = []page.Run{page.Words(p.Words)}
	if datum.Set() && !absent(datum.Text) {
		out.Words = append(out.Words, page.Words(", "+datum.Text))
	}
	if p.Written.Known() {
		out.Readings = append(out.Readings, []page.Part{said(page.Fill(x.lang.ReadAs, x.positionWords(p)))})
	} else {
		out.None = page.Absence{Kind: page.NotRead}
	}
	if a := reading.AbsenceOf(datum.Text); datum.Set() && a != reading.Present {
		out.Readings = append(out.Readings, []page.Part{said(x.lang.DatumColon), absence(a)})
	}
}

// positionWords is the position with as many decimals as its error bears out.
func (x *sheet) positionWords(p reading.Position) string {
	if p.FromHand || !p.Known {
		return p.Written.String()
	}
	out := p.Point()
	if p.Shifted() {
		out += " (WGS 84)"
	}
	return out + ", ± " + georeference.Metres(p.Radius())
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

// depth is how deep under water it grew, with its reading in metres.
func (x *sheet) depth(f *page.Fields) {
	words := x.r.Depth.Text
	n := len(f.List)
	x.plain(f, "depth", x.r.Depth)
	if l := places.ReadDepth(words); len(f.List) > n && l.Known() && l.String() != words {
		f.List[n].Readings = append(f.List[n].Readings, []page.Part{said(page.Fill(x.lang.ReadAs, l.String()))})
	}
}

// place says where it grew: a map, and each share of the error with its
// reason. Without a position it is one sentence.
func (x *sheet) place() []page.Block {
	if x.held {
		return x.heldPlace()
	}
	p := x.d.Position
	if !p.Known {
		return append([]page.Block{page.Para{Parts: []page.Part{said(x.lang.NoPosition)}}}, x.reckoned()...)
	}
	r := p.Radius()
	sentence := page.Fill(x.lang.MapSentenceError, placeWords(x.e), georeference.Metres(r))
	m := page.Map{Spots: []page.Spot{{Lat: p.Lat, Lon: p.Lon, Metres: r, N: 1}}}
	m.Sentence = page.Said(sentence + " " + x.mapNote(m))
	return []page.Block{m, x.shares(p.Estimate)}
}

// reckoned says where the words of the locality put the sheet: the program's
// reckoning from places.yaml, and never the collector's.
func (x *sheet) reckoned() []page.Block {
	e := x.d.Reckoned(x.gazetteer)
	if !e.Known {
		return nil
	}
	line := page.FillParts(x.lang.Reckoned, []page.Part{said(e.String())}, []page.Part{page.Quote{Words: page.Words(e.From)}})
	return []page.Block{page.Para{Parts: line}, x.shares(e)}
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
	case figure.WholeSquare:
		return ""
	case figure.SmallSquare:
		return x.lang.MapSquareSmall
	}
	return x.lang.MapErrorUnknown
}

// shares are the parts of the error, each with its reason.
func (x *sheet) shares(e georeference.Estimate) page.Lines {
	var out page.Lines
	for _, p := range e.Parts {
		out.List = append(out.List, append([]page.Part{said("± " + georeference.Metres(p.Metres) + ": ")}, reason(p)...))
	}
	for _, p := range e.Unsaid {
		out.List = append(out.List, page.FillParts(x.lang.NotCounted, reason(p)))
	}
	return out
}

// reason is why a share is what it is, the words that it quotes set apart.
func reason(p georeference.Part) []page.Part {
	var out []page.Part
	rest := p.Why
	for _, q := range p.Quotes {
		before, after, ok := strings.Cut(rest, q)
		if !ok {
			continue
		}
		if before != "" {
			out = append(out, said(before))
		}
		out, rest = append(out, page.Person(q)), after
	}
	if rest != "" {
		out = append(out, said(rest))
	}
	return out
}
