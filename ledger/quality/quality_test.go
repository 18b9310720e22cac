package quality_test

import (
	"encoding/json"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"blotter/ledger/dates"
	"blotter/ledger/quality"
)

// row makes a row of terms and values: "dwc:day=5|dwc:month=2"; ¦ stands for a
// bar in a value.
func row(t testing.TB, text string) *quality.Row {
	t.Helper()
	var r quality.Row
	for part := range strings.SplitSeq(text, "|") {
		name, value, _ := strings.Cut(part, "=")
		if name == "" {
			continue
		}
		term, ok := quality.TermOf(name)
		if !ok {
			t.Fatalf("no term %q", name)
		}
		r.Set(term, strings.ReplaceAll(value, "¦", "|"))
	}
	return &r
}

// Cases of our own for what the published rows leave out; each follows from
// the words of the standard's expected response or note.
func TestAnswers(t *testing.T) {
	for _, c := range []struct{ label, row, want, reason string }{
		{"VALIDATION_COUNTRYCODE_STANDARD", "countryCode= AU", "NOT_COMPLIANT", "a blank before it"},
		{"VALIDATION_COUNTRYCODE_STANDARD", "countryCode=AU\u200b", "NOT_COMPLIANT", "a character that does not print"},
		{"VALIDATION_COUNTRYCODE_STANDARD", "countryCode=XX", "NOT_COMPLIANT", "only XZ and ZZ of the user's range"},
		{"VALIDATION_COUNTRYCODE_STANDARD", "countryCode=\u00a0\u200b", "INTERNAL_PREREQUISITES_NOT_MET", "nothing that prints is empty"},
		{"AMENDMENT_COUNTRYCODE_STANDARDIZED", "countryCode=aus", `{"dwc:countryCode":"AU"}`, "three letters"},
		{"AMENDMENT_COUNTRYCODE_STANDARDIZED", "countryCode= no ", `{"dwc:countryCode":"NO"}`, "small letters and blanks"},
		{"VALIDATION_COUNTRYCOUNTRYCODE_CONSISTENT", "country=Noruega|countryCode=NO", "COMPLIANT", "a name in another language"},
		{"VALIDATION_COUNTRYCOUNTRYCODE_CONSISTENT", "country=Norway|countryCode=SE", "NOT_COMPLIANT", "another country"},
		{"VALIDATION_EVENTDATE_INRANGE", "eventDate=1963|bdqval:earliestValidDate=1963-02-01", "NOT_COMPLIANT", "not wholly within the row's own limit"},
		{"VALIDATION_DATEIDENTIFIED_INRANGE", "dateIdentified=2026", "COMPLIANT", "the year that runs is not to come"},
		{"VALIDATION_DATEIDENTIFIED_INRANGE", "dateIdentified=2026-12-24", "NOT_COMPLIANT", "a day to come"},
		{"VALIDATION_DATEIDENTIFIED_INRANGE", "dateIdentified=1963|eventDate=1964|bdqval:includeEventDate=false", "COMPLIANT", "the event does not count"},
		{"VALIDATION_DATEIDENTIFIED_INRANGE", "dateIdentified=1963|eventDate=soon", "INTERNAL_PREREQUISITES_NOT_MET", "the event cannot be compared"},
		{"VALIDATION_STARTDAYOFYEAR_INRANGE", "startDayOfYear=366|eventDate=1980/1981", "COMPLIANT", "it begins in a leap year"},
		{"VALIDATION_ENDDAYOFYEAR_INRANGE", "endDayOfYear=366|eventDate=1980/1981", "NOT_COMPLIANT", "it ends in another"},
		{"VALIDATION_DAY_INRANGE", "day=31|month=4", "NOT_COMPLIANT", "April has 30 days"},
		{"VALIDATION_DAY_INRANGE", "day=31", "INTERNAL_PREREQUISITES_NOT_MET", "the month would settle it"},
		{"VALIDATION_DAY_INRANGE", "day=30|month=2", "NOT_COMPLIANT", "February never has 30 days"},
		{"VALIDATION_DAY_INRANGE", "day=29|month=2", "INTERNAL_PREREQUISITES_NOT_MET", "the year would settle it"},
		{"AMENDMENT_DAY_STANDARDIZED", "day=5th Friday", "NOT_AMENDED", "the note of the test"},
		{"AMENDMENT_MONTH_STANDARDIZED", "month=août", `{"dwc:month":"8"}`, "a name in French"},
		{"AMENDMENT_MONTH_STANDARDIZED", "month=viii", `{"dwc:month":"8"}`, "a roman numeral"},
		{"AMENDMENT_MONTH_STANDARDIZED", "month=8", "NOT_AMENDED", "a number already"},
		{"AMENDMENT_EVENTDATE_STANDARDIZED", "eventDate=1999-11-00", `{"dwc:eventDate":"1999-11"}`, "00 for a day that is not known"},
		{"AMENDMENT_EVENTDATE_STANDARDIZED", "eventDate=ca. 1890", "NOT_AMENDED", "only roughly"},
		{"AMENDMENT_EVENTDATE_STANDARDIZED", "eventDate=Aug-Sept 1952", `{"dwc:eventDate":"1952-08/1952-09"}`, "whole months keep their precision"},
		{"AMENDMENT_EVENTDATE_FROM_VERBATIM", "verbatimEventDate=Saturday 29th Oct. 2021", "NOT_AMENDED", "that day was a Friday"},
		{"AMENDMENT_EVENTDATE_FROM_VERBATIM", "verbatimEventDate=15 Mar 1884 and 15 Apr 1884", "NOT_AMENDED", "two dates are no range"},
		{"AMENDMENT_EVENTDATE_FROM_VERBATIM", "verbatimEventDate=1999-123", `{"dwc:eventDate":"1999-05-03"}`, "an ordinal date in the form that the standard prefers"},
		{"AMENDMENT_EVENTDATE_FROM_YEARMONTHDAY", "year=1980|month=1", `{"dwc:eventDate":"1980-01"}`, "the note of the test"},
		{"AMENDMENT_EVENTDATE_FROM_YEARMONTHDAY", "year=1980|day=5", `{"dwc:eventDate":"1980"}`, "the note of the test: no month"},
		{"AMENDMENT_EVENTDATE_FROM_YEARSTARTDAYOFYEARENDDAYOFYEAR", "year=1999|startDayOfYear=123|endDayOfYear=366", "NOT_AMENDED", "1999 has no day 366"},
		{"AMENDMENT_EVENT_FROM_EVENTDATE", "eventDate=1980-03", `{"dwc:year":"1980","dwc:month":"3"}`, "a month has no days"},
		{"MEASURE_EVENTDATE_DURATIONINSECONDS", "eventDate=2000-02", "2505600", "29 days"},
		{"VALIDATION_COORDINATESCOUNTRYCODE_CONSISTENT", "decimalLatitude=60.63|decimalLongitude=6.42|countryCode=NO", "COMPLIANT", "Voss"},
		{"VALIDATION_COORDINATESCOUNTRYCODE_CONSISTENT", "decimalLatitude=60.63|decimalLongitude=6.42|countryCode=SE", "NOT_COMPLIANT", "Voss is not in Sweden"},
		{"VALIDATION_COORDINATESCOUNTRYCODE_CONSISTENT", "decimalLatitude=40|decimalLongitude=-40|countryCode=XZ", "COMPLIANT", "the middle of the Atlantic"},
		{"VALIDATION_COUNTRYSTATEPROVINCE_UNAMBIGUOUS", "country=Argentina|stateProvince=Buenos Aires", "NOT_COMPLIANT", "the note of the test: province or city"},
		{"VALIDATION_COUNTRYSTATEPROVINCE_UNAMBIGUOUS", "country=Norway|stateProvince=Hordaland", "COMPLIANT", "one region"},
		{"VALIDATION_COUNTRYSTATEPROVINCE_UNAMBIGUOUS", "country=Australia|stateProvince=New South Wales", "COMPLIANT", "one region"},
		{"AMENDMENT_COUNTRYCODE_FROM_COORDINATES", "decimalLatitude=40|decimalLongitude=-40", `{"dwc:countryCode":"XZ"}`, "the high seas"},
		{"AMENDMENT_COORDINATES_TRANSPOSED", "decimalLatitude=6.42|decimalLongitude=60.63|countryCode=NO", `{"dwc:decimalLatitude":"60.63","dwc:decimalLongitude":"6.42"}`, "swapped"},
		{"AMENDMENT_COORDINATES_FROM_VERBATIM", "verbatimCoordinates=T10N R8W|verbatimSRS=NAD27", "NOT_AMENDED", "a township is no degrees"},
		{"AMENDMENT_COORDINATES_FROM_VERBATIM", "verbatimCoordinates=10N 8W", "NOT_AMENDED", "and so may this be"},
		{"AMENDMENT_COORDINATES_FROM_VERBATIM", `verbatimLatitude=60°38'N|verbatimLongitude=6°25'12"E|verbatimSRS=ED50`, `{"dwc:decimalLatitude":"60.6333333","dwc:decimalLongitude":"6.42","dwc:geodeticDatum":"EPSG:4230"}`, "minutes and a named datum"},
		{"AMENDMENT_MINDEPTHMAXDEPTH_FROM_VERBATIM", "verbatimDepth=10 fathoms", `{"dwc:maximumDepthInMeters":"18.288","dwc:minimumDepthInMeters":"18.288"}`, "the note of the test"},
		{"AMENDMENT_MINELEVATIONMAXELEVATION_FROM_VERBATIM", "verbatimElevation=10 yards", `{"dwc:minimumElevationInMeters":"9.144","dwc:maximumElevationInMeters":"9.144"}`, "the note of the test"},
		{"AMENDMENT_MINELEVATIONMAXELEVATION_FROM_VERBATIM", "verbatimElevation=1.2 km", `{"dwc:minimumElevationInMeters":"1200","dwc:maximumElevationInMeters":"1200"}`, "kilometres"},
		{"AMENDMENT_MINELEVATIONMAXELEVATION_FROM_VERBATIM", "verbatimElevation=ca. 300 m", "NOT_AMENDED", "only roughly"},
		{"VALIDATION_LICENSE_STANDARD", "license=http://creativecommons.org/licenses/by-nc/4.0/legalcode.de", "COMPLIANT", "a translation"},
		{"VALIDATION_LICENSE_STANDARD", "license=https://creativecommons.org/licenses/by/3.0/", "NOT_COMPLIANT", "another version"},
		{"AMENDMENT_LICENSE_STANDARDIZED", "license=CC BY 4.0", `{"dcterms:license":"https://creativecommons.org/licenses/by/4.0/legalcode"}`, "named with its version"},
		{"AMENDMENT_LICENSE_STANDARDIZED", "license=CC BY", "NOT_AMENDED", "the version is not guessed"},
		{"AMENDMENT_LICENSE_STANDARDIZED", "license=CC BY 3.0", "NOT_AMENDED", "another version stays what it is"},
		{"VALIDATION_GEODETICDATUM_STANDARD", "geodeticDatum=EPSG:7030", "COMPLIANT", "an ellipsoid"},
		{"VALIDATION_GEODETICDATUM_STANDARD", "geodeticDatum=epsg:4326", "NOT_COMPLIANT", "not in the form Authority:Number"},
		{"AMENDMENT_GEODETICDATUM_STANDARDIZED", "geodeticDatum=WGS:84", `{"dwc:geodeticDatum":"EPSG:4326"}`, "the note of the test"},
		{"AMENDMENT_GEODETICDATUM_STANDARDIZED", "geodeticDatum=NAD27 / UTM zone 11N", "NOT_AMENDED", "a grid"},
		{"AMENDMENT_GEODETICDATUM_STANDARDIZED", "geodeticDatum=EPSG:32632", "NOT_AMENDED", "a grid"},
		{"AMENDMENT_GEODETICDATUM_ASSUMEDDEFAULT", "decimalLatitude=x|decimalLongitude=2|coordinateUncertaintyInMeters=10", `{"dwc:geodeticDatum":"EPSG:4326"}`, "no point, so no shift there"},
		{"AMENDMENT_GEODETICDATUM_ASSUMEDDEFAULT", "coordinateUncertaintyInMeters=10", `{"dwc:geodeticDatum":"EPSG:4326"}`, "no point at all"},
		{"AMENDMENT_GEODETICDATUM_ASSUMEDDEFAULT", "decimalLatitude=60.63|decimalLongitude=6.42|coordinateUncertaintyInMeters=10", "AMENDED", "the uncertainty grows"},
		{"AMENDMENT_TYPESTATUS_STANDARDIZED", "typeStatus=HOLOTYPE of Draba nivalis ¦ isotypus", `{"dwc:typeStatus":"Holotype of Draba nivalis | Isotype"}`, "each part between bars"},
		{"VALIDATION_TYPESTATUS_STANDARD", "typeStatus=isotype of Draba nivalis. Flora 1: 2", "COMPLIANT", "the first word counts"},
		{"AMENDMENT_BASISOFRECORD_STANDARDIZED", "basisOfRecord=PRESERVED_SPECIMEN", `{"dwc:basisOfRecord":"PreservedSpecimen"}`, "an underline"},
		{"AMENDMENT_DCTYPE_STANDARDIZED", "dc:type=http://purl.org/dc/dcmitype/PhysicalObject", `{"dc:type":"PhysicalObject"}`, "the note of the test: an IRI"},
		{"VALIDATION_POLYNOMIAL_CONSISTENT", "scientificName=Ranunculus acris L. subsp. pumilus (Wahlenb.) Á.Löve & D.Löve|infraspecificEpithet=pumilus|specificEpithet=acris", "COMPLIANT", "authors between"},
		{"VALIDATION_POLYNOMIAL_CONSISTENT", "scientificName=Puma concolor couguar (Kerr, 1792)|infraspecificEpithet=couguar|genericName=Puma", "COMPLIANT", "an animal"},
		{"VALIDATION_SCIENTIFICNAMEID_COMPLETE", "scientificNameID=gbif:8102122", "COMPLIANT", "a scope and a value"},
		{"VALIDATION_SCIENTIFICNAMEID_COMPLETE", "scientificNameID=https://www.gbif.org/", "NOT_COMPLIANT", "no path"},
		{"VALIDATION_SCIENTIFICNAMEID_COMPLETE", "scientificNameID=urn:lsid:ipni.org:names", "NOT_COMPLIANT", "an LSID without its object"},
		{"VALIDATION_FAMILY_FOUND", "family=Ranunculaceae", "EXTERNAL_PREREQUISITES_NOT_MET", "nobody is asked"},
		{"VALIDATION_COORDINATESTERRESTRIALMARINE_CONSISTENT", "scientificName=Draba nivalis|decimalLatitude=60.63|decimalLongitude=6.42|bdqval:taxonIsMarine=nonmarine", "COMPLIANT", "what the row itself says"},
		{"VALIDATION_COORDINATESTERRESTRIALMARINE_CONSISTENT", "scientificName=Draba nivalis|decimalLatitude=40|decimalLongitude=-40|bdqval:taxonIsMarine=nonmarine", "NOT_COMPLIANT", "the high seas"},
		{"ISSUE_ANNOTATION_NOTEMPTY", "year=1987", "EXTERNAL_PREREQUISITES_NOT_MET", "no system, and no annotation in the row"},
		{"MEASURE_VALIDATIONTESTS_COMPLIANT", "year=1987", "NOT_REPORTED", "no validation was run"},
	} {
		test, ok := quality.TestOf(c.label)
		if !ok {
			t.Errorf("no test %s", c.label)
			continue
		}
		got := quality.Run(test, row(t, c.row), today)
		if got.Result != c.want && string(got.Status) != c.want {
			t.Errorf("%s of %q (%s): %s %s: %s; want %s", c.label, c.row, c.reason, got.Status, got.Result, got.Comment, c.want)
		}
	}
}

func TestSuiteCounts(t *testing.T) {
	var tests []*quality.Test
	for _, l := range []string{"MEASURE_VALIDATIONTESTS_NOTCOMPLIANT", "VALIDATION_DAY_STANDARD", "VALIDATION_MONTH_STANDARD", "AMENDMENT_MONTH_STANDARDIZED", "MEASURE_AMENDMENTS_PROPOSED", "MEASURE_VALIDATIONTESTS_COMPLIANT", "MEASURE_VALIDATIONTESTS_PREREQUISITESNOTMET", "VALIDATION_YEAR_INRANGE"} {
		test, _ := quality.TestOf(l)
		tests = append(tests, test)
	}
	s, err := quality.NewSuite(tests, nil, today)
	if err != nil {
		t.Fatal(err)
	}
	got := s.Run(row(t, "day=14|month=vii"), nil)
	for i, want := range map[int]string{0: "1", 4: "1", 5: "1", 6: "1"} {
		if got[i].Result != want {
			t.Errorf("%s is %s, want %s", tests[i].Label, got[i].Result, want)
		}
	}
	if _, err := quality.NewSuite(nil, map[string]string{"dwc:day": "1"}, today); err == nil {
		t.Error("a term of the record is taken for a parameter")
	}
}

// Whatever a row holds, every test answers in the words of its type, twice the
// same, and a proposal is a JSON object.
func TestAnyRowIsAnswered(t *testing.T) {
	s, err := quality.NewSuite(nil, nil, today)
	if err != nil {
		t.Fatal(err)
	}
	words := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"", " ", "null", "1987", "1987-07-14", "14.vii.1987", "60.63", "-200", "NO", "Norway", "Hordaland",
		"WGS84", "EPSG:4326", "10-15 ftm", "Ranunculus acris L.", "male", "Holotype | x", "CC BY 4.0", "60°42'12\"N 6°39'E", "x\x00\xff", "1e308", "9999999999999999999"}))
	heads := []string{"year", "month", "day", "eventDate", "dateIdentified", "verbatimEventDate", "startDayOfYear", "endDayOfYear", "decimalLatitude", "decimalLongitude",
		"verbatimCoordinates", "verbatimLatitude", "verbatimLongitude", "verbatimSRS", "geodeticDatum", "country", "countryCode", "stateProvince", "verbatimElevation", "verbatimDepth",
		"minimumDepthInMeters", "coordinateUncertaintyInMeters", "scientificName", "specificEpithet", "scientificNameID", "sex", "typeStatus", "license", "bdqval:earliestValidDate", "bdqval:taxonIsMarine"}
	columns := quality.ColumnsOf(heads)
	rapid.Check(t, func(t *rapid.T) {
		var r quality.Row
		columns.Fill(&r, rapid.SliceOfN(words, 0, len(heads)).Draw(t, "cells"))
		first := s.Run(&r, nil)
		for i, again := range s.Run(&r, nil) {
			test := s.Tests()[i]
			if again.Status != first[i].Status || again.Result != first[i].Result || again.Comment == "" {
				t.Fatalf("%s: %+v, then %+v", test.Label, first[i], again)
			}
			checkWords(t, test, again)
		}
	})
}

func checkWords(t *rapid.T, test *quality.Test, r quality.Response) {
	unmet := r.Status == quality.Internal || r.Status == quality.External
	ok := false
	switch test.Type {
	case quality.Validation:
		ok = unmet && r.Result == "" || r.Status == quality.Ran && (r.Result == quality.Compliant || r.Result == quality.NotCompliant)
	case quality.Issue:
		ok = unmet && r.Result == "" || r.Status == quality.Ran && (r.Result == quality.PotentialIssue || r.Result == quality.NotIssue)
	case quality.Measure:
		ok = unmet && r.Result == quality.NotReported || r.Status == quality.Ran && strings.Trim(r.Result, "-0123456789") == ""
	case quality.Amendment:
		var m map[string]string
		ok = unmet || r.Status == quality.NotAmended && r.Result == "" || r.Proposes() && json.Unmarshal([]byte(r.Result), &m) == nil && len(m) == len(r.Changes) && len(m) > 0
	}
	if !ok {
		t.Fatalf("%s answers %+v", test.Label, r)
	}
}

func FuzzRow(f *testing.F) {
	s, err := quality.NewSuite(nil, nil, dates.DayOf(2026, 11, 25))
	if err != nil {
		f.Fatal(err)
	}
	for _, v := range []string{"1987-07-14/15", "P1D/2000", "60°42'N 6°39'E", "Draba nivalis Lilj. var. x", "Holotype of | ", "CC-BY-4.0", "min 10 max 20 ft", "urn:lsid:a:b:c", "2008-W53-7"} {
		f.Add(v)
	}
	var columns quality.Columns
	for _, t := range s.Tests() {
		columns = append(append(columns, t.ActedUpon...), t.Consulted...)
	}
	f.Fuzz(func(t *testing.T, v string) {
		cells := make([]string, len(columns))
		for i := range cells {
			cells[i] = v
		}
		var r quality.Row
		columns.Fill(&r, cells)
		for i, got := range s.Run(&r, nil) {
			if got.Status == "" || got.Comment == "" {
				t.Fatalf("%s: %+v", s.Tests()[i].Label, got)
			}
		}
	})
}

func BenchmarkRow(b *testing.B) {
	s, err := quality.NewSuite(nil, nil, today)
	if err != nil {
		b.Fatal(err)
	}
	r := row(b, "basisOfRecord=PreservedSpecimen|occurrenceID=urn:x:y|scientificName=Ranunculus acris L.|genericName=Ranunculus|specificEpithet=acris|family=Ranunculaceae|kingdom=Plantae|"+
		"eventDate=1987-07-14|year=1987|month=7|day=14|verbatimEventDate=14.vii.1987|country=Norway|countryCode=NO|stateProvince=Hordaland|decimalLatitude=60.7033|decimalLongitude=6.6514|"+
		"geodeticDatum=EPSG:4326|coordinateUncertaintyInMeters=100|verbatimElevation=348 m|dateIdentified=1990|license=https://creativecommons.org/licenses/by/4.0/|typeStatus=isotype|taxonRank=species")
	var out []quality.Response
	b.ReportAllocs()
	for b.Loop() {
		out = s.Run(r, out[:0])
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "rows/s")
}
