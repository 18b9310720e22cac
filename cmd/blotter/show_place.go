package main

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/georeference"
	"blotter/ledger/places"
	"blotter/ledger/reading"
)

// positionRead is what the program reads in the words of a position, with its
// radius when that reading holds.
func positionRead(words string, p reading.Position) string {
	switch {
	case p.Known && !p.FromHand:
		return "   read as " + p.Estimate.String()
	case p.Written.Known():
		return "   read as " + p.Written.String()
	case reading.AbsenceOf(words) == reading.Present && p.Written.None == places.Stated:
		return "   could not be read as a position"
	}
	return ""
}

// sharesBelow are the shares of a radius, each on a line with its reason, and
// what nobody stated.
func sharesBelow(e georeference.Estimate) string {
	var b strings.Builder
	for _, p := range append(e.Parts[:len(e.Parts):len(e.Parts)], e.Unsaid...) {
		b.WriteString("\n" + p.String())
	}
	return b.String()
}

// reckonedRow is where the words of the locality put a sheet that has no
// position: the program's reckoning, and said to be.
func (d *desk) reckonedRow(read *reading.Reading) [][]string {
	e := read.Reckoned(d.gazetteer())
	if !e.Known {
		return nil
	}
	return [][]string{{"", "reckoned from the locality, not the collector's: " + e.String() + "\nfrom " + e.From + sharesBelow(e)}}
}

// gazetteer knows the places of places.yaml as it stands.
func (d *desk) gazetteer() *georeference.Gazetteer {
	if d.named == nil {
		list := &ledger.Places{}
		if src, err := d.read(ledger.PlacesFile); err == nil {
			list, _ = ledger.DecodePlaces(ledger.PlacesFile, src)
		}
		d.named = reading.Gazetteer(list.Places)
	}
	return d.named
}

// reckonedTold is a point reckoned from a locality.
type reckonedTold struct {
	From        string     `json:"from"`
	Latitude    float64    `json:"latitude"`
	Longitude   float64    `json:"longitude"`
	Uncertainty float64    `json:"uncertainty_m"`
	Parts       []partTold `json:"parts"`
}

// partsTold are the shares of a radius as --json prints them.
func partsTold(e georeference.Estimate) []partTold {
	out := make([]partTold, len(e.Parts))
	for i, p := range e.Parts {
		out[i] = partTold{p.Name, *metresOf(p.Metres), p.Why}
	}
	return out
}
