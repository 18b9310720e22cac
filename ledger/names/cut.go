package names

import (
	"strings"
	"unicode/utf8"
)

// isPlainWord reports whether w is letters a-z alone after its first: most
// words of names are, and need no cutting.
func isPlainWord(w string) bool {
	for i := 1; i < len(w); i++ {
		if w[i] < 'a' || w[i] > 'z' {
			return false
		}
	}
	return w[0] >= 'A' && w[0] <= 'Z' || w[0] >= 'a' && w[0] <= 'z'
}

// splitSign cuts the sign of a hybrid or graft from the word after it.
func splitSign(toks []token, w string) ([]token, bool) {
	first := len(toks) == 0
	switch r, size := utf8.DecodeRuneInString(w); {
	case w == "x" || w == "X":
		return append(toks, token{text: "×", letter: true}), true
	case w == "×" || w == "✕" || w == "✖" || w == "⨯" || w == "(×)" || w == "(x)" && !first:
		return append(toks, token{text: "×"}), true
	case (r == '×' || r == '✕' || r == '✖' || r == '⨯') && len(w) > size:
		toks = append(toks, token{text: "×"})
		n := len(toks)
		toks = splitWord(toks, w[size:])
		toks[n].glued = true
		return toks, true
	case r == '+' && len(w) > 1:
		toks = append(toks, token{text: "+"})
		n := len(toks)
		toks = splitWord(toks, w[1:])
		toks[n].glued = true
		return toks, true
	case first && len(w) > 4 && w[1] == '.' && r >= 'A' && r <= 'Z' && isEpithet(w[2:]):
		return append(toks, token{text: w[:2]}, token{text: w[2:]}), true // "P.annua"
	case (r == 'x' || r == 'X') && first && len(w) > 2 && upperAt(w, 1) && lowerAt(w, 2),
		(r == 'x' || r == 'X' && len(toks) == 1) && !first && len(w) > 4 && strings.IndexByte("bcdfghjklmnpqrstvwz", w[1]) >= 0 && isEpithet(w[1:]):
		// no Latin word begins with x and a consonant: xpiperita is ×piperita
		return append(toks, token{text: "×", letter: true}, token{text: w[1:], glued: true}), true
	}
	return toks, false
}

// innerRanks are the rank terms that may stand inside a word, set against the
// author before them.
var innerRanks = [...]string{"subsp.", "ssp.", "var.", "subvar.", "convar.", "forma "}

// isRanked reports whether w is an epithet with its rank term set against it:
// "subsp.argentea".
func isRanked(w string) bool {
	i := strings.LastIndexByte(w, '.')
	return i > 2 && markers[w[:i]].rank > Species && isEpithet(w[i+1:])
}

// rankInside finds a rank term that is set against the author before it:
// "L.var.alba", "(L.)ssp."; 0 when there is none.
func rankInside(w string) int {
	if len(w) < 6 {
		return 0
	}
	for _, m := range innerRanks {
		if i := strings.Index(w, m); i > 1 && (w[i-1] == '.' || w[i-1] == ')') {
			return i
		}
	}
	return 0
}

// splitEnd cuts what is set against the end of an epithet: a stop that ends
// no abbreviation, a dagger, -agg.; and two names joined by a stroke.
func splitEnd(toks []token, w string) []token {
	n := len(w)
	for _, agg := range [...]string{"-agg.", "-agg", "-Agg.", "-aggr.", "-aggregate", "-Gruppe", "-group"} {
		if s, ok := strings.CutSuffix(w, agg); ok && isEpithet(s) {
			return append(toks, token{text: s}, token{text: agg, glued: true})
		}
	}
	switch {
	case strings.HasSuffix(w, "†") && n > 3:
		return append(splitWord(toks, w[:n-3]), token{text: "†", glued: true})
	case strings.HasPrefix(w, "†") && n > 3:
		toks = append(toks, token{text: "†"})
		k := len(toks)
		toks = splitWord(toks, w[3:])
		toks[k].glued = true
		return toks
	case strings.HasPrefix(w, "*") && isEpithet(w[1:]):
		return append(toks, token{text: "*"}, token{text: w[1:], glued: true})
	case len(toks) > 0 && w[n-1] == ':' && isEpithet(w[:n-1]):
		return append(toks, token{text: w[:n-1]}, token{text: ":", glued: true})
	case len(toks) > 0 && w[n-1] == '.' && isEpithet(w[:n-1]) && !abbreviation(w):
		return append(toks, token{text: w[:n-1]}, token{text: ".", glued: true})
	}
	if i := strings.IndexByte(w, '/'); i > 2 && len(toks) > 0 && isEpithet(w[:i]) && isLatin(w[i+1:]) {
		toks = append(toks, token{text: w[:i]}, token{text: "/", glued: true})
		k := len(toks)
		toks = splitWord(toks, w[i+1:])
		toks[k].glued = true
		return toks
	}
	return append(toks, token{text: w})
}
