package places

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Unit is a unit of length as written.
type Unit uint8

const (
	NoUnit Unit = iota // none written; the figure is taken as metres, with a warning
	Metre
	Foot
	Kilometre
	Mile
	Yard
	Fathom
	Centimetre
	NauticalMile
)

// metres in one of each: international foot 0.3048 m, yard 0.9144 m, mile
// 1609.344 m (all exact, international yard and pound agreement 1959),
// nautical mile 1852 m.
var metres = [...]float64{1, 1, 0.3048, 1000, 1609.344, 0.9144, 1.8288, 0.01, 1852}

var unitNames = [...]string{"", "m", "ft", "km", "mi", "yd", "fathoms", "cm", "nautical miles"}

// String is the unit's sign.
func (u Unit) String() string { return unitNames[u] }

var lengthUnits = map[string]Unit{
	"m": Metre, "metre": Metre, "metres": Metre, "meter": Metre, "meters": Metre, "mtr": Metre, "mtrs": Metre, "mts": Metre, "ms": Metre, "metros": Metre, "mètres": Metre,
	"moh": Metre, "möh": Metre, "nn": Metre,
	"ft": Foot, "feet": Foot, "foot": Foot, "fot": Foot, "fuss": Foot, "pieds": Foot, "pies": Foot, "f": Foot,
	"km": Kilometre, "kilometre": Kilometre, "kilometres": Kilometre, "kilometer": Kilometre, "kilometers": Kilometre, "kms": Kilometre,
	"mi": Mile, "mile": Mile, "miles": Mile, "yd": Yard, "yds": Yard, "yard": Yard, "yards": Yard,
	"fm": Fathom, "fathom": Fathom, "fathoms": Fathom, "fms": Fathom, "cm": Centimetre, "nmi": NauticalMile, "nm": NauticalMile,
}

// lengthFillers say nothing of the value.
var lengthFillers = map[string]bool{
	"elev": true, "elevation": true, "alt": true, "altitude": true, "el": true, "depth": true, "height": true, "a": true, "s": true, "l": true, "asl": true, "msl": true,
	"amsl": true, "o": true, "h": true, "ü": true, "u": true, "above": true, "sea": true, "level": true, "havet": true, "over": true, "at": true, "slm": true, "snm": true, "deep": true, "of": true,
	"gps": true, "radius": true, "within": true, "hoh": true, "the": true,
}

var lengthLoose = map[string]bool{"ca": true, "c": true, "circa": true, "about": true, "approx": true, "approximately": true, "around": true, "etwa": true, "vers": true, "omkring": true, "cirka": true, "appr": true, "est": true, "nearly": true, "abt": true}

var lengthBelow = map[string]bool{"below": true, "under": true, "to": true, "up": true, "max": true, "maximum": true}
var lengthRange = map[string]bool{"to": true, "til": true, "bis": true, "and": true, "à": true, "through": true}

// Length is a length as read, in metres: all from Min to Max. It says nothing
// unless Known.
type Length struct {
	Min, Max float64
	// Error is how far the figure may be off by the way it is written, in
	// metres: half of the unit it counts in (see HalfUnit).
	Error       float64
	Unit        Unit
	Approximate bool // ca., about
	OpenBelow   bool // "below 300 m": Min is 0 and not stated
	OpenAbove   bool // "above 300 m": Max is Min and not the end
	None        None
	Warnings    []Warning

	known bool
}

// Known reports whether there is a reading.
func (l Length) Known() bool { return l.known }

// Mid is the middle of Min and Max.
func (l Length) Mid() float64 { return (l.Min + l.Max) / 2 }

// String is the length in metres: 348 m, 610 to 640 m, about 366 m, with no
// more figures than its error bears out. Empty when unknown.
func (l Length) String() string {
	if !l.known {
		return ""
	}
	s := l.figure(l.Min)
	if top := l.figure(l.Max); l.OpenBelow {
		s = "up to " + top
	} else if l.OpenAbove {
		s = "more than " + s
	} else if top != s {
		s += " to " + top
	}
	if l.Approximate {
		s = "about " + s
	}
	return s + " m"
}

func (l Length) figure(v float64) string {
	decimals := 0
	if l.Error < 0.5 && l.Unit != Foot && l.Unit != NoUnit {
		decimals = min(3, int(math.Ceil(-math.Log10(2*l.Error)-1e-9)))
	}
	s := strconv.FormatFloat(v, 'f', max(0, decimals), 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		s = "0"
	}
	return s
}

func noLength(code, message string) Length { return Length{Warnings: []Warning{{code, message}}} }

// ReadLength reads an elevation, depth, distance or accuracy: "348 m", "1200
// ft", "1,150-1,200 m", "ca. 300 m", "± 8 m". It never returns an error: what
// cannot be read is not Known and has a warning, or None set. A figure
// without unit is taken as metres, with a warning.
func ReadLength(text string) Length {
	text = strings.TrimSpace(text)
	if n, ok := noneOf(text); ok {
		return Length{None: n}
	}
	if len(text) > maxText {
		return noLength("length-unread", "too long for a length")
	}
	r := lengthReader{text: text}
	if bad := r.read(); bad != "" {
		return noLength("length-unread", "cannot read "+strconv.Quote(bad)+" as part of a length")
	}
	return r.finish()
}

type figure struct {
	value, half float64
	unit        Unit
}

type lengthReader struct {
	text    string
	figures [2]figure
	n       int
	length  Length
	negate  bool
	joined  bool // a range sign stands after the first figure
}

// read takes the text apart; it returns what it cannot read.
func (r *lengthReader) read() string {
	s := r.text
	for i := 0; i < len(s); {
		c, size := utf8.DecodeRuneInString(s[i:])
		switch {
		case c >= '0' && c <= '9' || (c == '.' || c == ',') && i+1 < len(s) && isDigit(s[i+1]):
			written, n := figureAt(s[i:])
			if written == "" {
				return s[i:min(len(s), i+12)]
			}
			if bad := r.figure(written); bad != "" {
				return bad
			}
			i += n
		case unicode.IsLetter(c):
			j := i
			for j < len(s) {
				c, n := utf8.DecodeRuneInString(s[j:])
				if !unicode.IsLetter(c) && !(c == '.' && j > i && j+1 < len(s) && unicode.IsLetter(rune(s[j+1]))) {
					break
				}
				j += n
			}
			if !r.word(s[i:j]) {
				return s[i:j]
			}
			i = j
		default:
			if !r.mark(c) {
				return string(c)
			}
			i += size
		}
	}
	return ""
}

func (r *lengthReader) figure(written string) string {
	if r.n == 2 || r.n == 1 && !r.joined {
		return written
	}
	v, err := strconv.ParseFloat(written, 64)
	if err != nil || v > 1e9 {
		return written
	}
	half := HalfUnit(written)
	if r.negate && r.n == 0 {
		v = -v
	}
	r.figures[r.n] = figure{value: v, half: half}
	r.n++
	return ""
}

func (r *lengthReader) word(w string) bool {
	f := strings.ReplaceAll(strings.ToLower(w), ".", "")
	u, isUnit := lengthUnits[f]
	switch {
	case isUnit && r.n > 0 && r.figures[r.n-1].unit == NoUnit:
		r.figures[r.n-1].unit = u
	case lengthLoose[f]:
		r.length.Approximate = true
	case r.n == 1 && lengthRange[f]:
		r.joined = true
	case r.n == 0 && lengthBelow[f]:
		r.length.OpenBelow = true
	case r.n == 0 && (f == "above" || f == "over" || f == "exceeding" || f == "min"):
		r.length.OpenAbove = true
	case lengthFillers[f] || isUnit && r.n > 0:
	default:
		return false
	}
	return true
}

func (r *lengthReader) mark(c rune) bool {
	switch c {
	case '-', '–', '—', '−', '‑', '/':
		if r.n == 0 {
			r.negate = c != '/'
		}
		r.joined = true
	case '~', '≈':
		r.length.Approximate = true
	case '<', '≤':
		r.length.OpenBelow = true
	case '>', '≥':
		r.length.OpenAbove = true
	case '\'', '′', '’':
		if r.n > 0 && r.figures[r.n-1].unit == NoUnit {
			r.figures[r.n-1].unit = Foot
		}
	case '?':
		r.length.Approximate = true
	case ' ', '.', ',', ':', ';', '(', ')', '[', ']', '±', '+', '=', '\u00a0', '\u2009', '\u202f', '\t':
	default:
		return false
	}
	return true
}

func (r *lengthReader) finish() Length {
	l := r.length
	if r.n == 0 {
		return noLength("length-unread", "no figure; write for example 348 m or 1200 ft")
	}
	a := r.figures[0]
	b := a
	if r.n == 2 {
		b = r.figures[1]
		if a.unit == NoUnit {
			a.unit = b.unit
		}
		if b.unit == NoUnit {
			b.unit = a.unit
		}
	}
	l.known, l.Unit = true, b.unit
	l.Min, l.Max = a.value*metres[a.unit], b.value*metres[b.unit]
	l.Error = max(a.half*metres[a.unit], b.half*metres[b.unit])
	if l.Min > l.Max {
		l.Min, l.Max = l.Max, l.Min
		l.Warnings = append(l.Warnings, Warning{"length-order", "the greater figure stands first"})
	}
	if l.OpenBelow {
		l.Min = min(0, l.Max)
	}
	if l.Unit == NoUnit {
		l.Warnings = append(l.Warnings, Warning{"length-no-unit", "no unit; read as metres"})
	}
	return l
}
