package places

import (
	"regexp"
	"strings"
)

var (
	utmForm      = regexp.MustCompile(`(?i)\bUTM|^\s*\d{1,2} ?[C-X]? +[0-9,. ]*\d{6,7}\s*m?[EN]?|\b[EN] ?\d{6,7}\b|\b\d{6,7} ?m? ?[EN]\b`)
	townshipForm = regexp.MustCompile(`(?i)\bT\.? ?\d+[NS],?;? *R\.? ?\d+[EW]|\bTRS\b`)
)

// gridReference says that a text is a reference in a grid, which is kept and
// not solved here; empty when it is none.
func gridReference(text string) string {
	if !strings.ContainsAny(text, "UuTt") && !longFigure(text) {
		return ""
	}
	switch {
	case utmForm.MatchString(text):
		return "a grid reference (UTM): kept as written, not read into degrees"
	case townshipForm.MatchString(text):
		return "a township and range: kept as written, not read into degrees"
	}
	return ""
}

// longFigure reports whether six figures or more stand together, not after a
// decimal sign.
func longFigure(text string) bool {
	run, decimal := 0, false
	for i := range len(text) {
		if !isDigit(text[i]) {
			run, decimal = 0, text[i] == '.' || text[i] == ','
			continue
		}
		if run++; run >= 6 && !decimal {
			return true
		}
	}
	return false
}
