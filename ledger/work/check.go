package work

import (
	"fmt"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
)

// Check is CheckOn without a day: types still out are not asked for.
func (w *Works) Check() []ledger.Finding { return w.CheckOn(0) }

// CheckOn gives the findings about the order of events, sorted. Each stands on
// the line that would want a why:, and is not given where that has one.
func (w *Works) CheckOn(today dates.Day) []ledger.Finding {
	c := &checking{w: w, today: today, of: map[told]*some{}}
	c.files()
	c.joins()
	c.things()
	c.loans()
	c.lots()
	c.stray()
	for _, k := range c.order {
		c.say(k.e, k.code, c.words(k))
	}
	c.out = append(c.out, w.PermitFindings(today)...)
	ledger.SortFindings(c.out)
	return c.out
}

// checking gathers what is found, the things of one line together.
type checking struct {
	w     *Works
	today dates.Day
	of    map[told]*some
	order []told // in no order: the findings are sorted
	out   []ledger.Finding
}

// some are the things of one finding: those that a message names, and how many
// there are.
type some struct {
	first []int32
	n     int
}

// told is one finding of one line.
type told struct {
	e    *Event
	code string
	at   Place  // where the things are, when it is about that
	by   *Event // that brought them there
	than string // what else it is about
}

// about takes a thing that a line breaks a law with.
func (c *checking) about(e *Event, code, than string, t int32) {
	if e.Line.Why.Set() {
		return
	}
	c.tell(told{e: e, code: code, than: than}, t)
}

func (c *checking) tell(k told, t int32) {
	of := c.of[k]
	if of == nil {
		of = &some{}
		c.of[k] = of
		c.order = append(c.order, k)
	}
	if of.n++; of.n <= shownThings+1 {
		of.first = append(of.first, t)
	}
}

// say adds the finding of a line.
func (c *checking) say(e *Event, code, message string) {
	if e.Line.Why.Set() {
		return
	}
	c.put(e.File.Path, e.Line.Event, fmt.Sprintf("lines.%d.event", e.N+1), code, message, hints[code])
}

func (c *checking) put(path string, at ledger.Leaf, field, code, message, hint string) {
	if hint == "" {
		hint = "If it was so, say why on the line: why: TEXT"
	}
	c.out = append(c.out, ledger.Finding{Path: path, Line: int(at.Line), Col: int(at.Col), Field: field, Severity: ledger.Warning, Code: code, Message: message, Hint: hint})
}

// things goes through the life of everything that works speak of.
func (c *checking) things() {
	w := c.w
	for id := range int32(w.book.Len() + len(w.things)) {
		list := w.placesOf(id)
		if len(list) == 0 {
			continue
		}
		f := w.folding(id)
		f.fold(w, list, dates.Day(1<<40), func(e *Event, was *folding) { c.step(e, was, id) })
	}
}

// step judges one event of one thing by the state before it.
func (c *checking) step(e *Event, was *folding, t int32) {
	m := e.move
	switch {
	case m.needs&needDry != 0 && was.wet:
		c.about(e, codeNotDry, "", t)
	case !m.isUsual(was.Where):
		if !e.Line.Why.Set() {
			c.tell(told{e: e, code: oddCode(e, was), at: was.Where, by: was.By}, t)
		}
	}
	if m.needs&needClean != 0 && was.bare && c.w.Habits.Treatment.IsNeeded() && was.Where != OnLoan && was.Where != Gone {
		code := codeUntreated
		if was.back {
			code = codeReturned
		}
		c.about(e, code, "", t)
	}
	if m.done == "received" && e.File.Kind.Name == "accession" {
		for _, what := range []string{"mounted", "lent"} {
			if d, ok := was.Has(what); ok && d.Day < e.First {
				c.about(e, codeReceived, what+" on "+dates.Words(d.Day), t)
				break
			}
		}
	}
	if was.entry != nil {
		c.dates(e, was.entry, t)
		if e.Verb == "sent" && was.entry.Flags.Has(book.Typed) && !safeWay(e.Line) {
			c.about(e, codeTypePost, "", t)
		}
	}
}

// oddCode is the finding of an event that is not usual for where a thing is.
func oddCode(e *Event, was *folding) string {
	handed := was.By != nil && was.By.File != e.File && slices.Contains([]Place{InPress, Freezer, InBag, Weights, Packed}, was.Where)
	sends := e.Verb == "sent" || e.Verb == "packed"
	switch {
	case was.Where == OnLoan && sends, was.Where == Gone && sends && was.By != nil && was.By.Verb == "sent":
		return codeSentTwice
	case was.Where == OnLoan:
		return codeOnLoan
	case was.Where == Gone:
		return codeGone
	case was.Where == Missing:
		return codeMissing
	case handed:
		return codeTwoPlaces
	}
	return codeOrder
}

// where is where the things are and through which work, in words.
func (k told) where() string {
	if k.by == nil {
		return k.at.Words()
	}
	return k.at.Words() + " since " + dates.Words(k.by.Day) + " (" + string(k.by.File.Number) + ")"
}

// dates compares an event with the day of collecting.
func (c *checking) dates(e *Event, of *book.Entry, t int32) {
	if !of.Dated || e.move.to == "" && e.move.done == "" {
		return
	}
	if e.Day < of.First {
		c.about(e, codeEarly, "", t)
		return
	}
	if e.Verb != "pressed" && e.Verb != "drying" || of.Uncertain {
		return
	}
	h := c.w.Habits.Pressing
	days := figure(h.Days)
	if cold(e) {
		days = figure(h.ColdDays)
	}
	if gap := int(e.First - of.Last); days > 0 && gap > days {
		c.about(e, codePressed, fmt.Sprintf("more than %s", count(days, "day")), t)
	}
}

// cold reports whether the plants were kept cold until they were pressed.
func cold(e *Event) bool {
	words := strings.ToLower(e.Line.Method.Text + " " + e.Line.Note.Text + " " + e.File.Work.Method.Text)
	return containsAny(words, "fridge", "refrigerat", "cold", "cool")
}

// safeWay reports whether a line says that the parcel can be followed.
func safeWay(l *ledger.WorkLine) bool {
	return l.Number.Set() || containsAny(strings.ToLower(l.Method.Text), "registered", "courier", "by hand", "in person", "carried")
}

func containsAny(words string, any ...string) bool {
	for _, a := range any {
		if strings.Contains(words, a) {
			return true
		}
	}
	return false
}
