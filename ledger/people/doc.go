// Package people reads the names of collectors and determiners as they stand
// on labels: teams, initials, titles, and words for none.
//
// It splits a team into persons, finds the family name of each, and matches a
// spelling against the people that the museum knows. It decides nothing about
// who somebody is: two persons may write themselves alike, and Find then says
// that it cannot tell.
//
// The package imports nothing of ours.
package people
