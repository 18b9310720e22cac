package quality_test

import (
	"testing"

	"blotter/ledger/quality"
)

const (
	yes   = "COMPLIANT"
	no    = "NOT_COMPLIANT"
	unmet = "INTERNAL_PREREQUISITES_NOT_MET"
	as    = "NOT_AMENDED"
)

// Cases read off the words of the standard, test by test; the reason is the
// sentence or the clause of its expected response or its notes.
func TestWordsOfTheStandard(t *testing.T) {
	for _, c := range []struct{ label, row, want, reason string }{
		{"VALIDATION_COUNTRY_FOUND", "country=High seas", no, "high seas will fail this test"},
		{"VALIDATION_COUNTRY_FOUND", "country=Antarctica", no, "the administrative level is nation; a continent is none"},
		{"VALIDATION_COUNTRY_FOUND", "country=Ceylon", yes, "historical representations of that nation (where boundaries are same)"},
		{"VALIDATION_COUNTRY_FOUND", "country=Czechoslovakia", no, "where boundaries are same: these are not"},
		{"VALIDATION_COUNTRY_FOUND", "country=Australia; New Zealand", no, "multiple values will fail"},
		{"VALIDATION_COUNTRY_FOUND", "country=Australia ", no, "trailing white space"},
		{"VALIDATION_COUNTRYCOUNTRYCODE_CONSISTENT", "country=High seas|countryCode=XZ", no, "with XZ, country should be empty"},
		{"VALIDATION_COUNTRYCOUNTRYCODE_CONSISTENT", "countryCode=XZ", unmet, "either of the terms is empty"},
		{"VALIDATION_COUNTRYSTATEPROVINCE_UNAMBIGUOUS", "country=High seas", no, "an ISO 3166 country-like administrative entity"},
		{"VALIDATION_COUNTRYSTATEPROVINCE_UNAMBIGUOUS", "country=Russia|stateProvince=Moscow Oblast", yes, "a single result: the oblast, not the city"},
		{"VALIDATION_COORDINATESCOUNTRYCODE_CONSISTENT", "decimalLatitude=0|decimalLongitude=0|countryCode=ZZ", unmet, "an unknown country has no boundary to fall within"},
		{"VALIDATION_COORDINATESCOUNTRYCODE_CONSISTENT", "decimalLatitude=181|decimalLongitude=0|countryCode=MX", unmet, "empty or invalid"},
		{"VALIDATION_COORDINATESSTATEPROVINCE_CONSISTENT", "decimalLatitude=-42.85|decimalLongitude=146.75|stateProvince=Taswegion", unmet, "stateProvince not found in the authority"},
		{"AMENDMENT_COORDINATES_TRANSPOSED", "decimalLatitude=135.87|decimalLongitude=25.46|countryCode=AU", `{"dwc:decimalLatitude":"-25.46","dwc:decimalLongitude":"135.87"}`, "transposed, and a sign reversed"},
		{"AMENDMENT_COORDINATES_FROM_VERBATIM", "verbatimCoordinates=23.712S 139.92E|verbatimLatitude=-24.712|verbatimLongitude=139.92", as, "should check the consistency of these and not amend if inconsistent"},
		{"AMENDMENT_COORDINATES_FROM_VERBATIM", "verbatimLatitude=-23.712|verbatimLongitude=139.92|verbatimSRS=EPSG:28354", as, "transformations should not be made"},
		{"AMENDMENT_COORDINATES_FROM_VERBATIM", "verbatimLatitude=-23.712", unmet, "verbatimCoordinates and one of the two are empty"},
		{"AMENDMENT_EVENTDATE_STANDARDIZED", "eventDate=2021-10-28 14:05", `{"dwc:eventDate":"2021-10-28T14:05"}`, "to capture the original: the time of day too"},
		{"AMENDMENT_EVENTDATE_STANDARDIZED", "eventDate=2021/10/28 9:05Z", `{"dwc:eventDate":"2021-10-28T09:05Z"}`, "to capture the original: the time of day too"},
		{"AMENDMENT_EVENTDATE_STANDARDIZED", "eventDate=2021_06_03T24:00", as, "unambiguous: 24:00 of that day is the next"},
		{"AMENDMENT_EVENTDATE_STANDARDIZED", "eventDate=1963-03-08T14:67-0600", as, "there is no such time"},
		{"AMENDMENT_EVENTDATE_STANDARDIZED", "eventDate=1880-05-08/10", as, "is a properly formatted date already"},
		{"AMENDMENT_EVENTDATE_STANDARDIZED", "eventDate=10/28/2021", `{"dwc:eventDate":"2021-10-28"}`, "no month 28: unambiguous"},
		{"AMENDMENT_EVENTDATE_STANDARDIZED", "eventDate=0000-00-00", as, "unambiguous: a database's nothing"},
		{"AMENDMENT_EVENTDATE_STANDARDIZED", "eventDate=1963-03-08/", as, "unambiguous: one end is open"},
		{"AMENDMENT_EVENTDATE_FROM_VERBATIM", "verbatimEventDate=29.II.1900", as, "1900 is no leap year, and no letter is a figure for that"},
		{"AMENDMENT_EVENTDATE_FROM_VERBATIM", "verbatimEventDate=10/??/1932", as, "unambiguous: not all days from January to December"},
		{"AMENDMENT_EVENTDATE_FROM_VERBATIM", "verbatimEventDate=XX DEC 1932", `{"dwc:eventDate":"1932-12"}`, "the original precision should be retained"},
		{"AMENDMENT_EVENTDATE_FROM_VERBATIM", "verbatimEventDate=Augut 21 1891", `{"dwc:eventDate":"1891-08-21"}`, "unambiguous: one month only is spelt so nearly"},
		{"AMENDMENT_EVENTDATE_FROM_YEARSTARTDAYOFYEARENDDAYOFYEAR", "year=2021|startDayOfYear=5|endDayOfYear=5", as, "startDayOfYear is less than endDayOfYear"},
		{"AMENDMENT_EVENT_FROM_EVENTDATE", "eventDate=2021-01/2021-03", `{"dwc:year":"2021"}`, "within a single year, not within a month, no precision of a day"},
		{"AMENDMENT_EVENT_FROM_EVENTDATE", "eventDate=2024-02-30", unmet, "an invalid value according to ISO 8601"},
		{"AMENDMENT_DAY_STANDARDIZED", "day=IV", as, "roman numerals: as this is not standard"},
		{"AMENDMENT_MONTH_STANDARDIZED", "month=XIII", as, "in the range I-XII"},
		{"AMENDMENT_MINDEPTHMAXDEPTH_FROM_VERBATIM", "verbatimDepth=surface", as, "the units must be specified"},
		{"AMENDMENT_MINDEPTHMAXDEPTH_FROM_VERBATIM", "verbatimDepth=150-80 m", as, "unambiguously: 80 to 150 or 150 to 180"},
		{"AMENDMENT_MINDEPTHMAXDEPTH_FROM_VERBATIM", "verbatimDepth=10 m|maximumDepthInMeters=x", unmet, "either is not empty"},
		{"AMENDMENT_MINELEVATIONMAXELEVATION_FROM_VERBATIM", "verbatimElevation=sea level", as, "the units must be specified"},
		{"AMENDMENT_MINELEVATIONMAXELEVATION_FROM_VERBATIM", "verbatimElevation=1234 ft", `{"dwc:minimumElevationInMeters":"376.1232","dwc:maximumElevationInMeters":"376.1232"}`, "not adjusting the number of significant digits"},
		{"VALIDATION_DATEIDENTIFIED_INRANGE", "dateIdentified=1963-03-08|eventDate=1963-03-08T23:00-0600", yes, "overlaps: the same day as written"},
		{"VALIDATION_DATEIDENTIFIED_INRANGE", "dateIdentified=1963-03-08T14:07Z|eventDate=1963-03-08T14:08Z", no, "neither overlaps nor is later"},
		{"VALIDATION_DATEIDENTIFIED_INRANGE", "dateIdentified=1963-03-08T22:00-0600|eventDate=1963-03-09T04:00Z", yes, "the same moment in two zones"},
		{"VALIDATION_DATEIDENTIFIED_INRANGE", "dateIdentified=1963|eventDate=1960/1970", yes, "overlaps"},
		{"VALIDATION_ENDDAYOFYEAR_INRANGE", "endDayOfYear=366|eventDate=1951-12-30/1952-01-05", yes, "the end year is a leap year"},
		{"VALIDATION_ENDDAYOFYEAR_INRANGE", "endDayOfYear=x", no, "an integer; only 366 without a year is unmet"},
		{"VALIDATION_EVENTDATE_INRANGE", "eventDate=1582", no, "entirely within the range, which begins in November"},
		{"VALIDATION_EVENT_CONSISTENT", "eventDate=1981-12-30/1982-01-03|startDayOfYear=364|endDayOfYear=3", yes, "start and end days of the range; no year is given"},
		{"VALIDATION_EVENT_CONSISTENT", "eventDate=1981|startDayOfYear=1", no, "a precision of one day or finer"},
		{"VALIDATION_DAY_INRANGE", "day=15|month=13", yes, "between 1 and 28 inclusive, whatever the month"},
		{"VALIDATION_DAY_INRANGE", "day=40|month=x", no, "only 29 to 31 need the month"},
		{"VALIDATION_DECIMALLATITUDE_INRANGE", "decimalLatitude=NaN", unmet, "not interpretable as a number"},
		{"VALIDATION_DECIMALLATITUDE_INRANGE", "decimalLatitude=4.5e1", yes, "interpretable as a number"},
		{"VALIDATION_DECIMALLATITUDE_INRANGE", "decimalLatitude=4,5", unmet, "a comma is no decimal point"},
		{"VALIDATION_COORDINATES_NOTZERO", "decimalLatitude=0.0|decimalLongitude=-0", no, "0.0 is 0"},
		{"VALIDATION_MAXELEVATION_INRANGE", "maximumElevationInMeters=8850", yes, "inclusive"},
		{"VALIDATION_MAXDEPTH_INRANGE", "maximumDepthInMeters=200|bdqval:maximumValidDepthInMeters=100", no, "the row's own limit"},
		{"VALIDATION_POLYNOMIAL_CONSISTENT", "scientificName=Hakea decurrens ssp. Aff. physocarpa|infraspecificEpithet=physocarpa", yes, "the terminal epithet, excluding any rank designation"},
		{"VALIDATION_POLYNOMIAL_CONSISTENT", "scientificName=Hakea decurrens subsp. physocarpa var. alba|infraspecificEpithet=physocarpa", no, "the lowest or terminal epithet"},
		{"VALIDATION_POLYNOMIAL_CONSISTENT", "scientificName=Hakea decurrens W.R.Barker|infraspecificEpithet=barker", no, "an author is no epithet"},
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
