package treatment

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
)

// rowsOf reads the rows.
func (r *reader) rowsOf() *LogError {
	var cells []string
	last, others := r.first, 0
	var bad *LogError // of a line passed over, if rows come after it
	for i := r.first; i < len(r.lines); i++ {
		line := r.lines[i]
		cells = split(line, r.l.sep, cells)
		s, ok := r.l.stamp(cells)
		if !ok || !r.counts(cells) {
			if strings.TrimSpace(line) != "" {
				others++
			}
			if bad == nil && !ok {
				bad = r.broken(line, cells, i)
			}
			continue
		}
		if bad != nil {
			return bad
		}
		if r.paired {
			cells = r.join(cells)
		}
		if gap := i - last - 1; gap > 0 && others > 0 {
			r.skipped(last+1, i, others)
		}
		last, others = i, 0
		r.rows = append(r.rows, row{stamp: s, line: int32(i + 1), c: r.warmest(cells, i)})
	}
	if others > 0 {
		r.skipped(last+1, len(r.lines), others)
	}
	r.log.Rows = len(r.rows)
	return nil
}

func (r *reader) skipped(from, to, n int) {
	if len(r.log.Notes) < noted {
		word := "lines are"
		if n == 1 {
			word = "line is"
		}
		r.note(from+1, "%d %s no row of the table and passed over, up to line %d", n, word, to)
	}
}

// broken is the error about a line that is built as a row is, but whose date or
// time cannot be read.
func (r *reader) broken(line string, cells []string, i int) *LogError {
	if len(cells) < len(r.sample[0]) || len(cells) <= r.log.Core[0].column {
		return nil
	}
	_, _, kind := temperature(cells[r.log.Core[0].column])
	cell := cells[r.l.date]
	if kind != figure || cell == "" || cell[0] < '0' || cell[0] > '9' {
		return nil
	}
	if r.l.clock >= 0 {
		if _, ok := readStamp(cell); ok {
			cell = cells[r.l.clock]
		}
	}
	return &LogError{Line: i + 1, Col: column(line, cell), Words: fmt.Sprintf("%q is no date and time as the other lines have it", cell), Hint: "mend it, or take the line out"}
}

// warmest is the warmest reading of the chosen channels in a row, in °C; NaN
// when a channel that reads in other rows is missing, as nobody then knows.
func (r *reader) warmest(cells []string, i int) float64 {
	c := math.Inf(-1)
	absent := false
	for j := range r.log.Core {
		ch := &r.log.Core[j]
		cell := ""
		if ch.column < len(cells) {
			cell = cells[ch.column]
		}
		v, u, kind := temperature(cell)
		if u == Unsaid {
			u = ch.Unit
		}
		v = u.celsius(v)
		switch {
		case kind == figure && math.Abs(v) <= plausible:
			c, ch.live = max(c, v), true
			continue
		case kind == figure && len(r.log.Notes) < noted:
			r.note(i+1, "%q is no temperature that a probe in a freezer reads; taken as missing", cell)
		case kind == other && len(r.log.Notes) < noted:
			r.note(i+1, "%q is no temperature; taken as missing", cell)
		}
		absent = absent || ch.live || len(r.log.Core) == 1
	}
	if absent || math.IsInf(c, 0) {
		return math.NaN()
	}
	return c
}

// times turns rows into readings.
func (r *reader) times() *LogError {
	if !slices.ContainsFunc(r.rows, func(x row) bool { return !math.IsNaN(x.c) }) {
		return &LogError{Line: r.first + 1, Words: "no row has a temperature", Hint: "name another channel as the core"}
	}
	for _, x := range r.rows {
		if r.guessed && x.c < -40 {
			return &LogError{Line: int(x.line), Words: fmt.Sprintf("%g, and nothing says whether °C or °F; below -40 °F is the warmer", x.c), Hint: "write the unit into the heading, for example temperature °C"}
		}
	}
	t, why, err := settle(r.rows, r.o.Order)
	if err != nil {
		line := r.lines[err.Line-1]
		if cells := split(line, r.l.sep, nil); r.l.date < len(cells) {
			err.Col = column(line, cells[r.l.date])
		}
		return err
	}
	if why != "" {
		r.note(0, "%s", why)
	}
	if slices.ContainsFunc(r.rows, func(x row) bool { return !x.known }) {
		r.log.Order = t.order
	}
	if t.down {
		slices.Reverse(r.rows)
		r.note(0, "the newest reading stands first")
	}
	at, err := r.instants(t.order)
	if err != nil {
		return err
	}
	for i := range r.rows {
		if math.IsNaN(r.rows[i].c) {
			r.log.Missing++
			continue
		}
		r.log.Readings = append(r.log.Readings, Reading{time.Unix(at[i], 0).In(r.o.Zone), r.rows[i].c})
	}
	r.log.Readings = tidy(r.log.Readings)
	if n := r.log.Rows - r.log.Missing - len(r.log.Readings); n > 0 {
		r.note(0, "%d readings share their moment with another; the warmest is taken", n)
	}
	if r.log.Missing > 0 {
		r.note(0, "%d of %d rows have no reading", r.log.Missing, r.log.Rows)
	}
	return nil
}

// instants is the moment of each row.
func (r *reader) instants(o Order) ([]int64, *LogError) {
	walls := make([]int64, len(r.rows))
	zoned := r.heads
	for i := range r.rows {
		walls[i], _ = r.rows[i].wall(o)
		zoned = zoned || r.rows[i].zoned
	}
	bad, note := -1, ""
	if zoned {
		for i := range r.rows {
			offset := r.zoned
			if r.rows[i].zoned {
				offset = r.rows[i].offset
			} else if !r.heads {
				offset = int32(offsetAt(r.o.Zone, walls[i]))
			}
			walls[i] -= int64(offset)
		}
		bad = backwards(walls)
	} else {
		walls, note, bad = moments(walls, r.o.Zone)
	}
	if bad > 0 {
		return nil, &LogError{Line: int(r.rows[bad].line), Words: fmt.Sprintf("time goes back, from %s to %s", r.rows[bad-1].say(o), r.rows[bad].say(o)), Hint: "sort the lines by time, or cut the file where another log begins"}
	}
	if note != "" {
		r.note(0, "%s", note)
	}
	return walls, nil
}
