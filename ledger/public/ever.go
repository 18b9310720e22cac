package public

import (
	"context"

	"blotter/ledger/history"
)

// EverWithheld reports whether any record is withheld, now or in any version
// of the history h. The ids of such a ledger's commits are computed from
// withheld words, so they are not for the public. read brings the versions.
func (v *View) EverWithheld(ctx context.Context, h *history.View, read history.Read) (bool, error) {
	if len(v.withheld) > 0 {
		return true, nil
	}
	for _, n := range h.Numbers() {
		now := v.full.Find(n)
		for _, rv := range h.Borne(n) {
			if rv.Blob == "" || now != nil && rv.Blob == now.Blob {
				continue
			}
			x, err := read(ctx, n, rv.Blob)
			if err != nil {
				return false, err
			}
			if x.Record != nil && v.why(x.Record) != nil {
				return true, nil
			}
		}
	}
	return false, nil
}
