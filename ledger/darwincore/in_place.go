package darwincore

import (
	"math"
	"strconv"
	"strings"

	"blotter/ledger/places"
)

// position takes the collector's position, words before figures. A position
// that somebody found later stands beside it as his reading.
func (m *making) position(in *In, core *inRow) {
	words := core.peek("verbatimCoordinates")
	switch lat, lon := core.peek("verbatimLatitude"), core.peek("verbatimLongitude"); {
	case strings.ContainsAny(words, "0123456789"):
		core.use("verbatimCoordinates")
	case lat != "" && lon != "":
		core.use("verbatimLatitude", "verbatimLongitude")
		words = lat + ", " + lon
	default:
		words = ""
	}
	m.put("place.position", words)
	lat, lon := core.peek("decimalLatitude"), core.peek("decimalLongitude")
	placed := lat != "" && lon != ""
	later := core.peek("georeferencedBy") != "" || core.peek("georeferencedDate") != ""
	switch {
	case placed && words == "" && !later:
		core.use("decimalLatitude", "decimalLongitude")
		m.put("place.position", lat+", "+lon)
		m.put("place.datum", core.first("verbatimSRS", "geodeticDatum"))
		m.put("place.uncertainty", radiusOf(core))
		m.put("place.position_by", core.take("georeferenceSources"))
	case placed && (later || adds(words, core.peek("verbatimSRS"), lat, lon)):
		core.use("decimalLatitude", "decimalLongitude")
		m.put("place.datum", core.take("verbatimSRS"))
		m.reading("position", onDatum(core, lat+", "+lon), radiusOf(core), core.take("georeferencedBy"), core.take("georeferencedDate"),
			orElse(core.take("georeferenceSources"), "decimalLatitude, decimalLongitude of the archive"), core.take("georeferenceRemarks"))
	default:
		m.put("place.datum", core.first("verbatimSRS", "geodeticDatum"))
		if words != "" {
			m.put("place.uncertainty", radiusOf(core))
			m.put("place.position_by", core.take("georeferenceSources"))
		}
	}
}

// metresOf writes the unit that a term's name has.
func metresOf(figure string) string {
	if figure == "" || !strings.ContainsAny(figure[len(figure)-1:], "0123456789") {
		return figure
	}
	return figure + " m"
}

// onDatum writes the datum behind a position, when it is another than WGS84:
// a reading without one is on WGS84.
func onDatum(core *inRow, position string) string {
	datum := core.peek("geodeticDatum")
	if datum == "" {
		return position
	}
	with := position + " (" + datum + ")"
	if p := places.ReadPosition(with); p.Known() && p.Datum != "" {
		core.use("geodeticDatum")
		return with
	}
	return position
}

// adds reports whether figures say more than the words of a position do: these
// cannot be read, or stand in doubt. What says otherwise than sound words is
// no reading of them.
func adds(words, datum, lat, lon string) bool {
	own := places.ReadPosition(words)
	if words == "" || !own.Known() {
		return words != ""
	}
	if len(own.Warnings) == 0 {
		return false
	}
	y, err1 := strconv.ParseFloat(lat, 64)
	x, err2 := strconv.ParseFloat(lon, 64)
	if err1 != nil || err2 != nil {
		return false
	}
	return math.Abs(y-own.Lat) > 2*own.Step+0.001 || math.Abs(x-own.Lon) > 2*own.Step+0.001
}

// heights takes elevation and depth, words before figures.
func (m *making) heights(in *In, core *inRow) {
	words := core.take("verbatimElevation")
	low, high := core.peek("minimumElevationInMeters"), core.peek("maximumElevationInMeters")
	figures := span(low, high)
	if words == "" {
		if figures != "" {
			core.use("minimumElevationInMeters", "maximumElevationInMeters")
		}
		m.put("place.elevation", figures)
	} else {
		m.put("place.elevation", words)
		own := places.ReadElevation(words)
		if figures != "" && (!own.Known() || len(own.Warnings) > 0) {
			core.use("minimumElevationInMeters", "maximumElevationInMeters")
			m.reading("elevation", figures, "", "", "", "minimumElevationInMeters, maximumElevationInMeters of the archive", "")
		}
	}
	depth := core.take("verbatimDepth")
	if depth == "" {
		if depth = span(core.peek("minimumDepthInMeters"), core.peek("maximumDepthInMeters")); depth != "" {
			core.use("minimumDepthInMeters", "maximumDepthInMeters")
		}
	}
	m.put("depth", depth)
}

// radiusOf takes the radius of a position. 0 is no value of the term, and says
// nothing: it is kept to the letter.
func radiusOf(core *inRow) string {
	if m, err := strconv.ParseFloat(core.peek("coordinateUncertaintyInMeters"), 64); err == nil && m == 0 {
		return ""
	}
	return metresOf(core.take("coordinateUncertaintyInMeters"))
}

// span writes a least and a greatest length in metres: "610-640 m".
func span(low, high string) string {
	switch {
	case low == "" && high == "":
		return ""
	case low == "":
		return metresOf(high)
	case high == "" || high == low:
		return metresOf(low)
	}
	return low + "-" + metresOf(high)
}
