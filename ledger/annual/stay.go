package annual

import (
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/work"
)

// stay is how long a specimen has been the museum's, and by which way it came
// and went.
type stay struct {
	came     dates.Day // 0: since before the ledger
	way      string    // how it came: source of its lot, or one of the ways below
	teaching bool      // on the last day: in a teaching or student lot, not taken in
	opened   bool      // here on the eve of the first day
	closed   bool      // here on the last day
	left     string    // how it went, when it is not here on the last day
	end      work.State
}

// The ways that are not written in a lot.
const (
	before    = "before" // in no work, and not collected since: it was here before the ledger
	collected = "collected"
	noLot     = "no-lot" // in no lot; counted from the day of its collecting or of its first work
)

// stayOf works out the stay of a specimen. One in no lot was here before the
// ledger, unless it was collected, or first handled as new, later than that: then it
// counts from that day.
func stayOf(w *work.Works, e *book.Entry, from, to dates.Day) stay {
	s := stay{way: before}
	events := w.HistoryOf(e.Number)
	s.came, s.way = arrival(events, e)
	s.end = w.State(e.Number, to)
	eve := w.State(e.Number, from-1)
	s.teaching = work.Taught(events, to)
	s.opened = s.came < from && eve.Where != work.Gone && !work.Taught(events, from-1)
	s.closed = s.came <= to && s.end.Where != work.Gone && !s.teaching
	if s.end.Where == work.Gone {
		s.left = e.Fate
		if by := s.end.By; by != nil {
			s.left = by.File.Kind.Name
			if by.Verb == "spoiled" || by.Verb == "discarded" || by.Verb == "lost" {
				s.left = by.Verb
			}
		}
		if s.left == "" {
			s.left = "gone"
		}
	}
	return s
}

// arrival is the day on which a specimen came, and the way.
func arrival(events []*work.Event, e *book.Entry) (dates.Day, string) {
	for _, ev := range events {
		if ev.Verb == "here" {
			return 0, before
		}
		if ev.File.Kind.Name == "accession" {
			way := ev.File.Work.Source.Text
			if way == "" {
				way = "unknown"
			}
			return ev.Day, way
		}
		if ev.Verb == "received" && ev.File.Kind.Name == "exchange" {
			return ev.Day, "exchange"
		}
	}
	if len(events) > 0 && (events[0].Verb == "pressed" || events[0].Verb == "drying") {
		return events[0].Day, collected
	}
	if e.Dated {
		return e.Last, noLot
	}
	return 0, before
}
