package markdown

import (
	"strings"

	"blotter/render/page"
)

// Escape writes s so that a reader of GitHub Flavored Markdown shows s and
// nothing else: no emphasis, no link, no list, no HTML. Runs of white space
// become one blank, since Markdown shows them so. No other function puts a
// text into a page.
func Escape(s string) string { return strings.TrimRight(string(appendEscaped(nil, s)), " ") }

// appendEscaped escapes s onto the end of dst. A blank at either end of s
// stays one blank, unless dst ends with one already.
func appendEscaped(dst []byte, s string) []byte {
	s = page.Visible(s)
	if beginsLine(dst) {
		dst, s = escapeStart(dst, strings.TrimLeft(s, " \t\n\r\f\v"))
	}
	for i := 0; i < len(s); i++ {
		switch c := s[i]; c {
		case ' ', '\t', '\n', '\r', '\f', '\v':
			if n := len(dst); n > 0 && dst[n-1] != ' ' && dst[n-1] != '\n' {
				dst = append(dst, ' ')
			}
		case '\\', '`', '*', '_', '[', ']', '<', '>', '|', '~', '@':
			dst = append(dst, '\\', c)
		case '&':
			if i+1 < len(s) && (s[i+1] == '#' || s[i+1]|0x20 >= 'a' && s[i+1]|0x20 <= 'z') {
				dst = append(dst, '\\')
			}
			dst = append(dst, c)
		case ':':
			if strings.HasPrefix(s[i:], ":/") {
				dst = append(dst, '\\')
			}
			dst = append(dst, c)
		case '.':
			if i >= 3 && strings.EqualFold(s[i-3:i], "www") {
				dst = append(dst, '\\')
			}
			dst = append(dst, c)
		default:
			dst = append(dst, c)
		}
	}
	return dst
}

// beginsLine reports whether only marks of blocks stand on dst's last line.
func beginsLine(dst []byte) bool {
	for i := len(dst) - 1; i >= 0; i-- {
		switch dst[i] {
		case '\n':
			return true
		case ' ', '-', '>':
		default:
			return false
		}
	}
	return true
}

// escapeStart escapes what would make the beginning of a line a heading, a
// list, a rule or an underline.
func escapeStart(dst []byte, s string) ([]byte, string) {
	if s == "" {
		return dst, s
	}
	switch s[0] {
	case '#', '+', '-', '=', ':':
		return append(dst, '\\', s[0]), s[1:]
	}
	n := 0
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	if n > 0 && n < len(s) && (s[n] == '.' || s[n] == ')') && (n+1 == len(s) || s[n+1] <= ' ') {
		dst = append(dst, s[:n]...)
		return append(dst, '\\', s[n]), s[n+1:]
	}
	return dst, s
}
