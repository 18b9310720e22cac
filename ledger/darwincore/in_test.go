package darwincore

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"

	"blotter/ledger"
	"blotter/ledger/archive"
	"blotter/ledger/exchange"
)

// oneRow is an archive of one core row, term and words in turn, with one
// extension whose rows are given as term and words.
type oneRow struct {
	core  []string
	kind  string // IRI of the extension's row type
	ext   [][]string
	attrs string // of the core

	fieldAttr string // of its fields
}

// write writes the archive into a folder.
func (x oneRow) write(t testing.TB) string {
	t.Helper()
	iri := func(term string) string {
		if strings.Contains(term, "/") {
			return term
		}
		return string(DwC) + term
	}
	quote := func(s string) string { return `"` + strings.ReplaceAll(s, `"`, `""`) + `"` }
	files := map[string]string{}
	fields, row := "", "1"
	for i := 0; i < len(x.core); i += 2 {
		fields += fmt.Sprintf(`<field index="%d" term="%s" %s/>`, i/2+1, iri(x.core[i]), x.fieldAttr)
		row += "," + quote(x.core[i+1])
	}
	files["core.csv"] = row + "\n"
	meta := `<archive xmlns="http://rs.tdwg.org/dwc/text/"><core rowType="http://rs.tdwg.org/dwc/terms/Occurrence" ` + x.attrs + `><files><location>core.csv</location></files><id index="0"/>` + fields + `</core>`
	if x.kind != "" {
		var heads []string
		for _, r := range x.ext {
			for i := 0; i < len(r); i += 2 {
				if !slices.Contains(heads, r[i]) {
					heads = append(heads, r[i])
				}
			}
		}
		fields, rows := "", ""
		for i, h := range heads {
			fields += fmt.Sprintf(`<field index="%d" term="%s"/>`, i+1, iri(h))
		}
		for _, r := range x.ext {
			cells := make([]string, len(heads))
			for i := 0; i < len(r); i += 2 {
				cells[slices.Index(heads, r[i])] = quote(r[i+1])
			}
			rows += "1," + strings.Join(cells, ",") + "\n"
		}
		files["ext.csv"] = rows
		meta += `<extension rowType="` + x.kind + `"><files><location>ext.csv</location></files><coreid index="0"/>` + fields + `</extension>`
	}
	files["meta.xml"] = meta + `</archive>`
	dir := t.TempDir()
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// fieldsOf are the fields of the one record, without words for none.
func (x oneRow) fields(t testing.TB) []string {
	t.Helper()
	_, all := bringIn(t, x.write(t), inOptions())
	var out []string
	for _, kv := range ledger.Flatten(all[0].rec) {
		if none := map[string]string{"collector": "unknown", "coll_no": "s.n.", "date": "s.d.", "place.locality": "unknown", "entry": "full"}[kv.Key]; kv.Value != none {
			out = append(out, kv.Key+"="+kv.Value)
		}
	}
	return out
}

const (
	identification = "http://rs.tdwg.org/dwc/terms/Identification"
	multimedia     = "http://rs.gbif.org/terms/1.0/Multimedia"
	audiovisual    = "http://rs.tdwg.org/ac/terms/Multimedia"
	dcterms        = "http://purl.org/dc/terms/"
	ac             = "http://rs.tdwg.org/ac/terms/"
)

// What each term becomes. The rules are those of the list of terms (TDWG,
// 2026-05-26) and its notes; where the notes leave it open, the choice is ours.
func TestWhatTermsBecome(t *testing.T) {
	for _, c := range []struct {
		reason string
		in     oneRow
		want   []string
	}{
		{"collectors are parted where the standard's bar stands, nowhere else", oneRow{core: []string{"recordedBy", "A. Vik | O. Bannister; K. Moldstad"}},
			[]string{"collector=A. Vik", "with.1=O. Bannister; K. Moldstad"}},
		{"delimitedBy of meta.xml says what parts the values", oneRow{core: []string{"recordedBy", "A. Vik; O. Bannister", "associatedTaxa", "Trollius europaeus;Geum rivale"}, fieldAttr: `delimitedBy=";"`},
			[]string{"collector=A. Vik", "with.1=O. Bannister", "associates.1=Trollius europaeus", "associates.2=Geum rivale"}},
		{"a number of this museum is the sheet's", oneRow{core: []string{"catalogNumber", "LK7-0000517", "otherCatalogNumbers", "old 3 | FM 12"}},
			[]string{"specimen=LK7-0000517", "further_numbers.1=old 3", "further_numbers.2=FM 12"}},
		{"a number of another museum is a further number, and its code is kept", oneRow{core: []string{"catalogNumber", "FM 20113", "institutionCode", "FM"}},
			[]string{"further_numbers.1=FM 20113", "import.institutionCode=FM"}},
		{"a date that settles the words is a reading beside them", oneRow{core: []string{"verbatimEventDate", "3/4/1934", "eventDate", "1934-04-03"}},
			[]string{"date=3/4/1934", "read.date.is=1934-04-03", "read.date.by=unsigned", "read.date.date=s.d.", "read.date.from=eventDate of the archive"}},
		{"a date that says what the words say is kept to the letter only", oneRow{core: []string{"verbatimEventDate", "3.iv.1934", "eventDate", "1934-04-03"}},
			[]string{"date=3.iv.1934", "import.eventDate=1934-04-03"}},
		{"a date that says otherwise is no reading of the words", oneRow{core: []string{"verbatimEventDate", "3.iv.1934", "eventDate", "1935-01-01"}},
			[]string{"date=3.iv.1934", "import.eventDate=1935-01-01"}},
		{"dateFormat of meta.xml settles figures", oneRow{core: []string{"eventDate", "03/04/1934"}, attrs: `dateFormat="DD/MM/YYYY"`},
			[]string{"date=03/04/1934", "read.date.is=1934-04-03", "read.date.by=unsigned", "read.date.date=s.d.", "read.date.from=dateFormat DD/MM/YYYY of meta.xml"}},
		{"year, month and day where there is no date", oneRow{core: []string{"year", "1934", "month", "4", "day", "3"}},
			[]string{"date=1934-04-03"}},
		{"a position that somebody found later is his reading", oneRow{core: []string{"verbatimCoordinates", "60°42'12\"N 6°39'05\"E", "decimalLatitude", "60.7034", "decimalLongitude", "6.6512", "coordinateUncertaintyInMeters", "40", "georeferencedBy", "K. Lunde", "georeferencedDate", "2019", "georeferenceSources", "map 1:50 000", "georeferenceRemarks", "by the chapel"}},
			[]string{"place.position=60°42'12\"N 6°39'05\"E", "read.position.is=60.7034, 6.6512", "read.position.uncertainty=40 m", "read.position.by=K. Lunde", "read.position.date=2019", "read.position.from=map 1:50 000", "read.position.why=by the chapel"}},
		{"figures without words and without a person are the position", oneRow{core: []string{"decimalLatitude", "60.7034", "decimalLongitude", "6.6512", "geodeticDatum", "WGS84", "coordinateUncertaintyInMeters", "40"}},
			[]string{"place.position=60.7034, 6.6512", "place.datum=WGS84", "place.uncertainty=40 m"}},
		{"figures that repeat sound words are kept to the letter", oneRow{core: []string{"verbatimCoordinates", "60°42'12\"N 6°39'05\"E", "decimalLatitude", "60.70333", "decimalLongitude", "6.65139", "verbatimSRS", "ED50"}},
			[]string{"place.position=60°42'12\"N 6°39'05\"E", "place.datum=ED50", "import.decimalLatitude=60.70333", "import.decimalLongitude=6.65139"}},
		{"figures for words that cannot be read are a reading", oneRow{core: []string{"verbatimCoordinates", "sheet 1416 IV, square 7", "decimalLatitude", "60.7", "decimalLongitude", "6.6"}},
			[]string{"place.position=sheet 1416 IV, square 7", "read.position.is=60.7, 6.6", "read.position.by=unsigned", "read.position.date=s.d.", "read.position.from=decimalLatitude, decimalLongitude of the archive"}},
		{"heights in words before figures; figures settle a missing unit", oneRow{core: []string{"verbatimElevation", "2600", "minimumElevationInMeters", "792"}},
			[]string{"place.elevation=2600", "read.elevation.is=792 m", "read.elevation.by=unsigned", "read.elevation.date=s.d.", "read.elevation.from=minimumElevationInMeters, maximumElevationInMeters of the archive"}},
		{"a span of heights", oneRow{core: []string{"minimumElevationInMeters", "610", "maximumElevationInMeters", "640", "minimumDepthInMeters", "1", "maximumDepthInMeters", "1"}},
			[]string{"place.elevation=610-640 m", "depth=1 m"}},
		{"words of the place before others", oneRow{core: []string{"locality", "Raundal", "verbatimLocality", "Raundal, v. kapellet"}},
			[]string{"place.locality=Raundal, v. kapellet", "import.locality=Raundal"}},
		{"a garden plant", oneRow{core: []string{"degreeOfEstablishment", "cultivated"}}, []string{"origin=cultivated"}},
		{"a garden plant by its IRI", oneRow{core: []string{"degreeOfEstablishment", "http://rs.tdwg.org/dwcdoe/values/d003"}}, []string{"origin=cultivated"}},
		{"what says nothing of wild or cultivated", oneRow{core: []string{"degreeOfEstablishment", "established", "establishmentMeans", "introduced"}},
			[]string{"import.degreeOfEstablishment=established", "import.establishmentMeans=introduced"}},
		{"phenology, host and associates", oneRow{core: []string{"reproductiveCondition", "flower | fruit", "associatedTaxa", `"host":"Betula pubescens" | Trollius europaeus`}},
			[]string{"host=Betula pubescens", "associates.1=Trollius europaeus", "phenology.1=flower", "phenology.2=fruit"}},
		{"types with their name", oneRow{core: []string{"typeStatus", "Isotype of Ranunculus pumilus Wahlenb. Flora Vossensis: 31 (1907)", "scientificName", "Ranunculus acris", "identifiedBy", "M. Ostrander"}},
			[]string{"determinations.1.name=Ranunculus acris", "determinations.1.kind=det", "determinations.1.by=M. Ostrander", "determinations.1.date=s.d.", "determinations.1.from=list",
				"types.1.status=isotype", "types.1.of=Ranunculus pumilus Wahlenb.", "types.1.published=Flora Vossensis: 31 (1907)", "types.1.by=M. Ostrander", "types.1.date=s.d."}},
		{"a type of the row's own name: the title of the book is no author", oneRow{core: []string{"typeStatus", "isotype of Viola alba Besser. Prim. Fl. Galiciae 1: 171. 1809", "scientificName", "Viola alba Besser"}},
			[]string{"determinations.1.name=Viola alba Besser", "determinations.1.kind=det", "determinations.1.by=unsigned", "determinations.1.date=s.d.", "determinations.1.from=list",
				"types.1.status=isotype", "types.1.of=Viola alba Besser", "types.1.published=Prim. Fl. Galiciae 1: 171. 1809", "types.1.by=unsigned", "types.1.date=s.d."}},
		{"a name in its parts only, with its authors", oneRow{core: []string{"genus", "Rosa", "specificEpithet", "canina", "scientificNameAuthorship", "L.", "taxonRank", "species"}},
			[]string{"determinations.1.name=Rosa canina L.", "determinations.1.kind=det", "determinations.1.by=unsigned", "determinations.1.date=s.d.", "determinations.1.from=list", "import.taxonRank=species"}},
		{"below species the name needs its rank (ICN Art. 24.1)", oneRow{core: []string{"genus", "Rosa", "specificEpithet", "gallica", "infraspecificEpithet", "pumila", "taxonRank", "variety", "identificationQualifier", "cf. var. pumila"}},
			[]string{"determinations.1.name=Rosa gallica cf. var. pumila", "determinations.1.kind=det", "determinations.1.by=unsigned", "determinations.1.date=s.d.", "determinations.1.from=list"}},
		{"0 m is no radius (notes of coordinateUncertaintyInMeters)", oneRow{core: []string{"decimalLatitude", "60.7034", "decimalLongitude", "6.6512", "geodeticDatum", "WGS84", "coordinateUncertaintyInMeters", "0"}},
			[]string{"place.position=60.7034, 6.6512", "place.datum=WGS84", "import.coordinateUncertaintyInMeters=0"}},
		{"a type of no name says too little", oneRow{core: []string{"typeStatus", "holotype"}}, []string{"import.typeStatus=holotype"}},
		{"the list of terms' own example of a qualifier", oneRow{core: []string{"scientificName", "Quercus agrifolia var. oxyadenia", "identificationQualifier", "cf. var. oxyadenia"}},
			[]string{"determinations.1.name=Quercus agrifolia cf. var. oxyadenia", "determinations.1.kind=det", "determinations.1.by=unsigned", "determinations.1.date=s.d.", "determinations.1.from=list"}},
		{"a history in its order, the core's repetition not said twice", oneRow{core: []string{"scientificName", "Ranunculus acris", "scientificNameAuthorship", "L.", "identifiedBy", "K. Moldstad", "dateIdentified", "1950"}, kind: identification,
			ext: [][]string{{"verbatimIdentification", "R. repens", "identifiedBy", "A. Vik", "dateIdentified", "", "identificationRemarks", "runners"},
				{"scientificName", "Ranunculus acris", "scientificNameAuthorship", "L.", "identifiedBy", "K. Moldstad", "dateIdentified", "1950", "isAcceptedIdentification", "true"}}},
			[]string{"determinations.1.name=R. repens", "determinations.1.kind=det", "determinations.1.by=A. Vik", "determinations.1.date=s.d.", "determinations.1.from=list", "determinations.1.why=runners",
				"determinations.2.name=Ranunculus acris L.", "determinations.2.kind=det", "determinations.2.by=K. Moldstad", "determinations.2.date=1950", "determinations.2.from=list"}},
		{"an earlier row that holds is filed so; a row that says what it is not", oneRow{core: []string{"recordedBy", "A. Vik"}, kind: identification,
			ext: [][]string{{"scientificName", "Ranunculus acris", "isAcceptedIdentification", "true"}, {"scientificName", "Ranunculus repens", "isAcceptedIdentification", "false"}, {"scientificName", "Ranunculus auricomus", "taxonFormula", "not A"}}},
			[]string{"collector=A. Vik", "determinations.1.name=Ranunculus acris", "determinations.1.kind=det", "determinations.1.by=unsigned", "determinations.1.date=s.d.", "determinations.1.from=list",
				"determinations.2.name=Ranunculus repens", "determinations.2.kind=det", "determinations.2.by=unsigned", "determinations.2.date=s.d.", "determinations.2.from=list",
				"determinations.3.name=Ranunculus auricomus", "determinations.3.kind=not", "determinations.3.by=unsigned", "determinations.3.date=s.d.", "determinations.3.from=list",
				"filed_under.name=Ranunculus acris", "filed_under.by=unsigned", "filed_under.date=s.d.", "filed_under.why=the name that holds by the archive"}},
		{"simple multimedia; the core's address not twice", oneRow{core: []string{"associatedMedia", "https://example.org/1.jpg | https://example.org/2.jpg"}, kind: multimedia,
			ext: [][]string{{dcterms + "identifier", "https://example.org/1.jpg", dcterms + "creator", "Tiril Aune", dcterms + "created", "2026-03-02", dcterms + "license", "https://creativecommons.org/licenses/by/4.0/", dcterms + "format", "image/jpeg"}}},
			[]string{"images.1.file=https://example.org/1.jpg", "images.1.photographer=Tiril Aune", "images.1.date=2026-03-02", "images.1.licence=https://creativecommons.org/licenses/by/4.0/", "images.2.file=https://example.org/2.jpg", "import.picture 1: format=image/jpeg"}},
		{"audiovisual core", oneRow{core: []string{"recordedBy", "A. Vik"}, kind: audiovisual,
			ext: [][]string{{dcterms + "identifier", "urn:x", ac + "accessURI", "https://example.org/1.jpg", ac + "caption", "whole sheet"}}},
			[]string{"collector=A. Vik", "images.1.file=https://example.org/1.jpg", "images.1.shows=whole sheet", "import.picture 1: identifier=urn:x"}},
		{"duplicates elsewhere; other relations are kept", oneRow{core: []string{"recordedBy", "A. Vik"}, kind: ResourceRelationship.Type,
			ext: [][]string{{"relationshipOfResource", "duplicate of", "relatedResourceID", "FM 20113", "relationshipEstablishedDate", "1950"}, {"relationshipOfResource", "parasite of", "relatedResourceID", "urn:y"}, {"relationshipOfResource", "same gathering as", "relatedResourceID", "LK7-0000483"}}},
			[]string{"collector=A. Vik", "duplicates.1.date=1950", "duplicates.1.number=FM 20113", "same_gathering.1=LK7-0000483", "import.relation 2: relationshipOfResource=parasite of", "import.relation 2: relatedResourceID=urn:y"}},
		{"measurements by their type", oneRow{core: []string{"recordedBy", "A. Vik"}, kind: MeasurementOrFact.Type,
			ext: [][]string{{"measurementType", "soil pH", "measurementValue", "5.5", "measurementMethod", "strip"}, {"measurementType", "substrate", "measurementValue", "schist"}}},
			[]string{"collector=A. Vik", "substrate=schist", "import.measurement 1: soil pH=5.5", "import.measurement 1: measurementMethod=strip"}},
		{"an extension that nobody knows is kept whole", oneRow{core: []string{"recordedBy", "A. Vik"}, kind: "http://data.ggbn.org/schemas/ggbn/terms/Loan",
			ext: [][]string{{"http://data.ggbn.org/schemas/ggbn/terms/loanDate", "1950"}}},
			[]string{"collector=A. Vik", "import.Loan 1: loanDate=1950"}},
		{"the label to the letter", oneRow{core: []string{"verbatimLabel", "Fl. Voss.\nRaundal"}}, []string{"writings.1.on_sheet=label", "writings.1.text=Fl. Voss.\nRaundal"}},
		{"terms without a home", oneRow{core: []string{"waterBody", "Vosso", "kingdom", "Plantae", "occurrenceID", "urn:x"}}, []string{"import.waterBody=Vosso", "import.kingdom=Plantae", "import.occurrenceID=urn:x"}},
	} {
		got := c.in.fields(t)
		got = slices.DeleteFunc(got, func(s string) bool { return s == "entry=draft" })
		if !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s:\n got %q\nwant %q", c.reason, got, c.want)
		}
	}
}

// arrivalTable says which terms of other archives feed which field.
func arrivalTable() string {
	var b strings.Builder
	b.WriteString("| field | terms |\n| --- | --- |\n")
	for _, h := range inHomes {
		fmt.Fprintf(&b, "| `%s` | %s |\n", h.field, strings.Join(h.terms, ", "))
	}
	for _, term := range inListed {
		fmt.Fprintf(&b, "| `%s` | %s, parted at bars |\n", inLists[term], term)
	}
	for _, row := range arrivals {
		fmt.Fprintf(&b, "| `%s` | %s |\n", row[0], row[1])
	}
	return b.String()
}

// arrivals are the fields that more than one rule feeds; each term is one of
// inOthers.
var arrivals = [][2]string{
	{"collector", "recordedBy, up to the first bar"}, {"with", "recordedBy, behind it"},
	{"date", "verbatimEventDate, eventDate; year, month and day where there is neither"},
	{"place.position", "verbatimCoordinates; verbatimLatitude and verbatimLongitude; decimalLatitude and decimalLongitude, when nobody found them later"},
	{"place.datum", "verbatimSRS, geodeticDatum"}, {"place.uncertainty", "coordinateUncertaintyInMeters"}, {"place.position_by", "georeferenceSources"},
	{"read.position", "decimalLatitude and decimalLongitude, coordinateUncertaintyInMeters, georeferencedBy, georeferencedDate, georeferenceSources, georeferenceRemarks"},
	{"read.date", "eventDate, beside verbatimEventDate"},
	{"place.elevation", "verbatimElevation; minimumElevationInMeters and maximumElevationInMeters"}, {"depth", "verbatimDepth; minimumDepthInMeters and maximumDepthInMeters"},
	{"host", "associatedTaxa with the word host"}, {"associates", "associatedTaxa, parted at bars"},
	{"origin", "degreeOfEstablishment: cultivated, native; establishmentMeans: wild, cultivated, escaped, planted"},
	{"further_numbers", "catalogNumber, when it is not of this museum"}, {"writings", "verbatimLabel"},
	{"determinations", "verbatimIdentification, or scientificName with scientificNameAuthorship and identificationQualifier, or the parts of the name with taxonRank; identifiedBy, dateIdentified, identificationReferences, identificationRemarks"},
	{"types", "typeStatus, typifiedName"}, {"images", "rows of Multimedia; associatedMedia"},
}

// Every term of the table is one that is taken, and the other way round.
func TestArrivals(t *testing.T) {
	said := map[string]bool{}
	for _, row := range arrivals {
		for _, w := range strings.FieldsFunc(row[1], func(r rune) bool { return !('a' <= r && r <= 'z' || 'A' <= r && r <= 'Z') }) {
			said[w] = true
		}
		if _, ok := ledger.FieldAt(ledger.RecordKind, row[0]); !ok {
			t.Errorf("no field %s", row[0])
		}
	}
	for _, term := range inOthers {
		if !said[term] {
			t.Errorf("%s is taken, and TERMS.md does not say so", term)
		}
	}
}

// An archive of something else than specimens brings none.
func TestCoreOfSomethingElse(t *testing.T) {
	dir := oneRow{core: []string{"scientificName", "Ranunculus acris"}}.write(t)
	meta := filepath.Join(dir, "meta.xml")
	b, err := os.ReadFile(meta)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(meta, []byte(strings.Replace(string(b), "terms/Occurrence", "terms/Taxon", 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	a, err := archive.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer a.Close()
	if _, err := NewIn(a, inOptions()); err == nil || !strings.Contains(err.Error(), "a row of the core is a Taxon") {
		t.Errorf("%v", err)
	}
}

// A record that a mapping made of the core gets the rows of the extensions:
// the history stands before the name of the core, which is not said twice.
func TestJoin(t *testing.T) {
	x := oneRow{core: []string{"recordedBy", "A. Vik", "scientificName", "Ranunculus acris", "individualCount", "3"}, kind: identification,
		ext: [][]string{{"verbatimIdentification", "R. repens", "identificationID", "i1"}, {"verbatimIdentification", "Ranunculus acris L."}}}
	a, err := archive.Open(x.write(t))
	if err != nil {
		t.Fatal(err)
	}
	defer a.Close()
	in, err := NewIn(a, inOptions())
	if err != nil {
		t.Fatal(err)
	}
	core := in.Core(t.Context(), a, "a.zip", "sum", t.TempDir())
	m, fs := ledger.DecodeMapping("", []byte("columns:\n  - column: recordedBy\n    field: collector\nopinions:\n  - names: scientificName\n    from: list\n"))
	plan, err := exchange.NewPlan(core.Heads(), m, exchange.Options{})
	if err != nil || len(fs) > 0 {
		t.Fatal(err, fs)
	}
	var got []string
	for made, err := range plan.Make(core) {
		if err != nil || made.Record == nil {
			t.Fatal(err, made.Why)
		}
		if err := in.Join(made.Record, core.Star()); err != nil {
			t.Fatal(err)
		}
		for _, kv := range ledger.Flatten(made.Record) {
			got = append(got, kv.Key+"="+kv.Value)
		}
	}
	want := []string{"entry=draft", "collector=A. Vik", "determinations.1.name=R. repens", "determinations.1.kind=det", "determinations.1.by=unsigned", "determinations.1.date=s.d.", "determinations.1.from=list",
		"determinations.2.name=Ranunculus acris L.", "determinations.2.kind=det", "determinations.2.by=unsigned", "determinations.2.date=s.d.", "determinations.2.from=list",
		"import.individualCount=3", "import.identification 1: identificationID=i1"}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got %q\nwant %q", got, want)
	}
}

// The quick way to part an object gives what a JSON reader gives.
func TestProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cell := rapid.OneOf(rapid.StringOf(rapid.RuneFrom([]rune(`{}":,\a1é `))), rapid.Custom(func(t *rapid.T) string {
			m := rapid.MapOf(rapid.StringOf(rapid.RuneFrom([]rune(`a.{}":,\é `))), rapid.StringOf(rapid.RuneFrom([]rune(`a{}":,\é `)))).Draw(t, "members")
			b, err := json.Marshal(m)
			if err != nil {
				t.Fatal(err)
			}
			return string(b)
		})).Draw(t, "cell")
		got := properties(cell)
		var want map[string]string
		if json.Unmarshal([]byte(cell), &want) != nil || want == nil {
			if _, ok := plainProperties(cell); ok {
				t.Fatalf("%q is no object of words", cell)
			}
			return
		}
		for _, kv := range got {
			if v, ok := want[kv.Key]; !ok || v != kv.Value {
				t.Fatalf("%q: %q, want %q", cell, got, want)
			}
		}
		if len(got) < len(want) {
			t.Fatalf("%q: %q, want %q", cell, got, want)
		}
	})
}

// FuzzIn holds that no row makes the import panic, and that none of its cells
// is lost.
func FuzzIn(f *testing.F) {
	f.Add("recordedBy", "A | B", "scientificName", "Quercus cf. alba L.", "R. repens", "1950")
	f.Add("typeStatus", "isotype of X y. Z 3", "identificationQualifier", "aff.", "", "")
	f.Add("associatedTaxa", `"host":"`, "verbatimCoordinates", "1,2", "\x01", "s.d.")
	f.Fuzz(func(t *testing.T, term1, words1, term2, words2, name, date string) {
		for _, term := range []string{term1, term2} {
			if term1 == term2 || strings.ContainsAny(term, "<&\"/#") || strings.TrimSpace(term) != term || term == "" {
				return
			}
		}
		x := oneRow{core: []string{term1, words1, term2, words2}, kind: identification, ext: [][]string{{"verbatimIdentification", name, "dateIdentified", date}}}
		all := tryIn(t, x.write(t))
		if all == nil {
			return
		}
		var b strings.Builder
		for _, kv := range ledger.Flatten(all.rec) {
			b.WriteString(kv.Value + "\n")
		}
		for _, words := range []string{name, date} {
			if !strings.Contains(b.String(), strings.TrimSpace(words)) {
				t.Fatalf("%q is nowhere in %q", words, b.String())
			}
		}
	})
}
