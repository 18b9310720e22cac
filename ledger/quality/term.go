package quality

import "strings"

// Term is a Darwin Core or Dublin Core term that some test looks at, or a
// parameter of the standard.
type Term uint8

// The terms; termNames has their spelling in the same order.
const (
	none Term = iota
	dcType
	dctermsLicense
	dwcAcceptedNameUsageID
	dwcBasisOfRecord
	dwcClass
	dwcContinent
	dwcCoordinateUncertainty
	dwcCountry
	dwcCountryCode
	dwcCounty
	dwcCultivarEpithet
	dwcDataGeneralizations
	dwcDateIdentified
	dwcDay
	dwcDecimalLatitude
	dwcDecimalLongitude
	dwcDegreeOfEstablishment
	dwcEndDayOfYear
	dwcEstablishmentMeans
	dwcEventDate
	dwcFamily
	dwcFootprintWKT
	dwcGenericName
	dwcGenus
	dwcGeodeticDatum
	dwcHigherClassification
	dwcHigherGeography
	dwcHigherGeographyID
	dwcIndividualCount
	dwcInfragenericEpithet
	dwcInfraspecificEpithet
	dwcIsland
	dwcIslandGroup
	dwcKingdom
	dwcLocality
	dwcLocationID
	dwcMaximumDepth
	dwcMaximumElevation
	dwcMinimumDepth
	dwcMinimumElevation
	dwcMonth
	dwcMunicipality
	dwcNamePublishedInYear
	dwcOccurrenceID
	dwcOccurrenceStatus
	dwcOrder
	dwcOrganismQuantity
	dwcOriginalNameUsageID
	dwcParentNameUsageID
	dwcPathway
	dwcPhylum
	dwcScientificName
	dwcScientificNameAuthorship
	dwcScientificNameID
	dwcSex
	dwcSpecificEpithet
	dwcStartDayOfYear
	dwcStateProvince
	dwcSubfamily
	dwcSubgenus
	dwcSubtribe
	dwcSuperfamily
	dwcTaxonConceptID
	dwcTaxonID
	dwcTaxonRank
	dwcTribe
	dwcTypeStatus
	dwcVerbatimCoordinates
	dwcVerbatimCoordinateSystem
	dwcVerbatimDepth
	dwcVerbatimElevation
	dwcVerbatimEventDate
	dwcVerbatimLatitude
	dwcVerbatimLocality
	dwcVerbatimLongitude
	dwcVerbatimSRS
	dwcVernacularName
	dwcWaterBody
	dwcYear
	oaHasTarget
	bdqAnnotation
	bdqAnnotationAlertIf
	bdqAnnotationSystem
	bdqAssumptionOnUnknownBiome
	bdqDefaultGeodeticDatum
	bdqDefaultOccurrenceStatus
	bdqEarliestValidDate
	bdqGeospatialLand
	bdqIncludeEventDate
	bdqLatestValidDate
	bdqMaximumValidDepth
	bdqMaximumValidElevation
	bdqMinimumValidDepth
	bdqMinimumValidElevation
	bdqSourceAuthority
	bdqSpatialBuffer
	bdqTaxonIsMarine
	termCount
)

var termNames = [termCount]string{
	"", "dc:type", "dcterms:license", "dwc:acceptedNameUsageID", "dwc:basisOfRecord", "dwc:class", "dwc:continent",
	"dwc:coordinateUncertaintyInMeters", "dwc:country", "dwc:countryCode", "dwc:county", "dwc:cultivarEpithet",
	"dwc:dataGeneralizations", "dwc:dateIdentified", "dwc:day", "dwc:decimalLatitude", "dwc:decimalLongitude",
	"dwc:degreeOfEstablishment", "dwc:endDayOfYear", "dwc:establishmentMeans", "dwc:eventDate", "dwc:family",
	"dwc:footprintWKT", "dwc:genericName", "dwc:genus", "dwc:geodeticDatum", "dwc:higherClassification",
	"dwc:higherGeography", "dwc:higherGeographyID", "dwc:individualCount", "dwc:infragenericEpithet",
	"dwc:infraspecificEpithet", "dwc:island", "dwc:islandGroup", "dwc:kingdom", "dwc:locality", "dwc:locationID",
	"dwc:maximumDepthInMeters", "dwc:maximumElevationInMeters", "dwc:minimumDepthInMeters",
	"dwc:minimumElevationInMeters", "dwc:month", "dwc:municipality", "dwc:namePublishedInYear", "dwc:occurrenceID",
	"dwc:occurrenceStatus", "dwc:order", "dwc:organismQuantity", "dwc:originalNameUsageID", "dwc:parentNameUsageID",
	"dwc:pathway", "dwc:phylum", "dwc:scientificName", "dwc:scientificNameAuthorship", "dwc:scientificNameID",
	"dwc:sex", "dwc:specificEpithet", "dwc:startDayOfYear", "dwc:stateProvince", "dwc:subfamily", "dwc:subgenus",
	"dwc:subtribe", "dwc:superfamily", "dwc:taxonConceptID", "dwc:taxonID", "dwc:taxonRank", "dwc:tribe",
	"dwc:typeStatus", "dwc:verbatimCoordinates", "dwc:verbatimCoordinateSystem", "dwc:verbatimDepth",
	"dwc:verbatimElevation", "dwc:verbatimEventDate", "dwc:verbatimLatitude", "dwc:verbatimLocality",
	"dwc:verbatimLongitude", "dwc:verbatimSRS", "dwc:vernacularName", "dwc:waterBody", "dwc:year",
	"oa:hasTarget", "bdqval:annotation", "bdqval:annotationAlertIf", "bdqval:annotationSystem",
	"bdqval:assumptionOnUnknownBiome", "bdqval:defaultGeodeticDatum", "bdqval:defaultOccurrenceStatus",
	"bdqval:earliestValidDate", "bdqval:geospatialLand", "bdqval:includeEventDate", "bdqval:latestValidDate",
	"bdqval:maximumValidDepthInMeters", "bdqval:maximumValidElevationInMeters", "bdqval:minimumValidDepthInMeters",
	"bdqval:minimumValidElevationInMeters", "bdqval:sourceAuthority", "bdqval:spatialBufferInMeters",
	"bdqval:taxonIsMarine",
}

// String is the term with its prefix: dwc:eventDate.
func (t Term) String() string { return termNames[t] }

// Parameter reports whether the term is a parameter of the standard, not of a
// record.
func (t Term) Parameter() bool { return t >= bdqAnnotationSystem && t < termCount }

// spaces are the IRIs and prefixes that may stand before a term's own name.
var spaces = []struct{ long, short string }{
	{"http://rs.tdwg.org/dwc/terms/", "dwc:"},
	{"http://purl.org/dc/elements/1.1/", "dc:"},
	{"http://purl.org/dc/terms/", "dcterms:"},
	{"http://www.w3.org/ns/oa#", "oa:"},
}

// TermOf is the term that a heading names: with a prefix (dwc:eventDate), as a
// full IRI, or bare (eventDate); letter case does not count. dcterms:type is
// taken for dc:type, which older lists of Simple Darwin Core have in that
// place. False when no test looks at it.
func TermOf(heading string) (Term, bool) {
	h := strings.Trim(strings.TrimSpace(heading), "\ufeff")
	for _, s := range spaces {
		h = strings.Replace(h, strings.Replace(s.long, "http:", "https:", 1), s.short, 1)
		h = strings.Replace(h, s.long, s.short, 1)
	}
	h = strings.ToLower(h)
	if h == "dcterms:type" {
		return dcType, true
	}
	for t := Term(1); t < termCount; t++ {
		name := strings.ToLower(termNames[t])
		_, bare, _ := strings.Cut(name, ":")
		if h == name || h == bare && !t.Parameter() && t != bdqAnnotation && t != oaHasTarget {
			return t, true
		}
	}
	return none, false
}
