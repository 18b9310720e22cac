// Package georeference says how far a point may be from where a plant grew:
// the point-radius method of Wieczorek, Guo & Hijmans (2004) as Chapman &
// Wieczorek, Georeferencing Best Practices (GBIF 2020, version 1.1.1) have it.
// Every share of the error stands by itself, with its reason, so that a radius
// can be explained line by line.
//
// Of takes a position and what the record says of how it was found. ReadOffset
// reads a locality such as "10 km NE of Voss church", and a Gazetteer of named
// places reckons point and radius from it.
//
// How shares go together. Those of a position, of a place and of a distance are
// added: none is known to make up for another. A direction is set against the
// distance by the law of cosines: with the distance d, the sum s of all
// others and the half angle a of the direction, the radius is the side of the
// triangle between d and d+s that lies opposite a (formula from memory,
// Wieczorek et al. 2004; with s = 0 it gives the published 3.90 km of "10 km
// NE"). Two distances at right angles have no share of a direction, and their
// own go together as a right-angled triangle. What a record states as its
// uncertainty is the whole radius, as Darwin Core defines the term, and replaces
// the shares.
//
// Nothing is filled in silently: what nobody stated is a share with that
// reason, or stands in Unsaid.
package georeference
