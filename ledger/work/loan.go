package work

import (
	"cmp"
	"slices"
	"strconv"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
)

// Stage is how far one thing of a loan has come.
type Stage uint8

const (
	Asked   Stage = iota + 1 // asked for
	Chosen                   // approved or selected
	Ready                    // packed
	Out                      // with the other side: theirs of ours, ours of theirs
	Back                     // returned
	LostOut                  // lost with the other side
	Left                     // asked for and not sent: refused
)

// Loan is a loan, borrowing, gift, exchange or sampling as it stood at the end
// of a day. Of a borrowing the sheets are theirs, and Out means here.
type Loan struct {
	File   *File
	On     dates.Day
	Things []*Lent // in the order in which the file names them

	Refused bool   // the whole of it
	Acked   *Event // the last acknowledgement
	Recall  *Event // the last recall
	Closed  *Event
	Unnamed int // sheets that came back counted, without their numbers
	Sent    dates.Day
}

// Lent is one thing of a loan: a sheet of ours, one of theirs, a gathering, a
// bundle.
type Lent struct {
	Words string        // as the file names it; a span by its single numbers
	Sheet ledger.Number // "" for what has no number here
	Entry *book.Entry   // nil when the ledger has no such record
	Count int           // 1; of a bundle how many
	Stage Stage
	Sent  dates.Day
	Due   dates.Day // only what is Out has one
	Back  dates.Day
	Grade string // condition when it was packed or sent
	After string // condition when it came back
	Harm  []string

	selected bool
}

// lendingVerbs are what the events of a kind do to its things.
var lendingVerbs = map[string]map[string]Stage{
	"loan":      {"requested": Asked, "approved": Chosen, "selected": Chosen, "packed": Ready, "sent": Out, "returned": Back, "lost": LostOut, "refused": Left},
	"borrowing": {"requested": Asked, "received": Out, "sent-back": Back, "lost": LostOut, "refused": Left},
	"gift":      {"requested": Asked, "approved": Chosen, "selected": Chosen, "packed": Ready, "sent": Out, "refused": Left},
	"exchange":  {"requested": Asked, "approved": Chosen, "selected": Chosen, "packed": Ready, "sent": Out, "refused": Left},
	"sampling":  {"requested": Asked, "approved": Chosen, "sampled": Out, "refused": Left},
}

// Lends reports whether works of a kind are read by Loan.
func Lends(kind string) bool { return lendingVerbs[kind] != nil }

// Loan is the state of a loan, borrowing, gift, exchange or sampling at the
// end of a day; nil for works of another kind.
func (w *Works) Loan(f *File, on dates.Day) *Loan {
	verbs := lendingVerbs[f.Kind.Name]
	if verbs == nil {
		return nil
	}
	l := &Loan{File: f, On: on}
	fold := lending{w: w, l: l, verbs: verbs, known: map[string]*Lent{}}
	events := slices.Clone(f.Events)
	slices.SortStableFunc(events, compareEvents)
	for _, e := range events {
		if e.Day <= on {
			fold.take(e)
		}
	}
	return l
}

// Outstanding is how many sheets are with the other side.
func (l *Loan) Outstanding() int {
	n := -l.Unnamed
	for _, t := range l.Things {
		if t.Stage == Out {
			n += t.Count
		}
	}
	return max(n, 0)
}

// Count is how many sheets have come as far as a stage, and no further.
func (l *Loan) Count(s Stage) int {
	n := 0
	for _, t := range l.Things {
		if t.Stage == s {
			n += t.Count
		}
	}
	return n
}

// Gone is how many sheets were sent, whatever became of them.
func (l *Loan) Gone() int {
	n := 0
	for _, t := range l.Things {
		if t.Sent != 0 {
			n += t.Count
		}
	}
	return n
}

// Returned is how many came back, by number or counted.
func (l *Loan) Returned() int { return l.Count(Back) + l.Unnamed }

// Due is the first day by which something that is out is to be back; 0 when
// nothing is out that is awaited.
func (l *Loan) Due() dates.Day {
	due := dates.Day(0)
	if l.Outstanding() == 0 || l.Closed != nil {
		return 0
	}
	for _, t := range l.Things {
		if t.Stage == Out && t.Due != 0 && (due == 0 || t.Due < due) {
			due = t.Due
		}
	}
	return due
}

// Late is how many days the loan is overdue; 0 when it is not.
func (l *Loan) Late() int {
	if due := l.Due(); due != 0 && l.On > due {
		return int(l.On - due)
	}
	return 0
}

// Words is how far it has come, in the trade's words.
func (l *Loan) Words() string {
	out, back := l.Outstanding(), l.Returned()
	switch {
	case l.Closed != nil:
		return "closed"
	case l.Refused:
		return "refused"
	case out > 0 && l.Late() > 0:
		return "overdue"
	case out > 0 && l.Recall != nil:
		return "recalled"
	case out > 0 && back > 0:
		return "returned in part"
	case out > 0 && l.Acked != nil:
		return "acknowledged"
	case out > 0 && l.File.Kind.Name == "sampling":
		return "sampled"
	case out > 0 && l.File.Kind.Name == "borrowing":
		return "here"
	case out > 0:
		return "sent"
	case back > 0 || l.Count(LostOut) > 0:
		return "returned"
	case l.Count(Ready) > 0:
		return "packed"
	case l.Count(Chosen) > 0:
		return "approved"
	}
	return "requested"
}

// Reminder is a day on which the other side is written to.
type Reminder struct {
	Day  dates.Day
	Days int // before the due day; negative: after it
}

// Reminders are the days on which something is to be written about what is
// out, by the museum's habits, in order.
func (l *Loan) Reminders(h ledger.Loans) []Reminder {
	due := l.Due()
	if due == 0 {
		return nil
	}
	var out []Reminder
	for _, before := range h.Remind {
		if n, err := strconv.Atoi(before.Text); err == nil {
			out = append(out, Reminder{due - dates.Day(n), n})
		}
	}
	for _, after := range h.Overdue {
		if n, err := strconv.Atoi(after.Text); err == nil {
			out = append(out, Reminder{due + dates.Day(n), -n})
		}
	}
	slices.SortFunc(out, func(a, b Reminder) int { return cmp.Compare(a.Day, b.Day) })
	return out
}

// Ripe is the sheets that a line of a verb is about when it names none, on a
// day: of those that the work holds the ones that have come nearest to it.
func (w *Works) Ripe(f *File, verb string, on dates.Day) []ledger.Number {
	to, ok := lendingVerbs[f.Kind.Name][verb]
	l := w.Loan(f, on)
	if !ok || l == nil {
		return nil
	}
	fold := lending{l: l}
	var out []ledger.Number
	for _, t := range fold.ripe(to) {
		if t.Sheet != "" {
			out = append(out, t.Sheet)
		}
	}
	return out
}
