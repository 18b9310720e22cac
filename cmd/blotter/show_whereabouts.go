package main

import (
	"context"
	"reflect"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/shelf"
	"blotter/ledger/work"
	"blotter/ledger/work/printed"
)

// whereabouts are where a sheet is and what has been done to it, as far as
// works say, and where it is filed, in a museum whose habits say how its
// cabinets are ordered. nil: nothing is known of it.
type whereabouts struct {
	is    *work.State // nil: no work names it
	filed *shelf.Place
	said  string // where the last filed line put it

	papers []printed.Printing // the last of each
}

// whereabouts of one sheet on the day of --on, as --at has it.
func (d *desk) whereabouts(ctx context.Context, n ledger.Number) (*whereabouts, error) {
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
	told := &whereabouts{}
	if len(w.HistoryOf(n)) > 0 {
		s := w.State(n, on)
		told.is, told.papers = &s, printed.Papers(w, n, on)
	}
	e := w.Book().Find(n)
	if !d.ordersCabinets() || e == nil || e.Fate != "" {
		return told, nil
	}
	if d.shelved == nil || d.shelvedOf != w {
		d.shelved, d.shelvedOf = shelvesOf(w), w
	}
	if p, ok := d.shelved.Of(e); ok {
		told.filed = &p
		if lines := filedLines(w, n, on); len(lines) > 0 {
			told.said = lines[len(lines)-1].Line.To.Text
		}
	}
	return told, nil
}

// lines are what show prints of it.
func (t *whereabouts) lines() []string {
	if t == nil {
		return nil
	}
	var out []string
	if s := t.is; s != nil {
		words := s.Words()
		if s.By != nil {
			words += " (" + string(s.By.File.Number) + ")"
		}
		out = append(out, words)
		var done []string
		for _, x := range s.Done {
			if x.What != "printed" {
				done = append(done, wasDone(x))
			}
		}
		if len(done) > 0 {
			out = append(out, "done: "+strings.Join(done, "; "))
		}
		for _, p := range t.papers {
			out = append(out, p.Words()+" ("+string(p.Work)+")")
		}
	}
	if t.filed != nil {
		out = append(out, filedLine(*t.filed, t.said))
	}
	return out
}

// stateTold is the state of a sheet for programs.
type stateTold struct {
	Where work.Place        `json:"where"`
	Words string            `json:"words"`
	At    string            `json:"at,omitempty"`
	Since string            `json:"since,omitempty"`
	Work  ledger.WorkNumber `json:"work,omitempty"` // by which it came there
	Done  []doneTold        `json:"done"`
}

// doneTold is one thing that was done to a sheet.
type doneTold struct {
	What   string            `json:"what"`
	Day    string            `json:"day"`
	Result string            `json:"result,omitempty"`
	Work   ledger.WorkNumber `json:"work"`
}

// printedTold is the last printing of one paper, for programs.
type printedTold struct {
	Paper    string            `json:"paper"`
	Day      string            `json:"day"`
	Revision string            `json:"revision,omitempty"` // of the ledger that it was printed from
	Work     ledger.WorkNumber `json:"work"`
}

func (t *whereabouts) printed() []printedTold {
	if t == nil {
		return nil
	}
	var out []printedTold
	for _, p := range t.papers {
		out = append(out, printedTold{p.Paper, p.Day.String(), p.Revision, p.Work})
	}
	return out
}

// filedTold is where a sheet is filed, for programs.
type filedTold struct {
	Cabinet string `json:"cabinet"`
	Family  string `json:"family,omitempty"`
	Cover   string `json:"cover"`
	Folder  int    `json:"folder"` // in the genus, from 1
	Sheet   int    `json:"sheet"`  // in the folder, from 1
	Words   string `json:"words"`
	Said    string `json:"said,omitempty"` // where the last filed line put it
}

func (t *whereabouts) state() *stateTold {
	if t == nil || t.is == nil {
		return nil
	}
	out := &stateTold{Where: t.is.Where, Words: t.is.Words(), At: t.is.At, Done: []doneTold{}}
	if t.is.Since != 0 {
		out.Since = t.is.Since.String()
	}
	if t.is.By != nil {
		out.Work = t.is.By.File.Number
	}
	for _, x := range t.is.Done {
		out.Done = append(out.Done, doneTold{x.What, x.Day.String(), x.Result, x.By.File.Number})
	}
	return out
}

func (t *whereabouts) place() *filedTold {
	if t == nil || t.filed == nil {
		return nil
	}
	p := t.filed
	return &filedTold{p.Bay.Name, p.Cover.Family, p.Cover.Title(), p.Folder, p.Sheet, p.Words(), t.said}
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
