package due

import (
	"fmt"
	"hash/fnv"
	"strings"
	"time"

	"blotter/ledger/dates"
)

// Calendar is what a calendar needs to know besides the things.
type Calendar struct {
	Museum string         // its name, for the calendar's own
	Code   string         // its code, for identifiers
	Zone   *time.Location // of the museum
	Stamp  time.Time      // when the ledger was last changed
}

// Write writes things as iCalendar (RFC 5545), to be shown by a phone or any
// calendar. The same things and stamp give the same bytes.
//
// What may be done at any time of a day is an all-day event, what has an hour a
// moment in UTC, so that no table of time zones need go along. Each has an
// alarm: at seven in the morning of the day (of an all-day event, by the clock
// of the phone), a quarter of an hour before the moment. An identifier is made
// of the work and the step, not of the day: a loan that is extended moves in
// the calendar and does not stand there twice.
func (c Calendar) Write(things []Thing) []byte {
	var b strings.Builder
	line := func(name, value string) { fold(&b, name+":"+value) }
	line("BEGIN", "VCALENDAR")
	line("VERSION", "2.0")
	line("PRODID", "-//blotter//due//EN")
	line("CALSCALE", "GREGORIAN")
	line("METHOD", "PUBLISH")
	line("X-WR-CALNAME", escape(strings.TrimSpace("Due, "+c.Museum)))
	seen := map[string]int{}
	for _, t := range things {
		id := c.identifier(t)
		if seen[id]++; seen[id] > 1 {
			id = fmt.Sprintf("%d-%s", seen[id], id)
		}
		line("BEGIN", "VEVENT")
		line("UID", id)
		line("DTSTAMP", c.Stamp.UTC().Format(utcForm))
		c.when(line, t)
		line("SUMMARY", escape(strings.TrimSpace(t.about()+" "+t.What)))
		if d := t.description(); d != "" {
			line("DESCRIPTION", escape(d))
		}
		line("CATEGORIES", escape(strings.ToUpper(string(t.Kind))))
		line("TRANSP", "TRANSPARENT")
		line("BEGIN", "VALARM")
		line("ACTION", "DISPLAY")
		line("DESCRIPTION", escape(t.What))
		if t.Clock < 0 {
			line("TRIGGER", "PT7H")
		} else {
			line("TRIGGER", "-PT15M")
		}
		line("END", "VALARM")
		line("END", "VEVENT")
	}
	line("END", "VCALENDAR")
	return []byte(b.String())
}

const utcForm = "20060102T150405Z"

// when writes the days or the hour of an event. The end of an all-day event is
// the day after it (RFC 5545, 3.6.1).
func (c Calendar) when(line func(name, value string), t Thing) {
	if t.Clock < 0 {
		line("DTSTART;VALUE=DATE", basic(t.Day))
		line("DTEND;VALUE=DATE", basic(max(t.Until, t.Day)+1))
		return
	}
	zone := c.Zone
	if zone == nil {
		zone = time.UTC
	}
	y, m, d := t.Day.Date()
	at := time.Date(y, time.Month(m), d, t.Clock/60, t.Clock%60, 0, 0, zone).UTC()
	line("DTSTART", at.Format(utcForm))
	line("DTEND", at.Add(30*time.Minute).Format(utcForm))
}

// identifier tells an event from all others, for as long as its work lives.
func (c Calendar) identifier(t Thing) string {
	h := fnv.New64a()
	fmt.Fprintf(h, "%s\n%s\n%s\n%s\n%s", t.Work, t.Sheet, t.Kind, t.Step, onlyOf(t))
	return fmt.Sprintf("%016x-%s@%s.blotter", h.Sum64(), strings.ToLower(joined(string(t.Kind), t.about())), host(c.Code))
}

// onlyOf is the day of what has no work to tell it apart.
func onlyOf(t Thing) string {
	if t.Work != "" || t.Sheet != "" {
		return ""
	}
	return t.Day.String()
}

func joined(a, b string) string {
	if b == "" {
		return a
	}
	return a + "-" + b
}

// host is a museum's code as it may stand in an identifier.
func host(code string) string {
	out := strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-' {
			return r
		}
		return -1
	}, strings.ToLower(code))
	if out == "" {
		return "museum"
	}
	return out
}

// about is the work or the sheet that a thing is about.
func (t Thing) about() string {
	if t.Work != "" {
		return string(t.Work)
	}
	return string(t.Sheet)
}

func (t Thing) description() string {
	var parts []string
	if len(t.Sheets) > 0 {
		parts = append(parts, strings.Join(t.Sheets, ", "))
	}
	if t.Next != "" {
		parts = append(parts, t.Next)
	}
	return strings.Join(parts, "\n")
}

func basic(d dates.Day) string {
	y, m, dd := d.Date()
	return fmt.Sprintf("%04d%02d%02d", y, m, dd)
}

var escaper = strings.NewReplacer("\\", "\\\\", ";", "\\;", ",", "\\,", "\r\n", "\\n", "\n", "\\n", "\r", "\\n")

// escape writes words as TEXT (RFC 5545, 3.3.11); control characters, which it
// cannot hold, are left out.
func escape(words string) string {
	return strings.Map(func(r rune) rune {
		if r < 0x20 && r != '\t' || r == 0x7f {
			return -1
		}
		return r
	}, escaper.Replace(strings.ToValidUTF8(words, "\uFFFD")))
}

// fold writes one content line, broken after at most 75 octets and never
// within a letter (RFC 5545, 3.1).
func fold(b *strings.Builder, line string) {
	const most = 75
	for room := most; len(line) > room; room = most - 1 {
		cut := room
		for cut > 0 && line[cut]&0xc0 == 0x80 {
			cut--
		}
		b.WriteString(line[:cut])
		b.WriteString("\r\n ")
		line = line[cut:]
	}
	b.WriteString(line)
	b.WriteString("\r\n")
}
