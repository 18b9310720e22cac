package dates

import (
	"slices"
	"strings"
)

// Options are the conventions under which dates are read.
type Options struct {
	Order Order
	// FirstYear and LastYear bound what a year of two figures can mean; both
	// 0: 18yy, 19yy and, for 00 to 49, 20yy (common practice, no source).
	FirstYear, LastYear int
}

// Read reads a date as it stands on a label or slip, or in ISO 8601 or EDTF
// form. It never returns an error: what cannot be read has Precision Unread
// and a warning, or None set when the words say that there is no date.
func Read(text string, o Order) Reading { return ReadWith(text, Options{Order: o}) }

// maxText is the longest text that is taken for a date, in bytes.
const maxText = 200

// ReadWith is Read under further conventions.
func ReadWith(text string, o Options) Reading {
	text = strings.TrimSpace(text)
	if n, ok := noneOf(text); ok {
		return Reading{None: n}
	}
	if len(text) > maxText {
		return unread("date-unread", "too long for a date")
	}
	if r, ok := readEDTF(text); ok {
		return r
	}
	l := lex(text)
	if l.otherWord != "" {
		return unread("date-unread", "cannot read \""+l.otherWord+"\" as part of a date")
	}
	p := parser{options: o}
	var spans []span
	if !cutShort(text) {
		spans = p.spans(l.tokens)
	}
	if len(spans) == 0 {
		return p.explain(l.tokens)
	}
	r := join(spans, p.shortYear)
	r.Approximate, r.Uncertain = l.approximate, l.uncertain
	return r
}

// cutShort reports whether the last figures of a year were left out: 19-,
// 18.., 19__. Nothing is guessed of them.
func cutShort(text string) bool {
	rest := strings.TrimRight(text, "-–_. ")
	n := len(rest)
	if n < 2 || !strings.HasSuffix(rest, "18") && !strings.HasSuffix(rest, "19") && !strings.HasSuffix(rest, "20") {
		return false
	}
	tail := strings.TrimSpace(text[n:])
	return (n == 2 || rest[n-3] < '0' || rest[n-3] > '9') && tail != "" && tail != "."
}

func noneOf(text string) (None, bool) {
	if len(text) > 30 {
		return Stated, false
	}
	if text == "" {
		return NotTyped, true
	}
	f := strings.Map(func(r rune) rune {
		if strings.ContainsRune(".[]()", r) {
			return -1
		}
		return r
	}, foldWord(text))
	n, ok := noneWords[strings.TrimSpace(f)]
	if strings.TrimSpace(f) == "" {
		// signs alone: [...] is the mark for what cannot be made out
		return Illegible, strings.Contains(text, "...")
	}
	return n, ok
}

func unread(code, message string) Reading {
	return Reading{Warnings: []Warning{{Code: code, Message: message}}}
}

// join makes one reading of all possible spans; shortYear says that the year
// has two figures.
func join(spans []span, shortYear bool) Reading {
	first, last := spans[0].first, spans[0].last
	for _, s := range spans[1:] {
		first, last = min(first, s.first), max(last, s.last)
	}
	r := Reading{First: first, Last: last, Precision: spans[0].precision}
	if len(spans) == 1 {
		return r
	}
	slices.SortFunc(spans, func(a, b span) int { return int(a.first) - int(b.first) })
	var readings []string
	for _, s := range spans {
		w := Reading{First: s.first, Last: s.last, Precision: s.precision}.String()
		if !slices.Contains(readings, w) {
			readings = append(readings, w)
		}
	}
	if len(readings) == 1 {
		return r
	}
	r.Precision = Ambiguous
	w := Warning{Code: "date-ambiguous", Readings: readings}
	w.Message = "can be " + listOr(readings) + "; write the month in letters, for example " + label(spans[0].first)
	if shortYear {
		w.Code = "date-short-year"
		w.Message = "the year has two figures: can be " + listOr(readings) + "; write it in full, for example " + label(spans[0].first)
	}
	r.Warnings = []Warning{w}
	return r
}

func listOr(words []string) string {
	if len(words) == 1 {
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

var romanMonths = [...]string{"i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii"}

// label is a day as labels write it: 14.vii.1987.
func label(d Day) string {
	y, m, dd := d.Date()
	return itoa(dd) + "." + romanMonths[m-1] + "." + itoa(y)
}

func itoa(n int) string {
	if n < 0 {
		return "-" + itoa(-n)
	}
	if n < 10 {
		return string(rune('0' + n))
	}
	return itoa(n/10) + string(rune('0'+n%10))
}
