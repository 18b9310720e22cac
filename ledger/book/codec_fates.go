package book

import "blotter/ledger/dates"

func (w *writer) fates(list []Fated) {
	w.uint(uint64(len(list)))
	for _, f := range list {
		w.common(f.Is)
		w.common(f.To)
		w.int(int64(f.On))
		w.uint(shared(f.Dated))
	}
}

func (r *reader) fates() []Fated {
	n := r.count()
	if n == 0 {
		return nil
	}
	out := make([]Fated, n)
	for i := range out {
		out[i] = Fated{r.text(), r.text(), dates.Day(r.int()), r.uint() != 0}
	}
	return out
}
