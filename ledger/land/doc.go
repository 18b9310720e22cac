// Package land knows the countries of the world, their first-level regions
// and where both lie: names and codes of ISO 3166, and boundaries as Natural
// Earth draws them (README.md says from where and how they were packed).
//
// Boundaries are drawn at a scale of 1:10 million and simplified, about as
// they were in 2018, and show who holds a place, not who claims it; a coast
// may be off by a kilometre or two, a small island may be missing. So an
// answer here is a reason to look again and nothing more: no record is ever
// changed by it. Distances are in metres on the WGS84 ellipsoid, latitudes
// and longitudes in degrees, north and east positive.
//
// Nothing is decoded when the program starts: names at the first question
// about a name, a boundary when a point comes near it. All functions may be
// called by several goroutines at once.
package land
