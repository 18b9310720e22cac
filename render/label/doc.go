// Package label sets records on paper: the specimen label, slips, type
// labels, packets and covers. A record becomes a paper.Block of an exact
// size; what cannot be set is refused with the reason, never cut. The words on
// a label are the record's, as written, and the fixed words of a Language; no
// others. It reads no file and no clock.
package label
