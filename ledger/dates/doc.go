// Package dates reads the dates that stand on labels and slips.
//
// A reading is a first and a last day: "July 1987" is the 31 days of that
// month. What can be read in two ways, such as 3/4/1934, is the span of all
// of them with a warning that names each; what cannot be read, such as 30
// February, is a warning and no reading. Nothing that may truly stand on a
// label is an error, and the words are never changed.
//
// The calendar is the proleptic Gregorian one of ISO 8601-1:2019. Old-style
// dates (Russia before 1918, Greece before 1923) are read as written.
//
// The package imports nothing of ours and reads no clock.
package dates
