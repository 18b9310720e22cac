package main

import (
	"math"

	"blotter/ledger/places"
)

// positionTold is the reading of a position.
type positionTold struct {
	readHead
	Latitude    *float64   `json:"latitude,omitempty"` // WGS84 decimal degrees, north and east positive
	Longitude   *float64   `json:"longitude,omitempty"`
	Datum       string     `json:"datum,omitempty"`         // of the words: a name, or not recorded
	Uncertainty *float64   `json:"uncertainty_m,omitempty"` // radius in metres, the sum of its parts
	Parts       []partTold `json:"parts,omitempty"`
	Form        string     `json:"form,omitempty"`
	words       string
}

// partTold is one share of an uncertainty.
type partTold struct {
	Name   string  `json:"name"`
	Metres float64 `json:"metres"`
	Why    string  `json:"why"`
}

func (t *positionTold) object() any { return t }

func readPositionText(_ *readDesk, text string) told {
	t := &positionTold{readHead: headOf(text)}
	p := places.ReadPosition(text)
	for _, w := range p.Warnings {
		t.warn(w.Code, w.Message)
	}
	switch {
	case p.Known():
		t.Latitude, t.Longitude, t.Form = degrees(p.Lat), degrees(p.Lon), p.Form.String()
		t.words = "read as " + p.String()
	case p.None != places.Stated:
		t.words = noneSaid(p.None == places.NotRecorded, p.None == places.Illegible)
	default:
		t.refuse("no position can be read in these words")
	}
	return t
}

// degrees is an angle to a ten-millionth of a degree, about a centimetre.
func degrees(v float64) *float64 {
	v = math.Round(v*1e7) / 1e7
	return &v
}

func (t *positionTold) lines() []string { return t.linesWith(t.words) }
