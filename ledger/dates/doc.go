// Package dates reads the dates that stand on labels and slips, in the words
// and habits of eighteen languages, in ISO 8601-1 and in EDTF (levels 0 and 1).
//
// A reading is a first and a last day: "July 1987" is the 31 days of that
// month. What can be read in two ways, such as 3/4/1934 or 14.vii.34, is the
// span of all of them with a warning that names each; what cannot be read,
// such as 30 February, is a warning and no reading. Nothing that may truly
// stand on a label is an error, and the words are never changed.
//
// Where no standard fixes the days, they are taken wide: a season is the whole
// year (its months depend on the hemisphere), early July its first half, the
// 19th century 1800 to 1900. Times of day are passed over.
//
// The calendar is the proleptic Gregorian one of ISO 8601-1:2019. Dates are
// read as written, but for those that say "old style" (o.s.), which are
// counted on from the Julian calendar; OldStyle tells where and until when
// others may need it.
//
// How a text is read: readISO takes the standard forms; else lex makes tokens
// of it by the tables of words (one language a table), and a parser reads them
// in every order of day and month, and in every century, that the options
// leave open, each time from end to end, so that both ends of a span keep one
// habit. What is left over is explained.
//
// The package imports nothing of ours and reads no clock.
package dates
