package work

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
)

// Event is one line as read. A line whose date cannot be read, or that is
// marked as a mistake, is no event.
type Event struct {
	File  *File
	N     int // its place among the file's lines, from 0
	Line  *ledger.WorkLine
	Verb  string
	First dates.Day // of its date's days
	Day   dates.Day // the day it counts from: the last of its date's days
	Clock int       // minutes after midnight; -1 when the line has none
	Items []Item    // what it names; none: all that the work holds
	Until dates.Day // 0 when the line has none that can be read

	move *move
	own  int     // the verb's place in its kind's life; -1 when the kind does not have it
	life int     // the verb's place in the life of a thing
	rank int     // the same, not later than that of a later one of its file and day
	on   []int32 // the things that it is about, joined, each once
}

// All reports whether the event is about all that its work holds.
func (e *Event) All() bool { return len(e.Items) == 0 }

// ReadMoment reads a line's date: words for a date, with or without a time of
// day behind it. Clock is in minutes after midnight, -1 when there is none.
func ReadMoment(words string) (r dates.Reading, clock int) {
	if date, minutes := dates.CutClock(words); minutes >= 0 {
		if d := dates.Read(date, dates.Ask); d.Known() {
			return d, minutes
		}
	}
	return dates.Read(words, dates.Ask), -1
}

// moments are dates of lines as read: the same days come again and again.
type moments map[string]moment

type moment struct {
	read  dates.Reading
	clock int
}

func (m moments) of(words string) moment {
	x, ok := m[words]
	if !ok {
		x.read, x.clock = ReadMoment(words)
		m[words] = x
	}
	return x
}

func readEvent(f *File, n int, l *ledger.WorkLine, m moments) *Event {
	on := m.of(l.Date.Text)
	r := on.read
	if l.Mistake.Set() || !r.Known() || r.OpenEnd {
		return nil
	}
	e := &Event{File: f, N: n, Line: l, Verb: strings.TrimSpace(l.Event.Text), First: r.First, Day: r.Last, Clock: on.clock, Items: itemsOf(l)}
	if e.Verb == "read" || e.Verb == "found-pest" { // what is counted are insects
		e.Items = slices.DeleteFunc(e.Items, Item.Bundle)
	}
	e.move, e.life = moveOf(f.Kind.Name, e.Verb)
	e.own = slices.Index(f.Kind.Events, e.Verb)
	if l.Until.Set() {
		if u := m.of(l.Until.Text).read; u.Known() && !u.OpenEnd {
			e.Until = u.Last
		}
	}
	return e
}

// order puts the events of a file into the order in which they count, and
// gives each its rank. On one day a file's events follow its kind's life: a
// loan of which only the month is known was sent before it came back, though a
// sheet that came back goes into the freezer before it is sent again.
func (f *File) order() []*Event {
	own := slices.Clone(f.Events)
	slices.SortStableFunc(own, func(a, b *Event) int { return cmp.Or(cmp.Compare(a.Day, b.Day), cmp.Compare(a.own, b.own)) })
	for i := len(own) - 1; i >= 0; i-- {
		e := own[i]
		e.rank = e.life
		if i+1 < len(own) && own[i+1].Day == e.Day && (e.own >= 0 || e.Verb == ledger.EventNoted && !e.All()) { // noted with sheets: planned before it begins
			e.rank = min(e.rank, own[i+1].rank)
		}
	}
	slices.SortStableFunc(own, func(a, b *Event) int { return cmp.Or(cmp.Compare(a.Day, b.Day), cmp.Compare(a.rank, b.rank)) })
	return own
}

// Caught is how many insects a reading of a trap tells of: its count, else one
// when it names an insect.
func (e *Event) Caught() int {
	words, _, _ := strings.Cut(e.Line.Count.Text, " ")
	if n, err := strconv.Atoi(words); err == nil {
		return n
	}
	if e.Line.Insect.Set() {
		return 1
	}
	return 0
}

// compareEvents is the order in which events count: by day, then by the verb's
// place in the life of a sheet, then by file. Those of one file come in the
// order of File.order.
func compareEvents(a, b *Event) int {
	return cmp.Or(cmp.Compare(a.Day, b.Day), cmp.Compare(a.rank, b.rank), compareNumbers(a.File.Number, b.File.Number))
}

// compareNumbers is the order of numbers of works: kind, year, running number,
// however many figures that has.
func compareNumbers(a, b ledger.WorkNumber) int {
	x, y := strings.LastIndexByte(string(a), '-'), strings.LastIndexByte(string(b), '-')
	if x < 0 || y < 0 || a[:x] != b[:y] {
		return strings.Compare(string(a), string(b))
	}
	return cmp.Or(cmp.Compare(len(a), len(b)), strings.Compare(string(a), string(b)))
}
