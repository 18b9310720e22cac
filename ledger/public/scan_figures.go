package public

import (
	"bytes"
	"cmp"
	"math"
	"slices"
)

// figures is positions to be looked for by the numbers that a text writes:
// every number is read as the coordinate that it may be and compared with
// those of the points, so that decimals cut or rounded at any length, degrees
// with minutes and seconds in any marks, either order, UTM and MGRS are found
// without listing them.
type figures struct {
	points []point
	lat    []axis // by value
	lon    []axis
	north  []axis
	degree [182]bool  // degrees at or just below which a coordinate of some point lies
	tenth  [1822]bool // the same of tenths of a degree
	square map[[2]byte][]int32
}

type axis struct {
	value float64
	at    int32 // place in points
}

func makeFigures(points []point) *figures {
	f := &figures{points: points, square: map[[2]byte][]int32{}}
	for i := range points {
		p := &points[i]
		for _, v := range []float64{p.lat, p.lon} {
			at := int(v * 10)
			f.degree[at/10], f.degree[at/10+1] = true, true
			for k := max(at-1, 0); k <= at+1; k++ {
				f.tenth[k] = true
			}
		}
		if p.grid {
			f.square[p.square] = append(f.square[p.square], int32(i))
		}
	}
	f.lat, f.lon, f.north = axesOf(points)
	return f
}

// axesOf are the coordinates of points by value.
func axesOf(points []point) (lat, lon, north []axis) {
	for i := range points {
		p := &points[i]
		lat = append(lat, axis{p.lat, int32(i)})
		lon = append(lon, axis{p.lon, int32(i)})
		if p.grid {
			north = append(north, axis{p.north, int32(i)})
		}
	}
	for _, list := range [][]axis{lat, lon, north} {
		slices.SortFunc(list, func(a, b axis) int { return cmp.Or(cmp.Compare(a.value, b.value), cmp.Compare(a.at, b.at)) })
	}
	return lat, lon, north
}

// sighting is a position that a text tells: as degrees or as metres of a grid.
type sighting struct {
	at         int32 // place in points
	lat, lon   figure
	both       bool // else one of them stands alone, the other is without scale
	metres     bool // of UTM, or of MGRS when inSquare
	inSquare   bool
	square     [2]byte
	east       metric
	north      metric
	start, end int
}

// within are the entries of a sorted axis from low to high.
func within(list []axis, low, high float64) []axis {
	from, _ := slices.BinarySearchFunc(list, low, func(a axis, v float64) int { return cmp.Compare(a.value, v) })
	to := from
	for to < len(list) && list[to].value <= high {
		to++
	}
	return list[from:to]
}

// scan calls found for every position that stands in text.
func (f *figures) scan(text []byte, found func(sighting)) {
	if len(f.points) == 0 {
		return
	}
	for i := 0; i < len(text); i++ {
		if !isDigit(text[i]) {
			continue
		}
		if end := uuidEnd(text, i); end > i {
			i = end - 1
			continue
		}
		end := i + 1
		for end < len(text) && isDigit(text[end]) {
			end++
		}
		switch digits := end - i; {
		case digits <= 3:
			end = max(end, f.degrees(text, i, end, found))
			if digits >= 2 || end == i+1 {
				f.grid(text, i, i+digits, found)
			}
		case digits >= 5:
			f.compact(text, i, end, found)
			f.metres(text, i, end, found)
		}
		i = end - 1
	}
}

// uuidEnd is where the UUID ends that byte i of text is in (RFC 9562: 8-4-4-4-12
// hexadecimal figures); i when it is in none. Its figures are a sum's, so a
// large collection finds any position in some.
func uuidEnd(text []byte, i int) int {
	const length = 36
	from := i
	for from > 0 && i-from < length && (isHex(text[from-1]) || text[from-1] == '-') {
		from--
	}
	if from+length > len(text) {
		return i
	}
	for k, c := range text[from : from+length] {
		hyphen := k == 8 || k == 13 || k == 18 || k == 23
		if hyphen != (c == '-') || !hyphen && !isHex(c) {
			return i
		}
	}
	if end := from + length; end == len(text) || !isHex(text[end]) && text[end] != '-' {
		return end
	}
	return i
}

func isHex(c byte) bool { return isDigit(c) || 'a' <= c|0x20 && c|0x20 <= 'f' }

// maxGap is the most bytes between two coordinates of one position, maxLetters
// the most letters among them.
const (
	maxGap     = 64
	maxLetters = 40
)

// degrees looks for a coordinate in degrees that begins at i, and for its
// other one behind it; it returns where the figures looked at end.
func (f *figures) degrees(text []byte, i, end int, found func(sighting)) int {
	whole := atoi(text[i:end])
	if whole > 180 || !f.degree[whole] || partOfWord(text, i) {
		return end
	}
	var mine, other [3]figure
	n := readFigures(text, i, end, whole, &mine)
	last := end
	for _, a := range mine[:n] {
		if !f.tenth[min(int(a.value*10), len(f.tenth)-1)] {
			continue
		}
		k, whole, stop := nextNumber(text, a.end)
		m := 0
		if k > 0 && whole <= 180 {
			m = readFigures(text, k, stop, whole, &other)
		}
		paired := false
		for _, b := range other[:m] {
			if f.pairs(a, b, i, found) {
				paired = true
				last = max(last, b.end)
			}
		}
		if !paired {
			f.alone(a, i, found)
		}
		if paired {
			return last
		}
	}
	if n > 0 && (mine[0].marked || text[end] == '.') { // else what follows may begin a coordinate itself
		return mine[0].end
	}
	return end
}

// pairs looks for points at a, b in either order.
func (f *figures) pairs(a, b figure, start int, found func(sighting)) bool {
	hit := false
	try := func(lat, lon figure) {
		for _, x := range within(f.lat, lat.value-lat.step(), lat.value+lat.step()) {
			if f.points[x.at].pair(lat, lon) {
				hit = true
				found(sighting{at: x.at, lat: lat, lon: lon, both: true, start: start, end: b.end})
			}
		}
	}
	try(a, b)
	try(b, a)
	return hit
}

// alone looks for points of which a is one coordinate.
func (f *figures) alone(a figure, start int, found func(sighting)) {
	if a.scale < 3599 {
		return
	}
	for k, list := range [][]axis{f.lat, f.lon} {
		for _, x := range within(list, a.value-a.step(), a.value+a.step()) {
			if !a.is(x.value) || !f.points[x.at].alone(a) {
				continue
			}
			s := sighting{at: x.at, start: start, end: a.end}
			if k == 0 {
				s.lat = a
			} else {
				s.lon = a
			}
			found(s)
		}
	}
}

// metres looks for a northing, alone or with its easting before or behind it.
func (f *figures) metres(text []byte, i, end int, found func(sighting)) {
	if partOfWord(text, i) || end-i > 8 {
		return
	}
	a := metricOf(text, i, end)
	if k, _, stop := nextNumber(text, a.end); k > 0 && stop-k >= 5 && stop-k <= 8 {
		b := metricOf(text, k, stop)
		hit := false
		for _, p := range [][2]metric{{a, b}, {b, a}} {
			east, north := p[0], p[1]
			for _, x := range within(f.north, north.value-north.step-metricSlip, north.value+north.step+metricSlip) {
				if q := &f.points[x.at]; north.is(q.north) && east.is(q.east) && max(north.step, east.step) < q.gridSteps {
					hit = true
					found(sighting{at: x.at, metres: true, both: true, east: east, north: north, start: i, end: b.end})
				}
			}
		}
		if hit {
			return
		}
	}
	if end-i != 7 || a.step > 1 || a.value < 1e6 {
		return
	}
	for _, x := range within(f.north, a.value-1, a.value+1) {
		if math.Abs(a.value-x.value) < 1 {
			found(sighting{at: x.at, metres: true, north: a, start: i, end: a.end})
		}
	}
}

// metricOf reads metres; zeros at the end are taken for figures left out.
func metricOf(text []byte, i, end int) metric {
	m := metric{value: float64(atoi(text[i:end])), step: 1, end: end}
	for k := end - 1; k > i+2 && text[k] == '0' && m.step < 1000; k-- {
		m.step *= 10
	}
	if end+1 < len(text) && text[end] == '.' && isDigit(text[end+1]) {
		for m.end++; m.end < len(text) && isDigit(text[m.end]); m.end++ {
		}
		m.step = 1
	}
	return m
}

// grid looks for a reference of MGRS: the letters of the 100 km square stand
// behind zone and band, and its figures behind them.
func (f *figures) grid(text []byte, i, end int, found func(sighting)) {
	k := end
	if k >= len(text) || !isLetter(text[k]) {
		return
	}
	k++
	for k < len(text) && text[k] == ' ' {
		k++
	}
	if k+4 > len(text) || !isLetter(text[k]) || !isLetter(text[k+1]) {
		return
	}
	list := f.square[[2]byte{text[k] &^ 0x20, text[k+1] &^ 0x20}]
	if len(list) == 0 {
		return
	}
	from := k + 2
	var groups [2][]byte
	stop := from
	for g := range groups {
		for stop < len(text) && text[stop] == ' ' {
			stop++
		}
		from = stop
		for stop < len(text) && isDigit(text[stop]) && stop-from < 10 {
			stop++
		}
		groups[g] = text[from:stop]
		if g == 0 && len(groups[0]) > 5 {
			groups[0], groups[1] = groups[0][:len(groups[0])/2], groups[0][len(groups[0])/2:]
			break
		}
		if g == 0 && len(groups[0])%2 == 0 && len(groups[0]) > 0 && (stop == len(text) || text[stop] != ' ' || !digitAt(text, stop+1)) {
			groups[0], groups[1] = groups[0][:len(groups[0])/2], groups[0][len(groups[0])/2:]
			break
		}
	}
	n := len(groups[0])
	if n == 0 || n != len(groups[1]) || n > 5 {
		return
	}
	side := math.Pow10(5 - n)
	east, north := metric{value: float64(atoi(groups[0])) * side, step: side}, metric{value: float64(atoi(groups[1])) * side, step: side}
	for _, at := range list {
		p := &f.points[at]
		e, m := math.Mod(p.east, 1e5), math.Mod(p.north, 1e5)
		if side < p.gridSteps && east.is(e) && north.is(m) {
			found(sighting{at: at, metres: true, inSquare: true, square: p.square, both: true, east: east, north: north, start: i, end: stop})
		}
	}
}

func digitAt(text []byte, i int) bool { return i < len(text) && isDigit(text[i]) }

func isLetter(c byte) bool { return c|0x20 >= 'a' && c|0x20 <= 'z' }

// nextNumber is the number that follows within maxGap of at: where it begins
// and ends and its value up to the point; 0 when there is none.
func nextNumber(text []byte, at int) (start, value, end int) {
	letters := 0
	for i := at; i < len(text) && i < at+maxGap; i++ {
		c := text[i]
		if isDigit(c) {
			end = i + 1
			for end < len(text) && isDigit(text[end]) {
				end++
			}
			return i, atoi(text[i:end]), end
		}
		if c == rowBreak && bytes.IndexByte(text[at:i], rowBreak) < 0 && letters > 0 {
			return 0, 0, 0
		}
		if isLetter(c) {
			if letters++; letters > maxLetters {
				return 0, 0, 0
			}
		}
	}
	return 0, 0, 0
}

// atoi is the value of figures; more than nine are a number too great.
func atoi(digits []byte) int {
	if len(digits) > 9 {
		return math.MaxInt32
	}
	n := 0
	for _, c := range digits {
		n = n*10 + int(c-'0')
	}
	return n
}
