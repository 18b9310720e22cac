package main

import (
	"context"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/shelf"
	"blotter/ledger/work"
)

// shelves are the cabinets of one version of the ledger, every specimen in its
// place.
func shelvesOf(w *work.Works) *shelf.Shelves {
	b := w.Book()
	return shelf.Fill(b, shelf.NewOrder(w.Habits.Filing, b.Museum), nil)
}

// moving is what has to be carried from one cover to another between two
// versions of the ledger.
type moving struct {
	before, after *shelf.Shelves
	works         *work.Works // of after
	pull          []shelf.Move
	away          []awayMove // not in the cabinet now: on loan, in the freezer
	out           []shelf.Move
	done          int // filed since
}

// awayMove is a move that waits for the sheet to come back.
type awayMove struct {
	shelf.Move
	where string
}

// movingBetween are the moves between two versions, as they are on a day. A
// sheet that a filed line was written for in between, with the new cover or
// without any place, is moved already.
func movingBetween(before, after *work.Works, on dates.Day) *moving {
	m := &moving{before: shelvesOf(before), after: shelvesOf(after), works: after}
	for _, move := range shelf.Moves(m.before, m.after, after.Book()) {
		n := move.Now.Number
		state, lines := after.State(n, on), filedLines(after, n, on)
		switch {
		case move.Out:
			m.out = append(m.out, move)
		case len(lines) > len(filedLines(before, n, on)) && filesInto(lines[len(lines)-1], move.To):
			m.done++
		case state.Where != work.Cabinet && state.Where != work.Missing:
			m.away = append(m.away, awayMove{move, state.Words()})
		default:
			m.pull = append(m.pull, move)
		}
	}
	return m
}

// filedLines are the events by which a sheet was filed up to a day.
func filedLines(w *work.Works, n ledger.Number, on dates.Day) (lines []*work.Event) {
	for _, e := range w.HistoryOf(n) {
		if e.Verb == "filed" && e.Day <= on {
			lines = append(lines, e)
		}
	}
	return lines
}

// filesInto reports whether a filed line is the move to a place: it says the
// new cover, or says no place at all.
func filesInto(e *work.Event, p shelf.Place) bool {
	return e.Line.To.Text == "" || saysPlace(e.Line.To.Text, p)
}

// movesSince are the moves since --since, to what the ledger says now.
func (d *desk) movesSince(ctx context.Context) (*moving, error) {
	since := d.opts.text(flagSince.Name)
	if since == "" {
		return nil, misuse("since when? --since is missing").try("--since 2026-11-01, --since published, or a revision of: blotter changes")
	}
	before, err := d.worksAt(ctx, since)
	if err != nil {
		return nil, err
	}
	after, err := d.works(ctx)
	if err != nil {
		return nil, err
	}
	return movingBetween(before, after, d.todayAsDay()), nil
}
