package dates

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// lex splits a text; separators that mean nothing are left out.
func (l *lexed) lex(text string) {
	l.tokens = l.room[:0]
	for i := 0; i < len(text); {
		c := text[i]
		switch {
		case isDigit(c):
			i = l.number(text, i)
		case c < utf8.RuneSelf && !isLetter(c):
			i = l.mark(text, i, rune(c), 1)
		default:
			r, size := utf8.DecodeRuneInString(text[i:])
			if unicode.IsLetter(r) && r != 'º' && r != 'ª' {
				i = l.word(text, i)
			} else {
				i = l.mark(text, i, r, size)
			}
		}
	}
}

func isDigit(c byte) bool  { return c >= '0' && c <= '9' }
func isLetter(c byte) bool { return c|0x20 >= 'a' && c|0x20 <= 'z' }

func (l *lexed) put(t token) { l.tokens = append(l.tokens, t) }

// commaBefore reports whether a comma or semicolon stands before i.
func commaBefore(text string, i int) bool {
	for i--; i >= 0 && strings.IndexByte(" .([", text[i]) >= 0; i-- {
	}
	return i >= 0 && (text[i] == ',' || text[i] == ';')
}

// number takes figures from i on, with the unknown or supplied figures of a
// year (187?, 19--, 18[9]5) and the ordinal's ending (5th, 1er).
func (l *lexed) number(text string, i int) int {
	if l.hourNext { // kl. 14.30
		l.hourNext = false
		for i < len(text) && (isDigit(text[i]) || (text[i] == '.' || text[i] == ':') && i+1 < len(text) && isDigit(text[i+1])) {
			i++
		}
		return i
	}
	if end := timeEnd(text, i); end > 0 && !l.afterYearColon(text, i) {
		l.time, l.clock = l.time || !strings.HasPrefix(text[i:], "00:00"), len(l.tokens)+1
		return l.zone(text, end)
	}
	t, j := token{kind: number, comma: commaBefore(text, i)}, i
	for j < len(text) {
		c := text[j]
		supplied := (c == '[' || c == ']') && j > i && j+1 < len(text) && isDigit(text[j-1]) && isDigit(text[j+1])
		if supplied {
			l.uncertain = true
		} else if !isDigit(c) {
			break
		} else {
			t.digits++
			if t.value < 1e8 {
				t.value = t.value*10 + int(c-'0')
			}
		}
		j++
	}
	if i > 0 {
		before := text[i-1]
		t.apostrophe = (before == '\'' || strings.HasSuffix(text[:i], "’") || strings.HasSuffix(text[:i], "‘")) && t.digits == 2
		t.hyphen = before == '-' && i > 1 && isDigit(text[i-2])
		t.point = before == '.' && i > 1 && isDigit(text[i-2])
		t.paren = before == '(' && j < len(text) && text[j] == ')'
	}
	if t.digits == 2 || t.digits == 3 {
		j = l.unknownFigures(text, j, &t)
	}
	l.put(t)
	return l.ordinalEnd(text, j)
}

// unknownFigures completes a year of which the last one or two figures, or
// the third, are not known: 187?, 18--, 18.., 19?0. It returns where the year
// ends.
func (l *lexed) unknownFigures(text string, j int, t *token) int {
	if t.digits == 2 && (t.value < 15 || t.value > 20) || t.digits == 3 && (t.value < 150 || t.value > 209) {
		return j
	}
	k, n, alike, sign := j, 0, true, byte(0)
	for ; k < len(text) && strings.IndexByte("?Xx*_-.[]", text[k]) >= 0; k++ {
		if text[k] != '[' && text[k] != ']' {
			alike = alike && (n == 0 || text[k] == sign)
			sign = text[k]
			n++
		}
	}
	last := strings.Trim(text[k:], " ?.)]") == ""
	digit := k < len(text) && isDigit(text[k])
	ends := !digit && (k == len(text) || !isLetter(text[k]) || text[k] == 's')
	switch {
	case t.digits == 2 && n == 1 && sign == '?' && digit && (k+1 == len(text) || !isDigit(text[k+1])):
		t.value, t.more, t.digits = t.value*100+int(text[k]-'0'), 90, 4
		return k + 1
	case !ends || n == 0 || !alike:
		return j
	case t.digits == 3 && sign != '.' && (sign != '-' || last):
		t.value, t.more, t.digits = t.value*10, 9, 4
		return k
	case t.digits == 2 && (n > 1 || sign == '-' && last && len(l.tokens) > 1):
		t.value, t.more, t.digits = t.value*100, 99, 4
		return k
	}
	return j
}

var ordinalEndings = []string{"stenn", "sten", "ste", "st", "nd", "rd", "th", "ty", "die", "dje", "de", "ten", "ter", "tes", "te",
	"ème", "eme", "er", "me", "d", "e", "n", "r", "o", "a", "º", "ª", "°"}

// ordinalEnd passes over what makes the number before j an ordinal.
func (l *lexed) ordinalEnd(text string, j int) int {
	if j >= len(text) || text[j] == ' ' || text[j] == '-' || text[j] == '.' {
		return j
	}
	t := l.tokens[len(l.tokens)-1]
	for _, e := range ordinalEndings {
		if rest, ok := strings.CutPrefix(text[j:], e); ok {
			r, _ := utf8.DecodeRuneInString(rest)
			decade := e[0] == 'e' && t.digits >= 2 && t.value%10 == 0 && (t.digits == 4 || t.value > 31)
			if !unicode.IsLetter(r) && !decade && t.digits <= 2 && (rest == "" || !isDigit(rest[0]) || len(e) > 1) {
				return len(text) - len(rest)
			}
		}
	}
	return j
}

// timeEnd is where a time of day (10:30, 10:30:15.2) that begins at i ends; 0
// when there is none.
func timeEnd(text string, i int) int {
	j := i
	for j < len(text) && j-i < 2 && isDigit(text[j]) {
		j++
	}
	h, _ := numberOf(text[i:j])
	if j+2 >= len(text) || text[j] != ':' || h > 24 {
		return 0
	}
	fields := 0
	for ; fields < 2 && j+2 < len(text) && text[j] == ':' && text[j+1] >= '0' && text[j+1] <= '5' && isDigit(text[j+2]); fields++ {
		j += 3
	}
	if fields == 0 || j < len(text) && (isDigit(text[j]) || text[j] == ':') {
		return 0
	}
	if j < len(text) && (text[j] == '.' || text[j] == ',') && j+1 < len(text) && isDigit(text[j+1]) {
		for j++; j < len(text) && isDigit(text[j]); j++ {
		}
	}
	return j
}

// afterYearColon reports whether the colon before i follows a year that begins
// the text: 1912:07:14, as cameras write a day.
func (l *lexed) afterYearColon(text string, i int) bool {
	return i > 4 && text[i-1] == ':' && len(l.tokens) == 1 && l.tokens[0].fullYear() && isDigit(text[i-2])
}

// zone passes over the offset of a time of day: Z, +05:00, -0600.
func (l *lexed) zone(text string, j int) int {
	if j < len(text) && text[j] == 'Z' {
		return j + 1
	}
	if k := j + 1; k+4 < len(text) && text[j] == ' ' && (text[k] == '+' || text[k] == '-') && isOffset(text[k:k+5]) {
		j = k
	}
	if j+2 < len(text) && (text[j] == '+' || text[j] == '-') && isDigit(text[j+1]) && isDigit(text[j+2]) {
		for j++; j < len(text) && (isDigit(text[j]) || text[j] == ':'); j++ {
		}
	}
	return j
}

func numberOf(s string) (int, bool) {
	n := 0
	for i := range len(s) {
		if !isDigit(s[i]) || n > 1e7 {
			return 0, false
		}
		n = n*10 + int(s[i]-'0')
	}
	return n, len(s) > 0
}

// mark takes one sign and returns where the next token begins.
func (l *lexed) mark(text string, i int, r rune, size int) int {
	switch r {
	case '-', '–', '—', '/', '‑', '−':
		l.put(token{kind: divider, slash: r == '/'})
	case '&', '+':
		l.put(token{kind: divider, word: true, list: true, comma: commaBefore(text, i)})
	case '<', '>', '≤', '≥':
		if len(l.tokens) == 0 && !strings.Contains(text, ">") || r == '>' && i == 0 || r == '≥' {
			l.put(token{kind: bound, value: map[rune]int{'<': before, '≤': upTo, '>': after, '≥': since}[r]})
		}
	case '~', '±', '≈', '∼':
		l.approximate = true
	case '%':
		l.approximate, l.uncertain = true, true
	case '?':
		if i+1 < len(text) && text[i+1] == '?' {
			return l.blank(text, i, '?')
		}
		l.uncertain = true
	case '*', '_':
		return l.blank(text, i, byte(r))
	}
	return i + size
}

func (l *lexed) blank(text string, i int, c byte) int {
	if c == '_' && i > 0 && i+1 < len(text) && text[i-1] > ' ' && text[i-1] != '_' && text[i+1] > ' ' && text[i+1] != '_' {
		l.put(token{kind: divider})
		return i + 1
	}
	for i < len(text) && text[i] == c {
		i++
	}
	l.put(token{kind: blank})
	return i
}
