package treatment

import (
	"fmt"
	"strings"
)

// open finds the table.
func (r *reader) open() *LogError {
	l, ok := findLayout(r.lines)
	if !ok {
		return &LogError{Words: "no line has a date, a time and a temperature", Hint: "export the readings as CSV text, one line each"}
	}
	r.l, r.first = l, -1
	width := 0
	var at []int
	for i, line := range r.lines {
		cells := split(line, l.sep, nil)
		if found, ok := rowLayout(cells, l.sep); !ok || found != l {
			continue
		}
		r.sample, at = append(r.sample, cells), append(at, i)
		if len(r.sample) == sampled {
			break
		}
	}
	r.counted = l.counting(r.sample)
	kept := r.sample[:0]
	for i, cells := range r.sample {
		if !r.counts(cells) {
			continue
		}
		if r.first < 0 {
			r.first = at[i]
		}
		kept, width = append(kept, cells), max(width, len(cells))
	}
	r.sample = kept
	r.names = l.heads(r.lines, r.first, width)
	return r.pair(width)
}

// counts reports whether the columns that count rows do so in this one.
func (r *reader) counts(cells []string) bool {
	for _, i := range r.counted {
		if i >= len(cells) || !natural(cells[i]) {
			return false
		}
	}
	return true
}

// pair sees whether a table with commas has commas in its figures too: half as
// many headings as cells, and every second cell figures alone.
func (r *reader) pair(width int) *LogError {
	lead := r.l.lead()
	if r.l.sep != ',' || (width-lead)%2 != 0 || width == lead {
		return nil
	}
	for _, cells := range r.sample {
		if len(cells) != width {
			return nil
		}
		for i := lead; i < width; i += 2 {
			if _, w, rest := digits(cells[i+1]); w == 0 || w > 3 || strings.Trim(rest, " °ºCFcf") != "" || strings.ContainsAny(cells[i], ".,") {
				return nil
			}
		}
	}
	named := 0
	for i := lead; i < width; i++ {
		if r.names[i] != "" {
			named++
		}
	}
	switch {
	case r.o.Comma, named > 0 && named == (width-lead)/2:
		r.paired = true
		r.names = r.names[:lead+(width-lead)/2]
		for i, cells := range r.sample {
			r.sample[i] = r.join(cells)
		}
		r.note(0, "commas part cells and stand in figures; read as %s", r.sample[0][lead])
	case named == 0 && width-lead == 2:
		line := r.lines[r.first]
		return &LogError{Line: r.first + 1, Col: column(line, r.sample[0][lead]+","), Words: fmt.Sprintf("%s,%s may be one figure with a comma or two channels", r.sample[0][lead], r.sample[0][lead+1]),
			Hint: "put a line of headings over the table, for example time,temperature, or part the cells by semicolons"}
	}
	return nil
}

// join makes one cell of the two of a figure with a comma.
func (r *reader) join(cells []string) []string {
	lead := r.l.lead()
	out := append([]string{}, cells[:min(lead, len(cells))]...)
	for i := lead; i < len(cells); i += 2 {
		if i+1 < len(cells) {
			out = append(out, cells[i]+","+cells[i+1])
		} else {
			out = append(out, cells[i])
		}
	}
	return out
}

// columns chooses the channels and their unit.
func (r *reader) columns() *LogError {
	all := r.l.channels(r.sample, r.names)
	if len(all) == 0 { // what stands above is no heading, or names no temperature
		clear(r.names)
		all = r.l.channels(r.sample, r.names)
	}
	if r.o.Humidity {
		all = r.l.humidity(r.names)
	}
	if len(all) == 0 {
		return &LogError{Line: r.first + 1, Words: "no column holds temperatures", Hint: "give the column the heading temperature °C"}
	}
	said := Unsaid
	for _, line := range r.lines[:r.first] {
		low := strings.ToLower(line)
		if u := unitIn(line); u != Unsaid && (strings.Contains(low, "unit") || strings.Contains(low, "enhet") || strings.Contains(low, "einheit") || strings.Contains(low, "temp") || strings.Contains(low, "scale")) {
			said = u
		}
	}
	for i := range all {
		for _, u := range []Unit{said, r.o.Unit} {
			if all[i].Unit == Unsaid {
				all[i].Unit = u
			}
		}
		if all[i].Unit == Unsaid {
			all[i].Unit, r.guessed = Celsius, true
		}
	}
	core, why, err := choose(all, r.o.Channel)
	if err != nil {
		return &LogError{Words: err.Error(), Hint: "name one of them as the core"}
	}
	r.log.Channels, r.log.Core = all, core
	r.note(0, "%s", why)
	if r.guessed {
		r.note(0, "no unit is said; taken as °C: were it °F, the load would be colder still")
	}
	r.heading()
	return nil
}

// heading takes an offset from Greenwich out of the heading of the time.
func (r *reader) heading() {
	for _, i := range []int{r.l.date, r.l.clock} {
		if i < 0 || i >= len(r.names) {
			continue
		}
		low := strings.ToLower(r.names[i])
		for _, word := range []string{"gmt", "utc"} {
			at := strings.Index(low, word)
			if at < 0 {
				continue
			}
			tail := strings.Trim(low[at+len(word):], ")] ")
			if end := strings.IndexAny(tail, " ,;)]"); end >= 0 {
				tail = tail[:end]
			}
			var s stamp
			if tail == "" || !s.readOffset(tail) {
				s.offset = 0
			}
			r.zoned, r.heads = s.offset, true
			r.note(0, "times are %s, as their heading says", strings.ToUpper(word)+tail)
			return
		}
	}
}
