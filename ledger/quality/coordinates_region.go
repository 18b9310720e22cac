package quality

import (
	"strings"

	"blotter/ledger/land"
)

// coordinatesInRegion asks whether the point lies in a first-level region of
// that name, of whichever country.
func coordinatesInRegion(in *input) Response {
	lat, lon, why := in.coordinates()
	switch {
	case why != "":
		return internal(why)
	case !onEarth(lat, lon):
		return internal("the coordinates are no point on the earth")
	case in.empty(dwcStateProvince):
		return internal("dwc:stateProvince is empty")
	}
	words := trim(in.value(dwcStateProvince))
	known := false
	for _, country := range land.CountriesOf(words) {
		away, ok := land.OutsideRegion(lat, lon, country, words)
		if ok && away <= in.metres(bdqSpatialBuffer) {
			return compliant("the coordinates lie in " + words + ", " + country)
		}
		known = known || ok
	}
	if !known {
		return internal("dwc:stateProvince is no first-level region that the boundaries know")
	}
	return notCompliant("the coordinates do not lie in a region of that name")
}

// regionFound asks whether stateProvince names a first-level region of some
// country, as Natural Earth and the program's own list of other names have
// them.
func regionFound(in *input) Response {
	if in.empty(dwcStateProvince) {
		return internal("dwc:stateProvince is empty")
	}
	v := in.value(dwcStateProvince)
	if v != trim(v) {
		return notCompliant("blanks stand before or after dwc:stateProvince")
	}
	in2 := land.CountriesOf(v)
	return complies(len(in2) > 0, "dwc:stateProvince is a region of "+strings.Join(in2, ", "), "dwc:stateProvince is no first-level region that the list knows")
}

// regionUnambiguous asks whether country and stateProvince together mean one
// place. A country alone is one place, as in the published answers; the
// standard's note asks for both.
func regionUnambiguous(in *input) Response {
	if in.empty(dwcCountry) && in.empty(dwcStateProvince) {
		return internal("dwc:country and dwc:stateProvince are empty")
	}
	region := trim(in.value(dwcStateProvince))
	if in.empty(dwcCountry) {
		countries := land.CountriesOf(region)
		return complies(len(countries) == 1, "dwc:stateProvince is a region of one country alone",
			"dwc:stateProvince alone means no one region: "+orNone(countries))
	}
	code, ok := nationOf(trim(in.value(dwcCountry)))
	switch {
	case !ok:
		return notCompliant("dwc:country names no one country")
	case region == "":
		return compliant("dwc:country names one country")
	}
	name, ok := land.Region(code, region)
	if twin := cityOf(code, region, name); ok && twin != "" {
		return notCompliant("dwc:stateProvince can be " + name + " or " + twin)
	}
	return complies(ok, "dwc:stateProvince is a region of dwc:country", "dwc:stateProvince is no region of "+nameOf(code)+" that the list knows")
}

// cityOf is the region that is the city of the same name as a region, such as
// that of Buenos Aires in the note of the standard; empty when there is none
// or the words themselves say that the city is meant.
func cityOf(code, words, name string) string {
	lower := strings.ToLower(words)
	for _, kind := range []string{"city", "ciudad", "oblast", "provin", "state", "region", "district", "county", "depart"} {
		if strings.Contains(lower, kind) {
			return ""
		}
	}
	for _, city := range []string{"Ciudad de " + words, "City of " + words, words + " City"} {
		if twin, ok := land.Region(code, city); ok && twin != name {
			return twin
		}
	}
	return ""
}

func orNone(list []string) string {
	if len(list) == 0 {
		return "none is known"
	}
	return strings.Join(list, ", ")
}

// landOrSea asks whether the point is on land or at sea as the taxon is. Which
// of both the taxon is, the standard asks of a service, which is not asked
// here; bdqval:taxonIsMarine may say it instead: marine, nonmarine, brackish
// or unknown.
func landOrSea(in *input) Response {
	if given := in.parameter(bdqGeospatialLand); !landShapes.is(given) {
		return external("the boundaries of land " + given + " are not to be had here")
	}
	taxon, said := biomes[strings.ToLower(in.parameter(bdqTaxonIsMarine))]
	if given := in.parameter(bdqTaxonIsMarine); !said && !marineTaxa.is(given) {
		return external("the source " + given + " is not to be had here")
	}
	lat, lon, why := in.coordinates()
	switch {
	case in.empty(dwcScientificName):
		return internal("dwc:scientificName is empty")
	case why != "":
		return internal(why)
	case !onEarth(lat, lon):
		return internal("the coordinates are no point on the earth")
	case !said:
		return external("needs the service " + marineTaxa.Name + ", which is not asked; bdqval:taxonIsMarine may say marine or nonmarine instead")
	}
	if taxon == "unknown" {
		if taxon = biomes[strings.ToLower(in.parameter(bdqAssumptionOnUnknownBiome))]; taxon == "" || taxon == "unknown" {
			return internal("whether the taxon lives in the sea is not known, and nothing is assumed")
		}
	}
	buffer := in.metres(bdqSpatialBuffer)
	sea := land.Inland(lat, lon) <= buffer
	shore := land.Ashore(lat, lon) <= buffer
	ok := taxon == "both" || taxon == "marine" && sea || taxon == "nonmarine" && shore
	return complies(ok, "the coordinates are where a "+taxon+" taxon lives", "the coordinates are not where a "+taxon+" taxon lives")
}

// biomes are the words that bdqval:taxonIsMarine and
// bdqval:assumptionOnUnknownBiome may have.
var biomes = map[string]string{
	"marine": "marine", "true": "marine", "yes": "marine", "nonmarine": "nonmarine", "non-marine": "nonmarine", "terrestrial": "nonmarine",
	"freshwater": "nonmarine", "false": "nonmarine", "no": "nonmarine", "brackish": "both", "both": "both", "unknown": "unknown",
}
