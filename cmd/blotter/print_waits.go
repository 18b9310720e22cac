package main

import (
	"context"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/disk"
	"blotter/ledger/find"
	"blotter/ledger/reading"
	"blotter/ledger/work"
	"blotter/ledger/work/due"
	"blotter/ledger/work/printed"
	"blotter/render/label"
)

// toPrint is what waits to be printed, as due and status tell it.
type toPrint struct {
	labels []ledger.Number
	slips  []ledger.Number // sheets
	count  int             // slips of these sheets
}

// toPrint is what the sheets ask for. Nothing is told of a paper before it was
// printed for the first time: until then the museum labels by other means.
//   - A label: new material (printed.MayWait) that came in, was gathered since
//     the season before the first printing, or was entered since it.
//   - A slip: of what was entered since the sheet's last printing of slips, or
//     since the museum's first.
func (d *desk) toPrint(ctx context.Context, w *work.Works, load *book.Loader) (*toPrint, error) {
	t := &toPrint{}
	if d.repo == nil {
		return t, nil
	}
	if first, ok := printed.First(w, printed.Labels); ok {
		for e := range w.Book().All() {
			waits, err := d.labelWaits(ctx, w, load, e, first)
			if err != nil {
				return nil, err
			}
			if waits {
				t.labels = append(t.labels, e.Number)
			}
		}
	}
	if first, ok := printed.First(w, printed.Slips); ok {
		s := &slipCount{desk: d, works: w, load: load, first: first, habits: ledger.WithStandard(d.museum)}
		if err := s.all(ctx, t); err != nil {
			return nil, err
		}
	}
	return t, nil
}

// labelWaits reports whether a sheet asks for its label.
func (d *desk) labelWaits(ctx context.Context, w *work.Works, load *book.Loader, e *book.Entry, first printed.Printing) (bool, error) {
	if !printed.MayWait(w, e, d.newFrom()) {
		return false, nil
	}
	if !printed.Asked(w, e, first.Day) {
		state, err := d.stateOf(ctx, first.Revision)
		if state == nil || err != nil {
			return false, err
		}
		blob, err := state(e.Path)
		if err != nil {
			return false, stuck("%v", err)
		}
		if blob != "" {
			return false, nil
		}
	}
	r, err := load.Record(ctx, e)
	if err != nil {
		return false, stuck("read %s: %v", e.Path, err)
	}
	return !printed.HasLabel(r), nil
}

// slipCount counts the slips that wait.
type slipCount struct {
	desk   *desk
	works  *work.Works
	load   *book.Loader
	first  printed.Printing
	habits ledger.Habits
	more   []disk.Entry // to be kept
}

// slipsBucket keeps how many slips a record wants: by its path, the versions
// of it and the settings that this was counted by, and the count.
var slipsBucket = disk.Bucket{Name: "slips", Version: 1}

// all counts those of all sheets. A record that is as it was when its slips
// were printed wants none, and that is seen without reading it.
func (s *slipCount) all(ctx context.Context, t *toPrint) error {
	kept := map[string]string{}
	var wanted []*slipsWanted
	for e := range s.works.Book().All() {
		if e.Fate != "" {
			continue
		}
		w, err := s.wanted(ctx, e)
		if err != nil {
			return err
		}
		if w != nil {
			wanted = append(wanted, w)
		}
	}
	s.desk.cache().View(slipsBucket, func(get func([]byte) []byte) {
		clear(kept)
		for _, w := range wanted {
			kept[w.e.Path] = string(get([]byte(w.e.Path)))
		}
	})
	for _, w := range wanted {
		if err := ctx.Err(); err != nil {
			return err
		}
		n, err := s.count(ctx, w, kept[w.e.Path])
		if err != nil {
			return err
		}
		if n > 0 {
			t.slips, t.count = append(t.slips, w.e.Number), t.count+n
		}
	}
	s.desk.cache().Put(slipsBucket, s.more)
	return nil
}

// slipsWanted is a record that may want slips, and the versions of it that had
// some of them.
type slipsWanted struct {
	e                   *book.Entry
	printed, labelledAt ledger.BlobID
}

func (s *slipCount) wanted(ctx context.Context, e *book.Entry) (*slipsWanted, error) {
	since, label := s.first, printed.Printing{}
	if p, ok := printed.Last(s.works, e.Number, printed.Slips); ok {
		since = p
	}
	if p, ok := printed.Last(s.works, e.Number, printed.Labels); ok {
		label = p
	}
	state, err := s.desk.stateOf(ctx, since.Revision)
	if state == nil || err != nil {
		return nil, err // nobody knows what was printed
	}
	w := &slipsWanted{e: e}
	if w.printed, err = s.desk.blobThen(ctx, since.Revision, e.Path); err != nil || w.printed == e.Blob {
		return nil, err
	}
	w.labelledAt, err = s.desk.blobThen(ctx, label.Revision, e.Path)
	return w, err
}

// count is how many slips one record wants.
func (s *slipCount) count(ctx context.Context, w *slipsWanted, kept string) (int, error) {
	habits := s.habits.Slips.NameChanges.Text + " " + s.habits.Labels.Name.Text
	for _, a := range s.habits.Slips.Annotations {
		habits += " " + a.Text
	}
	key := strings.Join([]string{string(w.e.Blob), string(w.printed), string(w.labelledAt), habits, s.desk.museum.Dates.Order.Text, itoa(reading.Version)}, "\n") + "\n"
	if n, ok := strings.CutPrefix(kept, key); ok {
		return atoi(n), nil
	}
	r, err := s.load.Record(ctx, w.e)
	if err != nil {
		return 0, stuck("read %s: %v", w.e.Path, err)
	}
	var o label.SlipOptions
	if o.Printed, err = s.desk.recordThen(ctx, w.e.Path, w.printed); err != nil {
		return 0, err
	}
	if o.Labelled, err = s.desk.recordThen(ctx, w.e.Path, w.labelledAt); err != nil {
		return 0, err
	}
	n := s.desk.slipsOf(r, o)
	s.more = append(s.more, disk.Entry{Key: []byte(w.e.Path), Value: []byte(key + itoa(n))})
	return n, nil
}

// slipsOf is how many slips a record wants.
func (d *desk) slipsOf(r *ledger.Record, o label.SlipOptions) int {
	in := &label.Input{Record: r, Reading: reading.Opinions(r, reading.ConventionsOf(d.museum)), Museum: d.museum, Habits: ledger.WithStandard(d.museum)}
	return label.CountSlips(in, o)
}

// due is what of it stands on the list of what needs a hand.
func (t *toPrint) due() []due.ToPrint {
	var out []due.ToPrint
	if n := len(t.labels); n > 0 {
		out = append(out, due.ToPrint{Paper: printed.Labels, Noun: "label", Count: n, Of: t.labels})
	}
	if t.count > 0 {
		out = append(out, due.ToPrint{Paper: printed.Slips, Noun: "slip", Count: t.count, Of: t.slips})
	}
	return out
}

// foundPapers are the sheets of a query that asks what was printed.
type foundPapers struct{ unprinted, reprint map[ledger.Number]bool }

// findPapers works out what a query asks of printings.
func (d *desk) findPapers(ctx context.Context, q find.Query, w *work.Works, load *book.Loader) (f foundPapers, err error) {
	if q.Needs(find.Unprinted) {
		waits, err := d.toPrint(ctx, w, load)
		if err != nil {
			return f, err
		}
		f.unprinted = map[ledger.Number]bool{}
		for _, n := range slices.Concat(waits.labels, waits.slips) {
			f.unprinted[n] = true
		}
	}
	if q.Needs(find.Reprint) {
		if d.past == nil && d.opts.text("at") != "" {
			return f, misuse("is:%s is asked of the ledger as it is, not with --at", find.Reprint)
		}
		f.reprint = map[ledger.Number]bool{}
		for _, k := range printKinds() {
			if k.Again == nil {
				continue
			}
			changes, err := d.changedPapers(ctx, k, d.numbers())
			if err != nil {
				return f, err
			}
			for _, c := range changes {
				f.reprint[c.Number] = true
			}
		}
	}
	return f, nil
}
