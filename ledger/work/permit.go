package work

import (
	"strings"

	"blotter/ledger/dates"
)

// Permit is a permit's paper as read, with what later lines say of it.
type Permit struct {
	File     *File
	From, To dates.Day // 0: not said
	Refused  bool
	Granted  bool // a line says so, or none says otherwise
	Lapsed   dates.Day
	Report   dates.Day // by when a report is due; 0: none
	Reported dates.Day // the last report; 0: none
}

// ReadPermit reads a permit; its days are those of its heading, the last one
// as later lines extend it.
func ReadPermit(f *File) Permit {
	p := Permit{File: f, Granted: true}
	p.From, _ = span(f.Work.Permit.From.Text)
	_, p.To = span(f.Work.Permit.To.Text)
	_, p.Report = span(f.Work.Permit.Report.Text)
	for _, e := range f.Events {
		switch e.Verb {
		case "applied":
			p.Granted = false
		case "granted":
			p.Granted, p.Refused = true, false
			p.until(e)
		case "refused":
			p.Granted, p.Refused = false, true
		case "extended":
			p.until(e)
		case "lapsed":
			p.Lapsed = e.Day
		case "reported":
			p.Reported = e.Day
		}
	}
	return p
}

func (p *Permit) until(e *Event) {
	if e.Until != 0 {
		p.To = e.Until
	}
}

// span is the first and the last day of a date; 0, 0 when it cannot be read.
func span(words string) (first, last dates.Day) {
	r := dates.Read(words, dates.Ask)
	if !r.Known() {
		return 0, 0
	}
	return r.First, r.Last
}

// Holds reports whether the permit was in force on a day.
func (p Permit) Holds(on dates.Day) bool {
	return p.Granted && (p.From == 0 || on >= p.From) && (p.To == 0 || on <= p.To) && (p.Lapsed == 0 || on < p.Lapsed)
}

// permitName is what a permit is called in a sentence.
func permitName(f *File) string {
	if no := f.Work.Permit.Number.Text; no != "" {
		return "permit " + no + " (" + string(f.Number) + ")"
	}
	return string(f.Number)
}

// PermitsOf are the permits that words name, by the number of the work or of
// the paper: "permit-2026-002", "2026/318 of the County Governor".
func (w *Works) PermitsOf(words string) []*File {
	if words == "" {
		return nil
	}
	var out []*File
	for _, f := range w.Files {
		if f.Kind.Name == "permit" && (hasWord(words, string(f.Number)) || hasWord(words, f.Work.Permit.Number.Text)) {
			out = append(out, f)
		}
	}
	return out
}

// hasWord reports whether a number stands in words as a whole: 2026/31 does
// not stand in 2026/318.
func hasWord(words, number string) bool {
	if number == "" {
		return false
	}
	words, number = strings.ToLower(words), strings.ToLower(number)
	for at := 0; ; {
		i := strings.Index(words[at:], number)
		if i < 0 {
			return false
		}
		i += at
		end := i + len(number)
		if (i == 0 || !wordByte(words[i-1])) && (end == len(words) || !wordByte(words[end])) {
			return true
		}
		at = i + 1
	}
}

func wordByte(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '/' || c == '-' || c >= 0x80
}
