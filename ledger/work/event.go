package work

import (
	"cmp"
	"regexp"
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
}

// All reports whether the event is about all that its work holds.
func (e *Event) All() bool { return len(e.Items) == 0 }

var clockBehind = regexp.MustCompile(`^(.*\S)[ T]+([01]?[0-9]|2[0-3])[:.]([0-5][0-9])$`)

// ReadMoment reads a line's date: words for a date, with or without a time of
// day behind it. Clock is in minutes after midnight, -1 when there is none.
func ReadMoment(words string) (r dates.Reading, clock int) {
	clock = -1
	if m := clockBehind.FindStringSubmatch(words); m != nil {
		if d := dates.Read(m[1], dates.Ask); d.Known() {
			h, _ := strconv.Atoi(m[2])
			min, _ := strconv.Atoi(m[3])
			return d, 60*h + min
		}
	}
	return dates.Read(words, dates.Ask), clock
}

func readEvent(f *File, n int, l *ledger.WorkLine) *Event {
	r, clock := ReadMoment(l.Date.Text)
	if l.Mistake.Set() || !r.Known() || r.OpenEnd {
		return nil
	}
	e := &Event{File: f, N: n, Line: l, Verb: strings.TrimSpace(l.Event.Text), First: r.First, Day: r.Last, Clock: clock, Items: itemsOf(l)}
	if u := dates.Read(l.Until.Text, dates.Ask); l.Until.Set() && u.Known() && !u.OpenEnd {
		e.Until = u.Last
	}
	return e
}

// compareEvents is the order in which events count: by day, then by
// the verb's place in the life of a sheet,
// then by file, then by line.
func compareEvents(a, b *Event) int {
	if c := cmp.Compare(a.Day, b.Day); c != 0 {
		return c
	}
	if c := cmp.Compare(rank(a.Verb), rank(b.Verb)); c != 0 {
		return c
	}
	if c := strings.Compare(string(a.File.Number), string(b.File.Number)); c != 0 {
		return c
	}
	return cmp.Compare(a.N, b.N)
}
