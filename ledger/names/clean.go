package names

import (
	"html"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// tidy is text in NFC as one line of words: every run of space one space, no
// markup, plain hyphens, long s and printers' ligatures spelled out, no space
// inside brackets or before a full stop. A text of one word with underscores
// has them for spaces.
func tidy(text string) string {
	if isTidy(text) {
		return text
	}
	s := norm.NFC.String(text)
	if strings.ContainsAny(s, "<&") {
		s = withoutMarkup(s)
	}
	if !isASCII(s) && strings.ContainsFunc(s, isPrinters) {
		s = printers.Replace(s)
	}
	s = plainHyphens(s)
	words := strings.Fields(s)
	if len(words) == 1 && strings.Contains(s, "_") {
		words = strings.FieldsFunc(s, func(r rune) bool { return r == '_' || unicode.IsSpace(r) })
	}
	return spaceCommas(closeUp(strings.Join(words, " ")))
}

// spaceCommas sets a space between a comma and the letter behind it.
func spaceCommas(s string) string {
	at := strings.IndexByte(s, ',')
	if at < 0 {
		return s
	}
	var b strings.Builder
	for at >= 0 {
		b.WriteString(s[:at+1])
		s = s[at+1:]
		if r, _ := utf8.DecodeRuneInString(s); unicode.IsLetter(r) {
			b.WriteByte(' ')
		}
		at = strings.IndexByte(s, ',')
	}
	b.WriteString(s)
	return b.String()
}

// isTidy reports whether a text of plain ASCII needs none of it.
func isTidy(text string) bool {
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case c >= utf8.RuneSelf || c < ' ' || c == '<' || c == '_':
			return false
		case (c == '&' || c == ',') && i+1 < len(text) && text[i+1] != ' ':
			return false
		case c == ' ' && (i == 0 || i == len(text)-1 || text[i-1] == ' ' || text[i-1] == '(' || text[i+1] == '.' || text[i+1] == ',' || text[i+1] == ')'):
			return false
		}
	}
	return true
}

func isASCII(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

// closeUp takes away a space before a full stop, comma or closing bracket and
// after an opening one, as readers of printed labels leave them.
func closeUp(s string) string {
	if !strings.Contains(s, " .") && !strings.Contains(s, " ,") && !strings.Contains(s, "( ") && !strings.Contains(s, " )") {
		return s
	}
	b := make([]byte, 0, len(s))
	for i := 0; i < len(s); i++ {
		if s[i] == ' ' && len(b) > 0 && i+1 < len(s) && (b[len(b)-1] == '(' || strings.IndexByte(".,)", s[i+1]) >= 0) {
			continue
		}
		b = append(b, s[i])
	}
	return string(b)
}

// plainHyphens writes a dash or minus between two letters as a hyphen:
// bursa–pastoris.
func plainHyphens(s string) string {
	if !strings.ContainsAny(s, "–—−") {
		return s
	}
	r := []rune(s)
	for i := 1; i+1 < len(r); i++ {
		if (r[i] == '–' || r[i] == '—' || r[i] == '−') && unicode.IsLetter(r[i-1]) && unicode.IsLetter(r[i+1]) {
			r[i] = '-'
		}
	}
	return string(r)
}

func isPrinters(r rune) bool {
	switch r {
	case 'ſ', 'ﬀ', 'ﬁ', 'ﬂ', 'ﬃ', 'ﬄ', 'ﬅ', 'ﬆ', '‐', '‑', '\u00ad', '\u200b', '\ufeff':
		return true
	}
	return false
}

var printers = strings.NewReplacer("ſ", "s", "ﬀ", "ff", "ﬁ", "fi", "ﬂ", "fl", "ﬃ", "ffi", "ﬄ", "ffl", "ﬅ", "st", "ﬆ", "st",
	"‐", "-", "‑", "-", "\u00ad", "", "\u200b", "", "\ufeff", "")

// withoutMarkup leaves out tags of HTML and resolves entities; what has not
// the form of a tag stays.
func withoutMarkup(s string) string {
	var b strings.Builder
	for i := 0; i < len(s); {
		if n := tagLen(s[i:]); n > 0 {
			i += n
			continue
		}
		b.WriteByte(s[i])
		i++
	}
	s = b.String()
	if strings.Contains(s, "&") && strings.Contains(s, ";") {
		s = html.UnescapeString(s)
	}
	return s
}

// tagLen is the length of the tag that s begins with; 0 when it begins with
// none.
func tagLen(s string) int {
	if len(s) < 3 || s[0] != '<' {
		return 0
	}
	i := 1
	if s[i] == '/' {
		i++
	}
	if i >= len(s) || !(s[i] >= 'a' && s[i] <= 'z' || s[i] >= 'A' && s[i] <= 'Z') {
		return 0
	}
	for ; i < len(s) && i < 80; i++ {
		switch s[i] {
		case '>':
			return i + 1
		case '<':
			return 0
		}
	}
	return 0
}

// badRune finds a character that cannot stand in a name.
func badRune(s string) (rune, bool) {
	for i, r := range s {
		switch {
		case r == '<' || r == '>' || r == '{' || r == '}' || r == '\\' || r == '|':
			return r, true
		case r < utf8.RuneSelf:
			if r < ' ' || r == 0x7f {
				return r, true
			}
		case r == utf8.RuneError && !strings.HasPrefix(s[i:], "\ufffd"):
			return r, true
		case unicode.Is(unicode.Cc, r) || unicode.Is(unicode.Cf, r):
			return r, true
		}
	}
	return 0, false
}
