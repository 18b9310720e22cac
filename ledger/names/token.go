package names

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// token is one word of a name.
type token struct {
	text  string
	kind  Kind
	glued bool // no space before it
	// letter: the sign of a hybrid was written as the letter x
	letter bool
	norm   string // normal spelling, where it differs from text
}

// split cuts a tidy text into tokens: at spaces, after a leading ×, before a
// bracket set against an epithet, before a trailing ?, after a rank term set
// against its epithet.
func split(text string) []token {
	toks := make([]token, 0, 12)
	for len(text) > 0 {
		w := text
		if i := strings.IndexByte(text, ' '); i >= 0 {
			w, text = text[:i], text[i+1:]
		} else {
			text = ""
		}
		toks = splitWord(toks, w)
	}
	return cutFormula(toks)
}

// abbreviation reports whether w, with its full stop, is a word of ours or
// too short to be an epithet.
func abbreviation(w string) bool {
	bare := w[:len(w)-1]
	_, rank := markers[bare]
	return len(w) < 5 || rank || openWords[w] || trailers[w] || notes[w] || notes[bare] || doubts[bare] != "" || senses[bare] != "" || particles[bare] || senseStarts[w] ||
		cultivarWords[w] || groupWords[w] != "" || leadingRanks[w] != 0 || newWords[w] || specialis[w]
}

func splitWord(toks []token, w string) []token {
	if toks, ok := splitSign(toks, w); ok {
		return toks
	}
	if isPlainWord(w) {
		return append(toks, token{text: w})
	}
	if i := strings.IndexByte(w, ','); i > 0 && i < len(w)-3 && isEpithet(w[i+1:]) {
		toks = splitWord(toks, w[:i+1])
		n := len(toks)
		toks = splitWord(toks, w[i+1:])
		toks[n].glued = true
		return toks
	}
	if i := strings.Index(w, "×"); i > 2 && i+2 < len(w) && len(toks) > 0 { // "aurita×cinerea", "aurita×S."
		toks = append(splitWord(toks, w[:i]), token{text: "×", glued: true})
		n := len(toks)
		toks = splitWord(toks, w[i+2:])
		toks[n].glued = true
		return toks
	}
	if i := strings.IndexByte(w, '('); i > 2 && (isLatin(w[:i]) || isRanked(w[:i])) {
		return splitWord(splitWord(toks, w[:i]), w[i:])
	}
	if i := rankInside(w); i > 0 { // "L.var.alba", "(L.)ssp."
		toks = splitWord(toks, w[:i])
		return splitWord(toks, w[i:])
	}
	if rest, ok := strings.CutPrefix(w, "f.sp."); ok && isEpithet(rest) {
		return append(toks, token{text: "f.sp."}, token{text: rest})
	}
	if i := strings.IndexByte(w, '.'); i > 0 && i < len(w)-1 {
		m, ok := markers[w[:i]]
		if ok && (m.rank != Form || i > 1 || len(w)-i > 5) && m.set != "st." && len(w)-i > 3 && isLatin(w[i+1:]) && lowerAt(w, i+1) {
			return append(toks, token{text: w[:i+1]}, token{text: w[i+1:]})
		}
		if m.set != "" && isGreek(w[i+1:][:runeLen(w[i+1:])]) {
			rest := strings.TrimLeft(w[i+1+runeLen(w[i+1:]):], ".")
			if isEpithet(rest) {
				return append(toks, token{text: w[:i+1]}, token{text: w[i+1 : len(w)-len(rest)]}, token{text: rest})
			}
		}
		if doubts[w[:i]] != "" && len(w)-i > 3 && isLatin(w[i+1:]) {
			return append(toks, token{text: w[:i+1]}, token{text: w[i+1:]})
		}
	}
	if n := runeLen(w); len(toks) > 0 && greekFirst(w) && isEpithet(w[n:]) {
		return append(toks, token{text: w[:n]}, token{text: w[n:], glued: true}) // "var. δmicrophylla"
	}
	if n := len(w); n > 2 && w[n-1] == '?' && (w[n-2] == '.' || w[n-2] == ')' || isLatin(w[:n-1])) {
		return append(splitWord(toks, w[:n-1]), token{text: "?", glued: true})
	} else if k := strings.TrimRight(w, "?"); n > len(k)+1 && isLatin(k) { // "annua??"
		return append(splitWord(toks, k), token{text: w[len(k):], glued: true, norm: "?"})
	}
	if n := len(w); n > 3 && w[0] == '?' && isLatin(strings.TrimRight(w[1:], ".")) {
		return append(toks, token{text: "?"}, token{text: w[1:], glued: true})
	}
	return splitEnd(toks, w)
}

// greekFirst reports whether w begins with a Greek letter, as old books number
// varieties.
func greekFirst(w string) bool { return len(w) > runeLen(w) && isGreek(w[:runeLen(w)]) }

func runeLen(s string) int {
	_, n := utf8.DecodeRuneInString(s)
	return n
}

func upperAt(s string, i int) bool {
	r, _ := utf8.DecodeRuneInString(s[i:])
	return unicode.IsUpper(r)
}

func lowerAt(s string, i int) bool {
	if i >= len(s) {
		return false
	}
	r, _ := utf8.DecodeRuneInString(s[i:])
	return unicode.IsLower(r)
}

// isLatin reports whether w is one Latin word: letters, inner hyphens, inner
// apostrophes.
func isLatin(w string) bool {
	letters := 0
	prev := rune('-')
	for _, r := range w {
		switch {
		case r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z':
			letters++
		case r == '-' || isApostrophe(r):
			if prev == '-' || isApostrophe(prev) {
				return false
			}
		case r < 0xC0 || !hasTranscription(r):
			return false
		default:
			letters++
		}
		prev = r
	}
	return letters >= 2 && prev != '-' && !isApostrophe(prev)
}

// hasTranscription reports whether the Code's letters can write r.
func hasTranscription(r rune) bool {
	if _, ok := transcriptions[r]; ok {
		return true
	}
	d, _ := utf8.DecodeRuneInString(norm.NFD.String(string(r)))
	return d >= 'a' && d <= 'z' || d >= 'A' && d <= 'Z'
}

func isApostrophe(r rune) bool {
	return r == '\'' || r == '’' || r == '‘' || r == '´' || r == '`'
}

// isEpithet reports whether w can be an epithet: a Latin word in lower case;
// st.-johnii counts.
func isEpithet(w string) bool {
	if w != "" && w[0] >= '0' && w[0] <= '9' {
		_, rest := leadingFigure(w)
		return len(rest) >= 4 && isEpithet(rest)
	}
	w = strings.Replace(w, "st.-", "st-", 1)
	if !isLatin(w) {
		return false
	}
	for _, r := range w {
		if r < utf8.RuneSelf {
			if r >= 'A' && r <= 'Z' {
				return false
			}
		} else if unicode.IsUpper(r) {
			return false
		}
	}
	return true
}

// isGenus reports whether w can be a genus: a Latin word with a capital, no
// other capital but after a hyphen, no apostrophe.
func isGenus(w string) bool {
	if !isLatin(w) || !upperAt(w, 0) {
		return false
	}
	prev := rune('-')
	for _, r := range w {
		if isApostrophe(r) || unicode.IsUpper(r) && prev != '-' {
			return false
		}
		prev = r
	}
	return strings.Count(w, "-") <= 2
}

// isCapitals reports whether w is a Latin word of three letters or more all
// in capitals.
func isCapitals(w string) bool {
	n := 0
	for _, r := range w {
		if !unicode.IsUpper(r) && r != '-' {
			return false
		}
		n++
	}
	return n >= 3 && isLatin(w)
}
