package public

import (
	"html"
	"strings"
	"unicode"
	"unicode/utf8"
)

// folded is what becomes of each ASCII character: itself in lower case for
// letters and figures, 0 for all others.
var folded = func() (t [utf8.RuneSelf]byte) {
	for c := range t {
		switch {
		case 'a' <= c && c <= 'z' || '0' <= c && c <= '9':
			t[c] = byte(c)
		case 'A' <= c && c <= 'Z':
			t[c] = byte(c) + 'a' - 'A'
		}
	}
	return t
}()

// fold makes texts comparable: letters in lower case and figures, everything
// else one blank; a point or comma between figures stays. When the text is
// markup, what HTML and JSON write for a character counts as that character.
func fold(text string, markup bool) string {
	b := make([]byte, 0, len(text))
	pending := false
	for i := 0; i < len(text); {
		c := text[i]
		if c < utf8.RuneSelf && folded[c] != 0 {
			b = word(b, &pending)
			b = append(b, folded[c])
			i++
			continue
		}
		r, size := rune(c), 1
		switch {
		case c >= utf8.RuneSelf:
			r, size = utf8.DecodeRuneInString(text[i:])
		case markup && c == '&':
			r, size = entity(text[i:])
		case markup && c == '\\':
			r, size = escape(text[i:])
		case (c == '.' || c == ',') && i > 0 && isFigure(text, i-1) && isFigure(text, i+1):
			b = append(b, c)
			i++
			continue
		}
		i += size
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsMark(r) {
			pending = true
			continue
		}
		b = word(b, &pending)
		b = utf8.AppendRune(b, unicode.ToLower(r))
	}
	return string(b)
}

// word begins a new word when one is pending.
func word(b []byte, pending *bool) []byte {
	if *pending && len(b) > 0 {
		b = append(b, ' ')
	}
	*pending = false
	return b
}

// entity is the character that text begins with as HTML writes it, and how
// long that is.
func entity(text string) (rune, int) {
	end := strings.IndexByte(text[:min(len(text), 12)], ';')
	if end < 0 {
		return '&', 1
	}
	s := html.UnescapeString(text[:end+1])
	r, n := utf8.DecodeRuneInString(s)
	if n != len(s) {
		return '&', 1
	}
	return r, end + 1
}

// escape is the character that text begins with as JSON writes it.
func escape(text string) (rune, int) {
	if len(text) > 1 && strings.IndexByte(`bfnrt"\/`, text[1]) >= 0 {
		return ' ', 2
	}
	if len(text) < 6 || text[1] != 'u' {
		return '\\', 1
	}
	var r rune
	for _, c := range []byte(text[2:6]) {
		switch {
		case '0' <= c && c <= '9':
			r = r<<4 | rune(c-'0')
		case 'a' <= c && c <= 'f':
			r = r<<4 | rune(c-'a'+10)
		case 'A' <= c && c <= 'F':
			r = r<<4 | rune(c-'A'+10)
		default:
			return '\\', 1
		}
	}
	return r, 6
}

func isFigure(s string, i int) bool { return i < len(s) && s[i] >= '0' && s[i] <= '9' }
