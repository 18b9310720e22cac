package main

import (
	"fmt"
	"path"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/treatment"
	"blotter/ledger/work/due"
)

// freezerSaid tells, when sheets go in, what the profile asks for; when they
// come out, what the log says.
func freezerSaid(p *planned) string {
	if p.event == nil {
		return ""
	}
	switch p.event.Verb {
	case "in":
		f, err := due.Profile(p.habits.Treatment, p.file.Work.Profile.Text)
		if err != nil {
			return "There is no plan: " + err.Error() + "."
		}
		words := fmt.Sprintf("Your profile %q: %g h at %g °C or colder", f.Name, f.Hours, f.SetPoint)
		if f.Cycles > 1 {
			words += fmt.Sprintf(", %d cycles with %g h warm between them", f.Cycles, f.Between)
		}
		if f.Closed > 0 {
			words += fmt.Sprintf(", then %g h closed", f.Closed)
		}
		return words + "."
	case "out":
		if r := p.event.Line.Result.Text; r != "" {
			return sentence(joinNonEmpty(": ", strings.ToUpper(r[:1])+strings.ReplaceAll(r[1:], "-", " "), p.event.Line.Note.Text))
		}
	}
	return ""
}

// freezerNext tells from when a load may come out, go in again or be opened.
func freezerNext(p *planned) string {
	f, err := due.Profile(p.habits.Treatment, p.file.Work.Profile.Text)
	if p.event == nil || err != nil || p.event.Verb != "in" && p.event.Verb != "out" {
		return closeWithLog(p)
	}
	if p.event.Line.Result.Text == "failed" {
		return "blotter log " + string(p.file.Number) + " in"
	}
	steps := f.Plan(due.StaysOf(p.file, p.desk.zone)...)
	if len(steps) == 0 {
		return closeWithLog(p)
	}
	s := steps[0]
	typed := map[treatment.Stage]string{treatment.OutFrom: "blotter close " + string(p.file.Number) + " --from logger.csv",
		treatment.InAgain: "blotter log " + string(p.file.Number) + " in", treatment.OpenFrom: "blotter log " + string(p.file.Number) + " unpacked"}[s.Stage]
	if s.Stage == treatment.OutFrom && s.Cycle < f.Cycles {
		typed = "blotter log " + string(p.file.Number) + " out --from logger.csv"
	}
	at := s.At.In(p.desk.zone)
	when := dayAndMonth(dates.DayOf(at.Year(), int(at.Month()), at.Day()))
	if p.event.Clock >= 0 {
		when += " " + at.Format("15:04")
	}
	return "from " + when + ": " + typed
}

// judgeFreezer adds to a line of coming out what the logger's tables say of
// the run: passed, failed or, without a log that shows it, times-only; and why.
func (l *lining) judgeFreezer(fields []ledger.KV) ([]ledger.KV, error) {
	if l.file.Kind.Name != "freezer" || l.event != "out" || len(l.fields) > 0 {
		return fields, nil
	}
	noted := false
	for _, kv := range fields {
		noted = noted || kv.Key == "note"
		if kv.Key == "result" {
			return fields, nil
		}
	}
	p, err := due.Profile(ledger.WithStandard(l.museum).Treatment, l.file.Work.Profile.Text)
	if err != nil {
		l.tell("The run is not judged: %v.", err)
		return fields, nil
	}
	stays := due.StaysOf(l.file, l.zone)
	log, last, err := l.readings()
	if err != nil {
		return nil, err
	}
	if day, clock, ok := momentOf(fieldOf(fields, "date")); ok && len(stays) > 0 && stays[len(stays)-1].Out.IsZero() {
		if clock < 0 {
			clock = 0 // the shorter of the two
		}
		y, m, dd := day.Date()
		stays[len(stays)-1].Out = wallTime(y, m, dd, clock, l.zone)
	}
	if n := len(stays); n > 0 && n < p.Cycles { // one cycle of several, by itself
		p.Cycles, stays, log = 1, stays[n-1:], last
	}
	r := treatment.Judge(log, stays, p)
	word := map[treatment.Verdict]string{treatment.Pass: "passed", treatment.Fail: "failed"}[r.Verdict]
	if word == "" {
		word = "times-only"
	}
	fields = append(fields, ledger.KV{Key: "result", Value: word})
	if !noted {
		fields = append(fields, ledger.KV{Key: "note", Value: r.Reason})
	}
	return fields, nil
}

// readings are those of all logger's tables of the run, and those of the table
// that comes with the line.
func (l *lining) readings() (all, last []treatment.Reading, err error) {
	read := func(name string, b []byte) ([]treatment.Reading, error) {
		log, err := treatment.Read(b, treatment.Options{Zone: l.zone})
		if err != nil {
			return nil, stuck("%s: %v", name, err)
		}
		for _, n := range log.Notes {
			l.tell("%s: %s", name, n.Words)
		}
		return log.Readings, nil
	}
	for _, e := range l.file.Events {
		name := e.Line.File.Text
		if !strings.HasSuffix(name, ".csv") && !strings.HasSuffix(name, ".txt") {
			continue
		}
		b, err := l.read(path.Join(path.Dir(l.file.Path), path.Base(name)))
		if err != nil || b == nil {
			continue // the run is judged by what there is
		}
		more, err := read(name, b)
		if err != nil {
			return nil, nil, err
		}
		all = append(all, more...)
	}
	for _, c := range l.also {
		if last, err = read(l.opts.text("from"), c.new); err != nil {
			return nil, nil, err
		}
		all = append(all, last...)
	}
	return all, last, nil
}
