package quality

import (
	"fmt"
	"strings"

	"blotter/ledger/geodesy"
	"blotter/ledger/land"
)

// coordinatesInCountry asks whether the point lies in the country of
// countryCode, or at sea where that country's coast is the nearest within 200
// nautical miles: the exclusive economic zones themselves are not embedded.
func coordinatesInCountry(in *input) Response {
	lat, lon, why := in.coordinates()
	code := in.value(dwcCountryCode)
	switch {
	case why != "":
		return internal(why)
	case !onEarth(lat, lon):
		return internal("the coordinates are no point on the earth")
	case !isCountryCode(code) || code == unknownCountry:
		return internal(emptyOr(in, dwcCountryCode, "names no country by an ISO 3166-1 alpha-2 code"))
	}
	ok, known, where := inCountry(lat, lon, code, in.metres(bdqSpatialBuffer))
	if !known {
		return external("no boundary of " + code + " is to be had here")
	}
	return complies(ok, "the coordinates lie in "+code+" or its sea", "the coordinates lie "+where)
}

// metres is a parameter that is a distance; 0 when it is no number.
func (in *input) metres(t Term) float64 {
	v, _ := number(in.parameter(t))
	return max(v, 0)
}

// inCountry reports whether a point lies in a country or its sea, or within
// buffer metres of either; where says where it lies otherwise.
func inCountry(lat, lon float64, code string, buffer float64) (in, known bool, where string) {
	at, near := land.At(lat, lon)
	if code == highSeas {
		if near && at.Metres < land.Zone-buffer {
			return false, true, "within 200 nautical miles of " + nameOf(at.Country)
		}
		return true, true, ""
	}
	away, known := land.Outside(lat, lon, code)
	switch {
	case !known:
		return false, false, ""
	case away <= buffer:
		return true, true, ""
	case near && at.Metres > 0 && away <= at.Metres+buffer && away <= land.Zone+buffer:
		return true, true, ""
	case !near:
		return false, true, "on the high seas"
	}
	place := "in " + nameOf(at.Country)
	if at.Metres > 0 {
		place = "in the sea nearest to " + nameOf(at.Country)
	}
	return false, true, fmt.Sprintf("%s, %.0f km outside %s", place, away/1000, nameOf(code))
}

func nameOf(code string) string {
	if code == "" {
		return "land that several countries claim"
	}
	if n := land.Name(code); n != "" {
		return n
	}
	return code
}

// countryCodeFromCoordinates proposes the code of the country in which the
// point lies. Land that more than one country claims gives none.
func countryCodeFromCoordinates(in *input) Response {
	switch {
	case in.empty(dwcDecimalLatitude) || in.empty(dwcDecimalLongitude):
		return internal("dwc:decimalLatitude or dwc:decimalLongitude is empty")
	case !in.empty(dwcCountryCode):
		return internal("dwc:countryCode is not empty")
	}
	lat, lon, why := in.coordinates()
	if why != "" || !onEarth(lat, lon) {
		return notAmended("the coordinates are no point on the earth")
	}
	at, near := land.At(lat, lon)
	switch {
	case !near:
		return filledIn("the coordinates are on the high seas", Change{dwcCountryCode, highSeas})
	case !land.Official(at.Country) || len(at.Also) > 0:
		return notAmended("no one country with a code of ISO 3166 holds the place undisputed")
	case at.Metres > 0 && contested(lat, lon, at):
		return notAmended("at sea, and two coasts are about as near")
	case at.Metres > 0:
		return filledIn("the coordinates are in the sea nearest to "+nameOf(at.Country), Change{dwcCountryCode, at.Country})
	}
	return filledIn("the coordinates lie in "+nameOf(at.Country), Change{dwcCountryCode, at.Country})
}

// contested reports whether another country's coast is about as near as the
// nearest: zones meet in the middle (UNCLOS, articles 15 and 74), and the
// middle is known here only roughly.
func contested(lat, lon float64, at land.Where) bool {
	return len(land.Near(lat, lon, at.Metres*1.1+3000)) > 1
}

// transposed proposes coordinates that were swapped or have a wrong sign,
// when exactly one such change puts them into the country of countryCode.
func transposed(in *input) Response {
	if in.empty(dwcDecimalLatitude) || in.empty(dwcDecimalLongitude) || in.empty(dwcCountryCode) {
		return internal("dwc:decimalLatitude, dwc:decimalLongitude or dwc:countryCode is empty")
	}
	lat, lon, why := in.coordinates()
	code := in.value(dwcCountryCode)
	switch {
	case why != "":
		return notAmended(why)
	case !isCountryCode(code):
		return notAmended("dwc:countryCode is no ISO 3166-1 alpha-2 code")
	}
	if ok, _, _ := inCountry(lat, lon, code, borderWidth); ok && onEarth(lat, lon) {
		return notAmended("the coordinates lie in " + code + " as they are")
	}
	proposals := land.Repairs(lat, lon, code, borderWidth)
	switch len(proposals) {
	case 0:
		return notAmended("no change of places or signs puts them into " + code)
	case 1:
		p := proposals[0]
		return amended(p.What+", which puts them into "+code,
			Change{dwcDecimalLatitude, in.figureOf(p.Lat)}, Change{dwcDecimalLongitude, in.figureOf(p.Lon)})
	}
	return notAmended("more than one change puts them into " + code)
}

// borderWidth is how far outside a boundary a point may be, in metres, to be
// taken as inside: the standard's default for the same boundaries.
const borderWidth = 3000

// figureOf writes a coordinate in the figures that the row has for it, with
// its sign.
func (in *input) figureOf(v float64) string {
	for _, t := range []Term{dwcDecimalLatitude, dwcDecimalLongitude} {
		words := trim(in.value(t))
		w, _ := number(words)
		switch {
		case w == v:
			return words
		case w == -v && strings.HasPrefix(words, "-"):
			return words[1:]
		case w == -v:
			return "-" + strings.TrimPrefix(words, "+")
		}
	}
	return metres(v)
}

// centreOfCountry raises an issue when the coordinates are those of the middle
// of a country: they were perhaps put for "somewhere in it".
func centreOfCountry(in *input) Response {
	if in.empty(dwcDecimalLatitude) || in.empty(dwcDecimalLongitude) || in.empty(dwcCountryCode) {
		return internal("dwc:decimalLatitude, dwc:decimalLongitude or dwc:countryCode is empty")
	}
	lat, lon, why := in.coordinates()
	if why != "" || !onEarth(lat, lon) {
		return Response{Status: Ran, Result: NotIssue, Comment: "the coordinates are no point on the earth"}
	}
	code := trim(in.value(dwcCountryCode))
	if uncertainty, ok := number(in.value(dwcCoordinateUncertainty)); ok && uncertainty*uncertainty*4 >= land.Area(code) {
		return Response{Status: Ran, Result: NotIssue, Comment: "the uncertainty is as wide as the country"}
	}
	for _, c := range land.Centres(code) {
		if geodesy.Distance(lat, lon, c.Lat, c.Lon) <= in.metres(bdqSpatialBuffer) {
			return Response{Status: Ran, Result: PotentialIssue, Comment: "the coordinates are " + c.What + ", put perhaps for somewhere in " + nameOf(code)}
		}
	}
	return Response{Status: Ran, Result: NotIssue, Comment: "the coordinates are not a centre of " + code}
}
