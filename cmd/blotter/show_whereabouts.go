package main

import (
	"context"
	"reflect"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/work"
)

// placeLines are where a sheet is and what has been done to it, as far as works
// say: of a sheet that no work names, nothing.
func (d *desk) placeLines(ctx context.Context, n ledger.Number) ([]string, error) {
	on, err := d.onDay()
	if err != nil {
		return nil, err
	}
	at := d.opts.text("at")
	if at == "" && !d.ordersCabinets() && len(d.workFiles()) == 0 {
		return nil, nil // no work names it: the book need not be read
	}
	w, err := d.worksAt(ctx, at)
	if err != nil {
		return nil, err
	}
	filed := d.filed(w, n, on)
	if len(w.HistoryOf(n)) == 0 {
		return filed, nil
	}
	s := w.State(n, on)
	words := s.Words()
	if s.By != nil {
		words += " (" + string(s.By.File.Number) + ")"
	}
	out := []string{words}
	if len(s.Done) > 0 {
		var done []string
		for _, x := range s.Done {
			done = append(done, wasDone(x))
		}
		out = append(out, "done: "+strings.Join(done, "; "))
	}
	return append(out, filed...), nil
}

// filed is the line that says where a sheet is filed, in a museum whose
// habits say how its cabinets are ordered.
func (d *desk) filed(w *work.Works, n ledger.Number, on dates.Day) []string {
	if !d.ordersCabinets() {
		return nil
	}
	e := w.Book().Find(n)
	if e == nil || e.Fate != "" {
		return nil
	}
	p, ok := shelvesOf(w).Of(e)
	if !ok {
		return nil
	}
	said := ""
	if lines := filedLines(w, n, on); len(lines) > 0 {
		said = lines[len(lines)-1].Line.To.Text
	}
	return []string{filedLine(p, said)}
}

// ordersCabinets reports whether the museum's habits say how its cabinets are
// ordered.
func (d *desk) ordersCabinets() bool { return !reflect.ValueOf(d.museum.Habits.Filing).IsZero() }

// wasDone is one thing that was done to a sheet: treated 6 November 2026
// (passed).
func wasDone(x work.Done) string {
	words := x.What + " " + dates.Words(x.Day)
	if x.Result != "" {
		words += " (" + x.Result + ")"
	}
	return words
}
