package quality

import (
	"regexp"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger/places"
)

// elevationsFromVerbatim proposes elevations in metres from the words of the
// label.
func elevationsFromVerbatim(in *input) Response {
	return heightsFromVerbatim(in, dwcVerbatimElevation, dwcMinimumElevation, dwcMaximumElevation, false)
}

// depthsFromVerbatim proposes depths in metres from the words of the label.
func depthsFromVerbatim(in *input) Response {
	return heightsFromVerbatim(in, dwcVerbatimDepth, dwcMinimumDepth, dwcMaximumDepth, true)
}

// heightsFromVerbatim proposes both ends. The published answers write depths
// with the maximum first, elevations with the minimum first.
func heightsFromVerbatim(in *input, words, least, most Term, depth bool) Response {
	switch {
	case !in.empty(least) || !in.empty(most):
		return internal(least.String() + " or " + most.String() + " is not empty")
	case in.empty(words):
		return internal(words.String() + " is empty")
	}
	read := places.ReadElevation
	if depth {
		read = places.ReadDepth
	}
	l, why := lengthOf(trim(in.value(words)), read)
	if why == "" && depth && l.Min < 0 {
		why = "gives a depth below 0"
	}
	if why != "" {
		return notAmended(words.String() + " " + why)
	}
	from, to := Change{least, metres(l.Min)}, Change{most, metres(l.Max)}
	if depth {
		from, to = to, from
	}
	return filledIn("read as "+l.String(), from, to)
}

// lengthOf reads a length whose unit is written; why says what keeps it from
// being proposed.
func lengthOf(words string, read func(string) places.Length) (l places.Length, why string) {
	l = read(plainLength(words))
	switch {
	case !l.Known():
		return l, "cannot be read as a length"
	case l.Unit == places.NoUnit:
		return l, "has no unit"
	case l.Approximate:
		return l, "gives the length only roughly"
	case l.OpenAbove || l.OpenBelow:
		return l, "gives one end only"
	case strings.ContainsAny(words, "±"):
		return l, "gives a middle and an error"
	}
	if !strings.ContainsAny(words, "0123456789") { // surface, sea level: the unit must be written
		return l, "has no figure with a unit"
	}
	for _, w := range l.Warnings {
		if w.Code != "length-order" || strings.Contains(w.Message, "Both readings stand") {
			return l, "is doubtful: " + w.Message
		}
	}
	return l, ""
}

// leastMost finds a least and a greatest value, each named as such.
var leastMost = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)^min[a-z]*[ .:=]*(?:depth|elev[a-z]*|alt[a-z]*)?[ .:=]*([-0-9].*?)[,; ]+(?:and +)?max[a-z]*[ .:=]*(?:depth|elev[a-z]*|alt[a-z]*)?[ .:=]*([-0-9].*)$`)
})

// onlyOne finds one value that is named the least or the greatest.
var onlyOne = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)^(?:min|max)[a-z]*[ .:=]*(?:depth|elev[a-z]*|alt[a-z]*)?[ .:=]*([-0-9].*)$`)
})

// plainLength takes the words for least and greatest out, which do not change
// the value: "Mindepth 10m, maxdepth=100m" is 10m - 100m.
func plainLength(s string) string {
	if m := leastMost().FindStringSubmatch(s); m != nil {
		s = m[1] + " - " + m[2]
	} else if m := onlyOne().FindStringSubmatch(s); m != nil {
		s = m[1]
	}
	return s
}

// metres writes a length without adding or taking figures: the factors of
// feet, yards and fathoms have at most four decimals.
func metres(v float64) string {
	s := strconv.FormatFloat(v, 'f', 8, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}
