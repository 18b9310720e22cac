// Package places reads positions and lengths as they stand on labels:
// latitude and longitude in decimal degrees, degrees and minutes, degrees,
// minutes and seconds, ISO 6709, UTM, MGRS and a few grids more; elevations,
// depths, distances and accuracies in metres, feet and older units.
//
// A reading says how closely the words themselves give the value, in metres;
// the words are never changed, swapped or mended. Position.OnWGS84 applies a
// datum.
//
// The package imports ledger/geodesy alone.
package places
