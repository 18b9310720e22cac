package quality

import "strings"

// Authority is a source that a test measures values by.
type Authority struct {
	Name    string
	Service bool     // an outside service that is not asked
	also    []string // other words and addresses for the same source
	ours    string   // what stands in for it here, when that is another source
}

// is reports whether words name the authority: its name, an address of it, or
// the standard's whole default text, which begins with the name in quotes.
func (a *Authority) is(words string) bool {
	w := trim(words)
	if quoted, ok := strings.CutPrefix(w, `"`); ok {
		w, _, _ = strings.Cut(quoted, `"`)
	}
	for _, n := range append([]string{a.Name}, a.also...) {
		if strings.EqualFold(strings.TrimRight(w, "/"), strings.TrimRight(n, "/")) {
			return true
		}
	}
	return false
}

// The default authorities of the tests, with the addresses that the standard
// gives for them.
var (
	taxonService = &Authority{Name: "GBIF Backbone Taxonomy", Service: true, also: []string{"https://doi.org/10.15468/39omei"}}
	marineTaxa   = &Authority{Name: "World Register of Marine Species (WoRMS)", Service: true, also: []string{"https://www.marinespecies.org/", "WoRMS"}}

	countryCodes = &Authority{Name: "ISO 3166 Country Codes", also: []string{"ISO 3166-1-alpha-2", "ISO 3166", "https://www.iso.org/iso-3166-country-codes.html", "https://www.iso.org/obp/ui/#search"}}
	placeNames   = &Authority{Name: "The Getty Thesaurus of Geographic Names (TGN)", also: []string{"TGN", "https://www.getty.edu/research/tools/vocabularies/tgn/index.html"},
		ours: "ISO 3166 names and Natural Earth units"}
	boundaries = &Authority{Name: "10m-admin-1 boundaries UNION with Exclusive Economic Zones", also: []string{"https://www.naturalearthdata.com/downloads/10m-cultural-vectors/10m-admin-1-states-provinces/"},
		ours: "Natural Earth boundaries; at sea the nearest coast within 200 nautical miles"}
	regions = &Authority{Name: "10m-admin-1 boundaries", also: []string{"https://www.naturalearthdata.com/downloads/10m-cultural-vectors/10m-admin-1-states-provinces/"}}
	centres = &Authority{Name: "GBIF Catalogue of Country Centroides", also: []string{"https://raw.githubusercontent.com/jhnwllr/catalogue-of-centroids/master/PCLI.tsv"},
		ours: "centres worked out from Natural Earth boundaries"}
	landShapes = &Authority{Name: "Union of NaturalEarth 10m-physical-vectors for Land and NaturalEarth Minor Islands",
		also: []string{"https://naciscdn.org/naturalearth/10m/physical/ne_10m_land.zip"}}

	epsg          = &Authority{Name: "EPSG", also: []string{"https://epsg.org", "https://apps.epsg.org/api/swagger/ui/index", "https://apps.epsg.org/api/swagger/ui/index#/Datum"}}
	dcmiTypes     = &Authority{Name: "DCMI Type Vocabulary", also: []string{"http://purl.org/dc/terms/DCMIType", "https://www.dublincore.org/specifications/dublin-core/dcmi-type-vocabulary/2010-10-11/"}}
	basisClasses  = &Authority{Name: "Darwin Core basisOfRecord", also: []string{"https://dwc.tdwg.org/terms/#dwc:basisOfRecord", "https://rs.gbif.org/vocabulary/dwc/basis_of_record.xml"}}
	licences      = &Authority{Name: "Creative Commons 4.0 Licenses or CC0", also: []string{"Creative Commons", "https://creativecommons.org/", "https://creativecommons.org/about/cclicenses/"}}
	presentAbsent = &Authority{Name: "Regex present/absent", also: []string{"^(present|absent)$"}}
	meansTerms    = &Authority{Name: "Establishment Means Controlled Vocabulary List of Terms", also: []string{"https://dwc.tdwg.org/em/", "https://api.gbif.org/v1/vocabularies/EstablishmentMeans/concepts"}}
	degreeTerms   = &Authority{Name: "Degree of Establishment Controlled Vocabulary List of Terms", also: []string{"https://dwc.tdwg.org/doe/", "https://api.gbif.org/v1/vocabularies/DegreeOfEstablishment/concepts"}}
	pathwayTerms  = &Authority{Name: "Pathway Controlled Vocabulary List of Terms", also: []string{"https://dwc.tdwg.org/pw/", "https://api.gbif.org/v1/vocabularies/Pathway/concepts"}}
	sexTerms      = &Authority{Name: "GBIF Sex Vocabulary", also: []string{"https://api.gbif.org/v1/vocabularies/Sex", "https://api.gbif.org/v1/vocabularies/Sex/concepts"}}
	typeTerms     = &Authority{Name: "GBIF TypeStatus Vocabulary", also: []string{"https://api.gbif.org/v1/vocabularies/TypeStatus", "https://api.gbif.org/v1/vocabularies/TypeStatus/concepts"}}
	rankTerms     = &Authority{Name: "GBIF TaxonRank Vocabulary", also: []string{"https://api.gbif.org/v1/vocabularies/TaxonRank", "https://api.gbif.org/v1/vocabularies/TaxonRank/concepts"}}
)
