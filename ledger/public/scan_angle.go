package public

import (
	"bytes"
	"math"
)

// partOfWord reports whether the number at i is the rest of a longer one or of
// a word; one letter before it may be a side of the world.
func partOfWord(text []byte, i int) bool {
	if i == 0 {
		return false
	}
	c := text[i-1]
	if (c == '.' || c == ',') && i > 1 && isDigit(text[i-2]) {
		return c == '.'
	}
	if !isLetter(c) {
		return false
	}
	switch c | 0x20 {
	case 'n', 's', 'e', 'w', 'o', 'v':
		return i > 1 && (isLetter(text[i-2]) || isDigit(text[i-2]))
	}
	return true
}

// readFigures reads the coordinates that the number from i to end may begin,
// whole being its value: decimals; degrees with minutes, or with minutes and
// seconds, with marks or with blanks, colons or hyphens between. It returns
// how many there are.
func readFigures(text []byte, i, end, whole int, out *[3]figure) int {
	if whole > 180 {
		return 0
	}
	if d, stop := decimals(text, end); stop > end {
		marked := false
		if k, ok := degreeMark(text, stop); ok {
			stop, marked = k, true
		}
		n := len(d)
		if n > 9 {
			n, d = 9, d[:9]
		}
		scale := math.Pow10(n)
		out[0] = figure{value: float64(whole) + float64(atoi(d))/scale, scale: scale, marked: marked || sideAt(text, stop), end: stop}
		return 1
	}
	k, marked := degreeMark(text, end)
	if !marked {
		if k = separated(text, end); k == end {
			return 0
		}
	}
	for k < len(text) && text[k] == ' ' {
		k++
	}
	minute, stop := twoFigures(text, k)
	if minute < 0 || minute >= 60 {
		return 0
	}
	deg := float64(whole)
	if d, after := decimals(text, stop); after > stop {
		scale := math.Pow10(min(len(d), 7))
		d = d[:min(len(d), 7)]
		if at, ok := minuteMark(text, after); ok {
			after = at
		} else if !marked && !sideAt(text, after) && text[end] != ' ' {
			return 0
		}
		out[0] = figure{value: deg + (float64(minute)+float64(atoi(d))/scale)/60, scale: 60 * scale, marked: marked, end: after}
		return 1
	}
	n := 0
	at, ok := minuteMark(text, stop)
	if s, e := seconds(text, at, ok || marked, end, text); e > 0 && (ok || !marked || at < len(text)) {
		out[n] = s
		out[n].value += deg + float64(minute)/60
		out[n].marked = marked
		n++
	}
	if marked {
		out[n] = figure{value: deg + float64(minute)/60, scale: 60, marked: true, end: at}
		n++
	}
	return n
}

// seconds reads the seconds behind the minutes that end at at; end is 0 when
// there are none. Its value is theirs in degrees.
func seconds(text []byte, at int, marked bool, degEnd int, _ []byte) (f figure, end int) {
	k := at
	if !marked {
		if k = separated(text, at); k == at || text[degEnd] != text[at] {
			return f, 0
		}
	}
	for k < len(text) && text[k] == ' ' {
		k++
	}
	sec, stop := twoFigures(text, k)
	if sec < 0 || sec >= 60 {
		return f, 0
	}
	scale := 1.0
	value := float64(sec)
	if d, after := decimals(text, stop); after > stop {
		d = d[:min(len(d), 5)]
		scale = math.Pow10(len(d))
		value += float64(atoi(d)) / scale
		stop = after
	}
	if _, deg := degreeMark(text, stop); deg {
		return f, 0 // the degrees of the other coordinate
	}
	if after, ok := secondMark(text, stop); ok {
		stop = after
	}
	return figure{value: value / 3600, scale: 3600 * scale, end: stop}, stop
}

// compact looks for degrees, minutes and seconds without anything between
// them, as ISO 6709 writes them: +604212+0063905.
func (f *figures) compact(text []byte, i, end int, found func(sighting)) {
	a, ok := compactAt(text, i, end)
	if !ok || !f.tenth[min(int(a.value*10), len(f.tenth)-1)] {
		return
	}
	k, _, stop := nextNumber(text, a.end)
	if k == 0 {
		return
	}
	if b, ok := compactAt(text, k, stop); ok {
		f.pairs(a, b, i, found)
	}
}

// compactAt reads DDMMSS or DDDMMSS, with decimals or without; a sign stands
// before it or a side behind.
func compactAt(text []byte, i, end int) (figure, bool) {
	n := end - i
	if n != 6 && n != 7 || !(i > 0 && (text[i-1] == '+' || text[i-1] == '-')) && !sideAt(text, end) {
		return figure{}, false
	}
	d, m, s := atoi(text[i:end-4]), atoi(text[end-4:end-2]), atoi(text[end-2:end])
	if d > 180 || m > 59 || s > 59 {
		return figure{}, false
	}
	f := figure{value: float64(d) + float64(m)/60 + float64(s)/3600, scale: 3600, marked: true, end: end}
	if frac, after := decimals(text, end); after > end {
		frac = frac[:min(len(frac), 5)]
		scale := math.Pow10(len(frac))
		f.value += float64(atoi(frac)) / scale / 3600
		f.scale *= scale
		f.end = after
	}
	return f, true
}

// decimals are the figures behind a decimal point or comma at end, and where
// they end; end itself when there are none.
func decimals(text []byte, end int) ([]byte, int) {
	if end+1 >= len(text) || text[end] != '.' && text[end] != ',' || !isDigit(text[end+1]) {
		return nil, end
	}
	stop := end + 1
	for stop < len(text) && isDigit(text[stop]) {
		stop++
	}
	return text[end+1 : stop], stop
}

// twoFigures is the number of one or two figures at i and its end; -1 when
// there is none.
func twoFigures(text []byte, i int) (value, end int) {
	end = i
	for end < len(text) && isDigit(text[end]) {
		end++
	}
	if end == i || end > i+2 {
		return -1, i
	}
	return atoi(text[i:end]), end
}

// separated is the place behind one blank, colon or hyphen at i that a figure
// follows; i when there is none.
func separated(text []byte, i int) int {
	if i+1 < len(text) && (text[i] == ' ' || text[i] == ':' || text[i] == '-') && isDigit(text[i+1]) {
		return i + 1
	}
	return i
}

func sideAt(text []byte, i int) bool {
	for i < len(text) && (text[i] == ' ' || text[i] == '"') {
		i++
	}
	if i >= len(text) || bytes.IndexByte([]byte("NSEWOVnsewov"), text[i]) < 0 {
		return false
	}
	return i+1 == len(text) || !isLetter(text[i+1])
}

var (
	degreeMarks = []string{"°", "º", "˚", "degrees", "deg.", "deg", "grader", "grad", "*", "d"}
	minuteMarks = []string{"′", "’", "‘", "'", "´", "`", "minutes", "minutter", "min.", "min", "m"}
	secondMarks = []string{"″", "”", "“", `"`, "′′", "''", "’’", "´´", "seconds", "sekunder", "sec.", "sec", "sek", "s"}
)

func degreeMark(text []byte, i int) (int, bool) { return markAt(text, i, degreeMarks) }
func minuteMark(text []byte, i int) (int, bool) { return markAt(text, i, minuteMarks) }
func secondMark(text []byte, i int) (int, bool) { return markAt(text, i, secondMarks) }

// markAt is the place behind one of marks that stands at i, blanks before it
// passed over; i when there is none. A mark of one letter is one only when no
// letter follows.
func markAt(text []byte, i int, marks []string) (int, bool) {
	k := i
	for k < len(text) && k < i+2 && text[k] == ' ' {
		k++
	}
	for _, m := range marks {
		if len(text)-k < len(m) || string(text[k:k+len(m)]) != m {
			continue
		}
		end := k + len(m)
		if isLetter(m[len(m)-1]) && end < len(text) && isLetter(text[end]) {
			continue
		}
		return end, true
	}
	return i, false
}
