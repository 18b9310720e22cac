package public

import (
	"bytes"
	"html"
	"unicode/utf8"
)

// plain is a text as its reader gets it: what HTML, JSON, Markdown and web
// addresses write for a character is that character, and tags are taken out.
type plain struct {
	text  []byte
	aside []byte // the inside of tags that have one, and of nothing else

	track  bool // places is filled
	places []place
}

// rowBreak stands in a plain text where a tag begins a row, a paragraph or a
// heading.
const rowBreak = 0x1e

// maxTag is the length in bytes beyond which < begins no tag.
const maxTag = 4096

// special marks the bytes that may not stand for themselves.
var special = func() (t [256]bool) {
	for _, c := range []byte("&\\%<") {
		t[c] = true
	}
	return t
}()

// decode fills p with raw.
func (p *plain) decode(raw []byte) {
	p.text, p.aside, p.places = p.text[:0], p.aside[:0], p.places[:0]
	for i := 0; i < len(raw); {
		from := i
		if p.track {
			p.places = append(p.places, place{i, len(p.text), len(p.aside)})
		}
		for i < len(raw) && !special[raw[i]] {
			i++
		}
		p.text = append(p.text, raw[from:i]...)
		if i == len(raw) {
			return
		}
		if raw[i] == '<' {
			i += p.tag(raw[i:])
			continue
		}
		var n int
		p.text, n = appendDecoded(p.text, raw[i:])
		i += n
	}
}

// tag takes out the tag that raw begins with and returns its length.
func (p *plain) tag(raw []byte) int {
	if len(raw) < 3 || !(raw[1]|0x20 >= 'a' && raw[1]|0x20 <= 'z' || raw[1] == '/') {
		p.text = append(p.text, ' ')
		return 1
	}
	end := bytes.IndexByte(raw[:min(len(raw), maxTag)], '>')
	if end < 0 {
		p.text = append(p.text, ' ')
		return 1
	}
	inside := raw[1:end]
	if startsRow(inside) {
		p.text = append(p.text, rowBreak)
	} else {
		p.text = append(p.text, ' ')
	}
	if bytes.IndexByte(inside, '=') >= 0 {
		for i := 0; i < len(inside); {
			if special[inside[i]] && inside[i] != '<' {
				var n int
				p.aside, n = appendDecoded(p.aside, inside[i:])
				i += n
				continue
			}
			p.aside = append(p.aside, inside[i])
			i++
		}
		p.aside = append(p.aside, rowBreak)
	}
	return end + 1
}

func startsRow(tag []byte) bool {
	n := 0
	for n < len(tag) && (tag[n]|0x20 >= 'a' && tag[n]|0x20 <= 'z' || tag[n] >= '1' && tag[n] <= '6') {
		n++
	}
	switch string(tag[:n]) {
	case "li", "tr", "p", "h1", "h2", "h3", "h4", "h5", "h6", "article", "section", "row", "entry":
		return true
	}
	return false
}

// appendDecoded appends what raw, which begins with &, \ or %, writes for a
// character, and returns the length of that.
func appendDecoded(b, raw []byte) ([]byte, int) {
	switch raw[0] {
	case '&':
		return appendEntity(b, raw)
	case '\\':
		return appendEscape(b, raw)
	}
	if len(raw) >= 3 {
		hi, lo := hexOf(raw[1]), hexOf(raw[2])
		if hi >= 0 && lo >= 0 {
			return append(b, byte(hi<<4|lo)), 3
		}
	}
	return append(b, raw[0]), 1
}

// appendEntity is appendDecoded of HTML's characters; one that gives another &
// is taken together with what follows, as text that was escaped twice.
func appendEntity(b, raw []byte) ([]byte, int) {
	end := bytes.IndexByte(raw[:min(len(raw), 12)], ';')
	if end < 2 {
		return append(b, '&'), 1
	}
	switch name := raw[1:end]; string(name) {
	case "amp", "#38", "#x26":
		rest := raw[end+1 : min(len(raw), end+13)]
		if semi := bytes.IndexByte(rest, ';'); semi > 1 && bytes.IndexByte(rest[:semi], ' ') < 0 {
			again, n := appendEntity(b, append([]byte{'&'}, rest...))
			if n > 1 {
				return again, end + n
			}
		}
		return append(b, '&'), end + 1
	case "#39", "#x27", "apos":
		return append(b, '\''), end + 1
	case "#34", "quot":
		return append(b, '"'), end + 1
	case "lt", "gt":
		return append(b, ' '), end + 1
	}
	s := html.UnescapeString(string(raw[:end+1]))
	if r, n := utf8.DecodeRuneInString(s); n != len(s) || r == '&' {
		return append(b, '&'), 1
	}
	return append(b, s...), end + 1
}

// appendEscape is appendDecoded of a backslash: of JSON, scripts, YAML and
// Markdown.
func appendEscape(b, raw []byte) ([]byte, int) {
	if len(raw) < 2 {
		return append(b, ' '), 1
	}
	digits := 0
	switch c := raw[1]; {
	case c == 'u':
		digits = 4
	case c == 'x':
		digits = 2
	case c == 'n' || c == 'r' || c == 't' || c == 'b' || c == 'f':
		return append(b, ' '), 2
	case c < utf8.RuneSelf && folded[c] == 0:
		if c == '&' || c == '<' || c == '%' { // Markdown's; it is looked at for itself
			return append(b, ' '), 1
		}
		return append(b, c), 2
	}
	if digits == 0 || len(raw) < 2+digits {
		return append(b, ' '), 1
	}
	var r rune
	for _, c := range raw[2 : 2+digits] {
		h := hexOf(c)
		if h < 0 {
			return append(b, ' '), 1
		}
		r = r<<4 | rune(h)
	}
	return utf8.AppendRune(b, r), 2 + digits
}

func hexOf(c byte) int {
	switch {
	case '0' <= c && c <= '9':
		return int(c - '0')
	case 'a' <= c && c <= 'f':
		return int(c-'a') + 10
	case 'A' <= c && c <= 'F':
		return int(c-'A') + 10
	}
	return -1
}
