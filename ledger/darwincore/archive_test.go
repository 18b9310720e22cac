package darwincore_test

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/csv"
	"encoding/xml"
	"io"
	"iter"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"blotter/ledger/book"
	"blotter/ledger/darwincore"
	"blotter/ledger/ledgertest"
	"blotter/ledger/public"
	"blotter/ledger/reading"
)

// world is a small ledger ready to be exported.
type world struct {
	t    *testing.T
	book *book.Book
	view *public.View
	load *book.Loader
	data *darwincore.Dataset
}

const museumFile = `format: "1"
name: Lauvkroken Museum
code: LK7
numbering: {prefix: LK7-, digits: "7"}
timezone: Europe/Oslo
site:
  title: Herbarium of Lauvkroken Museum
  address: https://herbarium.lauvkroken.example
  licence: CC BY 4.0
  contact: herbarium@lauvkroken.example
dataset:
  creators: [Tiril Aune, Lauvkroken Museum]
  institution_id: https://ror.org/00example
  collection_code: herbarium
  methods: Typed & read against the <label>.
`

const peopleFile = `people:
  - name: Signe Rask
    spellings: [S. Rask]
    orcid: 0000-0002-1825-0097
  - name: Tiril Aune
    orcid: 0000-0003-1415-9269
`

const namesFile = `family: Ranunculaceae
names:
  - name: Ranunculus acris L.
    source: regional flora, 2nd ed.
    common: engsoleie
  - name: Ranunculus pumilus Wahlenb.
    of: Ranunculus acris L.
    published: "Flora Vossensis: 31 (1907)"
`

// newWorld loads the records of a txtar-less map, path to content, beside the
// museum's files.
func newWorld(t *testing.T, partner string, files map[string]string) *world {
	t.Helper()
	all := map[string]string{"blotter.yaml": museumFile, "people.yaml": peopleFile, "names/Ranunculaceae.yaml": namesFile}
	for p, text := range files {
		all[p] = text
	}
	src := ledgertest.MapSource(all)
	b, err := book.Load(t.Context(), src, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	w := &world{t: t, book: b, view: public.Of(b), load: b.Loader(src, nil)}
	museum := w.view.Book.Museum
	if partner != "" {
		museum = b.Museum
	}
	w.data = darwincore.NewDataset(museum, "0123456789abcdef0123456789abcdef01234567", time.Date(2026, 11, 25, 21, 15, 1, 0, time.UTC), nil, partner)
	return w
}

func (w *world) sheets() iter.Seq2[*darwincore.Sheet, error] {
	return func(yield func(*darwincore.Sheet, error) bool) {
		for e := range w.book.All() {
			r, err := w.load.Record(context.Background(), e)
			if err != nil {
				yield(nil, err)
				return
			}
			shown, why := w.view.Published(r)
			if w.data.Partner != "" {
				shown = r
			}
			s := &darwincore.Sheet{Dataset: w.data, Number: e.Number, Record: shown, Reading: reading.Of(shown, w.data.Museum.Conventions), Withheld: why,
				Modified: time.Date(2026, 3, 2, 10, 0, 0, 0, time.UTC), Has: func(string) bool { return true }}
			if !yield(s, nil) {
				return
			}
		}
	}
}

// scratch is a file that a test can see closed.
type scratch struct {
	*os.File
	open *int
}

func (s scratch) Close() error { *s.open--; return s.File.Close() }

// archive writes the archive and gives its bytes.
func (w *world) archive() []byte {
	w.t.Helper()
	var out bytes.Buffer
	open := 0
	dir := w.t.TempDir()
	_, err := darwincore.WriteArchive(w.t.Context(), &out, darwincore.Input{Dataset: w.data, Sheets: w.sheets(), Scratch: func() (darwincore.Scratch, error) {
		f, err := os.CreateTemp(dir, "scratch")
		open++
		return scratch{f, &open}, err
	}})
	if err != nil {
		w.t.Fatal(err)
	}
	if open != 0 {
		w.t.Errorf("%d scratch files are left open", open)
	}
	return out.Bytes()
}

// table is one file of an archive as the second reader has it: rows by term.
type table struct {
	core  bool
	terms []string
	ids   []string
	rows  []map[string]string
}

// readBack is a second reader of archives: meta.xml by its attributes, rows by
// encoding/csv. It knows nothing of how the archive was written.
func readBack(t *testing.T, data []byte) (map[string]*table, map[string][]byte) {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	files := map[string][]byte{}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		if files[f.Name], err = io.ReadAll(r); err != nil {
			t.Fatal(err)
		}
	}
	type index struct {
		Index int `xml:"index,attr"`
	}
	type entity struct {
		RowType  string `xml:"rowType,attr"`
		Comma    string `xml:"fieldsTerminatedBy,attr"`
		Quote    string `xml:"fieldsEnclosedBy,attr"`
		Ends     string `xml:"linesTerminatedBy,attr"`
		Encoding string `xml:"encoding,attr"`
		Skip     int    `xml:"ignoreHeaderLines,attr"`
		Location string `xml:"files>location"`
		ID       *index `xml:"id"`
		CoreID   *index `xml:"coreid"`
		Fields   []struct {
			Index int    `xml:"index,attr"`
			Term  string `xml:"term,attr"`
		} `xml:"field"`
	}
	var meta struct {
		Metadata   string   `xml:"metadata,attr"`
		Core       entity   `xml:"core"`
		Extensions []entity `xml:"extension"`
	}
	if err := xml.Unmarshal(files["meta.xml"], &meta); err != nil {
		t.Fatal(err)
	}
	if files[meta.Metadata] == nil {
		t.Errorf("meta.xml names %q as the description, which is not there", meta.Metadata)
	}
	out := map[string]*table{}
	for i, e := range append([]entity{meta.Core}, meta.Extensions...) {
		if e.Comma != "," || e.Quote != `"` || e.Ends != `\n` || e.Encoding != "UTF-8" {
			t.Fatalf("%s is written in a form that encoding/csv does not read: %+v", e.RowType, e)
		}
		tb := &table{core: i == 0}
		id := e.CoreID
		if i == 0 {
			id = e.ID
		}
		if id == nil {
			t.Fatalf("%s has no id", e.RowType)
		}
		c := csv.NewReader(bytes.NewReader(files[e.Location]))
		all, err := c.ReadAll()
		if err != nil {
			t.Fatalf("%s: %v", e.Location, err)
		}
		for n, cells := range all {
			if n < e.Skip {
				continue
			}
			row := map[string]string{}
			for _, f := range e.Fields {
				row[f.Term[strings.LastIndexByte(f.Term, '/')+1:]] = cells[f.Index]
			}
			tb.ids, tb.rows = append(tb.ids, cells[id.Index]), append(tb.rows, row)
		}
		for _, f := range e.Fields {
			tb.terms = append(tb.terms, f.Term)
		}
		out[e.RowType[strings.LastIndexByte(e.RowType, '/')+1:]] = tb
	}
	return out, files
}

// aSheet is a record with something in most fields.
const aSheet = `specimen: LK7-0000482
entry: full
kept_as: sheet
parts:
  - {part: sheet 1 of 2}
  - {part: fruit, number: LK7-F-0031, fate: used up 2019}
collector: Signe Rask
with: [Tiril Aune, A | B]
coll_no: "1207"
date: 14.vii.2025
place:
  country: Norway
  province: Vestland
  district: Voss
  locality: 1.2 km NE of Raundal chapel, "above" the track
  position: 60°42'12"N 6°39'05"E
  datum: WGS84
  gps_accuracy: 8 m
  position_by: gps
  elevation: 1200 ft
habitat: Unfertilised hay meadow, on moraine
substrate: calcareous schist
host: Betula pubescens
associates: [Trollius europaeus]
description: |-
  Perennial herb to 40 cm;
  petals clear yellow.
phenology: [flower, fruit]
abundance: occasional
population: "60"
origin: wild
cautions: ["toxic"]
further_numbers: [old number 312]
determinations:
  - {name: Ranunculus repens L., kind: det, by: Signe Rask, date: 14.vii.2025, from: label}
  - {name: Ranunculus repens, kind: not, by: M. Ostrander, date: "2026-01-02", from: slip}
  - {name: Ranunculus cf. pumilus Wahlenb., by: Tiril Aune, date: "2026-02", from: slip, why: "Beak: hooked | hairy", source: "regional flora, 2nd ed."}
types:
  - {status: isotype, of: Ranunculus pumilus Wahlenb., published: "Flora Vossensis: 31 (1907)", basis: verified, by: Tiril Aune, date: "2026-02-01"}
duplicates:
  - {made: "3", sent: Fjellheim Museum, date: "2026-02-01", number: FM 20113}
same_gathering: [LK7-0000483]
images:
  - {file: images/LK7-0000482.jpg, shows: whole sheet, photographer: Tiril Aune, date: "2026-03-02", licence: CC BY 4.0}
writings:
  - {on_sheet: label, text: "Ran. acris, Raundal, 14/7 [?]"}
remarks: Mounted together with its seedlings.
`

const anotherSheet = `specimen: LK7-0000483
entry: full
collector: unknown
coll_no: s.n.
date: aestate 1907
place: {country: Kingdom of Norway, locality: Voss}
determinations:
  - {name: indet., by: unsigned, date: s.d.}
fate:
  - {is: lost, by: Tiril Aune, date: "2026-01-02", why: not in its folder}
read:
  position: {is: "60.63, 6.42", uncertainty: 5 km, by: Tiril Aune, date: "2026-11-05", from: map 1:50 000, why: middle of the parish}
  country: {is: Norway, by: Tiril Aune, date: "2026-11-05"}
`

func twoSheets() map[string]string {
	return map[string]string{"specimens/000/04/LK7-0000482.yaml": aSheet, "specimens/000/04/LK7-0000483.yaml": anotherSheet}
}

// TestReadBack: what a second reader finds in the archive is what the records
// say.
func TestReadBack(t *testing.T) {
	tables, _ := readBack(t, newWorld(t, "", twoSheets()).archive())
	core := tables["Occurrence"]
	if len(core.rows) != 2 {
		t.Fatalf("%d rows of the core, wanted 2", len(core.rows))
	}
	ids := map[string]bool{}
	for i, id := range core.ids {
		if ids[id] || id == "" {
			t.Errorf("id %q of the core is empty or stands twice", id)
		}
		ids[id] = true
		if core.rows[i]["occurrenceID"] != id {
			t.Errorf("id %q is not occurrenceID %q", id, core.rows[i]["occurrenceID"])
		}
	}
	for kind, tb := range tables {
		for _, id := range tb.ids {
			if !ids[id] {
				t.Errorf("%s: a row belongs to %q, which the core has not", kind, id)
			}
		}
	}
	for _, c := range checks {
		tb := tables[c.kind]
		if c.row >= len(tb.rows) {
			t.Errorf("%s has no row %d", c.kind, c.row)
			continue
		}
		row := tb.rows[c.row]
		for term, want := range c.want {
			if got, ok := row[term]; got != want || !ok {
				t.Errorf("%s %d, %s: %q, wanted %q", c.kind, c.row, term, got, want)
			}
		}
	}
	if n := len(tables["ResourceRelationship"].rows); n != 4 {
		t.Errorf("%d relations, wanted 4", n)
	}
}

// checks are what the rows of twoSheets say, by kind and place.
var checks = []struct {
	kind string
	row  int
	want map[string]string
}{
	{"Occurrence", 0, map[string]string{
		"occurrenceID": "https://herbarium.lauvkroken.example/specimens/000/04/LK7-0000482.html", "catalogNumber": "LK7-0000482", "basisOfRecord": "PreservedSpecimen",
		"license": "https://creativecommons.org/licenses/by/4.0/", "modified": "2026-03-02T10:00:00Z", "institutionID": "https://ror.org/00example",
		"recordedBy": "Signe Rask | Tiril Aune | A || B", "recordedByID": "https://orcid.org/0000-0002-1825-0097 | https://orcid.org/0000-0003-1415-9269",
		"verbatimEventDate": "14.vii.2025", "eventDate": "2025-07-14", "year": "2025", "month": "7", "day": "14", "startDayOfYear": "195", "endDayOfYear": "195",
		"country": "Norway", "countryCode": "NO", "verbatimLocality": `1.2 km NE of Raundal chapel, "above" the track`,
		"verbatimCoordinates": `60°42'12"N 6°39'05"E`, "verbatimCoordinateSystem": "degrees minutes seconds", "verbatimSRS": "WGS84", "geodeticDatum": "EPSG:4326",
		"decimalLatitude": "60.70333", "decimalLongitude": "6.65139", "verbatimElevation": "1200 ft", "minimumElevationInMeters": "365.8", "maximumElevationInMeters": "365.8",
		"associatedTaxa": `"host":"Betula pubescens" | "growing with":"Trollius europaeus"`, "organismRemarks": "Perennial herb to 40 cm;\npetals clear yellow.",
		"reproductiveCondition": "flower | fruit", "individualCount": "60", "organismQuantity": "occasional", "organismQuantityType": "abundance in words",
		"scientificName": "Ranunculus pumilus Wahlenb.", "scientificNameAuthorship": "Wahlenb.", "taxonFormula": "A cf.", "identificationQualifier": "cf. pumilus",
		"acceptedNameUsage": "Ranunculus acris L.", "taxonomicStatus": "synonym", "family": "Ranunculaceae", "identifiedBy": "Tiril Aune", "dateIdentified": "2026-02",
		"typeStatus": "isotype of Ranunculus pumilus Wahlenb. Flora Vossensis: 31 (1907)", "typeOfType": "isotype", "typifiedName": "Ranunculus pumilus Wahlenb.",
		"disposition": "in collection", "associatedMedia": "https://herbarium.lauvkroken.example/images/LK7-0000482.jpg", "verbatimLabel": "Ran. acris, Raundal, 14/7 [?]",
		"previousIdentifications": "Ranunculus repens L., Signe Rask, 14.vii.2025 | not Ranunculus repens, M. Ostrander, 2026-01-02",
		"dynamicProperties":       `{"origin":"wild","cautions.1":"toxic","types.1.status":"isotype","types.1.of":"Ranunculus pumilus Wahlenb.","types.1.published":"Flora Vossensis: 31 (1907)","types.1.basis":"verified","types.1.by":"Tiril Aune","types.1.date":"2026-02-01","writings.1.on_sheet":"label"}`,
	}},
	{"Occurrence", 1, map[string]string{
		"recordedBy": "unknown", "recordNumber": "s.n.", "verbatimEventDate": "aestate 1907", "eventDate": "1907", "year": "1907", "month": "", "day": "",
		"country": "Norway", "higherGeography": "Kingdom of Norway", "scientificName": "", "verbatimIdentification": "indet.", "disposition": "missing",
		"verbatimCoordinates": "", "decimalLatitude": "60.63", "decimalLongitude": "6.42", "coordinateUncertaintyInMeters": "5000", "georeferencedBy": "Tiril Aune", "georeferencedDate": "2026-11-05",
		"georeferenceSources": "map 1:50 000", "georeferenceProtocol": "coordinates and radius as stated", "georeferenceVerificationStatus": "requires verification",
	}},
	{"Identification", 0, map[string]string{"verbatimIdentification": "Ranunculus repens L.", "isAcceptedIdentification": "false", "taxonFormula": "A", "dateIdentified": "2025-07-14",
		"identificationRemarks": "from: label | date: 14.vii.2025", "identificationVerificationStatus": "det", "typeStatus": ""}},
	{"Identification", 1, map[string]string{"taxonFormula": "not A", "identificationVerificationStatus": "not", "scientificName": "Ranunculus repens", "isAcceptedIdentification": "false"}},
	{"Identification", 2, map[string]string{"isAcceptedIdentification": "true", "taxonFormula": "A cf.", "identificationQualifier": "cf. pumilus", "identifiedByID": "https://orcid.org/0000-0003-1415-9269",
		"identificationRemarks": "Beak: hooked || hairy | from: slip", "identificationReferences": "regional flora, 2nd ed.", "typeStatus": "isotype of Ranunculus pumilus Wahlenb. Flora Vossensis: 31 (1907)"}},
	{"Identification", 3, map[string]string{"verbatimIdentification": "indet.", "scientificName": "", "taxonFormula": ""}},
	{"Multimedia", 0, map[string]string{"type": "StillImage", "format": "image/jpeg", "identifier": "https://herbarium.lauvkroken.example/images/LK7-0000482.jpg", "description": "whole sheet", "license": "https://creativecommons.org/licenses/by/4.0/"}},
	{"ResourceRelationship", 0, map[string]string{"relationshipOfResource": "has part", "relationshipRemarks": "part: sheet 1 of 2"}},
	{"ResourceRelationship", 1, map[string]string{"relatedResourceID": "LK7-F-0031", "relationshipRemarks": "LK7-F-0031 | part: fruit | fate: used up 2019"}},
	{"ResourceRelationship", 2, map[string]string{"relationshipOfResource": "has duplicate", "relatedResourceID": "FM 20113", "relationshipEstablishedDate": "2026-02-01", "relationshipRemarks": "FM 20113 | made: 3 | sent: Fjellheim Museum"}},
	{"ResourceRelationship", 3, map[string]string{"relationshipOfResource": "same gathering as", "relatedResourceID": "https://herbarium.lauvkroken.example/specimens/000/04/LK7-0000483.html"}},
	{"MeasurementOrFact", 0, map[string]string{"measurementType": "position accuracy shown by the device", "measurementValue": "8", "measurementUnit": "m"}},
	{"MeasurementOrFact", 1, map[string]string{"measurementType": "substrate", "measurementValue": "calcareous schist", "measurementUnit": ""}},
}

// TestSameBytes: the same records give the same archive.
func TestSameBytes(t *testing.T) {
	if !bytes.Equal(newWorld(t, "", twoSheets()).archive(), newWorld(t, "", twoSheets()).archive()) {
		t.Error("two archives of the same records differ")
	}
}

// standards is the folder of published schemas and lists beside the project;
// the test is skipped where it is not.
func standards(t *testing.T) string {
	t.Helper()
	dir := "../../../shared/standards"
	if o := os.Getenv("BLOTTER_ORACLES"); o != "" {
		dir = filepath.Join(o, "..", "standards")
	}
	if _, err := os.Stat(dir); err != nil {
		t.Skip("the published standards are not beside the project (../shared/standards, or BLOTTER_ORACLES)")
	}
	return dir
}

// TestSchemas: meta.xml and the description are valid by the published
// schemas, as xmllint judges.
func TestSchemas(t *testing.T) {
	dir := standards(t)
	if _, err := exec.LookPath("xmllint"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("xmllint is missing")
		}
		t.Skip("xmllint is missing")
	}
	empty := newWorld(t, "", map[string]string{"specimens/000/00/LK7-0000001.yaml": "specimen: LK7-0000001\nentry: full\n"})
	bare := newWorld(t, "", map[string]string{"blotter.yaml": "format: \"1\"\nname: Lauvkroken <Museum> & Garden\ncode: LK7\n", "specimens/000/04/LK7-0000482.yaml": aSheet})
	for _, w := range []*world{newWorld(t, "", twoSheets()), newWorld(t, "Fjellheim Museum", twoSheets()), empty, bare} {
		_, files := readBack(t, w.archive())
		for file, schema := range map[string]string{"meta.xml": "dwc/tdwg_dwc_text.xsd", "about.xml": "eml/eml.xsd"} {
			name := filepath.Join(t.TempDir(), file)
			if err := os.WriteFile(name, files[file], 0o666); err != nil {
				t.Fatal(err)
			}
			if out, err := exec.Command("xmllint", "--noout", "--nonet", "--schema", filepath.Join(dir, filepath.FromSlash(schema)), name).CombinedOutput(); err != nil {
				t.Errorf("%s: %v\n%s\n%s", file, err, out, files[file])
			}
		}
	}
}
