package treatment

import (
	"math"
	"strconv"
	"strings"
)

// Unit is a unit of temperature.
type Unit string

// The units; Unsaid when nothing says which.
const (
	Unsaid     Unit = ""
	Celsius    Unit = "°C"
	Fahrenheit Unit = "°F"
)

func (u Unit) celsius(v float64) float64 {
	if u == Fahrenheit {
		return (v - 32) / 1.8
	}
	return v
}

// cellKind is what a cell of a channel holds.
type cellKind int

const (
	other cellKind = iota
	figure
	missing
)

// absent are the words that loggers write where no temperature was read.
var absent = map[string]bool{
	"nan": true, "na": true, "n/a": true, "n.a.": true, "#n/a": true, "null": true, "none": true, "nil": true, "err": true, "error": true, "fault": true, "fail": true,
	"open": true, "ol": true, "o.l": true, "o.l.": true, "o/l": true, "inf": true, "-inf": true, "+inf": true, "off": true, "missing": true, "no data": true, "nodata": true,
	"no probe": true, "no sensor": true, "probe": true, "probe error": true, "sensor error": true, "disconnected": true, "unplugged": true, "short": true, "nc": true, "n.c.": true,
	"over": true, "under": true, "overflow": true, "underflow": true, "mangler": true, "feil": true, "fehler": true, "fehlt": true, "invalid": true, "?": true, "*": true, "x": true,
}

// plausible bounds what a probe in a freezer can read; outside it a figure is a
// fault of the probe (-127, 850, 999.9, -999) and no reading.
const plausible = 100.0

// temperature reads a cell: a figure with a decimal point or comma and, it may
// be, its unit. What is no figure but stands for none is missing.
func temperature(cell string) (v float64, u Unit, kind cellKind) {
	if len(cell) > 40 {
		return 0, Unsaid, other
	}
	body, sign := cell, 1.0
	switch {
	case strings.HasPrefix(body, "-"):
		body, sign = body[1:], -1
	case strings.HasPrefix(body, "+"):
		body = body[1:]
	case strings.HasPrefix(body, "−"), strings.HasPrefix(body, "–"): // U+2212, U+2013
		body, sign = body[len("−"):], -1
	}
	body = strings.TrimLeft(body, " \u00a0")
	n, comma := figureLength(body)
	if n == 0 {
		return 0, Unsaid, noFigure(cell)
	}
	u, ok := unitAfter(body[n:])
	if !ok {
		return 0, Unsaid, noFigure(cell)
	}
	text := body[:n]
	if comma {
		text = strings.Replace(text, ",", ".", 1)
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(v, 0) {
		return 0, Unsaid, other
	}
	return sign * v, u, figure
}

// figureLength is how many bytes of s are a figure, and whether it has a comma.
func figureLength(s string) (n int, comma bool) {
	digits, points := 0, 0
	for n < len(s) {
		switch c := s[n]; {
		case c >= '0' && c <= '9':
			digits++
		case (c == '.' || c == ',') && points == 0:
			points, comma = 1, c == ','
		case (c == 'e' || c == 'E') && digits > 0:
			if e := exponent(s[n+1:]); e > 0 {
				return n + 1 + e, comma
			}
			return n, comma
		default:
			if digits == 0 {
				return 0, false
			}
			return n, comma
		}
		n++
	}
	if digits == 0 {
		return 0, false
	}
	return n, comma
}

func exponent(s string) int {
	n := 0
	if n < len(s) && (s[n] == '+' || s[n] == '-') {
		n++
	}
	from := n
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	if n == from {
		return 0
	}
	return n
}

// unitAfter is the unit behind a figure; ok is false when something else stands
// there.
func unitAfter(s string) (u Unit, ok bool) {
	s = strings.Trim(s, " \u00a0")
	if s == "" {
		return Unsaid, true
	}
	// A degree sign out of another code page may be any one letter.
	switch strings.ToLower(strings.Trim(s, "°º˚\uFFFD*.' ")) {
	case "c", "deg c", "degc", "celsius", "℃":
		return Celsius, true
	case "f", "deg f", "degf", "fahrenheit", "℉":
		return Fahrenheit, true
	case "":
		return Unsaid, true
	}
	return Unsaid, false
}

func noFigure(cell string) cellKind {
	if strings.Trim(cell, "-–—._*#/ ") == "" || absent[strings.ToLower(cell)] {
		return missing
	}
	return other
}

// apart are what may stand around a unit in a heading.
var apart = strings.NewReplacer(";", " ", "\t", " ", ":", " ", ",", " ", "\"", " ", "_", " ", "|", " ")

// unitIn is the unit that a heading, or a line before the table, names. A bare
// letter is one only beside a word for temperature: probes are called C and F.
func unitIn(s string) Unit {
	low := " " + apart.Replace(strings.ToLower(s)) + " "
	bare := has(low, []string{"temp", "deg", "unit", "enhet", "einheit", "scale"})
	for _, c := range []struct {
		unit  Unit
		bare  string
		words []string
	}{
		{Fahrenheit, " f ", []string{"fahrenheit", "°f", "ºf", "˚f", "℉", "° f", "deg f", "degf", "(f)", "[f]", "\uFFFDf", "*f "}},
		{Celsius, " c ", []string{"celsius", "°c", "ºc", "˚c", "℃", "° c", "deg c", "degc", "(c)", "[c]", "\uFFFDc", "*c "}},
	} {
		if has(low, c.words) || bare && strings.Contains(low, c.bare) {
			return c.unit
		}
	}
	return Unsaid
}
