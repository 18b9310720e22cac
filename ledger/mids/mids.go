// Package mids tells how much of a specimen is digital: its level of MIDS
// (Minimum Information about a Digital Specimen, TDWG; a draft, files of
// 30 April 2026) and what the next level lacks. It is pure: the elements and
// their terms are a table, OfRow asks a Darwin Core row, OfEntry a record of the
// ledger.
package mids

import "math/bits"

// Element is one information element that MIDS asks of plants.
type Element struct {
	Level int
	Name  string // the standard's
	Says  string // what it is, in plain words
	Where string // the field that gives it, or what else does
	// Any are the terms of Darwin Core that give it: one of the sets, all of its
	// terms. A term of an extension stands behind the name of its row: Multimedia:identifier.
	Any [][]string
}

// Elements are all of them, in order of level; a Set counts them so.
var Elements = []Element{
	{0, "PhysicalSpecimenID", "a number of its own", "specimen", one("materialSampleID", "catalogNumber", "otherCatalogNumbers", "occurrenceID", "materialEntityID")},
	{0, "Organization", "the museum that keeps it", "blotter.yaml: name, code", one("ownerInstitutionCode", "institutionID", "institutionCode")},
	{1, "Name", "a name", "determinations", one("scientificName", "vernacularName", "scientificNameID", "taxonKey", "organismName")},
	{1, "ObjectType", "how it is kept", "kept_as", one("preparations", "materialEntityType")},
	{1, "License", "the licence of the catalogue", "blotter.yaml: site.licence", one("license")},
	{1, "Modified", "an entry in the ledger's history", "blotter enter", one("modified")},
	{2, "QualitativeLocation", "the place in words", "place", append(one("locality", "county", "municipality", "verbatimLocality", "island", "verbatimCoordinates",
		"continent", "country", "countryCode", "islandGroup", "stateProvince", "waterBody", "higherGeography"), []string{"verbatimLatitude", "verbatimLongitude"})},
	{2, "QuantitativeLocation", "a position on the map", "place.position", append(one("locationID", "footprintWKT"), []string{"decimalLatitude", "decimalLongitude"})},
	{2, "CollectingAgent", "the collector", "collector", one("recordedBy", "recordedByID")},
	{2, "DateCollected", "the date, or s.d.", "date", one("eventDate", "year", "verbatimEventDate")},
	{2, "CollectingNumber", "the collector's number, or s.n.", "coll_no", one("fieldNumber", "recordNumber")},
	{2, "Media", "a picture", "images", one("mediaType", "associatedMedia", "Multimedia:identifier", "Multimedia:references", "Multimedia:accessURI")},
	{3, "OrganizationID", "an identifier of the museum", "blotter.yaml: dataset.institution_id", one("institutionID")},
	{3, "CollectingAgentID", "an identifier of the collector", "people.yaml: orcid", one("recordedByID")},
	{3, "IdentifiedAsID", "an identifier of the name", "a ledger has no field for it", one("scientificNameID", "taxonKey")},
	{3, "GeographicalLocalityID", "a position with its error", "place.position", append(one("locationID"),
		[]string{"decimalLatitude", "decimalLongitude", "coordinatePrecision", "coordinateUncertaintyInMeters", "geodeticDatum"}, []string{"footprintWKT", "footprintSRS"})},
	{3, "IdentifiedByID", "an identifier of the determiner", "people.yaml: orcid", one("identifiedByID", "Identification:identifiedByID")},
	{3, "MediaID", "an identifier of the picture", "images.file", one("Multimedia:identifier")},
}

func one(terms ...string) [][]string {
	sets := make([][]string, len(terms))
	for i, t := range terms {
		sets[i] = []string{t}
	}
	return sets
}

// Set is a set of Elements, by their places.
type Set uint32

// Has reports whether the element at a place is in the set.
func (s Set) Has(at int) bool { return s>>at&1 != 0 }

// Place is the place of an element by its name; -1 for none.
func Place(name string) int {
	for i := range Elements {
		if Elements[i].Name == name {
			return i
		}
	}
	return -1
}

// MaxLevel is the highest level.
const MaxLevel = 3

// ofLevel are the elements of each level.
var ofLevel = func() (sets [MaxLevel + 1]Set) {
	for i, e := range Elements {
		sets[e.Level] |= 1 << i
	}
	return sets
}()

// Level is the level that what is given reaches, from 0 to 3; -1 when not even
// the lowest. A level holds only when all lower ones do (our reading of the
// draft, which does not say).
func (s Set) Level() int {
	for l, want := range ofLevel {
		if s&want != want {
			return l - 1
		}
	}
	return MaxLevel
}

// Lacks is what the next level lacks; empty when there is none.
func (s Set) Lacks() Set {
	next := s.Level() + 1
	if next > MaxLevel {
		return 0
	}
	return ofLevel[next] &^ s
}

// Elements lists what is in the set, in order.
func (s Set) Elements() []*Element {
	out := make([]*Element, 0, bits.OnesCount32(uint32(s)))
	for i := range Elements {
		if s.Has(i) {
			out = append(out, &Elements[i])
		}
	}
	return out
}

// Undigitized stands for what is on the specimen and not yet digital: it does
// not count (column RegexRemoval of the mapping).
const Undigitized = "unknown:undigitized"

// counts reports whether a value of a term gives something.
func counts(term, value string) bool {
	switch value {
	case "", Undigitized:
		return false
	case "0":
		return term != "scientificNameID" && term != "taxonKey"
	case "incertae sedis":
		return term != "scientificName"
	}
	return true
}

// OfRow asks a Darwin Core row. values gives the values of a term: one of the
// core's, or with the name of a row before it (Multimedia:identifier) one of
// each row of that extension.
func OfRow(values func(term string) []string) Set {
	var s Set
	for i := range Elements {
		if Elements[i].given(values) {
			s |= 1 << i
		}
	}
	return s
}

func (e *Element) given(values func(term string) []string) bool {
	for _, set := range e.Any {
		all := true
		for _, term := range set {
			all = all && anyCounts(term, values(term))
		}
		if all {
			return true
		}
	}
	return false
}

func anyCounts(term string, values []string) bool {
	for _, v := range values {
		if counts(term, v) {
			return true
		}
	}
	return false
}
