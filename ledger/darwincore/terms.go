package darwincore

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"blotter/ledger"
	"blotter/ledger/book"
)

// Occurrence is the core: one row a specimen.
var Occurrence = Kind{
	Name: "Occurrence", Noun: "sheet", Type: string(DwC) + "Occurrence", File: "sheets.csv", Says: "a specimen",
	Rows:  func(*Sheet) int { return 1 },
	Terms: slices.Concat(recordTerms, materialTerms, occurrenceTerms, eventTerms, placeTerms, positionTerms, currentTerms),
}

// NewDataset is the data set of an export. museum is what may go out of the
// museum's files.
func NewDataset(museum *book.Museum, revision string, date time.Time, zone *time.Location, partner string) *Dataset {
	if zone == nil {
		zone = time.UTC
	}
	base := strings.TrimSpace(museum.Site.Address.Text)
	if base != "" && !strings.HasSuffix(base, "/") {
		base += "/"
	}
	return &Dataset{Museum: museum, Revision: revision, Date: date, Zone: zone, Partner: partner,
		ids:   idMaker{base: base, code: museum.Code.Text},
		pack:  uuid("herbarium:" + museum.Code.Text),
		words: newWordCache()}
}

// field is a term with the words of one field of the record.
func field(name, path string, words func(*ledger.Record) ledger.Leaf) Term {
	return Term{Name: name, Space: DwC, From: "`" + path + "`, as written", Value: func(r Row) string { return words(r.Record).Text }}
}

// constant is a term with one value in all rows.
func constant(name string, space Space, value, from string) Term {
	return Term{Name: name, Space: space, From: from, Value: func(Row) string { return value }}
}

// recordTerms are about the record and the data set.
var recordTerms = []Term{
	{"occurrenceID", DwC, "the site's address and `specimen`; without an address a UUID made of the museum's code and `specimen`", func(r Row) string { return r.OccurrenceID() }},
	constant("type", DC, "PhysicalObject", "always PhysicalObject"),
	{"modified", DCTerms, "when the ledger's last revision of the record was entered, in UTC", func(r Row) string {
		if r.Modified.IsZero() {
			return ""
		}
		return r.Modified.UTC().Format(time.RFC3339)
	}},
	{"license", DCTerms, "`site.licence` of blotter.yaml, as the licence's address when it is a known one", func(r Row) string { return LicenceAddress(r.Museum.Site.Licence.Text) }},
	{"rightsHolder", DCTerms, "`name` of blotter.yaml", func(r Row) string { return r.Museum.Name.Text }},
	{"accessRights", DCTerms, "made for a partner, of a specimen that is sensitive: that its exact place is not to be published", func(r Row) string {
		if r.Partner != "" && r.Withheld != nil {
			return NotToBePublished
		}
		return ""
	}},
	{"references", DCTerms, "the address of the specimen's page, when the site has an address", func(r Row) string {
		if r.ids.base == "" || r.Partner != "" && r.Record.Entry.Text != string(ledger.Full) {
			return ""
		}
		return r.OccurrenceID()
	}},
	{"institutionCode", DwC, "`code` of blotter.yaml", func(r Row) string { return r.Museum.Code.Text }},
	{"institutionID", DwC, "`dataset.institution_id` of blotter.yaml", func(r Row) string { return r.Museum.Dataset.Institution.Text }},
	{"collectionCode", DwC, "`dataset.collection_code` of blotter.yaml", func(r Row) string { return r.Museum.Dataset.Collection.Text }},
	{"datasetName", DwC, "`dataset.title` of blotter.yaml, else `site.title`", func(r Row) string { return r.Title() }},
	{"datasetID", DwC, "`dataset.id` of blotter.yaml, else a UUID made of `code`", func(r Row) string { return r.ID() }},
	{"ownerInstitutionCode", DwC, "`name` of blotter.yaml", func(r Row) string { return r.Museum.Name.Text }},
	constant("basisOfRecord", DwC, "PreservedSpecimen", "always PreservedSpecimen"),
	{"informationWithheld", DwC, "what is withheld and why", func(r Row) string { return withheldInfo(r.Sheet) }},
	{"dataGeneralizations", DwC, "how the position was made coarser", func(r Row) string { return generalized(r.Sheet) }},
	{"dynamicProperties", DwC, "a JSON object of every field that has no term of its own, under its path in FORMAT.md", func(r Row) string { return dynamic(r.Sheet) }},
}

// NotToBePublished is the line on whatever goes to a partner about a sensitive
// specimen.
const NotToBePublished = "exact place not to be published"

// materialTerms are about the specimen as a thing.
var materialTerms = []Term{
	{"materialEntityID", DwC, "the same as occurrenceID: one number, one specimen", func(r Row) string { return r.OccurrenceID() }},
	{"catalogNumber", DwC, "`specimen`", func(r Row) string { return string(r.Number) }},
	{"otherCatalogNumbers", DwC, "`further_numbers`", func(r Row) string { return Join(texts(r.Record.FurtherNumbers)) }},
	field("recordNumber", "coll_no", func(r *ledger.Record) ledger.Leaf { return r.CollNo }),
	field("preparations", "kept_as", func(r *ledger.Record) ledger.Leaf { return r.KeptAs }),
	{"disposition", DwC, "the last `fate`: in collection, missing, destroyed, used up, deaccessioned", func(r Row) string { return disposition(r.Reading.Fate) }},
	constant("discipline", DwC, "Botany", "always Botany"),
	{"typeOfType", DwC, "`types.status` of the first statement that holds and is not merely suspected", func(r Row) string { status, _ := firstType(r.Sheet); return status }},
	{"typifiedName", DwC, "`types.of` of that statement", func(r Row) string { _, of := firstType(r.Sheet); return of }},
	{"verbatimLabel", DwC, "`writings.text`, an empty line between two", func(r Row) string { return labels(r.Record) }},
	{"materialEntityRemarks", DwC, "`cautions`, and whether poison is assumed; types that are merely suspected; `former_herbarium`", func(r Row) string { return materialRemarks(r.Sheet) }},
}

// occurrenceTerms are about the plant where it grew.
var occurrenceTerms = []Term{
	{"recordedBy", DwC, "`collector`, `with`, as written", func(r Row) string { return recordedBy(r.Record) }},
	{"recordedByID", DwC, "ORCID iDs of the collectors whom people.yaml has, in order; by `read.person` when somebody read who it was", func(r Row) string { return r.recordedByID() }},
	{"individualCount", DwC, "`population`, when it is a whole number", func(r Row) string {
		if n := r.Record.Population.Text; wholeNumber(n) {
			return n
		}
		return ""
	}},
	{"organismQuantity", DwC, "`abundance`, as written", func(r Row) string { return r.Record.Abundance.Text }},
	{"organismQuantityType", DwC, "with an `abundance`: abundance in words", func(r Row) string {
		if r.Record.Abundance.Set() {
			return "abundance in words"
		}
		return ""
	}},
	{"reproductiveCondition", DwC, "`phenology`", func(r Row) string { return Join(texts(r.Record.Phenology)) }},
	{"degreeOfEstablishment", DwC, "cultivated, when `origin` is cultivated or planted; else it is not known", func(r Row) string {
		switch r.Record.Origin.Text {
		case "cultivated", "planted":
			return "cultivated"
		}
		return ""
	}},
	constant("occurrenceStatus", DwC, "detected", "always detected"),
	{"associatedMedia", DwC, "the addresses of the `images`", func(r Row) string { return media(r.Sheet) }},
	{"associatedReferences", DwC, "`exsiccata`", func(r Row) string { return exsiccata(r.Record) }},
	{"associatedTaxa", DwC, "`host`, `associates`", func(r Row) string { return associates(r.Record) }},
	field("occurrenceRemarks", "remarks", func(r *ledger.Record) ledger.Leaf { return r.Remarks }),
	field("organismRemarks", "description", func(r *ledger.Record) ledger.Leaf { return r.Description }),
	field("projectTitle", "project", func(r *ledger.Record) ledger.Leaf { return r.Project }),
}

func wholeNumber(s string) bool {
	n, err := strconv.ParseUint(s, 10, 31)
	return err == nil && strconv.FormatUint(n, 10) == s
}
