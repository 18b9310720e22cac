package places

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Length is a length as read, in metres: all from Min to Max. It says nothing
// unless Known.
type Length struct {
	Min, Max float64
	// Error is how far the figure may be off, in metres: what stands behind a
	// ± in the words, else half of the unit it counts in (see HalfUnit), which
	// Chapman & Wieczorek (GBIF 2020) allow for heights and depths as for
	// distances; with an old unit, what the measures of that name differ by as well.
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
// more figures than its error bears out. Empty when unknown. Read again it
// gives the same figures.
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
	if math.Abs(v) >= 1 {
		decimals = min(decimals, 2) // three would look like thousands
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

// AsFeet is l with its figures taken for feet; l itself when a unit other than
// the metre is written.
func (l Length) AsFeet() Length {
	if !l.known || l.Unit > Metre {
		return l
	}
	foot := Foot.Metres()
	l.Min, l.Max, l.Error, l.Unit = l.Min*foot, l.Max*foot, l.Error*foot, Foot
	return l
}

// OnlyAsFeet reports whether a length in metres, or without a unit, lies
// outside of lowest and highest as it stands and inside when its figures are
// taken for feet.
func (l Length) OnlyAsFeet(lowest, highest float64) bool {
	f := l.AsFeet()
	inside := func(l Length) bool { return l.Min >= lowest && l.Max <= highest }
	return l.known && l.Unit <= Metre && !inside(l) && inside(f)
}

// Below reports whether some of l lies below metres, Above whether some lies
// above, even if its figures are off by its error.
func (l Length) Below(metres float64) bool { return l.known && l.Min+l.Error < metres }

// Above: see Below.
func (l Length) Above(metres float64) bool { return l.known && l.Max-l.Error > metres }

func noLength(code, message string) Length { return Length{Warnings: []Warning{{code, message}}} }

// use is what a length is written for, which settles what is doubtful in it.
type use uint8

const (
	forDistance use = iota // also accuracies
	forHeight
	forDepth
)

// ReadLength reads a distance, an extent or an accuracy: "10 km", "0.5 mi.",
// "± 8 m". It never returns an error: what cannot be read is not Known and has
// a warning, or None set. A figure without unit is taken as metres, with a
// warning.
func ReadLength(text string) Length { return readLength(text, forDistance) }

// ReadElevation reads a height above the sea: "348 m", "1200 ft", "ft. 2600",
// "1.200-1.300 m ü.M.", "below 300 m", "1200 m (3937 ft)", "sea level", "20 m
// below sea level". Otherwise it is as ReadLength. A point before three
// figures is a thousands mark as long as that gives a height that land has.
func ReadElevation(text string) Length { return readLength(text, forHeight) }

// ReadDepth reads a depth under water: "0.8 m", "2-3 fathoms", "-5 m"; Min is
// the shallower end and greater figures lie deeper. Otherwise it is as
// ReadLength.
func ReadDepth(text string) Length { return readLength(text, forDepth) }

// plainBlanks makes blanks of every width, and the apostrophe, plain ones.
var plainBlanks = strings.NewReplacer("\u00a0", " ", "\u2009", " ", "\u202f", " ", "’", "'")

// looseDash reports whether text begins with a dash, a blank and a figure:
// below the sea, or a mark of the list that it stood in.
func looseDash(text string) bool {
	c, n := utf8.DecodeRuneInString(text)
	rest := strings.TrimLeft(text[n:], " ")
	return strings.ContainsRune("-–—−", c) && len(rest) > 0 && len(rest) < len(text)-n && isDigit(rest[0])
}

func readLength(text string, u use) Length {
	text = strings.TrimSpace(text)
	if n, ok := noneOf(text); ok {
		return Length{None: n}
	}
	if len(text) > maxText {
		return noLength("length-unread", "too long for a length")
	}
	if u == forHeight && looseDash(text) {
		return noLength("length-unread", "a dash stands before the figure: write -5 m for below the sea, or leave the dash out")
	}
	r := lengthReader{text: plainBlanks.Replace(text), use: u}
	if bad := r.read(); bad != "" {
		return noLength("length-unread", "cannot read "+strconv.Quote(bad)+" as part of a length")
	}
	return r.finish()
}
