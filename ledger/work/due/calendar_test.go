package due_test

import (
	"bytes"
	"context"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"blotter/ledger/work/due"

	ics "github.com/arran4/golang-ical"
	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

var stamp = time.Date(2026, 3, 2, 8, 15, 0, 0, time.UTC)

// TestCalendarReadBack reads the calendar by a library that did not write it.
func TestCalendarReadBack(t *testing.T) {
	oslo, err := time.LoadLocation("Europe/Oslo")
	if err != nil {
		t.Fatal(err)
	}
	w, record := museum(t, "", map[string]string{
		"freezer-2026-001": "lines:\n  - {date: 2026-03-27 18:00, event: in, sheets: [LK7-0000001..LK7-0000022]}\n",
		"loan-2025-001":    "partner: FJ3 Fjellheim Museum; Ås\nlines:\n  - {date: 2025-05-01, event: sent, sheets: [LK7-0000030]}\n  - {date: 2025-05-10, event: acknowledged}\n",
		"press-2026-001":   "plants: thin herb\nlines:\n  - {date: 2026-03-28, event: pressed, count: 9 folds, what: \"Carex, box 3\"}\n",
	}, nil)
	things, err := due.List(context.Background(), w, due.On{Day: day(t, "2026-03-28"), Within: 40, Zone: oslo, Record: record})
	if err != nil {
		t.Fatal(err)
	}
	c := due.Calendar{Museum: "Lauvkroken Museum", Code: "LK7", Zone: oslo, Stamp: stamp}
	text := c.Write(things)
	if !bytes.Equal(text, c.Write(things)) {
		t.Error("written twice, two texts")
	}
	strict(t, text)
	cal, err := ics.ParseCalendar(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	events := cal.Events()
	if len(events) != len(things) {
		t.Fatalf("%d events of %d things", len(events), len(things))
	}
	seen := map[string]bool{}
	for i, e := range events {
		x := things[i]
		if seen[e.Id()] {
			t.Errorf("two events have the identifier %s", e.Id())
		}
		seen[e.Id()] = true
		if got := e.GetProperty(ics.ComponentPropertySummary).Value; got != string(x.Work)+" "+x.What {
			t.Errorf("summary %q, not %q", got, x.What)
		}
		if at, err := e.GetDtStampTime(); err != nil || !at.Equal(stamp) {
			t.Errorf("stamp %v, %v", at, err)
		}
		if len(e.Alarms()) != 1 {
			t.Errorf("%d alarms", len(e.Alarms()))
		}
		if x.Clock < 0 {
			at, err := e.GetAllDayStartAt()
			if err != nil || at.Format("2006-01-02") != x.Day.String() {
				t.Errorf("%s: %v, %v", x.Day, at, err)
			}
			if end, err := e.GetAllDayEndAt(); err != nil || end.Format("2006-01-02") != (x.Until+1).String() {
				t.Errorf("end of %s: %v, %v", x.Until, end, err)
			}
		} else if at, err := e.GetStartAt(); err != nil || at.In(oslo).Format("2006-01-02 15:04") != x.Day.String()+" 19:00" {
			// 72 h after 27 March 18:00, over the change to summer time on the 29th
			t.Errorf("%s %d: %v, %v", x.Day, x.Clock, at, err)
		}
	}
	// An extension moves the event, which keeps its identifier.
	if a, b := identifier(t, things, "due 1 May"), identifier(t, extended(t), "due 1 June"); a != b || a == "" {
		t.Errorf("before the extension %s, after it %s", a, b)
	}
}

func identifier(t *testing.T, things []due.Thing, words string) string {
	cal, err := ics.ParseCalendar(bytes.NewReader(due.Calendar{Code: "LK7", Stamp: stamp}.Write(things)))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range cal.Events() {
		if s := e.GetProperty(ics.ComponentPropertySummary).Value; strings.Contains(s, "still at") && strings.Contains(s, words) {
			return e.Id()
		}
	}
	return ""
}

func extended(t *testing.T) []due.Thing {
	w, record := museum(t, "", map[string]string{"loan-2025-001": "partner: FJ3 Fjellheim Museum; Ås\nlines:\n  - {date: 2025-05-01, event: sent, sheets: [LK7-0000030]}\n  - {date: 2025-05-10, event: acknowledged}\n  - {date: 2026-03-28, event: extended, until: 2026-06-01}\n"}, nil)
	things, err := due.List(context.Background(), w, due.On{Day: day(t, "2026-03-28"), Within: 90, Record: record})
	if err != nil {
		t.Fatal(err)
	}
	return things
}

// strict holds a text to what RFC 5545, 3.1, asks of every line.
func strict(t interface {
	Errorf(string, ...any)
}, text []byte) {
	if !bytes.HasSuffix(text, []byte("END:VCALENDAR\r\n")) || !utf8.Valid(text) {
		t.Errorf("not closed, or no UTF-8")
	}
	for _, line := range strings.Split(strings.TrimSuffix(string(text), "\r\n"), "\r\n") {
		if len(line) > 75 || len(line) == 0 || strings.ContainsAny(line, "\r\n") || !utf8.ValidString(line) {
			t.Errorf("line of %d octets: %q", len(line), line)
		}
	}
}

// TestCalendarOfAnyWords: whatever the words, the lines are well formed and
// the library reads them back.
func TestCalendarOfAnyWords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		what := rapid.String().Draw(t, "what")
		x := due.Thing{Day: 20000, Clock: rapid.IntRange(-1, 1439).Draw(t, "clock"), Work: "loan-2026-001", Kind: due.Loan, Step: rapid.String().Draw(t, "step"), What: what}
		text := due.Calendar{Museum: what, Code: what, Stamp: stamp}.Write([]due.Thing{x})
		strict(t, text)
		cal, err := ics.ParseCalendar(bytes.NewReader(text))
		if err != nil || len(cal.Events()) != 1 {
			t.Fatalf("not read back: %v\n%q", err, text)
		}
	})
}
