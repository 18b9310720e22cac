package find

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// ownLetters are letters that do not come apart into a plain one and a mark.
var ownLetters = strings.NewReplacer("ø", "o", "æ", "ae", "œ", "oe", "ß", "ss", "đ", "d", "ð", "d", "ł", "l", "þ", "th", "ı", "i")

// Fold is s for comparison: lower case, marks taken off, so that Love finds
// Löve and Bjorn finds Bjørn.
func Fold(s string) string {
	plain := true
	for i := 0; i < len(s); i++ {
		if s[i] >= 0x80 || s[i] >= 'A' && s[i] <= 'Z' {
			plain = false
			break
		}
	}
	if plain {
		return s
	}
	s = ownLetters.Replace(strings.ToLower(s))
	var b strings.Builder
	for _, r := range norm.NFD.String(s) {
		if !unicode.Is(unicode.Mn, r) {
			b.WriteRune(unicode.ToLower(r))
		}
	}
	return ownLetters.Replace(b.String())
}

// foldWords are the words of s, folded. A word is a run of letters, digits
// and the signs that hold a number or an abbreviation together.
func foldWords(s string) []string {
	return strings.FieldsFunc(Fold(s), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '°'
	})
}

// hasWords reports whether the words stand in text one after the other; the
// last of them may be the beginning of a longer word. No words stand
// everywhere.
func hasWords(text string, words []string) bool {
	if len(words) == 0 {
		return true
	}
	have := foldWords(text)
	for i := 0; i+len(words) <= len(have); i++ {
		if wordsAt(have[i:], words) {
			return true
		}
	}
	return false
}

func wordsAt(have, words []string) bool {
	last := len(words) - 1
	for j, w := range words[:last] {
		if have[j] != w {
			return false
		}
	}
	return strings.HasPrefix(have[last], words[last])
}
