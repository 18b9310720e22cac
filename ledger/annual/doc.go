// Package annual works out a museum's figures for one year from a ledger: what
// was there, what came and went, what was done, what waits. It is pure: the
// version of the ledger and the day are passed in, and the same ones give the
// same figures. What is counted, what is estimated and what has a record are
// kept apart, and so are specimens, sheets and gatherings.
package annual
