package render

import (
	"fmt"

	"blotter/render/page"
)

// maxEvents of one entry of the ledger are listed one by one; more are one
// line with its reason and a list of their own.
const maxEvents = 25

// changePages are the pages of what changed: one a month, and the list of
// each large entry.
func (s *shelf) changePages() []*page.Page {
	index := s.newPage("changes/index", s.lang.WhatChanged, said(s.lang.WhatChanged))
	index.Shown = s.shownSite()
	if s.in.Cut {
		index.Notices = []page.Notice{{Kind: page.PlainNotice, Text: []page.Part{said(s.lang.HistoryCut)}}}
	}
	out := []*page.Page{index}
	var t page.Tally
	for _, m := range s.in.Changes {
		p, more := s.monthPage(m)
		out = append(out, p)
		out = append(out, more...)
		n := 0
		for _, d := range m.Days {
			n += len(d.Events)
		}
		t.List = append(t.List, page.TallyLine{Link: page.Link{To: p.Address, Text: []page.Part{said(p.Title)}}, Note: page.Said(page.Count(n, s.lang.Change1, s.lang.ChangeN))})
	}
	if len(t.List) == 0 {
		index.Standing = []page.Part{said(s.lang.NothingChanged)}
	} else {
		index.Lead = []page.Block{t}
	}
	return out
}

func monthAddress(m Month) page.Address {
	return page.Address(fmt.Sprintf("changes/%04d-%02d", m.Year, m.Month))
}

func (s *shelf) monthPage(m Month) (*page.Page, []*page.Page) {
	title := s.lang.Months[m.Month-1] + " " + itoa(m.Year)
	p := s.newPage(monthAddress(m), title, said(title))
	p.Trail = []page.Link{{To: "changes/index", Text: []page.Part{said(s.lang.WhatChanged)}}}
	var more []*page.Page
	for _, d := range m.Days {
		var blocks []page.Block
		for _, g := range s.dayLines(d) {
			blocks = append(blocks, page.Group{Heading: page.Said(g.heading), Blocks: []page.Block{page.Lines{List: g.lines}}})
			more = append(more, g.more...)
		}
		section(p, "day-"+itoa(d.Date.Day()), s.day(d.Date), blocks...)
	}
	return p, more
}

// dayGroup is what happened on one day of one kind.
type dayGroup struct {
	heading string
	lines   [][]page.Part
	more    []*page.Page
}

func (s *shelf) dayLines(d Day) []dayGroup {
	var out []dayGroup
	for kind, heading := range []string{s.lang.KindNamed, s.lang.KindAgreed, s.lang.KindNew, s.lang.KindCorrected, s.lang.KindAnnotated, s.lang.KindWithdrawn} {
		var events []Event
		for _, e := range d.Events {
			if e.Kind == EventKind(kind) {
				events = append(events, e)
			}
		}
		if len(events) == 0 {
			continue
		}
		g := dayGroup{heading: heading}
		for len(events) > 0 {
			n := 1
			for n < len(events) && events[n].ID == events[0].ID {
				n++
			}
			s.entryLines(&g, events[:n])
			events = events[n:]
		}
		out = append(out, g)
	}
	return out
}

// entryLines adds what one entry of the ledger did.
func (s *shelf) entryLines(g *dayGroup, events []Event) {
	if len(events) <= maxEvents {
		for _, e := range events {
			g.lines = append(g.lines, s.event(e))
		}
		return
	}
	first := events[0]
	a := page.Address(fmt.Sprintf("changes/%s-%d", first.Short(), first.Kind))
	q := s.newPage(a, g.heading+", "+s.day(first.When), said(g.heading+", "+s.day(first.When)))
	q.Trail = []page.Link{{To: "changes/index", Text: []page.Part{said(s.lang.WhatChanged)}}}
	var all page.Lines
	for _, e := range events {
		all.List = append(all.List, s.event(e))
	}
	q.Lead = []page.Block{all}
	g.more = append(g.more, q)
	line := []page.Part{page.Link{To: a, Text: []page.Part{said(s.sheetsWord(len(events)))}}}
	if first.Reason != "" {
		line = append(line, said(": "), page.Quote{Words: page.Words(first.Reason)})
	}
	g.lines = append(g.lines, append(line, said(" ("), page.Person(s.clerk(first.Revision.By)), said(")")))
}

// event is one sentence.
func (s *shelf) event(e Event) []page.Part {
	out := []page.Part{s.sheetLink(e.Number), said(": ")}
	held := s.published(e.Number) != nil && hidden(s.published(e.Number))
	now := []page.Part{said(s.lang.NotYetNamed)}
	if e.Now != "" {
		now = []page.Part{s.name(e.Now)}
	}
	by := []page.Part{said(s.lang.Unsigned)}
	if name, _ := s.who(e.By); name != "" {
		by = []page.Part{page.Person(name)}
	}
	switch e.Kind {
	case NamedAnew:
		was := []page.Part{said(s.lang.NotYetNamed)}
		if e.Was != "" {
			was = []page.Part{s.name(e.Was)}
		}
		return append(out, page.FillParts(s.lang.EventNamed, was, now, by)...)
	case Agreed:
		return append(out, page.FillParts(s.lang.EventAgreed, now, by)...)
	case New:
		return append(out, page.FillParts(s.lang.EventNew, now)...)
	case Withdrawn:
		return append(out, now...)
	}
	var fields []string
	for _, f := range e.Fields {
		fields = append(fields, lowerFirst(s.fieldWords(f)))
	}
	if held {
		fields = []string{s.lang.ChangedWithheld}
	}
	out = append(out, now...)
	if len(fields) > 0 {
		out = append(out, said("; "+s.list(fields)))
	}
	return out
}
