package quality

import (
	"math"
	"strconv"
	"strings"

	"blotter/ledger/places"
)

// coordinatesFromVerbatim proposes decimal coordinates from the words of the
// label, without turning them into another datum. The words must be degrees:
// a grid reference would need a transformation.
func coordinatesFromVerbatim(in *input) Response {
	pairWritten := !in.empty(dwcVerbatimLatitude) && !in.empty(dwcVerbatimLongitude)
	switch {
	case !in.empty(dwcDecimalLatitude) || !in.empty(dwcDecimalLongitude):
		return internal("decimal coordinates stand already")
	case in.empty(dwcVerbatimCoordinates) && !pairWritten:
		return internal("no verbatim coordinates stand")
	}
	var found []places.Position
	if pairWritten {
		found = append(found, places.ReadPair(trim(in.value(dwcVerbatimLatitude)), trim(in.value(dwcVerbatimLongitude))))
	}
	if !in.empty(dwcVerbatimCoordinates) {
		found = append(found, places.ReadPosition(trim(in.value(dwcVerbatimCoordinates))))
	}
	for _, p := range found {
		if why := in.unfit(p); why != "" {
			return notAmended(why)
		}
	}
	p := found[0]
	if why := in.differs(found); why != "" {
		return notAmended(why)
	}
	changes := []Change{{dwcDecimalLatitude, degrees(p.Lat, p.Step)}, {dwcDecimalLongitude, degrees(p.Lon, p.Step)}}
	if srs := trim(in.value(dwcVerbatimSRS)); srs != "" {
		code, ok := datumMeant(srs)
		if !ok && !isEPSG(srs) {
			return notAmended("dwc:verbatimSRS names no datum of degrees")
		}
		changes = append(changes, Change{dwcGeodeticDatum, code})
	}
	return filledIn("read as "+p.String(), changes...)
}

// unfit says why a position cannot be proposed.
func (in *input) unfit(p places.Position) string {
	switch {
	case !p.Known():
		return "the verbatim coordinates cannot be read as latitude and longitude"
	case p.Form != places.Decimal && p.Form != places.DegMin && p.Form != places.DegMinSec:
		return "the verbatim coordinates are no degrees"
	case !onEarth(p.Lat, p.Lon):
		return "the verbatim coordinates are not on the earth"
	case p.Step >= 1 && !strings.ContainsAny(in.value(dwcVerbatimCoordinates)+in.value(dwcVerbatimLatitude), "°ºd"):
		return "whole degrees without a degree sign may be a township and range"
	}
	for _, w := range p.Warnings {
		if w.Code != "position-zero" {
			return "the verbatim coordinates are doubtful: " + w.Message
		}
	}
	if system := foldWord(in.value(dwcVerbatimCoordinateSystem)); strings.Contains(system, "utm") || strings.Contains(system, "mgrs") || strings.Contains(system, "grid") {
		return "dwc:verbatimCoordinateSystem names a grid, the coordinates are degrees"
	}
	return ""
}

// differs says where two writings, or one coordinate that stands alone, do not
// agree to the closeness in which they are written.
func (in *input) differs(found []places.Position) string {
	p := found[len(found)-1]
	if len(found) == 2 {
		step := max(found[0].Step, p.Step)
		if math.Abs(found[0].Lat-p.Lat) > step || math.Abs(found[0].Lon-p.Lon) > step {
			return "dwc:verbatimCoordinates and the verbatim latitude and longitude do not agree"
		}
		return ""
	}
	for _, alone := range []struct {
		term Term
		want float64
	}{{dwcVerbatimLatitude, p.Lat}, {dwcVerbatimLongitude, p.Lon}} {
		v, ok := number(in.value(alone.term))
		if !in.empty(alone.term) && !in.empty(dwcVerbatimCoordinates) && ok && math.Abs(v-alone.want) > p.Step {
			return "dwc:verbatimCoordinates and " + alone.term.String() + " do not agree"
		}
	}
	return ""
}

// degrees writes decimal degrees with the figures that the words bear out:
// those of decimal degrees as they stand, minutes and seconds to 7 decimals
// (1 cm).
func degrees(v, step float64) string {
	s := strconv.FormatFloat(v, 'f', -1, 64)
	if _, decimals, _ := strings.Cut(s, "."); len(decimals) > 7 && step > 1e-8 {
		s = strings.TrimRight(strings.TrimRight(strconv.FormatFloat(v, 'f', 7, 64), "0"), ".")
	}
	return s
}
