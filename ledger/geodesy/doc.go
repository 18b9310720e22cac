// Package geodesy is the mathematics of positions on the earth: ellipsoids,
// the transverse Mercator projection, UTM, UPS, the military grid (MGRS), the
// quarter-degree, British and Irish grids, datums with their published shifts
// to WGS84, and geodesics (distance, destination).
//
// Latitudes and longitudes are in degrees, north and east positive; lengths,
// eastings and northings in metres. The package reads no free text but the
// short references of its grids and the names of datums; the habits of labels
// belong to ledger/places.
//
// The package imports nothing of ours.
package geodesy
