package quality

import (
	"strconv"
	"strings"
	"unicode"

	"blotter/ledger/dates"
)

// standardDay proposes a day as a plain number: 5th, 23rd, 5.0.
func standardDay(in *input) Response {
	return standardPart(in, dwcDay, 31, func(s string) (int, bool) {
		for _, ending := range []string{"st", "nd", "rd", "th", "."} {
			s = strings.TrimSuffix(s, ending)
		}
		return plainNumber(trim(s))
	})
}

// standardMonth proposes a month as a plain number: viii, Aug., août.
func standardMonth(in *input) Response { return standardPart(in, dwcMonth, 12, monthOf) }

// standardPart proposes a number from 1 to most where one is meant but not
// written plainly.
func standardPart(in *input, t Term, most int, read func(string) (int, bool)) Response {
	if in.empty(t) {
		return internal(t.String() + " is empty")
	}
	v := in.value(t)
	if n, err := strconv.Atoi(v); err == nil {
		if n < 1 || n > most {
			return notAmended(t.String() + " is a number, but out of range")
		}
		return notAmended(t.String() + " is a plain number already")
	}
	n, ok := read(strings.ToLower(trim(v)))
	if !ok || n < 1 || n > most {
		return notAmended(t.String() + " cannot be read as one number from 1 to " + strconv.Itoa(most))
	}
	return amended(t.String()+" is read as "+strconv.Itoa(n), Change{t, strconv.Itoa(n)})
}

// plainNumber reads 5 and 5.0.
func plainNumber(s string) (int, bool) {
	whole, fraction, _ := strings.Cut(s, ".")
	if strings.Trim(fraction, "0") != "" {
		return 0, false
	}
	return figures(whole)
}

// monthOf reads a month as number, roman numeral, or name in one of the
// languages of ledger/dates.
func monthOf(s string) (int, bool) {
	s = strings.ToLower(trim(s))
	if n, ok := plainNumber(s); ok {
		return n, true
	}
	word := strings.TrimRight(s, ".")
	if word == "" || len(word) > 20 || strings.ContainsFunc(word, func(c rune) bool { return !unicode.IsLetter(c) }) {
		return 0, false
	}
	r := dates.Read("15 "+word+" 2001", dates.Ask)
	if !r.Single() {
		return 0, false
	}
	_, m, _ := r.First.Date()
	return m, true
}
