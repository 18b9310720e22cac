package treatment

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// months are how the names of the months begin, January first, in English,
// Norwegian, Danish, Swedish, German, Dutch, French, Spanish and Italian.
var months = [12][]string{
	{"jan", "ene", "gen"}, {"feb", "fév", "fev"}, {"mar", "mär", "mrz", "maa", "mrt"}, {"apr", "avr", "abr"}, {"may", "mai", "maj", "mei", "mag"}, {"jun", "juin", "giu"},
	{"jul", "juil", "lug"}, {"aug", "aoû", "aou", "ago"}, {"sep", "set"}, {"oct", "okt", "ott"}, {"nov"}, {"dec", "des", "dez", "déc", "dic"},
}

// readMonth reads the name of a month at the head of s; 0 when none stands there.
func readMonth(s string) (month int32, rest string) {
	if s == "" || s[0] >= '0' && s[0] <= '9' {
		return 0, s
	}
	word, rest := letters(s)
	if len(word) < 3 || len(word) > 12 {
		return 0, s
	}
	for i, names := range months {
		for _, name := range names {
			if strings.HasPrefix(word, name) {
				return int32(i + 1), strings.TrimPrefix(rest, ".")
			}
		}
	}
	return 0, s
}

// letters is the letters at the head of s, in lower case.
func letters(s string) (word, rest string) {
	n := 0
	for n < len(s) {
		r, size := utf8.DecodeRuneInString(s[n:])
		if !unicode.IsLetter(r) {
			break
		}
		n += size
	}
	return strings.ToLower(s[:n]), s[n:]
}

// weekdays are how the names of weekdays begin that begin no month.
var weekdays = []string{"mon", "tue", "wed", "thu", "fri", "sat", "sun", "man", "tir", "tis", "ons", "tor", "fre", "lør", "lör", "søn", "sön", "lun", "mer", "jeu", "ven", "sam", "dim", "mo", "di", "mi", "do", "fr", "sa", "so"}

// skipWeekday passes over a weekday before a date: "Mon 2 Mar 2026".
func skipWeekday(s string) string {
	if s == "" || s[0] >= '0' && s[0] <= '9' {
		return s
	}
	word, rest := letters(s)
	trimmed := strings.TrimLeft(rest, "., ")
	if len(trimmed) == len(rest) || trimmed == "" {
		return s
	}
	if month, _ := readMonth(s); month > 0 && trimmed[0] >= '0' && trimmed[0] <= '9' {
		return s // Mar 2, and not mardi
	}
	for _, w := range weekdays {
		if strings.HasPrefix(word, w) {
			return trimmed
		}
	}
	return s
}
