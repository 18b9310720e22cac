package ledger

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// A place in YAML where words stand: it decides what may go unquoted.
type yamlPlace bool

const (
	blockPlace yamlPlace = false
	flowPlace  yamlPlace = true // within [ ] or { }
)

// quote writes words as one YAML scalar on one line: plain where every reader
// takes them for these words, else in quotes.
func quote(s string, at yamlPlace) string {
	if plain(s, at) {
		return s
	}
	return quoted(s)
}

// quoted writes words in quotes: double ones, or single ones where that
// spares escapes.
func quoted(s string) string {
	if escapeFree(s) {
		if !strings.ContainsAny(s, `"\`) {
			return `"` + s + `"`
		}
		return "'" + strings.ReplaceAll(s, "'", "''") + "'"
	}
	var b strings.Builder
	b.WriteByte('"')
	for i, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case r == utf8.RuneError && s[i] != "\uFFFD"[0]:
			b.WriteString(`\uFFFD`)
		case hidden(r) && r > 0xffff:
			fmt.Fprintf(&b, `\U%08X`, r)
		case hidden(r):
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// hidden reports whether r may not stand as itself in a file of the ledger.
func hidden(r rune) bool {
	return r < ' ' || r >= 0x7f && r < 0xa0 || separator(r) || turning(r) || widthless(r) || r >= 0xfffe && r&0xfffe == 0xfffe || r >= 0xd800 && r < 0xe000
}

// escapeFree reports whether s can stand between quotes as it is.
func escapeFree(s string) bool {
	for i, r := range s {
		if hidden(r) || r == utf8.RuneError && s[i] != "\uFFFD"[0] {
			return false
		}
	}
	return true
}

// plain reports whether s may stand unquoted at a place.
func plain(s string, at yamlPlace) bool {
	if s == "" || s[0] == ' ' || s[len(s)-1] == ' ' || strings.IndexByte("-?:,[]{}#&*!|>'\"%@`", s[0]) >= 0 || s[len(s)-1] == ':' {
		return false
	}
	if strings.HasPrefix(s, "...") || strings.HasPrefix(s, "---") || implicit(s) != "" || !escapeFree(s) {
		return false
	}
	if at == flowPlace && strings.ContainsAny(s, ",[]{}:?") {
		return false
	}
	return !strings.Contains(s, ": ") && !strings.Contains(s, " #")
}
