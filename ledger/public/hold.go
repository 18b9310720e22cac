package public

import (
	"cmp"

	"blotter/ledger"
)

// Why is why a version of a record is withheld, nil when it is not: by today's
// policy, or by that version itself. It costs less than Record.
func (v *View) Why(r *ledger.Record) *Withheld { return v.strictest(r, v.why(r)) }

// Hold makes every version of a record be withheld at least as strictly as w,
// even those that nothing else would: a former version was held so. Unless
// something is stricter, the reason is that of w. It is called before anything
// is asked of the view.
func (v *View) Hold(n ledger.Number, w *Withheld) {
	if v.staff {
		return
	}
	if v.held == nil {
		v.held = map[string]*Withheld{}
	}
	if h := v.held[n.Key()]; h == nil || w.Class > h.Class {
		v.held[n.Key()] = w
	}
}

// strictest is w, or what the record's number is held by when that is stricter.
func (v *View) strictest(r *ledger.Record, w *Withheld) *Withheld {
	n, _ := ledger.NumberOfPath(r.Path)
	h := v.held[cmp.Or(n, ledger.Number(r.Specimen.Text)).Key()]
	if h == nil || w != nil && w.Class > h.Class {
		return w
	}
	return &Withheld{Class: h.Class, Why: h.Why, Category: h.Category, Review: h.Review, Name: h.Name, Private: h.Private}
}
