package treatment

import (
	"fmt"

	"strings"
	"time"
)

// row is a line of the table.
type row struct {
	stamp
	line int32
	c    float64 // °C; NaN when missing
}

// civil is the year, month and day of a stamp read in an order.
func (s stamp) civil(o Order) (y, m, d int) {
	a, b, c := int(s.n[0]), int(s.n[1]), int(s.n[2])
	if s.known {
		return a, b, c
	}
	year := func(v int, width uint8) int {
		if width == 2 {
			return int(century(int32(v)))
		}
		return v
	}
	switch o {
	case MonthFirst:
		return year(c, s.width[1]), a, b
	case YearFirst:
		return year(a, s.width[0]), b, c
	}
	return year(c, s.width[1]), b, a
}

// wall is the time on the clock, in seconds since 1970 as if in Greenwich; ok is
// false when the date is no day.
func (s stamp) wall(o Order) (seconds int64, ok bool) {
	y, m, d := s.civil(o)
	if m < 1 || m > 12 || d < 1 || d > 31 || y < 1900 || y > 2200 {
		return 0, false
	}
	t := time.Date(y, time.Month(m), d, 0, 0, 0, 0, time.UTC)
	return t.Unix() + int64(s.second), t.Day() == d
}

// trial is how the rows read in one order.
type trial struct {
	order   Order
	bad     int   // the first row whose date is no day; -1
	up      bool  // the rows run forwards, but for the hour of a changed clock
	down    bool  // backwards: newest first
	back    int   // the first row that runs against its beginning; -1
	longest int64 // the longest step, seconds
	first   int64
	last    int64
}

// hourBack is by how much a clock may go back at the end of summer time.
const hourBack = 3600

func try(rows []row, o Order) trial {
	t := trial{order: o, bad: -1, back: -1, up: true, down: true}
	var before int64
	for i := range rows {
		w, ok := rows[i].wall(o)
		if !ok {
			t.bad = i
			return t
		}
		w -= int64(rows[i].offset) // 0 unless the row says it
		if i == 0 {
			t.first = w
		} else {
			step := w - before
			t.longest = max(t.longest, step, -step)
			t.up = t.up && step >= -hourBack
			t.down = t.down && step <= hourBack
			if !t.up && !t.down && t.back < 0 {
				t.back = i
			}
		}
		before = w
	}
	t.last = before
	if t.up && t.down { // within an hour either way: its ends say
		t.up, t.down = t.last >= t.first, t.last < t.first
	}
	return t
}

// trials are the orders in which the dates of the rows may stand.
func trials(rows []row, wanted Order) []trial {
	orders := []Order{DayFirst, MonthFirst}
	var ask *row
	for i := range rows {
		if !rows[i].known {
			ask = &rows[i]
			break
		}
	}
	switch {
	case ask == nil:
		orders = orders[:1]
	case wanted != AsWritten:
		orders = []Order{wanted}
	case ask.sep == '.':
		orders = orders[:1]
	case ask.sep == '-' && ask.width == [2]uint8{2, 2}:
		orders = append(orders, YearFirst)
	}
	var out []trial
	for _, o := range orders {
		out = append(out, try(rows, o))
	}
	if ask != nil && wanted == AsWritten && ask.sep != '-' && ask.width == [2]uint8{2, 2} {
		// 26/03/02: a year in front only if nothing else will do.
		if t := try(rows, YearFirst); !plain(out) && t.bad < 0 && (t.up || t.down) && t.longest < long {
			return []trial{t}
		}
	}
	return out
}

// long is a step that no logger makes: 20 days, less than a month and far more
// than an interval.
const long = 20 * 86400

// plain reports whether some trial reads as a log does.
func plain(all []trial) bool {
	for _, t := range all {
		if t.bad < 0 && (t.up || t.down) && t.longest < long {
			return true
		}
	}
	return false
}

// settle chooses the order in which the days of the log run as time does, and
// says so; an error says both when several do.
func settle(rows []row, wanted Order) (trial, string, *LogError) {
	all := trials(rows, wanted)
	keep := func(list []trial, good func(trial) bool) []trial {
		var out []trial
		for _, t := range list {
			if good(t) {
				out = append(out, t)
			}
		}
		return out
	}
	days := keep(all, func(t trial) bool { return t.bad < 0 })
	if len(days) == 0 {
		r := rows[all[0].bad]
		return trial{}, "", &LogError{Line: int(r.line), Words: fmt.Sprintf("%s is no day of the calendar, read %s", r.written(), inWords(all)), Hint: "mend the date, or take the line out"}
	}
	running := keep(days, func(t trial) bool { return t.up || t.down })
	if len(running) == 0 {
		r, before := rows[days[0].back], rows[days[0].back-1]
		return trial{}, "", &LogError{Line: int(r.line), Words: fmt.Sprintf("time goes back, from %s to %s", before.say(days[0].order), r.say(days[0].order)), Hint: "sort the lines by time, or cut the file where another log begins"}
	}
	if len(running) == 1 {
		if len(all) > 1 {
			return running[0], fmt.Sprintf("dates read %s, the only order in which they run as time does", running[0].order), nil
		}
		return running[0], "", nil
	}
	if short := keep(running, func(t trial) bool { return t.longest < long }); len(short) == 1 {
		return short[0], fmt.Sprintf("dates read %s; otherwise there would be weeks between readings", short[0].order), nil
	} else if len(short) > 1 {
		running = short
	}
	if same(rows, running) {
		return running[0], "", nil
	}
	r := rows[0]
	for _, x := range rows { // a row that shows it
		a, _ := x.wall(running[0].order)
		if b, _ := x.wall(running[1].order); a != b {
			r = x
			break
		}
	}
	return trial{}, "", &LogError{Line: int(r.line), Words: fmt.Sprintf("%s may be %s or %s, and both fit the whole log", r.written(), r.day(running[0].order), r.day(running[1].order)),
		Hint: fmt.Sprintf("say whether it is %s or %s", running[0].order, running[1].order)}
}

// same reports whether several orders give the same times.
func same(rows []row, all []trial) bool {
	for _, r := range rows {
		a, _ := r.wall(all[0].order)
		for _, t := range all[1:] {
			if b, _ := r.wall(t.order); a != b {
				return false
			}
		}
	}
	return true
}

func inWords(all []trial) string {
	var out []string
	for _, t := range all {
		out = append(out, string(t.order))
	}
	return strings.Join(out, " or ")
}

// written is the date as its figures stand.
func (s stamp) written() string {
	if s.known {
		return fmt.Sprintf("%04d-%02d-%02d", s.n[0], s.n[1], s.n[2])
	}
	return fmt.Sprintf("%0*d%c%02d%c%0*d", s.width[0], s.n[0], s.sep, s.n[1], s.sep, s.width[1], s.n[2])
}

func (s stamp) day(o Order) string {
	y, m, d := s.civil(o)
	return time.Date(y, time.Month(m), d, 0, 0, 0, 0, time.UTC).Format("2 January 2006")
}

func (s stamp) say(o Order) string {
	w, _ := s.wall(o)
	return clock(time.Unix(w, 0).UTC())
}
