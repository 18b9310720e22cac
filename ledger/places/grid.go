package places

import (
	"regexp"
	"strings"
)

// datums are the names of datums that may stand behind a position, without
// spaces and hyphens.
var datums = []string{"WGS84", "NAD27", "NAD83", "ED50", "ETRS89", "EUREF89", "SWEREF99", "OSGB36", "NGO48", "RT90"}

// cutDatum takes the name of a datum from the end of a position.
func cutDatum(text string) (rest, datum string) {
	upper := strings.ToUpper(text)
	for _, d := range datums {
		letters, figures := d[:len(d)-2], d[len(d)-2:]
		i := strings.LastIndex(upper, letters)
		if i < 0 || len(upper) != len(text) {
			continue
		}
		tail := strings.Trim(upper[i+len(letters):], " -).]")
		if tail == figures || tail == "19"+figures {
			return strings.TrimRight(text[:i], " ,;(["), d
		}
	}
	return text, ""
}

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
