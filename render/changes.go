package render

import (
	"fmt"
	"strings"

	"blotter/render/page"
)

// maxEvents of one entry of the ledger are listed one by one; more are one
// line with its reason and a list of their own.
const maxEvents = 25

// changeJobs are the pages of what changed: one a month, and the list of each
// large entry.
func (s *shelf) changeJobs(out []job) []job {
	index := s.newPage("changes/index", s.lang.WhatChanged, said(s.lang.WhatChanged))
	index.Shown = s.shownSite()
	if s.in.Cut {
		index.Notices = []page.Notice{{Kind: page.PlainNotice, Text: []page.Part{said(s.lang.HistoryCut)}}}
	}
	var t page.Tally
	for _, m := range s.in.Changes {
		n := 0
		k := s.keyer().add("month")
		for i := range m.Days {
			n += len(m.Days[i].Events)
			for _, r := range s.dayRuns(&m.Days[i]) {
				if !r.large() {
					s.keyRun(k, r)
					continue
				}
				k.add(r.heading, r.events[0].Revision.Stamp, r.events[0].Reason, itoa(len(r.events)))
				key := s.keyer().add("entry")
				s.keyRun(key, r)
				out = append(out, job{name: string(r.address()), key: key.sum(), page: func() (*page.Page, error) { return s.runPage(r), nil }})
			}
		}
		out = append(out, job{name: string(monthAddress(m)), key: k.sum(), page: func() (*page.Page, error) { return s.monthPage(m), nil }})
		t.List = append(t.List, page.TallyLine{Link: page.Link{To: monthAddress(m), Text: []page.Part{said(s.monthTitle(m))}}, Note: page.Said(page.Count(n, s.lang.Change1, s.lang.ChangeN))})
	}
	if len(t.List) == 0 {
		index.Standing = []page.Part{said(s.lang.NothingChanged)}
	} else {
		index.Lead = []page.Block{t}
	}
	return append(out, job{name: string(index.Address), page: func() (*page.Page, error) { return index, nil }})
}

// keyRun adds what the lines of a run show.
func (s *shelf) keyRun(k *keyer, r run) {
	k.add(r.heading)
	for _, e := range r.events {
		of := s.published(e.Number)
		k.add(string(e.Number), e.Was, e.Now, e.By, e.Revision.Stamp, e.Reason, strings.Join(e.Fields, " "), strings.Join(e.Withheld, " "), itoa(boolInt(of != nil)), itoa(boolInt(of != nil && hidden(of))))
	}
}

func monthAddress(m Month) page.Address {
	return page.Address(fmt.Sprintf("changes/%04d-%02d", m.Year, m.Month))
}

func (s *shelf) monthTitle(m Month) string { return s.lang.Months[m.Month-1] + " " + itoa(m.Year) }

func (s *shelf) monthPage(m Month) *page.Page {
	title := s.monthTitle(m)
	p := s.newPage(monthAddress(m), title, said(title))
	p.Trail = []page.Link{{To: "changes/index", Text: []page.Part{said(s.lang.WhatChanged)}}}
	for i := range m.Days {
		d := &m.Days[i]
		var blocks []page.Block
		for runs := s.dayRuns(d); len(runs) > 0; {
			heading := runs[0].heading
			var lines page.Lines
			for len(runs) > 0 && runs[0].heading == heading {
				lines.List = s.runLines(lines.List, runs[0])
				runs = runs[1:]
			}
			blocks = append(blocks, page.Group{Heading: page.Said(heading), Blocks: []page.Block{lines}})
		}
		section(p, "day-"+itoa(d.Date.Day()), s.day(d.Date), blocks...)
	}
	return p
}

// run is what one entry of the ledger did of one kind, on one day.
type run struct {
	heading string // of the kind
	events  []*Event
}

// large reports whether the run has a list of its own.
func (r run) large() bool { return len(r.events) > maxEvents }

func (r run) address() page.Address {
	return page.Address(fmt.Sprintf("changes/%s-%d", r.events[0].Revision.Stamp, r.events[0].Kind))
}

// dayRuns are the runs of a day, by kind.
func (s *shelf) dayRuns(d *Day) []run {
	var out []run
	headings := [...]string{s.lang.KindNamed, s.lang.KindAgreed, s.lang.KindNew, s.lang.KindCorrected, s.lang.KindAnnotated, s.lang.KindWithdrawn}
	var ofKind [len(headings)][]*Event
	for i := range d.Events {
		e := &d.Events[i]
		ofKind[e.Kind] = append(ofKind[e.Kind], e)
	}
	for kind, events := range ofKind {
		for len(events) > 0 {
			n := 1
			for n < len(events) && events[n].Revision.Stamp == events[0].Revision.Stamp {
				n++
			}
			out = append(out, run{headings[kind], events[:n]})
			events = events[n:]
		}
	}
	return out
}

// runLines adds the lines of a run: one an event, or one for all.
func (s *shelf) runLines(lines [][]page.Part, r run) [][]page.Part {
	if !r.large() {
		for _, e := range r.events {
			lines = append(lines, s.event(e))
		}
		return lines
	}
	first := r.events[0]
	line := []page.Part{page.Link{To: r.address(), Text: []page.Part{said(s.sheetsWord(len(r.events)))}}}
	if first.Reason != "" {
		line = append(line, said(": "), page.Quote{Words: page.Words(first.Reason)})
	}
	return append(lines, append(line, said(" ("), page.Person(s.clerk(first.Revision.By)), said(")")))
}

// runPage is the list of a large entry.
func (s *shelf) runPage(r run) *page.Page {
	title := r.heading + ", " + s.day(r.events[0].Revision.When)
	p := s.newPage(r.address(), title, said(title))
	p.Trail = []page.Link{{To: "changes/index", Text: []page.Part{said(s.lang.WhatChanged)}}}
	var all page.Lines
	for _, e := range r.events {
		all.List = append(all.List, s.event(e))
	}
	p.Lead = []page.Block{all}
	return p
}

// event is one sentence.
func (s *shelf) event(e *Event) []page.Part {
	out := []page.Part{s.sheetLink(e.Number), said(": ")}
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
	for _, f := range e.Withheld {
		fields = append(fields, page.Fill(s.lang.FieldWithheld, lowerFirst(s.fieldWords(f))))
	}
	out = append(out, now...)
	if len(fields) > 0 {
		out = append(out, said("; "+s.list(fields)))
	}
	return out
}
