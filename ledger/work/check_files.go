package work

import (
	"fmt"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
)

// files judges each file by itself: dates of its lines, works that it names.
func (c *checking) files() {
	for _, f := range c.w.Files {
		c.lines(f)
		c.heading(f)
		c.moments(f)
		for i, l := range f.Work.Permits {
			c.named(f, l, fmt.Sprintf("permits.%d", i+1), false)
		}
		for i := range f.Work.Lines {
			l := &f.Work.Lines[i]
			if !l.Mistake.Set() && !l.Why.Set() {
				c.named(f, l.Number, fmt.Sprintf("lines.%d.number", i+1), true)
				c.named(f, l.To, fmt.Sprintf("lines.%d.to", i+1), true)
			}
		}
	}
}

// lines tells of dates that cannot be read, and of lines that stand below
// later ones.
func (c *checking) lines(f *File) {
	var last *Event
	for i := range f.Work.Lines {
		l := &f.Work.Lines[i]
		at := slices.IndexFunc(f.Events, func(e *Event) bool { return e.N == i })
		switch {
		case at < 0 && l.Mistake.Set() || !l.Date.Set():
		case at < 0:
			if !l.Why.Set() {
				c.put(f.Path, l.Date, fmt.Sprintf("lines.%d.date", i+1), codeNoDate, "is not read as a day with an end, so the line counts nowhere", hints[codeNoDate])
			}
		case last != nil && f.Events[at].Day < last.First:
			e := f.Events[at]
			c.say(e, codeBackwards, fmt.Sprintf("%s on %s stands below %s on %s", e.Verb, dates.Words(e.Day), last.Verb, dates.Words(last.Day)))
		default:
			last = f.Events[at]
		}
	}
}

// heading tells of days of a permit's paper that cannot be read: they count
// nowhere, so the permit would never lapse.
func (c *checking) heading(f *File) {
	p := &f.Work.Permit
	for _, d := range []struct {
		field string
		leaf  ledger.Leaf
	}{{"permit.from", p.From}, {"permit.to", p.To}, {"permit.report", p.Report}, {"permit.accessed", p.Accessed}} {
		if first, _ := span(d.leaf.Text); d.leaf.Set() && first == 0 {
			c.put(f.Path, d.leaf, d.field, codeNoDate, "is not read as a day with an end, so it counts nowhere", hints[codeNoDate])
		}
	}
}

// moments tells of lines whose day is still to come, of an end that cannot be
// read, and of an end before the beginning.
func (c *checking) moments(f *File) {
	var first *Event
	for _, e := range f.Events {
		if e.Verb == f.Kind.Opens && (first == nil || e.First < first.First) {
			first = e
		}
	}
	for _, e := range f.Events {
		switch l := e.Line; {
		case c.today != 0 && e.First > c.today:
			c.say(e, codeToCome, fmt.Sprintf("%s on %s, which is still to come", e.Verb, dates.Words(e.Day)))
		case l.Until.Set() && e.Until == 0 && !l.Why.Set():
			c.put(f.Path, l.Until, fmt.Sprintf("lines.%d.until", e.N+1), codeNoDate, "is not read as a day with an end, so it counts nowhere", hints[codeNoDate])
		case e.Verb == f.Kind.Closes && first != nil && e.All() && e.Day < first.First:
			c.say(e, codeEarlyEnd, fmt.Sprintf("%s on %s, before anything was %s on %s", e.Verb, dates.Words(e.Day), first.Verb, dates.Words(first.Day)))
		}
	}
}

// named tells of a work that is not there.
func (c *checking) named(f *File, l ledger.Leaf, field string, line bool) {
	n := ledger.WorkNumber(strings.TrimSpace(l.Text))
	if l.Set() && n.Valid() && c.w.Find(n) == nil {
		c.put(f.Path, l, field, codeNoWork, "there is no work "+string(n)+" in this ledger", hints[codeNoWork])
	}
}

// stray tells of files of work/ that are not read for where they lie. A file
// in a folder of work/ has a finding of its own form.
func (c *checking) stray() {
	for f := range c.w.book.Works() {
		if _, ok := ledger.WorkNumberOfPath(f.Path); !ok {
			c.put(f.Path, ledger.Leaf{Line: 1, Col: 1}, "work", codeStrayWorks, "lies in no folder of a kind of work, so it is not read", "For example "+ledger.WorkNumber("loan-2026-004").Path())
		}
	}
}

// joins tells of what names nothing that is there, and of counts that are not
// those of what is named.
func (c *checking) joins() {
	for _, e := range c.w.events {
		named := 0
		for i := range e.Items {
			item := &e.Items[i]
			if !item.Bundle() {
				named++
			}
			c.item(e, item)
		}
		l := e.Line
		if l.What.Set() || !l.Count.Set() || named == 0 || len(l.Sheets) < named { // others and duplicates are more than their numbers
			continue
		}
		if n, _, ok := ReadCount(l.Count.Text); ok && n != len(e.on) {
			c.say(e, codeCount, fmt.Sprintf("says %s, and the numbers name %d", l.Count.Text, len(e.on)))
		}
	}
}

func (c *checking) item(e *Event, i *Item) {
	unread := func(why string) { c.say(e, codeUnread, i.Leaf.Text+" "+why) }
	ahead := e.Line.Paper.Text == "numbers" // printed before any sheet has them
	switch {
	case i.Sheet != "" && i.Last != "":
		if _, _, _, ok := spanOf(i); !ok {
			unread("is no span of numbers, such as LK7-0001180..LK7-0001201")
		} else if !ahead && len(c.w.join.span(i)) == 0 {
			c.say(e, codeUnknown, i.Leaf.Text+" names no number that has a record")
		}
	case i.Sheet != "":
		if id, ok := c.w.find(i.Sheet); ok && !ahead && !c.w.record(id) {
			c.about(e, codeUnknown, "", id)
		}
	case i.Who != "":
		first, last, ok := numbersOf(i)
		switch {
		case i.No == "":
			unread("has no number, so it is joined to no record")
		case !ok && i.LastN != "":
			unread("is no span of numbers, such as Signe Rask 1311..1320")
		case ok && last-first.serial >= longestSpan:
			unread(fmt.Sprintf("spans more than %d gatherings; only so many are taken", longestSpan))
		}
	case i.Bundle() && i.Of == "things":
		unread("is no count")
	}
}

// loans judges what is out too long and what was closed too early.
func (c *checking) loans() {
	for _, f := range c.w.Files {
		kind := f.Kind.Name
		if kind != "loan" && kind != "borrowing" {
			continue
		}
		for _, e := range f.ordered {
			if e.Verb == eventClosed {
				c.closing(f, e)
			}
			if e.Verb == "sent" && kind == "loan" {
				c.types(f, e)
			}
		}
	}
}

// closing compares what went with what came, at the line that closes.
func (c *checking) closing(f *File, e *Event) {
	l := c.w.Loan(f, e.Day)
	out, n := []string{}, -l.Unnamed
	for _, t := range l.Things {
		if t.Stage == Out {
			n += max(t.Count, 1)
			out = append(out, t.Words)
		}
	}
	if n <= 0 {
		return
	}
	names := strings.Join(out[:min(len(out), shownThings)], ", ")
	if len(out) > shownThings {
		names += ", ..."
	}
	c.say(e, codeFewer, fmt.Sprintf("closed, and %d are still out: %s", n, names))
}

// types tells of types that are, or were, on loan for longer than the museum
// lends them.
func (c *checking) types(f *File, sent *Event) {
	months := figure(c.w.Habits.Loans.TypeMonths)
	if months == 0 || slices.ContainsFunc(f.ordered, func(e *Event) bool { return e.Verb == "extended" && e.Line.Why.Set() }) {
		return
	}
	until := Period{Months: months}.After(sent.Day)
	for _, id := range sent.on {
		if !c.w.record(id) || !c.w.book.At(int(id)).Flags.Has(book.Typed) {
			continue
		}
		end := c.today
		for _, n := range c.w.placesOf(id) {
			if e := c.w.events[n]; e.File == f && e.move.leaves && e.Day >= sent.Day {
				end = e.First
				break
			}
		}
		if end > until {
			c.about(sent, codeTypeLong, count(months, "month"), id)
		}
	}
}
