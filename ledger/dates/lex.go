package dates

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// kind is what one token of a date can be.
type kind uint8

const (
	number  kind = iota // digits
	month               // a month word or roman numeral
	season              // a season word
	blank               // XX, **, ??: a part left open
	decade              // the s of 1980s
	divider             // - – / & and their words: may join two days
	other               // a word that is no part of a date
)

type token struct {
	kind   kind
	value  int
	digits int  // of a number, as written
	roman  bool // a month in roman numerals
	tight  bool // a divider with nothing but figures and letters beside it
	hyphen bool // a number that a plain hyphen ties to the one before
	word   bool // a divider that is a word or &
}

// lexed is a date in tokens, with what its words say besides.
type lexed struct {
	tokens      []token
	approximate bool
	uncertain   bool
	otherWord   string // first word that is no part of a date
}

// lex splits a text; separators that mean nothing are left out.
func lex(text string) lexed {
	var l lexed
	l.tokens = make([]token, 0, 8)
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		switch {
		case r >= '0' && r <= '9':
			j := i
			for j < len(text) && text[j] >= '0' && text[j] <= '9' {
				j++
			}
			l.number(text, i, j)
			i = j
		case unicode.IsLetter(r):
			j := i + size
			for j < len(text) {
				r, n := utf8.DecodeRuneInString(text[j:])
				if !unicode.IsLetter(r) && !unicode.Is(unicode.Mn, r) {
					break
				}
				j += n
			}
			l.word(text[i:j])
			i = j
		default:
			i = l.mark(text, i, r, size)
		}
	}
	return l
}

func (l *lexed) number(text string, i, j int) {
	v := 0
	for _, c := range []byte(text[i:j]) {
		if v < 1e8 {
			v = v*10 + int(c-'0')
		}
	}
	hyphen := i > 1 && text[i-1] == '-' && text[i-2] >= '0' && text[i-2] <= '9'
	l.tokens = append(l.tokens, token{kind: number, value: v, digits: j - i, hyphen: hyphen})
}

// mark takes one sign and returns where the next token begins.
func (l *lexed) mark(text string, i int, r rune, size int) int {
	switch r {
	case '-', '–', '—', '/', '‑', '−':
		tight := i > 0 && i+size < len(text) && text[i-1] != ' ' && text[i+size] != ' '
		l.tokens = append(l.tokens, token{kind: divider, tight: tight})
	case '&', '+':
		l.tokens = append(l.tokens, token{kind: divider, word: true})
	case '~', '±':
		l.approximate = true
	case '?':
		if i+1 < len(text) && text[i+1] == '?' {
			return l.blank(text, i, '?')
		}
		l.uncertain = true
	case '*':
		return l.blank(text, i, '*')
	case '_':
		return l.blank(text, i, '_')
	}
	return i + size
}

func (l *lexed) blank(text string, i int, c byte) int {
	for i < len(text) && text[i] == c {
		i++
	}
	l.tokens = append(l.tokens, token{kind: blank})
	return i
}

func (l *lexed) word(w string) {
	f := foldWord(w)
	last := len(l.tokens) - 1
	afterNumber := last >= 0 && l.tokens[last].kind == number
	if m := roman(f); m != 0 {
		l.tokens = append(l.tokens, token{kind: month, value: m, roman: true})
		return
	}
	if m := monthWords()[f]; m != 0 {
		l.tokens = append(l.tokens, token{kind: month, value: m})
		return
	}
	switch {
	case f == "s" && afterNumber && l.tokens[last].value%10 == 0 && l.tokens[last].digits == 4:
		l.tokens = append(l.tokens, token{kind: decade})
	case strings.Trim(f, "x") == "" && len(f) >= 2 || strings.Trim(f, "n") == "" && len(f) >= 2:
		l.tokens = append(l.tokens, token{kind: blank})
	case (f == "st" || f == "nd" || f == "rd" || f == "th" || f == "d") && afterNumber:
	case looseWords[f]:
		l.approximate = true
	case seasonWords[f] != 0:
		l.tokens = append(l.tokens, token{kind: season, value: seasonWords[f]})
	case rangeWords[f] && len(l.tokens) > 0:
		l.tokens = append(l.tokens, token{kind: divider, word: true})
	case fillers[f]:
	default:
		l.tokens = append(l.tokens, token{kind: other})
		if l.otherWord == "" {
			l.otherWord = w
		}
	}
}

// foldWord is w in lower case without accents; ø and å become o and a.
func foldWord(w string) string {
	ascii := true
	for i := 0; i < len(w); i++ {
		if w[i] >= utf8.RuneSelf || w[i] >= 'A' && w[i] <= 'Z' {
			ascii = false
			break
		}
	}
	if ascii {
		return w
	}
	var b strings.Builder
	for _, r := range norm.NFD.String(w) {
		switch r {
		case 'Ø', 'ø':
			b.WriteByte('o')
		case 'Æ', 'æ':
			b.WriteString("ae")
		case 'ß':
			b.WriteString("ss")
		default:
			if !unicode.Is(unicode.Mn, r) {
				b.WriteRune(unicode.ToLower(r))
			}
		}
	}
	return b.String()
}
