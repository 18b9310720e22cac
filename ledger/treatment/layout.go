package treatment

import (
	"slices"
	"strings"
)

// layout is how the rows of a table are built.
type layout struct {
	sep   byte
	date  int  // the column of the date, or of date and time
	clock int  // the column of the time; -1 when it stands with the date
	half  int  // the column of am or pm; -1 when it stands with the time
	epoch bool // the date is a count of seconds since 1970
}

// lead is the first column after those of the time, when they stand first.
func (l layout) lead() int { return max(l.date, l.clock, l.half) + 1 }

// separators are tried in this order; of equally good ones the first is taken.
var separators = [5]byte{';', '\t', ',', '|', blanks}

// looked bounds how far a table's layout is looked for, and sampled how many
// rows are enough to know it.
const (
	looked  = 5000
	sampled = 500
)

// findLayout is the layout that most of the first rows have; false when no line
// has a date, a time and a figure.
func findLayout(all []string) (layout, bool) {
	var best layout
	most := 0
	var cells []string
	for _, sep := range separators {
		var kinds []layout
		var counts []int
		rows := 0
		for _, line := range all[:min(len(all), looked)] {
			if len(line) < 8 || len(line) > 1<<16 {
				continue
			}
			cells = split(line, sep, cells)
			l, ok := rowLayout(cells, sep)
			if !ok {
				continue
			}
			i := slices.Index(kinds, l)
			if i < 0 {
				if len(kinds) == 20 {
					continue
				}
				i, kinds, counts = len(kinds), append(kinds, l), append(counts, 0)
			}
			counts[i]++
			if rows++; rows == sampled {
				break
			}
		}
		for i, l := range kinds {
			if counts[i] > most {
				best, most = l, counts[i]
			}
		}
	}
	return best, most > 0
}

// rowLayout is the layout of one row, if it is one: a date, a time and at least
// one figure or missing reading besides.
func rowLayout(cells []string, sep byte) (layout, bool) {
	l := layout{sep: sep, date: -1, clock: -1, half: -1}
	var s stamp
	for i, cell := range cells {
		if t, ok := readStamp(cell); ok {
			l.date, s = i, t
			break
		}
	}
	if l.date < 0 { // only then, since numbers of devices look like it
		if l.date = slices.IndexFunc(cells, func(cell string) bool { _, ok := readEpoch(cell); return ok }); l.date < 0 {
			return l, false
		}
		l.epoch = true
	}
	if s.second < 0 && !l.epoch {
		if l.clock = clockColumn(cells, l.date); l.clock < 0 {
			return l, false
		}
	}
	if after := max(l.date, l.clock) + 1; after < len(cells) && len(cells[after]) <= 5 {
		if _, rest, ok := meridiem(cells[after]); ok && rest == "" {
			l.half = after
		}
	}
	for i, cell := range cells {
		if i == l.date || i == l.clock || i == l.half {
			continue
		}
		if _, _, kind := temperature(cell); kind == figure || kind == missing && cell != "" {
			return l, true
		}
	}
	return l, false
}

// clockColumn is the column of the time in a row whose date has none: the next
// one first.
func clockColumn(cells []string, date int) int {
	var t stamp
	if date+1 < len(cells) && t.readTime(cells[date+1], false) {
		return date + 1
	}
	for i, cell := range cells {
		if t.readTime(cell, false) {
			return i
		}
	}
	if date+1 < len(cells) && t.readTime(cells[date+1], true) { // 10.05
		return date + 1
	}
	return -1
}

// stamp reads the date and time of a row; false when it has none.
func (l layout) stamp(cells []string) (stamp, bool) {
	if l.date >= len(cells) || l.clock >= len(cells) {
		return stamp{}, false
	}
	if l.epoch {
		return readEpoch(cells[l.date])
	}
	s, ok := readStamp(cells[l.date])
	if !ok {
		return s, false
	}
	if l.clock < 0 && l.half < 0 {
		return s, s.second >= 0
	}
	clock := ""
	if l.clock >= 0 {
		clock = cells[l.clock]
	}
	if l.half < 0 || l.half >= len(cells) || cells[l.half] == "" {
		return s, l.clock >= 0 && s.readTime(clock, true) || l.clock < 0 && s.second >= 0
	}
	if l.clock >= 0 {
		return s, s.readTime(clock+" "+cells[l.half], true)
	}
	pm, _, ok := meridiem(cells[l.half])
	if !ok || s.second < 0 || s.second >= 13*3600 {
		return s, false
	}
	s.second %= 12 * 3600
	if pm {
		s.second += 12 * 3600
	}
	return s, true
}

// timeWords are what headings of dates and times say, in lower case.
var timeWords = []string{"time", "date", "dato", "datum", "tid", "zeit", "uhr", "hora", "fecha", "heure", "jour", "data", "ora", "klok", "dag", "day", "stamp"}

// heads is what stands over each column: names, and units below them, from the
// lines before the first row. The nearest line that speaks of date or time over
// the column of the time is it, else the one just above the first row.
func (l layout) heads(all []string, first, width int) []string {
	names := make([]string, width)
	at, units := -1, -1
	nearest := true
	for i := first - 1; i >= max(0, first-8) && at < 0; i-- {
		if strings.TrimSpace(all[i]) == "" {
			continue
		}
		cells := split(all[i], l.sep, nil)
		fits := len(cells)+1 >= width || l.sep == ',' && len(cells) >= l.lead()+(width-l.lead())/2
		switch {
		case !fits || len(cells) < 2 || len(cells) > width+1:
		case nearest && unitLine(cells):
			units = i
			continue
		case wordy(cells) && (nearest || l.date < len(cells) && has(strings.ToLower(cells[l.date]), timeWords)):
			at = i
		}
		nearest = false
	}
	for _, i := range []int{at, units} {
		if i < 0 {
			continue
		}
		for j, cell := range split(all[i], l.sep, nil) {
			if j < width && cell != "" {
				names[j] = strings.TrimSpace(names[j] + " " + cell)
			}
		}
	}
	return names
}

// counting is the columns before the time that hold a natural number in most
// rows.
func (l layout) counting(sample [][]string) []int {
	var out []int
	for i := range l.date {
		n := 0
		for _, cells := range sample {
			if i < len(cells) && natural(cells[i]) {
				n++
			}
		}
		if i != l.clock && i != l.half && 2*n > len(sample) {
			out = append(out, i)
		}
	}
	return out
}

// natural reports whether a cell is figures alone.
func natural(cell string) bool {
	_, w, rest := digits(cell)
	return w > 0 && rest == ""
}

// wordy reports whether cells are headings: more of them words than figures,
// no date among them.
func wordy(cells []string) bool {
	words := 0
	for _, cell := range cells {
		if _, ok := readStamp(cell); ok {
			return false
		}
		if _, _, kind := temperature(cell); kind == other {
			words++
		} else if cell != "" {
			words--
		}
	}
	return words > 0
}

// unitLine reports whether cells are a line of units: short, with a unit of
// temperature that stands alone among them.
func unitLine(cells []string) bool {
	some := false
	for _, cell := range cells {
		if len(cell) > 20 {
			return false
		}
		some = some || unitIn(cell) != Unsaid && strings.Trim(cell, "()[]°ºCFcf *\uFFFD") == ""
	}
	return some
}
