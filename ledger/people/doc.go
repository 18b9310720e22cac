// Package people reads the names of collectors and determiners as they stand
// on labels: teams, initials, titles, and words for none.
//
// It splits a team into persons, takes the collector's number and the dates out
// of the same words, tells expeditions and museums from persons, finds the
// family name of each person, and matches a spelling against the people that
// the museum knows. It decides nothing about who somebody is: two persons may
// write themselves alike, and Find then says that it cannot tell.
//
// The package imports nothing of ours.
package people
