// Package due says what needs a hand in a museum on a day and in the days after
// it: papers to change, a freezer to empty, glue that is dry, loans and permits
// that run out, traps to read, sheets to look for. It is worked out from the
// lines of work/ and the museum's habits; the day is passed in.
//
// List gives all of it, sorted by day. What comes after another step of the
// same batch is marked Later, so that a list for the wall can show the next
// step alone while a calendar has them all. Calendar writes iCalendar.
package due

import (
	"cmp"
	"context"
	"slices"
	"strconv"
	"strings"
	"time"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/work"
)

// Kind is what a thing that needs a hand is about.
type Kind string

// The kinds.
const (
	Papers     Kind = "papers"     // change the papers, turn or open the bag
	Test       Kind = "test"       // test by hand whether a load is dry
	Out        Kind = "out"        // out of the freezer
	Again      Kind = "again"      // into the freezer again
	Unpack     Kind = "unpack"     // open the bag
	Glue       Kind = "glue"       // lift the weights
	Treat      Kind = "treat"      // to be treated against insects
	Remind     Kind = "remind"     // write to a partner before or after the due day
	Loan       Kind = "loan"       // sheets of ours are due back
	Borrowing  Kind = "borrowing"  // sheets of theirs are due back
	Word       Kind = "word"       // an acknowledgement is outstanding
	Request    Kind = "request"    // a request waits for an answer
	Determined Kind = "determined" // opinions on what came back are waited for
	Permit     Kind = "permit"     // a permit lapses
	Report     Kind = "report"     // a permit's report is due
	Traps      Kind = "traps"      // traps to read
	Climate    Kind = "climate"    // a reading of the climate is missing
	Inspect    Kind = "inspect"    // a place, or a repair, to be looked at again
	Missing    Kind = "missing"    // a sheet to be looked for
	Back       Kind = "back"       // a sheet to be put back
	Review     Kind = "review"     // something withheld to be looked at again
	Round      Kind = "round"      // a round or a survey that is not finished
	Eyes       Kind = "eyes"       // sheets of a name that was divided
	Print      Kind = "print"      // labels or slips to print
	Question   Kind = "question"   // a question that somebody noted
)

// Thing is one thing that needs a hand.
type Thing struct {
	Day    dates.Day
	Until  dates.Day         // the last day of a span; else Day
	Clock  int               // minutes after midnight from which it may be done; -1: any time of the day
	Work   ledger.WorkNumber // "" for what is about sheets alone
	Sheet  ledger.Number     // of a question
	Kind   Kind
	Step   string   // tells things of one work and kind apart, whatever becomes of their days
	What   string   // what to do, in words, with how many sheets
	Sheets []string // the sheets concerned: numbers and spans, gatherings, bundles
	Next   string   // the command to type; "" for none
	Late   bool     // it was to be done before the day
	Later  bool     // another step of the same batch comes before it
}

// On is what List is asked for.
type On struct {
	Day    dates.Day
	Within int            // days after it
	Zone   *time.Location // of the museum, for hours in the freezer; nil is UTC
	// Record loads a record, for questions and for opinions on what came back
	// from loan. nil: neither is told.
	Record func(context.Context, *book.Entry) (*ledger.Record, error)
	Print  []ToPrint // papers that wait to be printed
}

// List is everything that needs a hand by the end of the days asked for,
// sorted by day; questions last.
func List(ctx context.Context, w *work.Works, on On) ([]Thing, error) {
	if on.Zone == nil {
		on.Zone = time.UTC
	}
	l := &list{ctx: ctx, w: w, on: on}
	for _, f := range w.Files {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if !w.Open(f, on.Day) {
			continue
		}
		l.f, l.events = f, eventsBy(f, on.Day)
		if err := l.work(); err != nil {
			return nil, err
		}
	}
	l.f = nil
	l.fromEvents()
	l.reviews()
	l.divided()
	l.papers()
	if err := l.questions(); err != nil {
		return nil, err
	}
	return l.sorted(), nil
}

// list gathers things.
type list struct {
	ctx    context.Context
	w      *work.Works
	on     On
	f      *work.File    // the work being looked at
	events []*work.Event // its events up to the day, by day and time of day
	all    []Thing
}

// work tells what one open work needs.
func (l *list) work() error {
	switch l.f.Kind.Name {
	case "press", "drying":
		l.press()
	case "freezer", "treatment":
		l.freezer()
	case "mounting":
		l.glue()
	case "loan", "borrowing", "gift", "exchange", "sampling":
		return l.lending()
	case "permit":
		l.permit()
	case "traps":
		l.traps()
		l.alarms()
	case "climate":
		l.climate()
	case "incident":
		l.incident()
	case "inventory", "condition":
		l.round()
	}
	return nil
}

// add takes a thing that falls into the days asked for, or before them.
func (l *list) add(t Thing) {
	if t.Until == 0 || t.Until < t.Day { // days before 1970 are below 0
		t.Until = t.Day
	}
	if t.Day > l.on.Day+dates.Day(l.on.Within) {
		return
	}
	if l.f != nil {
		t.Work = l.f.Number
	}
	t.Late = t.Until < l.on.Day
	l.all = append(l.all, t)
}

// day is a thing without a time of day.
func (l *list) day(on dates.Day, k Kind, step, what, next string, sheets []work.Thing) {
	l.add(Thing{Day: on, Clock: -1, Kind: k, Step: step, What: what, Next: next, Sheets: Spans(sheets)})
}

// batches are the kinds of which a list shows the next step alone.
var batches = map[Kind]bool{Papers: true, Test: true, Out: true, Again: true, Unpack: true, Remind: true, Loan: true, Borrowing: true}

func (l *list) sorted() []Thing {
	slices.SortStableFunc(l.all, func(a, b Thing) int {
		question := func(t Thing) int {
			if t.Kind == Question {
				return 1
			}
			return 0
		}
		clock := func(t Thing) int {
			if t.Clock < 0 {
				return 24 * 60
			}
			return t.Clock
		}
		return cmp.Or(cmp.Compare(question(a), question(b)), cmp.Compare(a.Day, b.Day), cmp.Compare(clock(a), clock(b)), strings.Compare(string(a.Work), string(b.Work)))
	})
	first := map[ledger.WorkNumber]dates.Day{}
	for i := range l.all {
		t := &l.all[i]
		if t.Work == "" || !batches[t.Kind] {
			continue
		}
		if was, ok := first[t.Work]; !ok {
			first[t.Work] = t.Day
		} else {
			t.Later = t.Day > was && t.Day > l.on.Day
		}
	}
	return l.all
}

// eventsBy are the events of a work up to the end of a day, by day and time.
func eventsBy(f *work.File, on dates.Day) []*work.Event {
	var out []*work.Event
	for _, e := range f.Events {
		if e.Day <= on {
			out = append(out, e)
		}
	}
	slices.SortStableFunc(out, func(a, b *work.Event) int {
		if a.Day != b.Day || a.Clock < 0 || b.Clock < 0 {
			return cmp.Compare(a.Day, b.Day)
		}
		return cmp.Compare(a.Clock, b.Clock)
	})
	return out
}

// lastOf is the last event of one of the verbs; nil for none.
func lastOf(events []*work.Event, verbs ...string) *work.Event {
	for _, e := range slices.Backward(events) {
		if slices.Contains(verbs, e.Verb) {
			return e
		}
	}
	return nil
}

// whole is a count of the habits; otherwise when there is none.
func whole(l ledger.Leaf, otherwise int) int {
	if n, err := strconv.Atoi(strings.TrimSpace(l.Text)); err == nil {
		return n
	}
	return otherwise
}

// figure is a figure of the habits.
func figure(l ledger.Leaf, otherwise float64) float64 {
	if v, err := strconv.ParseFloat(strings.TrimSpace(l.Text), 64); err == nil {
		return v
	}
	return otherwise
}
