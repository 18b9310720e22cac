package treatment

import (
	"strconv"
	"strings"
	"time"
)

// Order is in which order the figures of a date stand.
type Order string

// The orders. AsWritten leaves it to the log itself: a year of four figures, a
// month in letters, or the order in which the days of the log run.
const (
	AsWritten  Order = ""
	DayFirst   Order = "day first"
	MonthFirst Order = "month first"
	YearFirst  Order = "year first"
)

// stamp is a date and a time as they stand in a row.
type stamp struct {
	n      [3]int32 // the figures of the date: year, month, day when known, else as written
	known  bool
	sep    byte // between them
	width  [2]uint8
	second int32 // of the day; -1 when there is no time
	offset int32 // seconds east of Greenwich
	zoned  bool  // offset is said
}

// readStamp reads a cell that holds a date, alone or with a time.
func readStamp(cell string) (stamp, bool) {
	if len(cell) < 6 || len(cell) > 60 {
		return stamp{}, false
	}
	s, rest, ok := readDate(cell)
	if !ok {
		return s, false
	}
	if rest == "" {
		return s, true
	}
	if s.second >= 0 { // figures without separators had the time
		return s, false
	}
	rest = strings.TrimLeft(strings.TrimLeft(rest, " \u00a0"), "-,_ \u00a0")
	if word, after := letters(rest); oclock[word] {
		rest = strings.TrimLeft(after, ". \u00a0")
	}
	return s, s.readTime(rest, true)
}

// oclock are the words that stand before a time of the day, or the T of ISO 8601.
var oclock = map[string]bool{"t": true, "kl": true, "klo": true, "at": true, "um": true, "à": true, "om": true, "alle": true}

// readEpoch reads seconds, or thousandths of them, since 1970 in Greenwich: 10
// or 13 figures alone, of the years 2001 to 2033.
func readEpoch(cell string) (stamp, bool) {
	if len(cell) != 10 && len(cell) != 13 || cell[0] != '1' {
		return stamp{}, false
	}
	unix, err := strconv.ParseInt(cell[:10], 10, 64)
	if err != nil || !natural(cell) {
		return stamp{}, false
	}
	at := time.Unix(unix, 0).UTC()
	y, m, d := at.Date()
	return stamp{n: [3]int32{int32(y), int32(m), int32(d)}, known: true, sep: '#', second: int32(at.Hour()*3600 + at.Minute()*60 + at.Second()), zoned: true}, true
}

// readDate reads the date at the head of s.
func readDate(s string) (out stamp, rest string, ok bool) {
	out.second = -1
	s = skipWeekday(s)
	if month, after := readMonth(s); month > 0 { // Mar 2, 2026
		day, w, after := digits(strings.TrimLeft(after, " .-/"))
		year, wy, after := digits(strings.TrimLeft(after, " ,.-/"))
		return out.name(year, month, day, w <= 2 && w > 0 && (wy == 4 || wy == 2), wy), after, w <= 2 && w > 0 && (wy == 4 || wy == 2)
	}
	a, wa, after := digits(s)
	switch wa {
	case 8, 12, 14:
		return compact(s[:wa], after)
	case 1, 2, 4:
	default:
		return out, "", false
	}
	if after == "" {
		return out, "", false
	}
	if month, tail := readMonth(strings.TrimLeft(after, " .-/")); month > 0 { // 2 Mar 2026, 2-Mar-26, 2026-Mar-02
		b, wb, tail := digits(strings.TrimLeft(tail, " ,.-/"))
		if wa == 4 && (wb == 1 || wb == 2) {
			return out.name(a, month, b, true, wa), tail, true
		}
		good := wa <= 2 && (wb == 2 || wb == 4)
		return out.name(b, month, a, good, wb), tail, good
	}
	sep := after[0]
	if sep != '-' && sep != '/' && sep != '.' {
		return out, "", false
	}
	b, wb, after := digits(after[1:])
	if wb < 1 || wb > 2 || after == "" || after[0] != sep {
		return out, "", false
	}
	c, wc, after := digits(after[1:])
	out.n, out.sep, out.width = [3]int32{a, b, c}, sep, [2]uint8{uint8(wa), uint8(wc)}
	if wa == 4 {
		out.known = true
		return out, after, wc == 1 || wc == 2
	}
	return out, after, wc == 2 || wc == 4
}

// name fills a date whose month stands in letters.
func (s stamp) name(year, month, day int32, good bool, width int) stamp {
	if good && width == 2 {
		year = century(year)
	}
	s.n, s.known, s.sep = [3]int32{year, month, day}, good, ' '
	return s
}

// century is the year of two figures: 70 to 99 in the 20th century, the rest in
// the 21st.
func century(y int32) int32 {
	if y >= 70 {
		return 1900 + y
	}
	return 2000 + y
}

// compact reads 20260302, 202603021005 and 20260302100530.
func compact(figures, rest string) (stamp, string, bool) {
	part := func(i, n int) int32 { v, _, _ := digits(figures[i : i+n]); return v }
	s := stamp{n: [3]int32{part(0, 4), part(4, 2), part(6, 2)}, known: true, sep: '#', second: -1}
	good := s.n[0] >= 1970 && s.n[0] < 2200 && s.n[1] >= 1 && s.n[1] <= 12 && s.n[2] >= 1 && s.n[2] <= 31
	if len(figures) > 8 {
		s.second = part(8, 2)*3600 + part(10, 2)*60
		if len(figures) == 14 {
			s.second += part(12, 2)
		}
		good = good && part(8, 2) < 24 && part(10, 2) < 60
	}
	return s, rest, good
}

// digits reads the figures at the head of s, at most 14.
func digits(s string) (v int32, width int, rest string) {
	var n int64
	for width < len(s) && s[width] >= '0' && s[width] <= '9' {
		if width == 14 {
			return 0, 15, ""
		}
		n = n*10 + int64(s[width]-'0')
		width++
	}
	return int32(n % (1 << 30)), width, s[width:]
}

// readTime reads a time of the day that is all of s. dotted takes 10.05 as one.
func (t *stamp) readTime(s string, dotted bool) bool {
	h, w, rest := digits(s)
	if w < 1 || w > 2 || rest == "" {
		return false
	}
	sep := rest[0]
	if sep != ':' && sep != 'h' && sep != 'H' && (sep != '.' || !dotted) {
		return false
	}
	m, w, rest := digits(rest[1:])
	if w != 2 || m > 59 {
		return false
	}
	var sec int32
	if rest != "" && (rest[0] == sep || rest[0] == ':') {
		if sec, w, rest = digits(rest[1:]); w != 2 || sec > 60 {
			return false
		}
		if rest != "" && (rest[0] == '.' || rest[0] == ',' || rest[0] == ':') { // parts of a second are left out
			if _, w, rest = digits(rest[1:]); w < 1 || w > 9 {
				return false
			}
		}
	}
	rest = strings.Trim(rest, " \u00a0\u202f")
	if pm, after, ok := meridiem(rest); ok {
		if h < 1 || h > 12 {
			return false
		}
		h = h % 12
		if pm {
			h += 12
		}
		rest = strings.TrimLeft(after, " ")
	}
	if h > 24 || h == 24 && (m > 0 || sec > 0) {
		return false
	}
	t.second = h*3600 + m*60 + min(sec, 59)
	switch strings.ToLower(strings.TrimRight(rest, ". ")) {
	case "", "uhr", "h", "uur":
		return true
	}
	return t.readOffset(rest)
}

// meridiem reads am or pm, with or without dots, at the head of s.
func meridiem(s string) (pm bool, rest string, ok bool) {
	if s == "" || s[0]|0x20 != 'a' && s[0]|0x20 != 'p' {
		return false, s, false
	}
	rest = strings.TrimLeft(strings.TrimPrefix(s[1:], "."), " \u00a0")
	if rest == "" || rest[0]|0x20 != 'm' {
		return false, s, false
	}
	return s[0]|0x20 == 'p', strings.TrimPrefix(rest[1:], "."), true
}

// zones are the few names that mean one offset, in hours.
var zones = map[string]int32{"z": 0, "utc": 0, "gmt": 0, "cet": 1, "cest": 2}

// readOffset reads an offset from Greenwich: Z, +01:00, +0100, +01, GMT+1, CET.
func (t *stamp) readOffset(s string) bool {
	s = strings.ToLower(strings.Trim(s, "() "))
	if h, ok := zones[s]; ok {
		t.offset, t.zoned = h*3600, true
		return true
	}
	s = strings.TrimPrefix(strings.TrimPrefix(s, "utc"), "gmt")
	sign := int32(1)
	switch {
	case strings.HasPrefix(s, "-"):
		sign, s = -1, s[1:]
	case strings.HasPrefix(s, "−"):
		sign, s = -1, s[len("−"):]
	case strings.HasPrefix(s, "+"):
		s = s[1:]
	default:
		return false
	}
	h, w, rest := digits(s)
	m := int32(0)
	switch {
	case w == 4 && rest == "":
		h, m = h/100, h%100
	case (w == 1 || w == 2) && rest == "":
	case (w == 1 || w == 2) && rest[0] == ':':
		if m, w, rest = digits(rest[1:]); w != 2 || rest != "" {
			return false
		}
	default:
		return false
	}
	if h > 14 || m > 59 {
		return false
	}
	t.offset, t.zoned = sign*(h*3600+m*60), true
	return true
}
