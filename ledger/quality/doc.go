// Package quality runs the data quality tests of the TDWG draft standard
// (Biodiversity Data Quality, "bdq") on Darwin Core rows.
//
// Each of the 110 tests is one small function, listed in the one table of
// table.go under the standard's own label. A test looks at one row and answers
// with a Response: a status, a result and a plain reason. Nothing is changed;
// an amendment only proposes. What the words of a row mean is asked of the
// readers (ledger/dates, ledger/places, ledger/names, ledger/land).
//
// Source of the tests: TDWG, github.com/tdwg/bdq, commit bdc0930, CC BY 4.0
// (labels, terms, parameters and the meaning of each expected response). The
// descriptions here are our own words.
//
// Tests that ask an outside taxonomic service whether a name exists answer
// EXTERNAL_PREREQUISITES_NOT_MET, after their own look at the row: blotter
// works without a network.
package quality
