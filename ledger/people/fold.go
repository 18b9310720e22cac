package people

import (
	"strings"
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
