package render

import (
	"slices"

	"strings"

	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/work"
	"blotter/ledger/work/due"
	"blotter/ledger/work/printed"
	"blotter/render/page"
)

// StaffWork is what the staff's site shows of the work between the field and
// the catalogue. No other site has it.
type StaffWork struct {
	Works *work.Works
	Day   dates.Day   // the day that it is shown of
	Due   []due.Thing // what needs a hand on that day and after it
}

// workPages are the due list and a page of each work, on the staff's site.
func (s *shelf) workJobs(out []job) []job {
	w := s.in.Work
	if w == nil || !s.in.Book.Staff() {
		return out
	}
	p := s.duePage()
	out = append(out, job{name: string(p.Address), page: func() (*page.Page, error) { return p, nil }})
	for _, f := range w.Works.Files {
		k := s.keyer().add("work", string(f.Number), string(f.Blob), itoa(boolInt(w.Works.Open(f, w.Day))))
		for _, t := range w.Due {
			if t.Work == f.Number {
				k.add(t.Day.String(), t.What, itoa(boolInt(t.Late)))
			}
		}
		for _, t := range w.Works.Holds(f, w.Day) {
			k.add(t.String(), itoa(boolInt(s.shows(t))))
		}
		out = append(out, job{name: string(workAddress(f)), key: k.sum(), page: func() (*page.Page, error) { return s.workPage(f), nil }})
	}
	return out
}

func workAddress(f *work.File) page.Address { return page.Address("work/" + string(f.Number)) }

// shows reports whether a thing has a page.
func (s *shelf) shows(t work.Thing) bool { return t.Sheet != "" && s.in.Book.Find(t.Sheet) != nil }

// duePage is what needs a hand, by date, and the works that are open.
func (s *shelf) duePage() *page.Page {
	w := s.in.Work
	p := s.newPage("work/index", "Work", said("Work on "+dates.Words(w.Day)))
	next := slices.DeleteFunc(slices.Clone(w.Due), func(t due.Thing) bool { return t.Later })
	section(p, "due", "What needs a hand", s.dueLines(next))
	var open, rest page.Lines
	for _, f := range w.Works.Files {
		line := []page.Part{page.Link{To: workAddress(f), Text: []page.Part{said(string(f.Number))}}}
		if t := f.Work.Title.Text; t != "" {
			line = append(line, said("  "), page.Quote{Words: page.Words(t)})
		}
		if w.Works.Open(f, w.Day) {
			open.List = append(open.List, line)
		} else {
			rest.List = append(rest.List, line)
		}
	}
	if len(open.List) > 0 {
		section(p, "open", "Open", open)
	}
	if len(rest.List) > 0 {
		section(p, "closed", "Done", rest)
	}
	return p
}

func (s *shelf) dueLines(things []due.Thing) page.Block {
	if len(things) == 0 {
		return page.Para{Parts: []page.Part{said("Nothing needs a hand.")}}
	}
	var out page.Lines
	for _, t := range things {
		when := dates.Words(t.Day)
		if t.Late {
			when = "late, " + when
		}
		line := []page.Part{said(when + ": ")}
		if f := s.in.Work.Works.Find(t.Work); f != nil {
			line = append(line, page.Link{To: workAddress(f), Text: []page.Part{said(string(t.Work))}}, said(", "))
		} else if e := s.in.Book.Find(t.Sheet); t.Sheet != "" && e != nil {
			line = append(line, page.Link{To: sheetAddress(e.Number), Text: []page.Part{said(string(e.Number))}}, said(", "))
		}
		out.List = append(out.List, append(line, said(t.What)))
	}
	return out
}

// workPage is one batch or movement: what waits, what it holds, its lines.
func (s *shelf) workPage(f *work.File) *page.Page {
	w := s.in.Work
	p := s.newPage(workAddress(f), string(f.Number), said(string(f.Number)))
	if t := f.Work.Title.Text; t != "" {
		p.Lead = append(p.Lead, page.Para{Parts: []page.Part{page.Quote{Words: page.Words(t)}}})
	}
	var waits []due.Thing
	for _, t := range w.Due {
		if t.Work == f.Number {
			waits = append(waits, t)
		}
	}
	if len(waits) > 0 {
		section(p, "due", "What needs a hand", s.dueLines(waits))
	}
	if holds := w.Works.Holds(f, w.Day); len(holds) > 0 {
		var lines page.Lines
		for _, t := range holds {
			part := page.Part(said(t.String()))
			if s.shows(t) {
				part = page.Link{To: sheetAddress(t.Sheet), Text: []page.Part{said(t.String())}}
			}
			lines.List = append(lines.List, []page.Part{part})
		}
		section(p, "holds", "What it holds", lines)
	}
	section(p, "lines", "What happened", s.eventLines(f.Events, false))
	return p
}

// eventLines are lines of work in the order given; with names the work.
func (s *shelf) eventLines(events []*work.Event, with bool) page.Block {
	var out page.Lines
	for _, e := range events {
		line := []page.Part{said(dates.Words(e.Day) + ": " + strings.ReplaceAll(e.Verb, "-", " "))}
		if p, ok := printed.PrintingOf(e); ok {
			line = []page.Part{said(p.Words())}
		}
		if with {
			line = append(line, said(", "), page.Link{To: workAddress(e.File), Text: []page.Part{said(string(e.File.Number))}})
		}
		for _, x := range []string{e.Line.To.Text, e.Line.Result.Text, e.Line.By.Text, e.Line.Note.Text} {
			if x != "" {
				line = append(line, said(", "), page.Quote{Words: page.Words(x)})
			}
		}
		out.List = append(out.List, line)
	}
	return out
}

// keyState adds what the staff's page of a sheet shows of where it is.
func (s *shelf) keyState(k *keyer, e *book.Entry) {
	if s.in.Work == nil {
		return
	}
	k.add("state", s.in.Work.Works.State(e.Number, s.in.Work.Day).Words())
	for _, x := range s.in.Work.Works.HistoryOf(e.Number) {
		k.add(string(x.File.Number), string(x.File.Blob), itoa(x.N))
	}
}

// state is where a sheet is and what was done to it, for the staff.
func (x *sheet) state() []page.Block {
	w := x.in.Work
	if w == nil || !x.in.Book.Staff() {
		return nil
	}
	out := []page.Block{page.Para{Parts: []page.Part{said("On " + dates.Words(w.Day) + " " + w.Works.State(x.e.Number, w.Day).Words() + ".")}}}
	var so []*work.Event
	for _, e := range w.Works.HistoryOf(x.e.Number) {
		if e.Day <= w.Day {
			so = append(so, e)
		}
	}
	if len(so) > 0 {
		out = append(out, x.eventLines(so, true))
	}
	return out
}
