package land

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// letters are those that do not come apart into a plain letter and a mark.
var letters = map[rune]string{
	'ø': "o", 'æ': "ae", 'œ': "oe", 'ß': "ss", 'ð': "d", 'þ': "th", 'ł': "l", 'đ': "d", 'ı': "i", 'ħ': "h", 'ə': "a", 'ŋ': "n",
}

// fold is a name as it is compared: small letters without marks, words parted
// by one blank, without "the", with "and" for & and "saint" for St.
func fold(s string) string {
	var b strings.Builder
	b.Grow(len(s))
	gap := false
	put := func(t string) {
		if gap && b.Len() > 0 {
			b.WriteByte(' ')
		}
		gap = false
		b.WriteString(t)
	}
	for i, r := range s {
		switch {
		case 'a' <= r && r <= 'z' || '0' <= r && r <= '9':
			put(s[i : i+1])
		case 'A' <= r && r <= 'Z':
			put(string(r + 'a' - 'A'))
		case r == '.' || r == '\'' || r == '’' || r == 'ʻ' || r == 'ʼ' || r == '`' || r == '´':
			// U.S.A., Côte d'Ivoire
			if r == '.' && !initial(s[:i]) {
				gap = true
			}
		case r == '&':
			gap = true
			put("and")
			gap = true
		case r < 0x80:
			gap = true
		default:
			foldRune(r, put, &gap)
		}
	}
	return plainWords(b.String())
}

// initial reports whether the words before a full stop end in one letter, as
// in U.S.A.
func initial(s string) bool {
	n := len(s)
	return n > 0 && letter(s[n-1]) && (n == 1 || !letter(s[n-2]) && s[n-2] < 0x80)
}

func letter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

// foldRune puts what is left of a letter beyond ASCII.
func foldRune(r rune, put func(string), gap *bool) {
	r = unicode.ToLower(r)
	if t, ok := letters[r]; ok {
		put(t)
		return
	}
	if !unicode.IsLetter(r) && !unicode.Is(unicode.Mn, r) {
		*gap = true
		return
	}
	for _, x := range norm.NFKD.String(string(r)) {
		if t, ok := letters[unicode.ToLower(x)]; ok {
			put(t)
		} else if unicode.IsLetter(x) {
			put(string(unicode.ToLower(x)))
		}
	}
}

// plainWords drops "the" and writes St. out.
func plainWords(s string) string {
	if !strings.Contains(s, "the") && !strings.Contains(s, "st ") {
		return s
	}
	ws := strings.Fields(s)
	n := 0
	for _, w := range ws {
		switch w {
		case "the":
			continue
		case "st":
			w = "saint"
		}
		ws[n] = w
		n++
	}
	return strings.Join(ws[:n], " ")
}
