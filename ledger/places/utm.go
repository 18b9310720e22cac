package places

import (
	"math"
	"strconv"
	"strings"

	"blotter/ledger/geodesy"
)

// utmItem is a piece of a UTM reference.
type utmItem struct {
	kind   byte // 'C' a coordinate, 'E' or 'N' its label, 'Z' the zone, 'B' band or half
	value  float64
	band   byte
	zeros  int // figures that are nought at the end, or less than 0: decimals
	digits int
}

// utmText is a UTM reference in pieces.
type utmText struct {
	items []utmItem
	named bool // the word UTM stands there
	zone  int  // index into items, -1: none
	half  byte // 'N' or 'S' by a word such as south; 0: none
}

var (
	utmFillers = wordSet(true, "utm grid ref reference coord coords coordinates koordinater zone zona sone zon zn z fuseau huso fuso faja m meter meters metres metros hemisphere hemisferio hem and og y")
	utmLabels  = func() map[string]byte {
		m := wordSet(byte('E'), "e me east easting eastings este ost øst x")
		for w, l := range wordSet(byte('N'), "n mn north northing northings norte nord y") {
			m[w] = l
		}
		return m
	}()
)

// readUTM reads zone, easting and northing in either order, with or without
// labels; false when text is no such thing.
func readUTM(text, datum string) (Position, bool) {
	u, ok := scanUTM(text)
	if !ok {
		return Position{}, false
	}
	east, north, ok := u.coordinates()
	if !ok {
		if !u.named {
			return Position{}, false
		}
		return notUTM, true
	}
	if u.zone < 0 {
		return noPosition("position-grid", "UTM without its zone, for example 32V before the figures: not read"), true
	}
	at := geodesy.UTM{Zone: int(u.items[u.zone].value), Easting: east.value, Northing: north.value}
	var p Position
	if why := p.setHalf(&at, u.band(), u.half, datum); why != "" {
		return noPosition("position-grid", "UTM: "+why), true
	}
	if why := at.Check(); why != "" {
		return noPosition("position-grid", "UTM: "+why), true
	}
	p.Form, p.grid = UTM, &grid{utm: at}
	p.Step = math.Pow10(max(-6, min(3, east.zeros, north.zeros))) / metresPerDegree
	p.Lat, p.Lon = p.grid.on(ellipsoidOf(datum))
	return p, true
}

// utmOfCode is the zone that an EPSG code names, as words, and its datum.
func utmOfCode(code string) (zone, datum string, ok bool) {
	n, north, datum, ok := geodesy.UTMOfEPSG(code)
	half := " south"
	if north {
		half = " north"
	}
	return strconv.Itoa(n) + half, datum, ok
}

// setHalf says on which half of the earth a point lies, by band, by word, or
// where neither is there by what is possible.
func (p *Position) setHalf(at *geodesy.UTM, band, word byte, datum string) (why string) {
	switch {
	case word != 0:
		at.North = word == 'N'
		if band != 0 && band != 'N' && band != 'S' {
			at.Band = band
		}
		return ""
	case band == 'N':
		at.North = true
		return ""
	case band == 'S':
		return p.bandS(at, datum)
	case band != 0:
		at.Band, at.North = band, band >= 'N'
		return ""
	case at.Northing > 9400e3:
		return ""
	case at.Northing < 1000e3:
		at.North = true
		return ""
	}
	north, south := datumFits(*at, datum)
	if north == south {
		return "neither a band nor N or S says on which half of the earth the zone is meant; for example 32V or 32N"
	}
	at.North = north
	p.warn("position-doubtful", "neither a band nor N or S is written: read on the half of the earth where "+datum+" is used")
	return ""
}

// bandS takes the letter S, which is a band of the north (32° to 40° N) and
// means south: a northing that does not lie in the band settles it.
func (p *Position) bandS(at *geodesy.UTM, datum string) string {
	inBand := *at
	inBand.North, inBand.Band = true, 'S'
	lat, _ := inBand.LatLon()
	if lat < 31.5 || lat > 40.5 {
		return ""
	}
	if north, south := datumFits(*at, datum); south && !north {
		return ""
	}
	*at = inBand
	p.warn("position-doubtful", "S is read as the band of 32° to 40° north; if south was meant write the band (C to M) or the word south")
	return ""
}

// datumFits reports whether the datum is used at the point taken as north and
// as south.
func datumFits(at geodesy.UTM, datum string) (north, south bool) {
	d, ok := geodesy.DatumOf(datum)
	if !ok || d.WGS84() {
		return false, false
	}
	fits := func(n bool) bool {
		at.North, at.Band = n, 0
		if at.Check() != "" {
			return false
		}
		_, _, m := d.ToWGS84(at.On(d.Ellipsoid))
		return m < geodesy.UnknownDatum
	}
	return fits(true), fits(false)
}

// scanUTM takes a text to pieces; false when a word is none of a UTM
// reference.
func scanUTM(text string) (utmText, bool) {
	u := utmText{zone: -1, items: make([]utmItem, 0, 8)}
	for i := 0; i < len(text); {
		c := text[i]
		switch {
		case isDigit(c):
			n, ok := u.figure(text, i)
			if !ok {
				return u, false
			}
			i += n
		case c|0x20 >= 'a' && c|0x20 <= 'z' || c >= 0x80:
			j := i
			for j < len(text) && (text[j]|0x20 >= 'a' && text[j]|0x20 <= 'z' || text[j] >= 0x80) {
				j++
			}
			if !u.word(strings.ToLower(text[i:j])) {
				return u, false
			}
			i = j
		case strings.IndexByte(" \t,;:/()=.#-[]+\n", c) >= 0:
			i++
		default:
			return u, false
		}
	}
	return u, true
}

// figure takes a number: a zone of at most two figures, or a coordinate.
func (u *utmText) figure(text string, i int) (int, bool) {
	end := i
	for end < len(text) && isDigit(text[end]) {
		end++
	}
	digits := text[i:end]
	if v := atoi(digits); len(digits) <= 2 && v >= 1 && v <= 60 && u.zone < 0 && (end == len(text) || text[end] != ',' || !groupAt(text, end+1)) && !thousandsOf(text[i:]) {
		u.zone = len(u.items)
		u.items = append(u.items, utmItem{kind: 'Z', value: float64(v)})
		return end - i, true
	}
	for end < len(text) && (text[end] == ',' || text[end] == ' ' || text[end] == '\'') && groupAt(text, end+1) && len(digits) <= 5 && (len(digits) <= 4 || text[end] == ',') {
		digits += text[end+1 : end+4]
		end += 4
	}
	it := utmItem{kind: 'C', value: float64(atoi(digits)), digits: len(digits)}
	if len(digits) < 5 || len(digits) > 8 {
		return 0, false
	}
	it.zeros = len(digits) - len(strings.TrimRight(digits, "0"))
	if end+1 < len(text) && (text[end] == '.' || text[end] == ',') && isDigit(text[end+1]) {
		from := end + 1
		scale := 1.0
		for end++; end < len(text) && isDigit(text[end]) && end-from < 6; end++ {
			scale /= 10
			it.value += float64(text[end]-'0') * scale
		}
		it.zeros = from - end
	}
	u.items = append(u.items, it)
	return end - i, true
}

// thousandsOf reports whether s begins with one or two figures and groups of
// three with blanks between that make a northing: 6 730 000.
func thousandsOf(s string) bool {
	n := 0
	for n < len(s) && isDigit(s[n]) {
		n++
	}
	return n == 1 && n+4 < len(s) && s[n] == ' ' && groupAt(s, n+1) && s[n+4] == ' ' && groupAt(s, n+5)
}

func atoi(s string) int {
	n := 0
	for i := range len(s) {
		n = min(n*10+int(s[i]-'0'), 1<<40)
	}
	return n
}

// word takes a word: a label, a band after the zone, a half of the earth, or
// one that says nothing.
func (u *utmText) word(w string) bool {
	afterZone := len(u.items) > 0 && u.items[len(u.items)-1].kind == 'Z'
	if afterZone && len(w) == 1 {
		u.items = append(u.items, utmItem{kind: 'B', band: w[0] - 0x20})
		return true
	}
	switch w {
	case "utm":
		u.named = true
		return true
	case "south", "southern", "sur", "sud", "sul", "sør":
		u.half = 'S'
		return true
	case "mga", "amg": // the map grids of Australia are UTM, and south
		u.named, u.half = true, 'S'
		return true
	case "northern":
		u.half = 'N'
		return true
	case "north", "norte", "nord":
		if afterZone {
			u.half = 'N'
			return true
		}
	}
	if l, ok := utmLabels[w]; ok {
		u.items = append(u.items, utmItem{kind: l})
		return true
	}
	return utmFillers[w]
}

// coordinates finds easting and northing by their labels, or by their order
// and size where there are none. A letter N or E after the zone may be a
// label: then band is taken away.
func (u *utmText) coordinates() (east, north utmItem, ok bool) {
	if e, n, ok := pairOf(u.items); ok {
		return e, n, u.plausible(e, n)
	}
	for i, it := range u.items {
		if it.kind == 'B' && (it.band == 'N' || it.band == 'E') {
			u.items[i].kind = it.band
			e, n, ok := pairOf(u.items)
			return e, n, ok && u.plausible(e, n)
		}
	}
	return utmItem{}, utmItem{}, false
}

// plausible reports whether the two can be meant as UTM: without the word and
// a zone, degrees run together look alike.
func (u *utmText) plausible(e, n utmItem) bool {
	if u.named || u.zone >= 0 {
		return true
	}
	labels := 0
	for _, it := range u.items {
		if it.kind == 'E' || it.kind == 'N' {
			labels++
		}
	}
	return labels == 2 && e.value >= 100e3 && e.value <= 900e3 && !(n.digits == 6 && e.digits == 7)
}

// pairOf finds the two coordinates among items: C C, C label C label, label C
// label C.
func pairOf(items []utmItem) (east, north utmItem, ok bool) {
	var seq [5]utmItem
	n := 0
	for _, it := range items {
		if it.kind == 'Z' || it.kind == 'B' {
			continue
		}
		if n == 4 {
			return east, north, false
		}
		seq[n] = it
		n++
	}
	var a, b utmItem
	var la, lb byte
	switch {
	case n == 2 && seq[0].kind == 'C' && seq[1].kind == 'C':
		if seq[0].value > 900e3 && seq[1].value <= 900e3 {
			return seq[1], seq[0], true
		}
		return seq[0], seq[1], true
	case n == 4 && seq[0].kind == 'C' && seq[2].kind == 'C':
		a, la, b, lb = seq[0], seq[1].kind, seq[2], seq[3].kind
	case n == 4 && seq[1].kind == 'C' && seq[3].kind == 'C':
		a, la, b, lb = seq[1], seq[0].kind, seq[3], seq[2].kind
	}
	switch {
	case la == 'E' && lb == 'N':
		return a, b, true
	case la == 'N' && lb == 'E':
		return b, a, true
	}
	return east, north, false
}

// band is the letter after the zone; 0 when there is none.
func (u *utmText) band() byte {
	for _, it := range u.items {
		if it.kind == 'B' {
			return it.band
		}
	}
	return 0
}
