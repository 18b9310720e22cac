package quality

import (
	"strings"
	"sync"
)

// Type is what kind of answer a test gives.
type Type string

// The types of the standard.
const (
	Validation Type = "Validation" // COMPLIANT or NOT_COMPLIANT
	Issue      Type = "Issue"      // POTENTIAL_ISSUE or NOT_ISSUE
	Amendment  Type = "Amendment"  // proposes values
	Measure    Type = "Measure"    // counts
)

// Parameter is a term whose value steers a test, and the standard's default.
type Parameter struct {
	Name    Term
	Default string
}

// Test is one test of the standard.
type Test struct {
	Label      string
	Type       Type
	ActedUpon  []Term
	Consulted  []Term
	Parameters []Parameter
	Says       string // what it asks, in one sentence
	Authority  *Authority

	run func(in *input) Response
}

// Service reports whether the test asks an outside service that blotter does
// not ask: it then answers EXTERNAL_PREREQUISITES_NOT_MET.
func (t *Test) Service() bool { return t.Authority != nil && t.Authority.Service }

// Tests are all tests, in the order of the standard's list.
func Tests() []*Test { return all }

// aliases are labels under which published validation data or earlier drafts
// know a test, folded as foldLabel does; other differences of that kind are
// only in hyphens and underlines.
var aliases = map[string]string{
	"VALIDATIONCOORDINATESTERRESTRIALMARINE":    "VALIDATION_COORDINATESTERRESTRIALMARINE_CONSISTENT",
	"VALIDATIONCOORDINATESZERO":                 "VALIDATION_COORDINATES_NOTZERO",
	"VALIDATIONEVENTDATECONSISTENT":             "VALIDATION_EVENT_CONSISTENT",
	"VALIDATIONLICENCESTANDARD":                 "VALIDATION_LICENSE_STANDARD",
	"VALIDATIONLICENCENOTEMPTY":                 "VALIDATION_LICENSE_NOTEMPTY",
	"AMENDMENTLICENCESTANDARDIZED":              "AMENDMENT_LICENSE_STANDARDIZED",
	"VALIDATIONOCCUURENCESTATUSNOTEMPTY":        "VALIDATION_OCCURRENCESTATUS_NOTEMPTY",
	"ISSUEDATAGENERALIZATIONSNOTNOTEMPTY":       "ISSUE_DATAGENERALIZATIONS_NOTEMPTY",
	"MEASUREEVENTDATEPRECISIONINSECONDS":        "MEASURE_EVENTDATE_DURATIONINSECONDS",
	"MEASUREVALIDATIONTESTSPREREQUISITENOTMET":  "MEASURE_VALIDATIONTESTS_PREREQUISITESNOTMET",
	"VALIDATIONCOORDINATECOUNTRYCODECONSISTENT": "VALIDATION_COORDINATESCOUNTRYCODE_CONSISTENT",
}

var byLabel = sync.OnceValue(func() map[string]*Test {
	m := make(map[string]*Test, len(all)+len(aliases))
	for _, t := range all {
		m[foldLabel(t.Label)] = t
	}
	for alias, label := range aliases {
		m[alias] = m[foldLabel(label)]
	}
	return m
})

// foldLabel keeps the letters of a label, in upper case.
func foldLabel(s string) string {
	return strings.Map(func(c rune) rune {
		switch {
		case c >= 'a' && c <= 'z':
			return c - 'a' + 'A'
		case c >= 'A' && c <= 'Z':
			return c
		}
		return -1
	}, s)
}

// TestOf is the test of that label; letter case, hyphens and underlines do not
// count, and labels of earlier drafts are known.
func TestOf(label string) (*Test, bool) {
	t := byLabel()[foldLabel(label)]
	return t, t != nil
}
