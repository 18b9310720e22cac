package page

import (
	"fmt"
	"hash/fnv"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Slug is the last part of an address made of words: lower case, folded to
// ASCII letters and digits, joined by hyphens. Words that have none of these,
// as in another script, give a short number made of them; empty words give "".
func Slug(words string) string {
	var b strings.Builder
	gap := false
	for _, r := range norm.NFD.String(words) {
		s, ok := folded[r]
		switch {
		case ok:
		case r < 0x80 && (unicode.IsLetter(r) || unicode.IsDigit(r)):
			s = string(unicode.ToLower(r))
		case unicode.Is(unicode.M, r) || r == '\'' || r == '’':
			continue
		default:
			gap = true
			continue
		}
		if gap && b.Len() > 0 {
			b.WriteByte('-')
		}
		gap = false
		b.WriteString(s)
	}
	if b.Len() == 0 && strings.TrimSpace(words) != "" {
		h := fnv.New32a()
		h.Write([]byte(strings.Join(strings.Fields(words), " ")))
		return fmt.Sprintf("x%08x", h.Sum32())
	}
	return Device(b.String())
}

// Device keeps a file's name off the words that Windows keeps for devices.
func Device(s string) string {
	switch s {
	case "con", "prn", "aux", "nul", "index":
		return s + "-"
	}
	if len(s) == 4 && (s[:3] == "com" || s[:3] == "lpt") {
		return s + "-"
	}
	return s
}

var folded = map[rune]string{
	'ø': "o", 'Ø': "o", 'æ': "ae", 'Æ': "ae", 'œ': "oe", 'Œ': "oe", 'ß': "ss", 'ẞ': "ss",
	'ð': "d", 'Ð': "d", 'đ': "d", 'Đ': "d", 'þ': "th", 'Þ': "th", 'ł': "l", 'Ł': "l", 'ı': "i",
}
