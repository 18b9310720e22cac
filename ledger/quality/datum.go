package quality

import (
	"math"
	"strconv"
	"strings"

	"blotter/ledger/geodesy"
)

// notRecorded is what Darwin Core writes when the datum is not known.
const notRecorded = "not recorded"

// datumStandard asks whether geodeticDatum is an EPSG code of geographic
// coordinates in degrees, a datum or an ellipsoid, or "not recorded".
func datumStandard(in *input) Response {
	if in.empty(dwcGeodeticDatum) {
		return internal("dwc:geodeticDatum is empty")
	}
	v := in.value(dwcGeodeticDatum)
	return complies(v == notRecorded || isEPSG(v), "dwc:geodeticDatum is such a code, or says that none was recorded",
		"dwc:geodeticDatum is no EPSG code of a datum, an ellipsoid or geographic coordinates in degrees")
}

// isEPSG reads EPSG:4326.
func isEPSG(s string) bool {
	digits, ok := strings.CutPrefix(s, "EPSG:")
	n, okN := figures(digits)
	return ok && okN && digits[0] != '0' && epsgCodes()[n]
}

// standardDatum proposes the EPSG code of a datum that is named otherwise.
func standardDatum(in *input) Response {
	if in.empty(dwcGeodeticDatum) {
		return internal("dwc:geodeticDatum is empty")
	}
	v := in.value(dwcGeodeticDatum)
	if v == notRecorded || isEPSG(v) {
		return notAmended("dwc:geodeticDatum stands as it should already")
	}
	code, ok := datumMeant(trim(v))
	if !ok {
		return notAmended("dwc:geodeticDatum names no one datum")
	}
	return amended("dwc:geodeticDatum means "+code, Change{dwcGeodeticDatum, code})
}

// ellipsoids are the EPSG codes of ellipsoids by the names that stand in
// records where a datum should; from memory, checked against EPSG 10.076.
var ellipsoids = map[string]string{
	"international1924": "7022", "hayford1910": "7022", "hayford": "7022", "clarke1866": "7008", "clarke1880": "7034", "clarke1880rgs": "7012", "clarke1880ign": "7011",
	"bessel1841": "7004", "airy1830": "7001", "airymodified1849": "7002", "grs1980": "7019", "grs80": "7019", "grs1967": "7036", "grs67": "7036",
	"krassovsky1940": "7024", "krassowsky1940": "7024", "krasovsky1940": "7024", "australiannationalspheroid": "7003", "everest18301937adjustment": "7015",
}

// datumMeant is the EPSG code that words for a datum mean: its name or another
// of its names, or the code in another spelling. Names of projected
// coordinates mean no datum of decimal degrees. One datum is never turned
// into another.
func datumMeant(words string) (string, bool) {
	w := foldWord(words)
	if words == "" || len(words) > 100 || strings.EqualFold(words, notRecorded) {
		return notRecorded, strings.EqualFold(words, notRecorded)
	}
	bare := strings.TrimPrefix(strings.TrimPrefix(w, "urnogcdefcrs"), "epsg")
	if n, ok := figures(bare); ok {
		return "EPSG:" + strconv.Itoa(n), epsgCodes()[n] && len(bare) == 4
	}
	if code, ok := ellipsoids[strings.TrimSuffix(w, "ellipsoid")]; ok {
		return "EPSG:" + code, true
	}
	if strings.ContainsAny(words, "/|;") || strings.Contains(w, "utm") || strings.Contains(w, "mga") || strings.Contains(w, "grid") {
		return "", false
	}
	d, ok := geodesy.DatumOf(words)
	return "EPSG:" + strconv.Itoa(d.Code), ok && d.Code > 0
}

// assumedDatum proposes a datum where none stands, and an uncertainty larger
// by what the guess may cost there.
func assumedDatum(in *input) Response {
	if !in.empty(dwcGeodeticDatum) {
		return notAmended("dwc:geodeticDatum is not empty")
	}
	assumed := in.parameter(bdqDefaultGeodeticDatum)
	datum := Change{dwcGeodeticDatum, assumed}
	lat, lon, why := in.coordinates()
	metres, ok := validUncertainty(in.value(dwcCoordinateUncertainty))
	if why != "" || !ok || !onEarth(lat, lon) {
		return filledIn(assumed+" is assumed", datum)
	}
	shift, ok := datumShift(lat, lon, assumed)
	if !ok {
		return filledIn(assumed+" is assumed; what that may cost is not known", datum)
	}
	wider := strconv.FormatFloat(metres+shift, 'f', 0, 64)
	return amended(assumed+" is assumed, which may be off by "+strconv.FormatFloat(shift, 'f', 0, 64)+" m here",
		Change{dwcCoordinateUncertainty, wider}, datum)
}

// datumShift is how far a point may be off at the most, in metres, when its
// coordinates are taken on the assumed datum: the greatest shift to WGS84 of
// the datums used at the place, and that of the assumed one on top. False when
// the assumed one is not known.
func datumShift(lat, lon float64, assumed string) (float64, bool) {
	metres, _ := geodesy.UnknownDatumAt(lat, lon)
	d, ok := geodesy.DatumOf(assumed)
	if !ok || d.WGS84() {
		return metres, ok
	}
	lat2, lon2, _ := d.ToWGS84(lat, lon)
	return math.Ceil(metres + geodesy.Distance(lat, lon, lat2, lon2)), true
}
