// Package shelf works out where every specimen of a ledger lies when all are
// filed as the museum's settings say (habits.filing of FORMAT.md): the order of
// the covers, folders and cabinets, what is to be moved when names change, and
// in which order to save things. It is pure: two calls with the same book give
// the same shelves.
//
// A cover is the paper around what lies together under one name (and region,
// where regions are parted); it takes as many folders as its sheets need.
// Folders are counted within their genus, so that one more elsewhere does not
// change their numbers.
package shelf
