package main

import (
	"fmt"
	"math"
	"strconv"

	"blotter/ledger/georeference"
	"blotter/ledger/land"
	"blotter/ledger/places"
)

// pointTold is a point on WGS84, how far it may be off, and where it lies.
type pointTold struct {
	Latitude    *float64   `json:"latitude,omitempty"` // WGS84 decimal degrees, north and east positive
	Longitude   *float64   `json:"longitude,omitempty"`
	Datum       string     `json:"datum,omitempty"`         // that the words or --datum state, brought to WGS84; or not recorded
	Uncertainty *float64   `json:"uncertainty_m,omitempty"` // radius in metres, the sum of its parts
	Parts       []partTold `json:"parts,omitempty"`
	Country     string     `json:"country,omitempty"` // ISO 3166-1 alpha-2
	Region      string     `json:"region,omitempty"`  // first level below the country
}

// partTold is one share of an uncertainty.
type partTold struct {
	Name   string  `json:"name"`
	Metres float64 `json:"metres"`
	Why    string  `json:"why"`
}

// take fills in an estimate.
func (p *pointTold) take(e georeference.Estimate) {
	p.Latitude, p.Longitude = degrees(e.Lat), degrees(e.Lon)
	p.Uncertainty = metresOf(e.Metres)
	for _, part := range e.Parts {
		p.Parts = append(p.Parts, partTold{part.Name, *metresOf(part.Metres), part.Why})
	}
}

// degrees is an angle to a ten-millionth of a degree, about a centimetre.
func degrees(v float64) *float64 {
	v = math.Round(v*1e7) / 1e7
	return &v
}

// shares are the lines that explain the radius.
func (p *pointTold) shares() []string {
	var out []string
	for _, part := range p.Parts {
		out = append(out, georeference.Metres(part.Metres)+": "+part.Why)
	}
	return out
}

// unsaid are the lines of what nobody stated and is not counted.
func unsaid(e georeference.Estimate) []string {
	var out []string
	for _, u := range e.Unsaid {
		out = append(out, "not counted, since nobody says it: "+u.Why)
	}
	return out
}

// positionTold is the reading of a position.
type positionTold struct {
	readHead
	pointTold
	Form  string `json:"form,omitempty"`
	words string
	more  []string
}

func (t *positionTold) object() any { return t }

func readPositionText(x *readDesk, text string) told {
	t := &positionTold{readHead: headOf(text)}
	p := places.ReadPosition(text)
	for _, w := range p.Warnings {
		t.warn(w.Code, w.Message)
	}
	switch {
	case p.Known():
		t.known(p, x.opts.text("datum"))
	case p.None != places.Stated:
		t.words = noneSaid(p.None == places.NotRecorded, p.None == places.Illegible)
	default:
		t.refuse("no position can be read in these words")
	}
	return t
}

// known tells of a position that could be read.
func (t *positionTold) known(p places.Position, datum string) {
	e := georeference.Of(georeference.Said{Position: p, Datum: datum})
	t.take(e)
	t.Form = p.Form.String()
	_, _, _, t.Datum = p.OnWGS84(datum)
	q := p
	q.Lat, q.Lon = e.Lat, e.Lon
	t.words = fmt.Sprintf("read as %s, ± %s", q.Within(e.Metres), georeference.Metres(e.Metres))
	t.more = append(t.more, "exactly "+strconv.FormatFloat(*t.Latitude, 'f', -1, 64)+", "+strconv.FormatFloat(*t.Longitude, 'f', -1, 64)+" on WGS84, from "+t.Form)
	t.more = append(append(t.more, t.shares()...), unsaid(e)...)
	w, ok := land.At(e.Lat, e.Lon)
	if !ok {
		t.more = append(t.more, "far out at sea, or on no land that is drawn here")
		return
	}
	t.Country, t.Region = w.Country, w.Region
	where := joinNonEmpty(", ", w.Region, land.Name(w.Country))
	if w.Metres > 0 {
		where = "at sea, " + georeference.Metres(w.Metres) + " from " + where
	}
	t.more = append(t.more, "there: "+where+", as Natural Earth draws it")
}

func (t *positionTold) lines() []string { return t.linesWith(t.words, t.more...) }
