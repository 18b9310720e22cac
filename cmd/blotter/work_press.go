package main

import (
	"fmt"
	"strings"
	"time"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/drying"
	"blotter/ledger/work/due"
)

// pressSaid tells, when plants are pressed, what their calendar is and how the
// stack is built; when they are weighed, what the curve says.
func pressSaid(p *planned) string {
	if p.event == nil {
		return ""
	}
	press := due.PressOf(p.habits.Drying, p.file, p.event.Day)
	switch {
	case p.event.Line.Weight.Set():
		return p.curveSaid(press)
	case p.event.Verb != p.file.Kind.Opens:
		return ""
	case press.Problem != "":
		return "There is no calendar: " + press.Problem + "."
	}
	return joinNonEmpty(" ", p.calendarSaid(press), p.stackSaid(press), p.careSaid(press))
}

// calendarSaid is the calendar of a load in a sentence or two.
func (p *planned) calendarSaid(press due.Press) string {
	day := func(w drying.What) (string, drying.Step, bool) {
		s, ok := press.Calendar.Find(w)
		return dayAndMonth(s.Day), s, ok
	}
	if test, s, ok := day(drying.TestByHand); ok {
		usual, u, _ := day(drying.UsuallyDry)
		words := fmt.Sprintf("First test by hand on %s (day %d), usually ready %s to %s (days %d to %d).", test, s.Count, usual, dayAndMonth(u.Until), u.Count, u.CountTo)
		if papers, c, ok := day(drying.ChangePapers); ok {
			words = fmt.Sprintf("Change the papers from %s on (day %d). ", papers, c.Count) + words
		}
		return words
	}
	if open, s, ok := day(drying.OpenBag); ok {
		return fmt.Sprintf("Turn the bag on the next days; open it by %s (it keeps %d days).", open, s.Count)
	}
	return ""
}

// stackSaid is what the stack is made of.
func (p *planned) stackSaid(press due.Press) string {
	plants := 0
	for _, it := range p.event.Items {
		switch {
		case it.Bundle():
			plants += it.Count
		case it.Who != "":
			plants += spanLength(it.No, it.LastN)
		case it.Sheet != "":
			plants += spanLength(string(it.Sheet), string(it.Last))
		default:
			plants++
		}
	}
	counts, err := due.BuildOf(press.Load.Method).Counts(plants)
	if err != nil || plants == 0 {
		return ""
	}
	var parts []string
	for _, q := range counts {
		parts = append(parts, count(q.Count, string(q.Item)))
	}
	return "One stack takes " + andJoin(parts) + "."
}

// careSaid is what is done to the plants first and what is dangerous.
func (p *planned) careSaid(press due.Press) string {
	var parts []string
	if w := press.Calendar.Prepare; len(w) > 0 {
		parts = append(parts, "First: "+strings.Join(w, "; ")+".")
	}
	if w := press.Calendar.Cautions; len(w) > 0 {
		parts = append(parts, "Careful: "+strings.Join(w, "; ")+".")
	}
	return strings.Join(parts, " ")
}

// curveSaid is what the weighings say.
func (p *planned) curveSaid(press due.Press) string {
	c := press.Curve
	at, from, to, ok := c.ReadyDays(press.Load.Start)
	if !ok {
		return sentence("No ready day from the weighings yet: " + c.Why)
	}
	return sentence(fmt.Sprintf("By its weights ready about %s (%s to %s): %s; test by hand all the same", dates.Words(at), dayAndMonth(from), dayAndMonth(to), c.Why))
}

// wallTime is a moment by the clock on the wall.
func wallTime(y, m, d, minutes int, zone *time.Location) time.Time {
	return time.Date(y, time.Month(m), d, minutes/60, minutes%60, 0, 0, zone)
}

// fieldOf is one field of a line; "" for none.
func fieldOf(fields []ledger.KV, key string) string {
	for _, kv := range fields {
		if kv.Key == key {
			return kv.Value
		}
	}
	return ""
}
