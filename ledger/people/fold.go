package people

import (
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

var letters = map[rune]string{
	'ø': "o", 'æ': "ae", 'œ': "oe", 'ß': "ss", 'đ': "d", 'ð': "d", 'þ': "th", 'ł': "l", 'ı': "i", 'ħ': "h",
	'’': "'", '‘': "'", '´': "'", '`': "'", '\u00a0': " ",
}

// fold is s in lower case, letters without accents, apostrophes alike. å, ä,
// ö, ü, ø become a, a, o, u, o.
func fold(s string) string {
	ascii := true
	for i := 0; i < len(s); i++ {
		if s[i] >= utf8.RuneSelf || s[i] == '`' {
			ascii = false
			break
		}
	}
	if ascii {
		return strings.ToLower(s)
	}
	var b strings.Builder
	for _, r := range norm.NFD.String(s) {
		r = unicode.ToLower(r)
		if t, ok := letters[r]; ok {
			b.WriteString(t)
		} else if !unicode.Is(unicode.Mn, r) {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// has reports whether w, folded and without the characters in drop, is a word
// of set.
func has(set map[string]bool, w, drop string) bool {
	var buf [24]byte
	n := 0
	for i := 0; i < len(w); i++ {
		c := w[i]
		switch {
		case c >= utf8.RuneSelf || c == '`':
			return set[strings.Map(func(r rune) rune {
				if strings.ContainsRune(drop, r) {
					return -1
				}
				return r
			}, fold(w))]
		case strings.IndexByte(drop, c) >= 0:
			continue
		case n == len(buf):
			return false
		case c >= 'A' && c <= 'Z':
			c += 'a' - 'A'
		}
		buf[n] = c
		n++
	}
	return set[string(buf[:n])]
}

// vocabulary holds the words that split and describe persons, each with and
// without a full stop.
var vocabulary = sync.OnceValue(func() map[string]string {
	all := map[string]string{}
	for _, set := range []map[string]bool{joins, roles, others, companions} {
		for w := range set {
			all[w], all[w+"."] = w, w+"."
		}
	}
	for _, w := range []string{"et.", "stet", "herb", "herb.", "don", "u", "u.", "m", "m.", "e", "e."} {
		all[w] = w
	}
	return all
})

// word is w folded, without commas, colons and exclamation marks around it, if
// it is a word of the vocabulary; else "".
func word(w string) string {
	w = strings.Trim(w, ",:!?")
	var buf [24]byte
	for i := 0; i < len(w); i++ {
		c := w[i]
		if c >= utf8.RuneSelf || c == '`' {
			return vocabulary()[fold(w)]
		}
		if i == len(buf) {
			return ""
		}
		if c >= 'A' && c <= 'Z' {
			c += 'a' - 'A'
		}
		buf[i] = c
	}
	return vocabulary()[string(buf[:len(w)])]
}
