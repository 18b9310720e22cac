package quality

import (
	"math"
	"strconv"
)

// number reads a decimal number: digits with an optional sign, decimal point
// and exponent, blanks around it. No commas, units or words.
func number(s string) (float64, bool) {
	s = trim(s)
	digits := false
	for i := range len(s) {
		switch c := s[i]; {
		case c >= '0' && c <= '9':
			digits = true
		case c == '.' || c == '+' || c == '-' || (c == 'e' || c == 'E') && digits:
		default:
			return 0, false
		}
	}
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil && digits && !math.IsInf(v, 0)
}

// integer reads a whole number, blanks around it.
func integer(s string) (int, bool) {
	s = trim(s)
	n, err := strconv.Atoi(s)
	return n, err == nil
}

// within reports whether v lies in the range that two parameters give.
func (in *input) within(v float64, least, most Term) (ok bool, span string) {
	lo, okLo := number(in.parameter(least))
	hi, okHi := number(in.parameter(most))
	return (!okLo || v >= lo) && (!okHi || v <= hi), in.parameter(least) + " to " + in.parameter(most)
}
