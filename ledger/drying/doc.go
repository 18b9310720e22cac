// Package drying has the arithmetic of the press: on which days to change
// papers and to test by hand, when a load is usually dry, what a series of
// weighings says of it, how a stack is built and what a trip must carry.
//
// It knows no figures of its own: days, factors and thicknesses come in
// Settings, from the museum's settings, whose standard values and their sources
// SETTINGS.md lists. It gives days and weights, and the museum's words back; no
// plant is dry because this package says so: the hand that tests it decides.
//
// Days are counted from the day of pressing, day 0; masses are grams,
// thicknesses millimetres, times of weighings days.
//
// The package imports ledger/dates for days and ledger/distribution for
// Student's t; it reads no clock.
package drying
