package darwincore

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"blotter/ledger"
	"blotter/ledger/reading"
)

// rowOf is the core's row, or row at of another kind, of a record.
func rowOf(t *testing.T, k *Kind, text string, at int) map[string]string {
	t.Helper()
	m := museumOf(t)
	r, findings := ledger.Decode("", []byte(text))
	for _, f := range findings {
		if f.Code != "field-missing" { // the rows test few fields
			t.Fatal(f)
		}
	}
	s := &Sheet{Dataset: NewDataset(m, "", time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), nil, ""), Number: ledger.Number(r.Specimen.Text),
		Record: r, Reading: reading.NewReader(m.Conventions).Of(r)}
	out := map[string]string{}
	for i := range k.Terms {
		if v := k.Terms[i].Value(Row{s, at}); v != "" {
			out[k.Terms[i].Name] = v
		}
	}
	return out
}

// TestNamesByTheStandard: the parts of names as the notes and examples of the
// list of terms of 2026-05-26 have them, where it has them.
func TestNamesByTheStandard(t *testing.T) {
	type parts struct{ Scientific, Authors, Formula, Qualifier, Genus, Epithet, Infraspecific, Cultivar, Rank string }
	for _, c := range []struct {
		words, why string
		want       parts
	}{
		{"Quercus aff. agrifolia var. oxyadenia", "example of identificationQualifier", parts{"Quercus agrifolia var. oxyadenia", "", "A aff.", "aff. agrifolia var. oxyadenia", "Quercus", "agrifolia", "oxyadenia", "", "variety"}},
		{"Quercus agrifolia cf. var. oxyadenia", "example of identificationQualifier", parts{"Quercus agrifolia var. oxyadenia", "", "A cf.", "cf. var. oxyadenia", "Quercus", "agrifolia", "oxyadenia", "", "variety"}},
		{"Indigofera charlieriana subsp. sessilis var. scaberrima", "example of infraspecificEpithet", parts{"Indigofera charlieriana var. scaberrima", "", "A", "", "Indigofera", "charlieriana", "scaberrima", "", "variety"}},
		{"Saxifraga aizoon var. aizoon subvar. brevifolia f. multicaulis subf. surculosa Engl. & Irmsch.", "ICN Art. 24.1 Ex. 1", parts{"Saxifraga aizoon subf. surculosa Engl. & Irmsch.", "Engl. & Irmsch.", "A", "", "Saxifraga", "aizoon", "surculosa", "", "subform"}},
		{"Solanum tuberosum L. 'King Edward'", "example of cultivarEpithet; the author is the species'", parts{"Solanum tuberosum ‘King Edward’", "", "A", "", "Solanum", "tuberosum", "", "King Edward", "cultivar"}},
		{"x Agropogon littoralis (Sm.) C. E. Hubb.", "example of scientificName: the sign against the name", parts{"×Agropogon littoralis (Sm.) C. E. Hubb.", "(Sm.) C. E. Hubb.", "A", "", "×Agropogon", "littoralis", "", "", "species"}},
		{"Mentha × smithiana R. A. Graham", "the same of a species", parts{"Mentha ×smithiana R. A. Graham", "R. A. Graham", "A", "", "Mentha", "×smithiana", "", "", "species"}},
		{"+Laburnocytisus adamii", "a graft is no hybrid (ICNCP, from memory)", parts{"+Laburnocytisus adamii", "", "A", "", "+Laburnocytisus", "adamii", "", "", "species"}},
		{"Salix aurita L. × S. caprea L.", "ICN H.2: a formula has no rank and no epithet", parts{"Salix aurita × Salix caprea", "", "A x B", "", "Salix", "", "", "", ""}},
		{"Agrostis stolonifera × Polypogon monspeliensis", "of two genera none is the name's", parts{"Agrostis stolonifera × Polypogon monspeliensis", "", "A x B", "", "", "", "", "", ""}},
		{"Salix aurita or Salix caprea", "what both have in common", parts{"Salix", "", "A or B", "", "Salix", "", "", "", "genus"}},
		{"Rosa gallica L. var. gallica", "ICN Art. 26.1: no author behind an autonym", parts{"Rosa gallica var. gallica", "", "A", "", "Rosa", "gallica", "gallica", "", "variety"}},
	} {
		row := rowOf(t, &Occurrence, "specimen: LK7-0000001\nentry: full\ndeterminations:\n  - name: \""+c.words+"\"\n", 0)
		got := parts{row["scientificName"], row["scientificNameAuthorship"], row["taxonFormula"], row["identificationQualifier"], row["genus"], row["specificEpithet"], row["infraspecificEpithet"], row["cultivarEpithet"], row["taxonRank"]}
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s (%s): %s", c.words, c.why, d)
		}
	}
}

// TestValuesByTheStandard: rules in the notes of the list of terms.
func TestValuesByTheStandard(t *testing.T) {
	for _, c := range []struct {
		name, record string
		kind         *Kind
		want         map[string]string
	}{
		{"precision is a decimal fraction", "place:\n  position: 60.70334, 6.65139\n  datum: WGS84\n", &Occurrence,
			map[string]string{"coordinatePrecision": "0.00001", "geodeticDatum": "EPSG:4326", "decimalLatitude": "60.70334"}},
		{"no datum and nothing counted for it: not recorded", "place:\n  position: 60.70334, 6.65139\n  uncertainty: 50 m\n", &Occurrence,
			map[string]string{"geodeticDatum": "not recorded", "coordinateUncertaintyInMeters": "50"}},
		{"no datum, and counted in the radius", "place:\n  position: 60.70334, 6.65139\n", &Occurrence,
			map[string]string{"geodeticDatum": "EPSG:4326"}},
		{"a datum that is brought to WGS84", "place:\n  position: 60.70334, 6.65139\n  datum: ED50\n  uncertainty: 50 m\n", &Occurrence,
			map[string]string{"geodeticDatum": "EPSG:4326", "verbatimSRS": "ED50"}},
		{"a datum that lies on WGS84 within metres", "place:\n  position: 34.70334, -112.65139\n  datum: NAD83\n  uncertainty: 50 m\n", &Occurrence,
			map[string]string{"geodeticDatum": "EPSG:4326", "verbatimSRS": "NAD83"}},
		{"no position, no datum", "place:\n  locality: Tvinde\n", &Occurrence,
			map[string]string{"geodeticDatum": "", "coordinatePrecision": "", "georeferenceVerificationStatus": "requires georeference"}},
		{"a day has its day of the year", "date: 14.vii.2024\n", &Occurrence,
			map[string]string{"eventDate": "2024-07-14", "year": "2024", "month": "7", "day": "14", "startDayOfYear": "196", "endDayOfYear": "196"}},
		{"the last day of a leap year", "date: 31.xii.2024\n", &Occurrence, map[string]string{"startDayOfYear": "366"}},
		{"a month has none", "date: vii.1893\n", &Occurrence,
			map[string]string{"eventDate": "1893-07", "year": "1893", "month": "7", "day": "", "startDayOfYear": "", "endDayOfYear": ""}},
		{"a year has none", "date: ca. 1931\n", &Occurrence,
			map[string]string{"eventDate": "1931", "year": "1931", "month": "", "startDayOfYear": "", "verbatimEventDate": "ca. 1931"}},
		{"some days", "date: 3-5.viii.1931\n", &Occurrence,
			map[string]string{"eventDate": "1931-08-03/1931-08-05", "month": "8", "day": "", "startDayOfYear": "215", "endDayOfYear": "217"}},
		{"georeferencedDate is a date", "read:\n  position:\n    is: 60.7, 6.65\n    by: Tiril Aune\n    date: s.d.\n    from: map\n", &Occurrence,
			map[string]string{"georeferencedBy": "Tiril Aune", "georeferencedDate": ""}},
		{"a country's code is no country's name", "place:\n  country: US\n", &Occurrence,
			map[string]string{"country": "United States", "countryCode": "US"}},
		{"a suspected type is no type status", "types:\n  - status: isotype\n    of: Ranunculus acris L.\n    basis: suspected\n", &Occurrence,
			map[string]string{"typeStatus": "", "typeOfType": "", "typifiedName": "", "materialEntityRemarks": "possible isotype of Ranunculus acris L."}},
		{"type and name go together", "types:\n  - status: isotype\n    of: Ranunculus acris L.\n    published: Sp. Pl. 554. 1753\n", &Occurrence,
			map[string]string{"typeStatus": "isotype of Ranunculus acris L. Sp. Pl. 554. 1753", "typeOfType": "isotype", "typifiedName": "Ranunculus acris L."}},
		{"a relation names both", "duplicates:\n  - made: \"2\"\n    sent: Fjellheim Museum\n", &ResourceRelationship,
			map[string]string{"resourceID": "https://example.org/herbarium/specimens/000/00/LK7-0000001.html", "relatedResourceID": "https://example.org/herbarium/specimens/000/00/LK7-0000001.html#duplicate-1", "relationshipOfResource": "has duplicate"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			row := rowOf(t, c.kind, "specimen: LK7-0000001\nentry: full\n"+c.record, 0)
			for term, want := range c.want {
				if row[term] != want {
					t.Errorf("%s: %q, want %q", term, row[term], want)
				}
			}
		})
	}
}
