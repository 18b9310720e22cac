package darwincore

import (
	"cmp"
	"path"
	"strconv"
	"strings"

	"blotter/ledger"
)

// Multimedia has one row for each picture that may be shown.
var Multimedia = Kind{
	Name: "Multimedia", Noun: "picture", Type: "http://rs.gbif.org/terms/1.0/Multimedia", File: "pictures.csv", Says: "one of `images`",
	Rows: func(s *Sheet) int { return len(s.Record.Images) },
	Terms: []Term{
		constant("type", DCTerms, "StillImage", "always StillImage"),
		{"format", DCTerms, "the media type, by the ending of the file", func(r Row) string { return mediaType(r.mediaAddress(r.image())) }},
		{"identifier", DCTerms, "`images.file` (`images.public` first): its address; without an address of the site its path there; empty for a file outside of the ledger", func(r Row) string { return r.mediaAddress(r.image()) }},
		{"references", DCTerms, "the address of the specimen's page, when the site has an address", func(r Row) string {
			if r.ids.base == "" {
				return ""
			}
			return r.OccurrenceID()
		}},
		{"title", DCTerms, "`images.file`, as written", func(r Row) string { return r.image().File.Text }},
		{"description", DCTerms, "`images.shows`, as written", func(r Row) string { return r.image().Shows.Text }},
		{"created", DCTerms, "`images.date`, as written", func(r Row) string { return r.image().Date.Text }},
		{"creator", DCTerms, "`images.photographer`, as written", func(r Row) string { return r.image().Photographer.Text }},
		{"publisher", DCTerms, "`name` of blotter.yaml", func(r Row) string { return r.Museum.Name.Text }},
		{"license", DCTerms, "`images.licence`, as the licence's address when it is a known one", func(r Row) string { return LicenceAddress(r.image().Licence.Text) }},
	},
}

func (r Row) image() *ledger.Image { return &r.Record.Images[r.At] }

// mediaTypes are the media types of pictures by the ending of the file (IANA).
var mediaTypes = map[string]string{".jpg": "image/jpeg", ".jpeg": "image/jpeg", ".png": "image/png", ".gif": "image/gif", ".tif": "image/tiff", ".tiff": "image/tiff", ".webp": "image/webp"}

func mediaType(file string) string { return mediaTypes[strings.ToLower(path.Ext(file))] }

// Relationships of a sheet to others.
const (
	HasPart         = "has part"
	HasDuplicate    = "has duplicate"
	SameGathering   = "same gathering as"
	SharesSheet     = "on the same sheet as"
	relationRemarks = "number" // the remark that stands without its name
)

// ResourceRelationship has one row for each part, each duplicate elsewhere and
// each sheet of the ledger that belongs to it.
var ResourceRelationship = Kind{
	Name: "ResourceRelationship", Noun: "relation", Type: string(DwC) + "ResourceRelationship", File: "relations.csv", Says: "one of `parts`, `duplicates`, `same_gathering`, `shares_sheet`",
	Rows: func(s *Sheet) int {
		r := s.Record
		return len(r.Parts) + len(r.Duplicates) + len(r.SameGathering) + len(r.SharesSheet)
	},
	Terms: []Term{
		{"resourceRelationshipID", DwC, "occurrenceID and the place of the row", func(r Row) string { return r.OccurrenceID() + "#relation-" + strconv.Itoa(r.At+1) }},
		{"resourceID", DwC, "occurrenceID", func(r Row) string { return r.OccurrenceID() }},
		{"relatedResourceID", DwC, "occurrenceID of the other number; of a part or a duplicate elsewhere its number as written, without one a mark behind occurrenceID", func(r Row) string { return r.relation().id }},
		{"relationshipOfResource", DwC, "has part, has duplicate, same gathering as, on the same sheet as", func(r Row) string { return r.relation().kind }},
		{"relationshipAccordingTo", DwC, "`name` of blotter.yaml", func(r Row) string { return r.Museum.Name.Text }},
		{"relationshipEstablishedDate", DwC, "`duplicates.date`, as written", func(r Row) string { return r.relation().date }},
		{"relationshipRemarks", DwC, "the number as written; behind their names `part`, `where`, `fate` of a part, `made`, `on_hand`, `sent` of a duplicate", func(r Row) string { return r.relation().remarks }},
	},
}

// relation is one row of ResourceRelationship.
type relation struct{ kind, id, date, remarks string }

func (r Row) relation() relation {
	at := r.At
	if at < len(r.Record.Parts) {
		p := &r.Record.Parts[at]
		return relation{kind: HasPart, id: cmp.Or(p.Number.Text, r.OccurrenceID()+"#part-"+strconv.Itoa(at+1)),
			remarks: Pack(relationRemarks, partFields(p))}
	}
	at -= len(r.Record.Parts)
	if at < len(r.Record.Duplicates) {
		d := &r.Record.Duplicates[at]
		return relation{kind: HasDuplicate, id: cmp.Or(d.Number.Text, r.OccurrenceID()+"#duplicate-"+strconv.Itoa(at+1)), date: d.Date.Text,
			remarks: Pack(relationRemarks, duplicateFields(d))}
	}
	at -= len(r.Record.Duplicates)
	kind, list := SameGathering, r.Record.SameGathering
	if at >= len(list) {
		at -= len(list)
		kind, list = SharesSheet, r.Record.SharesSheet
	}
	number := list[at].Text
	id := number
	if n := ledger.Number(number); n.Valid() {
		id = r.ids.occurrence(n)
	}
	return relation{kind: kind, id: id, remarks: Pack(relationRemarks, []ledger.KV{{Key: "number", Value: number}})}
}

func partFields(p *ledger.Part) []ledger.KV {
	return []ledger.KV{{Key: "number", Value: p.Number.Text}, {Key: "part", Value: p.Part.Text}, {Key: "where", Value: p.Where.Text}, {Key: "fate", Value: p.Fate.Text}}
}

func duplicateFields(d *ledger.Duplicate) []ledger.KV {
	return []ledger.KV{{Key: "number", Value: d.Number.Text}, {Key: "made", Value: d.Made.Text}, {Key: "on_hand", Value: d.OnHand.Text}, {Key: "sent", Value: d.Sent.Text}}
}

// RelationKeys are the fields that stand in relationshipRemarks behind their
// names; number stands there without.
var RelationKeys = []string{"part", "where", "fate", "made", "on_hand", "sent"}

// Facts are the fields that go out as measurements or facts, each with its
// measurementType.
var Facts = []struct {
	Path, Type string
	words      func(*ledger.Record) ledger.Leaf
}{
	{"place.gps_accuracy", "position accuracy shown by the device", func(r *ledger.Record) ledger.Leaf { return r.Place.GPSAccuracy }},
	{"substrate", "substrate", func(r *ledger.Record) ledger.Leaf { return r.Substrate }},
	{"population", "plants seen", func(r *ledger.Record) ledger.Leaf { return r.Population }},
	{"taken", "plants taken", func(r *ledger.Record) ledger.Leaf { return r.Taken }},
}

// MeasurementOrFact has one row for each of Facts that is recorded.
var MeasurementOrFact = Kind{
	Name: "MeasurementOrFact", Noun: "fact", Type: string(DwC) + "MeasurementOrFact", File: "facts.csv", Says: "`place.gps_accuracy`, `substrate`, `population`, `taken`, where recorded",
	Rows: func(s *Sheet) int {
		n := 0
		for _, f := range Facts {
			if f.words(s.Record).Set() {
				n++
			}
		}
		return n
	},
	Terms: []Term{
		{"measurementID", DwC, "occurrenceID and the field", func(r Row) string { f, _, _ := r.fact(); return r.OccurrenceID() + "#" + f }},
		{"measurementType", DwC, "what it is, in words", func(r Row) string { _, t, _ := r.fact(); return t }},
		{"measurementValue", DwC, "the field as written; of a figure with its unit the figure", func(r Row) string { _, _, w := r.fact(); v, _ := valueAndUnit(w); return v }},
		{"measurementUnit", DwC, "that unit", func(r Row) string { _, _, w := r.fact(); _, u := valueAndUnit(w); return u }},
		{"measurementDeterminedBy", DwC, "`collector`, as written", func(r Row) string { return r.Record.Collector.Text }},
		{"measurementDeterminedDate", DwC, "eventDate", func(r Row) string { return isoDate(&r.Reading.Date) }},
	},
}

// fact is the row's field, its type and its words.
func (r Row) fact() (field, kind, words string) {
	at := r.At
	for _, f := range Facts {
		if w := f.words(r.Record); w.Set() {
			if at == 0 {
				return f.Path, f.Type, w.Text
			}
			at--
		}
	}
	return "", "", ""
}

// valueAndUnit parts a plain figure from its unit, "8 m"; other words are the
// value. With a blank between them the two are the words again.
func valueAndUnit(words string) (value, unit string) {
	v, u, ok := strings.Cut(words, " ")
	if _, err := strconv.ParseFloat(v, 64); !ok || err != nil || u == "" || strings.ContainsAny(u, " 0123456789") {
		return words, ""
	}
	return v, u
}
