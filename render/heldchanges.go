package render

import (
	"context"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/history"
	"blotter/ledger/public"
)

// heldChanges adds to what is told of a withheld record that words of it were
// corrected that everybody sees the same sentence for: which part of the
// record, never what stood there.
func heldChanges(full, shown *history.Account, k *told) {
	for i, c := range full.Changes {
		if i >= len(shown.Changes) || shown.Changes[i].Place != c.Place || c.Kinds.Has(history.New) {
			continue
		}
		groups := heldGroups(c, shown.Changes[i])
		if len(groups) == 0 {
			continue
		}
		for j := range k.Events {
			if v := &k.Events[j]; v.Revision == i && (v.Kind == Noted || v.Kind == Corrected) {
				v.Kind, v.Withheld = Corrected, groups
			}
		}
		for _, g := range groups {
			k.Corrections = append(k.Corrections, toldCorrection{Revision: i, Field: g, Withheld: true})
		}
	}
	slices.SortStableFunc(k.Corrections, func(a, b toldCorrection) int { return b.Revision - a.Revision })
}

// fullAccount is what the versions of a withheld record did that nobody but
// the staff sees; nil when the record cannot be read.
func (h *Chronicle) fullAccount(ctx context.Context, e *book.Entry) (*history.Account, error) {
	now, err := h.Full(ctx, e.Number, e.Blob)
	if err != nil || now.Record == nil {
		return nil, err
	}
	return h.View.AccountOf(ctx, e.Number, e.Blob, now.Record, h.Conventions, h.Full)
}

// dropDerived takes out of what is shown the fields that nobody changed: where
// a mark of sensitivity was set or altered, the sentences and squares that
// stand for what is withheld come, go and grow with it.
func dropDerived(shown, full *history.Account) {
	if full == nil {
		return
	}
	for i := range full.Changes {
		c := &full.Changes[i]
		marked := slices.ContainsFunc(c.Fields, func(f history.FieldChange) bool { return strings.HasPrefix(f.Path, "sensitive.") })
		if !marked || i >= len(shown.Changes) || shown.Changes[i].Place != c.Place {
			continue
		}
		shown.Changes[i].Fields = slices.DeleteFunc(slices.Clone(shown.Changes[i].Fields), func(s history.FieldChange) bool {
			return !slices.ContainsFunc(c.Fields, func(f history.FieldChange) bool { return f.Path == s.Path })
		})
	}
}

// heldGroups are the parts of a record of which a change altered words that
// are not among those shown of it.
func heldGroups(full, shown history.Change) []string {
	var out []string
	for _, f := range full.Fields {
		to := public.ShownTo(ledger.RecordKind, f.Path)
		seen := slices.ContainsFunc(shown.Fields, func(s history.FieldChange) bool { return s.Path == f.Path })
		if f.Before == "" || seen || to == public.Everyone || to == public.Staff {
			continue
		}
		group, _, _ := strings.Cut(f.Path, ".")
		if strings.HasPrefix(f.Path, "read.position.") || strings.HasPrefix(f.Path, "read.elevation.") {
			group = "place"
		}
		if !slices.Contains(out, group) {
			out = append(out, group)
		}
	}
	return out
}

// reasonOf is why a change was made. Of a withheld record it is not told: it
// may quote the place.
func reasonOf(c history.Change, held bool) string {
	if held {
		return ""
	}
	return c.Reason
}
