package render

import (
	"bytes"
	"cmp"
	"context"
	"slices"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/disk"
	"blotter/ledger/public"
)

// Changes is what changed in the published records of b, month by month,
// newest first. read brings the record of an entry.
func (h *Chronicle) Changes(ctx context.Context, b *public.Book, read ReadSheet) ([]Month, error) {
	var events []placed
	var keep []disk.Entry
	kept := h.kept(b)
	for e := range b.All() {
		if e.Stage != ledger.Full {
			continue
		}
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		list, fresh, err := h.eventsOf(ctx, e, kept[e.Number], read)
		if err != nil {
			return nil, err
		}
		events = append(events, list...)
		if fresh != nil {
			keep = append(keep, disk.Entry{Key: []byte(e.Number), Value: fresh})
		}
	}
	h.Cache.Put(eventsBucket, keep)
	h.same = nil
	slices.SortStableFunc(events, func(a, b placed) int {
		return cmp.Or(h.days[b.Place].Compare(h.days[a.Place]), cmp.Compare(b.Place, a.Place), cmp.Compare(a.Number, b.Number))
	})
	return h.months(events), nil
}

// kept is what the cache has of records with more than one revision.
func (h *Chronicle) kept(b *public.Book) map[ledger.Number][]byte {
	var out map[ledger.Number][]byte
	h.Cache.View(eventsBucket, func(get func([]byte) []byte) {
		out = map[ledger.Number][]byte{}
		for e := range b.All() {
			if v := get([]byte(e.Number)); v != nil {
				out[e.Number] = bytes.Clone(v)
			}
		}
	})
	return out
}

// placed is an event and the place of its commit in the view.
type placed struct {
	Event
	Place int
}

// months groups events, which are in their order.
func (h *Chronicle) months(events []placed) []Month {
	all := make([]Event, len(events))
	for i := range events {
		all[i] = events[i].Event
	}
	var out []Month
	for from := 0; from < len(events); {
		day := h.days[events[from].Place]
		to := from + 1
		for to < len(events) && h.days[events[to].Place].Equal(day) {
			to++
		}
		y, m, _ := day.Date()
		if n := len(out); n == 0 || out[n-1].Year != y || out[n-1].Month != int(m) {
			out = append(out, Month{Year: y, Month: int(m)})
		}
		last := &out[len(out)-1]
		last.Days = append(last.Days, Day{Date: day, Events: all[from:to:to]})
		from = to
	}
	return out
}

func (h *Chronicle) place(e *book.Entry, place int, d *Deed) placed {
	return placed{Event{Number: e.Number, Revision: &h.commits[place], Deed: d}, place}
}

// entered is that a record was entered as it stands: one Deed for all that
// say the same.
func (h *Chronicle) entered(e *book.Entry) *Deed {
	key := [2]string{e.Name, e.By}
	d := h.same[key]
	if d == nil {
		if h.same == nil {
			h.same = map[[2]string]*Deed{}
		}
		d = &Deed{Kind: New, Now: e.Name, By: e.By}
		h.same[key] = d
	}
	return d
}
