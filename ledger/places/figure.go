package places

import (
	"math"
	"strconv"
	"strings"
)

// figureAt takes a figure with its thousands marks from the start of s: 1200,
// 1,200, 1.200,5, 1 200, 0,5. It returns it with a decimal point and without
// marks, and how many bytes it took; "" when it is none.
func figureAt(s string) (string, int) {
	end := 0
	for end < len(s) {
		c := s[end]
		switch {
		case isDigit(c):
			end++
			continue
		case (c == ',' || c == '.' || c == '\'') && end+1 < len(s) && isDigit(s[end+1]):
			end++
			continue
		case c == ' ' && groupAt(s, end+1) && startsGrouped(s[:end]):
			end++
			continue
		}
		break
	}
	written := strings.ReplaceAll(strings.ReplaceAll(s[:end], " ", ""), "'", "")
	points, commas := strings.Count(written, "."), strings.Count(written, ",")
	switch {
	case points+commas == 0:
	case points > 0 && commas > 0: // the last sign is the decimal one
		if strings.LastIndexByte(written, '.') > strings.LastIndexByte(written, ',') {
			written = strings.ReplaceAll(written, ",", "")
		} else {
			written = strings.ReplaceAll(strings.ReplaceAll(written, ".", ""), ",", ".")
		}
	case points+commas > 1: // 1,234,567
		written = strings.NewReplacer(",", "", ".", "").Replace(written)
	case commas == 1 && grouped(written, ','):
		written = strings.ReplaceAll(written, ",", "")
	case commas == 1:
		written = strings.ReplaceAll(written, ",", ".")
	}
	if strings.Count(written, ".") > 1 {
		return "", 0
	}
	if strings.HasPrefix(written, ".") {
		written = "0" + written
	}
	return written, end
}

// groupAt reports whether exactly three figures stand at i.
func groupAt(s string, i int) bool {
	n := 0
	for i+n < len(s) && isDigit(s[i+n]) {
		n++
	}
	return n == 3
}

// startsGrouped reports whether s is one to three figures, or such with
// groups after it.
func startsGrouped(s string) bool {
	parts := strings.Split(s, " ")
	for i, p := range parts {
		if strings.ContainsAny(p, ".,") || i > 0 && len(p) != 3 || len(p) > 3 {
			return false
		}
	}
	return true
}

// grouped reports whether sign parts thousands in s: one to three figures
// before it, the first not 0, exactly three after it.
func grouped(s string, sign byte) bool {
	i := strings.IndexByte(s, sign)
	return i >= 1 && i <= 3 && s[0] != '0' && len(s)-i == 4
}

// HalfUnit is the error of a written figure, in its own unit: half of the
// part it counts in. A fraction counts in its denominator (10.5: 0.25, 10.25:
// 0.125, 10.1: 0.05); whole tens, hundreds and so on count to the next lower
// power of ten (10: 0.5, 100: 5, 1000: 50). Chapman & Wieczorek,
// Georeferencing Best Practices (GBIF 2020), table of offset precision; for
// figures between, such as 1250, our reading of it: 5.
func HalfUnit(written string) float64 {
	whole, frac, _ := strings.Cut(written, ".")
	if frac != "" {
		switch v, _ := strconv.ParseFloat("0."+frac, 64); {
		case frac == "5" || frac == "50":
			return 0.25
		case v == 0.25 || v == 0.75:
			return 0.125
		}
		return math.Pow10(-len(frac)) / 2
	}
	digits := strings.TrimLeft(whole, "0")
	zeros := len(digits) - len(strings.TrimRight(digits, "0"))
	return math.Pow10(max(0, min(zeros, len(digits)-2))) / 2
}

// parsed is the value of a figure as figureAt gives it.
func parsed(figure string) float64 {
	v, _ := strconv.ParseFloat(figure, 64)
	return v
}
