package reading

import "blotter/ledger"

// Opinions reads the determinations of r and what they amount to, and nothing
// else of it: what a comparison of many versions needs.
func Opinions(r *ledger.Record, c Conventions) *Reading { return NewReader(c).Opinions(r) }

// Opinions is the function of that name for record after record.
func (x *Reader) Opinions(r *ledger.Record) *Reading {
	d := &Reading{Record: r}
	x.opinions(d)
	return d
}
