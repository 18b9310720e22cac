package reading

import "blotter/ledger"

// Opinions reads the determinations of r and what they amount to, and nothing
// else of it: what a comparison of many versions needs.
func Opinions(r *ledger.Record, c Conventions) *Reading {
	d := &Reading{Record: r}
	NewReader(c).opinions(d)
	return d
}
