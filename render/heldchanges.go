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
func (h *Chronicle) heldChanges(ctx context.Context, e *book.Entry, shown *history.Account, k *told) error {
	now, err := h.Full(ctx, e.Number, e.Blob)
	if err != nil || now.Record == nil {
		return err
	}
	full, err := h.View.AccountOf(ctx, e.Number, e.Blob, now.Record, h.Conventions, h.Full)
	if err != nil {
		return err
	}
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
	return nil
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
