package ledger

import (
	"regexp"
	"strings"
	"sync"
)

// implicit says what some reader of YAML takes a plain scalar for, in words
// that finish "some readers of YAML take this for ..."; "" when every reader
// takes it for words. The table is that of the YAML 1.1 type repository
// (yaml.org/type: null, bool, int, float, timestamp, merge, value) and of the
// YAML 1.2.2 core schema (section 10.3.2). A full ISO day is always taken by
// its characters and passes; see wholeNumber for the other exception.
func implicit(s string) string {
	if s == "" {
		return ""
	}
	switch c := s[0]; {
	case c >= '0' && c <= '9' || c == '-' || c == '+' || c == '.':
		return implicitFigures(s)
	case len(s) > 5:
		return ""
	}
	switch s {
	case "~", "null", "Null", "NULL":
		return "nothing at all"
	case "y", "Y", "yes", "Yes", "YES", "true", "True", "TRUE", "on", "On", "ON":
		return `"true"`
	case "n", "N", "no", "No", "NO", "false", "False", "FALSE", "off", "Off", "OFF":
		return `"false"`
	case "<<", "=":
		return "a command of their own"
	}
	return ""
}

var figurePatterns = sync.OnceValue(func() []struct {
	re *regexp.Regexp
	as string
} {
	return []struct {
		re *regexp.Regexp
		as string
	}{
		{regexp.MustCompile(`^[-+]?[1-9][0-9_]*(:[0-5]?[0-9])+(\.[0-9_]*)?$|^[-+]?[0-9][0-9_]*(:[0-5]?[0-9])+\.[0-9_]*$`), "a number to the base 60"},
		{regexp.MustCompile(`^[-+]?(0b[0-1_]+|0[0-7_]+|0o[0-7]+|0x[0-9a-fA-F_]+)$`), "a number to another base"},
		{regexp.MustCompile(`^[-+]?(0|[1-9][0-9_]*|[0-9]+)$`), "a number"},
		{regexp.MustCompile(`^[-+]?([0-9][0-9_]*)?\.[0-9.]*([eE][-+][0-9]+)?$`), "a number"},
		{regexp.MustCompile(`^[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?$`), "a number"},
		{regexp.MustCompile(`^[-+]?\.(inf|Inf|INF)$|^\.(nan|NaN|NAN)$`), "a number"},
		{regexp.MustCompile(`^[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}([Tt]|[ \t]+)[0-9]{1,2}:[0-9]{2}:[0-9]{2}(\.[0-9]*)?([ \t]*(Z|[-+][0-9]{1,2}(:[0-9]{2})?))?$`), "a moment in time"},
	}
})

// implicitFigures is implicit for words that begin with a figure, a sign or a dot.
func implicitFigures(s string) string {
	if isoDay(s) || strings.IndexFunc(s, notFigure) >= 0 {
		return ""
	}
	for _, p := range figurePatterns() {
		if p.re.MatchString(s) {
			return p.as
		}
	}
	return ""
}

// notFigure reports whether r stands in none of the figure patterns.
func notFigure(r rune) bool {
	return r > 'z' || !strings.ContainsRune("0123456789+-.:_ \tabcdefABCDEFoxTtZinNIF", r)
}

// wholeNumber reports whether s is a number as everybody writes it: figures
// alone, no zero before them, so few that no reader rounds them. Every reader
// gives back the same figures, so these may stand without quotes.
func wholeNumber(s string) bool {
	return s == "0" || len(s) > 0 && len(s) <= 15 && s[0] != '0' && strings.Trim(s, "0123456789") == ""
}

// isoDay reports whether s has the form 2025-07-14.
func isoDay(s string) bool {
	if len(s) != 10 || s[4] != '-' || s[7] != '-' {
		return false
	}
	for i := range len(s) {
		if i != 4 && i != 7 && (s[i] < '0' || s[i] > '9') {
			return false
		}
	}
	return true
}
