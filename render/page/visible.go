package page

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Visible returns s with every character that would hide or turn the words
// around it (controls, direction marks and overrides, other invisible signs
// of format) written out as [U+202E]. Line ends and tabs stay; broken UTF-8 becomes
// U+FFFD. Both media pass every text through it.
func Visible(s string) string {
	for i := 0; i < len(s); i++ {
		if c := s[i]; c < ' ' && c != '\n' && c != '\t' || c == 0x7f || c >= 0x80 {
			return visible(s)
		}
	}
	return s
}

func visible(s string) string {
	var b strings.Builder
	start := 0
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		if r == utf8.RuneError && n == 1 {
			b.WriteString(s[start:i])
			b.WriteRune(utf8.RuneError)
			start = i + n
		} else if hidden(r) {
			b.WriteString(s[start:i])
			fmt.Fprintf(&b, "[U+%04X]", r)
			start = i + n
		}
		i += n
	}
	if start == 0 {
		return s
	}
	b.WriteString(s[start:])
	return b.String()
}

func hidden(r rune) bool {
	switch {
	case r == '\n' || r == '\t':
		return false
	case r < ' ' || r >= 0x7f && r < 0xa0:
		return true
	case r == 0xad || r == 0x61c || r == 0x180e || r == 0xfeff:
		return true
	case r >= 0x200b && r <= 0x200f || r >= 0x2028 && r <= 0x202e || r >= 0x2060 && r <= 0x206f:
		return true
	case r >= 0xfff9 && r <= 0xfffb || r >= 0xe0000 && r <= 0xe0fff:
		return true
	}
	return false
}
