package places

import (
	"math"
	"strconv"
	"strings"

	"blotter/ledger/geodesy"
)

// readCompact reads the two forms that machines write: ISO 6709 (2022, annex
// for strings: +60.7033+006.6514+348CRSWGS_84/) and the geo: address of RFC
// 5870 (geo:60.7033,6.6514,348;u=35); false when text is neither.
func readCompact(text string) (Position, bool) {
	if rest, ok := cutFold(text, "geo:"); ok {
		return readGeo(rest), true
	}
	if text != "" && (text[0] == '+' || text[0] == '-') {
		return readISO6709(text)
	}
	return Position{}, false
}

// readISO6709 reads ±DD.DD±DDD.DD, ±DDMM.MM±DDDMM.MM or
// ±DDMMSS.SS±DDDMMSS.SS, then a height, CRS and a name, and a solidus. The
// width says what a number is made of. Without the solidus nothing but the two
// coordinates may stand there.
func readISO6709(text string) (Position, bool) {
	s, ended := strings.CutSuffix(strings.TrimSpace(text), "/")
	lat, s := signed(s)
	lon, s := signed(s)
	latDigits, lonDigits := whole(lat), whole(lon)
	if latDigits != 2 && latDigits != 4 && latDigits != 6 || lonDigits != latDigits+1 {
		return Position{}, false
	}
	height, s := signed(s)
	crs, isCRS := strings.CutPrefix(s, "CRS")
	if s != "" && !isCRS || !ended && (s != "" || height != "") {
		return Position{}, false
	}
	a, f := packed(lat, latDigits, north)
	if f.why == "" {
		var b angle
		if b, f = packed(lon, lonDigits, east); f.why == "" {
			p := pair(a, b)
			if !p.Known() {
				return p, true
			}
			p.Form = ISO6709
			if d, ok := geodesy.DatumOf(crs); ok {
				p.Datum = d.Name
			}
			p.setHeight(height)
			return p, true
		}
	}
	return f.position(), ended
}

// signed takes a sign, figures and perhaps decimals from the start of s.
func signed(s string) (number, rest string) {
	if s == "" || s[0] != '+' && s[0] != '-' {
		return "", s
	}
	i := 1
	for i < len(s) && (isDigit(s[i]) || (s[i] == '.' || s[i] == ',') && i+1 < len(s) && isDigit(s[i+1])) {
		i++
	}
	return s[:i], s[i:]
}

// whole counts the figures before the decimal sign of a signed number.
func whole(s string) int {
	n := 0
	for n+1 < len(s) && isDigit(s[n+1]) {
		n++
	}
	return n
}

// packed reads a signed number of degrees, or degrees with minutes and seconds
// run together.
func packed(s string, digits int, axis side) (angle, fault) {
	degrees := 2
	if axis == east {
		degrees = 3
	}
	body := s[1:]
	parts := make([]token, 0, 3)
	for from := 0; from < digits; {
		to := degrees + 2*len(parts)
		end := to
		if to == digits {
			end = len(body)
		}
		t, n := lexNumber(body[from:end], true)
		if n != end-from {
			return angle{}, fault{why: shape}
		}
		parts = append(parts, t)
		from = to
	}
	a := angle{side: axis, sided: true, lettered: true, marked: true}
	return a.set(parts, s[0] == '-')
}

// setHeight notes a height in metres.
func (p *Position) setHeight(s string) {
	s = strings.ReplaceAll(strings.TrimPrefix(s, "+"), ",", ".")
	if v, err := strconv.ParseFloat(s, 64); err == nil && math.Abs(v) < 1e5 {
		p.Height, p.HasHeight = v, true
	}
}

// readGeo reads what stands after geo: — latitude, longitude, perhaps height,
// and parameters, of which crs and u (metres of uncertainty) count.
func readGeo(s string) Position {
	s, _, _ = strings.Cut(s, "?")
	fields := strings.Split(s, ";")
	coords := strings.Split(fields[0], ",")
	if len(coords) < 2 || len(coords) > 3 {
		return noPosition("position-unread", "a geo: address has latitude and longitude with a comma between, for example geo:60.7033,6.6514")
	}
	p := ReadPair(coords[0], coords[1])
	if !p.Known() {
		return p
	}
	p.Form, p.Datum = ISO6709, "WGS 84"
	if len(coords) == 3 {
		p.setHeight(coords[2])
	}
	for _, f := range fields[1:] {
		name, value, _ := strings.Cut(f, "=")
		switch strings.ToLower(strings.TrimSpace(name)) {
		case "crs":
			d, ok := geodesy.DatumOf(value)
			if !ok {
				return noPosition("position-unread", "the address has coordinates in "+strconv.Quote(value)+", which is not known here")
			}
			p.Datum = d.Name
		case "u":
			if v, err := strconv.ParseFloat(value, 64); err == nil && v >= 0 && v < 1e7 {
				p.Uncertainty = v
			}
		}
	}
	return p
}

// readRunTogether takes degrees, minutes and seconds that are written as one
// figure with a letter, as pilots and satellite receivers do: 604212N
// 0063905E, 6042.20,N,00639.08,E. Both coordinates must have their full width
// and their letter.
func readRunTogether(toks []token) ([]token, bool) {
	var figs, letters []token
	for i, t := range toks {
		switch t.kind {
		case number:
			figs = append(figs, t)
		case letter:
			letters = append(letters, t)
		case divide, soft:
		default:
			return nil, false
		}
		if len(figs) > 2 || len(letters) > 2 || i > 8 {
			return nil, false
		}
	}
	if len(figs) != 2 || len(letters) != 2 || letters[0].side != north || letters[1].side != east ||
		figs[0].digits != 4 && figs[0].digits != 6 || figs[1].digits != figs[0].digits+1 {
		return nil, false
	}
	out := make([]token, 0, 9)
	for i, f := range figs {
		for left := f.digits - 2 - i; left > 0; left -= 2 { // figures after the degrees, after the minutes
			unit := math.Pow10(left)
			v := math.Trunc(f.value / unit)
			out = append(out, token{kind: number, value: v})
			f.value -= v * unit
		}
		out = append(out, token{kind: number, value: f.value, decimals: f.decimals, point: f.point}, letters[i])
		if i == 0 {
			out = append(out, token{kind: divide})
		}
	}
	return out, true
}
