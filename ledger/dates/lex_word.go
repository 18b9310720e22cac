package dates

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// word takes the word that begins at i and returns where the next token
// begins.
func (l *lexed) word(text string, i int) int {
	j := i
	for j < len(text) {
		r, n := utf8.DecodeRuneInString(text[j:])
		if !unicode.IsLetter(r) && !unicode.Is(unicode.Mn, r) || r == 'º' || r == 'ª' {
			break
		}
		j += n
	}
	w := text[i:j]
	if len(w) <= 2 {
		if end := l.letters(text, i, j); end > 0 {
			return end
		}
	}
	if w == "i" && len(l.tokens) == 0 && j < len(text) && text[j] == ' ' { // Scandinavian "in"
		if m := lookup(nextWord(text, j)); m != nil && (m.month > 0 || m.season > 0 || m.part > 0) {
			return j
		}
	}
	if n := roman(w); n > 0 && w != "XX" && w != "xx" {
		return l.romanNumeral(text, i, j, n)
	}
	if y := romanYear(w); y > 0 {
		l.put(token{kind: number, value: y, digits: 4, comma: commaBefore(text, i)})
		return j
	}
	if m := l.numbered(text, i, j); m > 0 {
		return j
	}
	if stem, ok := strings.CutSuffix(w, "e"); ok && roman(stem) > 12 { // XIXe siècle
		return l.romanNumeral(text, i, j, roman(stem))
	}
	if m := lookup(w); m != nil && l.known(m, text, i, j) {
		return j
	}
	f := fold(w)
	switch {
	case centuryNumbers[f] > 0:
		l.put(token{kind: number, value: centuryNumbers[f], digits: 2})
	case isBlankWord(f):
		l.put(token{kind: blank})
	case strings.HasPrefix(f, "kalend") || strings.HasPrefix(f, "calend") || f == "kal" || f == "cal" || f == "nonis" || f == "idus" || f == "idibus":
		l.latinDay = true
	case l.joined(f):
	default:
		l.put(token{kind: other})
		if l.otherWord == "" {
			l.otherWord = w
		}
	}
	return j
}

var centuryNumbers = map[string]int{"sixteenth": 16, "seventeenth": 17, "eighteenth": 18, "nineteenth": 19, "twentieth": 20}

func isBlankWord(f string) bool {
	return len(f) >= 2 && (strings.Trim(f, "x") == "" || strings.Trim(f, "n") == "")
}

// joined takes a compound of a part and a month or season: midsummer,
// Spätsommer is in the tables, mid-july written as one, Julimitte.
func (l *lexed) joined(f string) bool {
	for _, c := range []struct {
		word string
		part int
	}{{"mid", middle}, {"mitte", middle}, {"early", early}, {"late", late}, {"anfang", early}, {"ende", late}, {"spat", late}, {"fruh", early}, {"hoch", middle}} {
		rest, ok := strings.CutPrefix(f, c.word)
		if !ok {
			rest, ok = strings.CutSuffix(f, c.word)
		}
		if !ok || len(rest) < 3 {
			continue
		}
		if m := lookup(rest); m != nil && (m.month > 0 || m.season > 0) {
			l.approximate = true
			l.put(token{kind: part, value: c.part})
			if m.month > 0 {
				l.put(token{kind: month, value: int(m.month)})
			} else {
				l.put(token{kind: season, value: int(m.season)})
			}
			return true
		}
	}
	return false
}

// romanNumeral takes a month, or with the word century the century.
func (l *lexed) romanNumeral(text string, i, j, n int) int {
	next := nextWord(text, j)
	if m := lookup(next); n > 12 || m != nil && m.century && next != "s" || l.lastIs(century) {
		l.put(token{kind: number, value: n, digits: 2, comma: commaBefore(text, i)})
		return l.ordinalEnd(text, j)
	}
	if j < len(text) && strings.HasPrefix(strings.ToLower(text[j:]), "bris") {
		return j
	}
	l.put(token{kind: month, value: n, roman: true, comma: commaBefore(text, i)})
	return j
}

func (l *lexed) lastIs(k kind) bool { return len(l.tokens) > 0 && l.tokens[len(l.tokens)-1].kind == k }

// nextWord is the word after j, past points and spaces.
func nextWord(text string, j int) string {
	for j < len(text) && (text[j] == ' ' || text[j] == '.') {
		j++
	}
	k := j
	for k < len(text) && (isLetter(text[k]) || text[k] >= utf8.RuneSelf) {
		k++
	}
	return text[j:k]
}

// letters takes the short forms a.m., p.m., o.s., n.s., T and Y of a longer
// form; 0 when there is none.
func (l *lexed) letters(text string, i, j int) int {
	c, next := text[i]|0x20, nextWord(text, j)
	end := j + strings.Index(text[j:]+next, next) + len(next)
	last := len(l.tokens) - 1
	digitBefore := i > 0 && isDigit(text[i-1])
	digitAfter := j < len(text) && isDigit(text[j])
	switch w := text[i:j]; {
	case len(w) == 1 && (c == 'a' || c == 'p') && strings.EqualFold(next, "m") && j < len(text) && text[j] == '.':
		l.dropHour()
		return end
	case len(w) == 2 && (c == 'a' || c == 'p') && text[i+1]|0x20 == 'm':
		if (last < 0 || l.tokens[last].kind != number) && l.clock != len(l.tokens)+1 {
			return 0 // German "am"
		}
		l.dropHour()
		return j
	case len(w) == 1 && (c == 'o' || c == 'n') && next != "" && (next == "s" || next == "S" || c == 'n' && strings.EqualFold(next, "st")):
		l.style = oldStyle
		if c == 'n' {
			l.style = newStyle
		}
		return end
	case len(w) == 1 && (c == 'a' || c == 'v') && strings.EqualFold(next, "st") && j < len(text) && text[j] == '.':
		l.style = oldStyle
		return end
	case w == "OS" || w == "NS":
		l.style = map[string]style{"OS": oldStyle, "NS": newStyle}[w]
		return j
	case len(w) == 1 && c == 't' && digitBefore && digitAfter:
		l.time = true
		for j < len(text) && strings.IndexByte("0123456789:.,+-Z", text[j]) >= 0 {
			j++
		}
		return j
	case w == "h" && last >= 0 && l.tokens[last].kind == number:
		l.dropHour()
		for j < len(text) && isDigit(text[j]) {
			j++
		}
		return j
	case w == "t" && strings.HasPrefix(text[j:], "/m"): // Dutch t/m
		l.put(token{kind: divider, word: true})
		return j + 2
	case strings.EqualFold(w, "c") && last == 0 && l.tokens[0].small() && l.tokens[0].value > 14 && (j == len(text) || text[j] == '.'):
		l.put(token{kind: century})
		return j
	case w == "Y" && digitAfter:
		return l.longYear(text, j)
	case strings.EqualFold(w, "bc") && last >= 0 && l.tokens[last].fullYear() && l.tokens[last].value > 0:
		l.tokens[last].value = 1 - l.tokens[last].value
		return j
	}
	return 0
}

// longYear takes a year of more than four figures after Y.
func (l *lexed) longYear(text string, i int) int {
	j := i
	for j < len(text) && isDigit(text[j]) {
		j++
	}
	y, ok := longNumber(text[i:j])
	if !ok {
		return 0
	}
	l.put(token{kind: number, value: y, digits: 4})
	return j
}

// dropHour takes back the figures of a time of day: 10 a.m., 10.30 Uhr.
func (l *lexed) dropHour() {
	l.time = true
	n := len(l.tokens)
	if l.clock == n+1 { // 10:30 is passed over already
		return
	}
	if n > 0 && l.tokens[n-1].kind == number && l.tokens[n-1].digits <= 4 {
		if point := l.tokens[n-1].point; point && n > 1 && l.tokens[n-2].small() {
			n--
		}
		l.tokens = l.tokens[:n-1]
	}
}

// numbered takes a word that the number before it makes a month: 7bris, 10br
// and the Friends' "9 mo.".
func (l *lexed) numbered(text string, i, j int) int {
	last := len(l.tokens) - 1
	if last < 0 || !l.tokens[last].small() {
		return 0
	}
	t, f := &l.tokens[last], text[i:j]
	if isDigit(text[i-1]) && t.value >= 7 && t.value <= 10 {
		if m := lookup(itoa(t.value) + f); m != nil && m.month > 0 {
			*t = token{kind: month, value: int(m.month), comma: t.comma}
			return int(m.month)
		}
	}
	if (f == "月" || f == "월" || f == "mo" || f == "Mo" || f == "month") && t.value >= 1 && t.value <= 12 {
		*t = token{kind: month, value: t.value, comma: t.comma}
		return t.value
	}
	return 0
}

// known takes a word of the vocabulary; false when it is none here.
func (l *lexed) known(m *meaning, text string, i, j int) bool {
	last := len(l.tokens) - 1
	afterNumber := last >= 0 && l.tokens[last].kind == number
	glued := afterNumber && (isDigit(text[i-1]) || text[i-1] == '\'' || text[i-1] == ']' || text[i-1] == '-' || strings.HasSuffix(text[:i], "’") || j-i > 1)
	switch {
	case m.month > 0 && m.to && afterNumber && l.tokens[last].small() && (digitsNext(text, j)+1)/2 == 1:
		l.orMonth = true
		l.put(token{kind: divider, word: true, orMonth: m.month})
	case m.month > 0:
		l.put(token{kind: month, value: int(m.month), comma: commaBefore(text, i)})
	case m.decade && glued && isDecade(l.tokens[last]), m.decade && last < 0 && isNumberWord(text, j):
		l.put(token{kind: decade})
	case m.decade && last > 0 && l.tokens[last].kind == divider && isDecade(l.tokens[last-1]): // 1890-årene
		l.tokens[last] = token{kind: decade}
	case m.century && (afterNumber && l.tokens[last].small() && j-i > 1 || roman(nextWord(text, j)) > 0 && (last < 0 || j-i > 1)):
		l.put(token{kind: century})
	case m.ordinal > 0 && (m.part == 0 && m.ordinal < 9 || l.ordinalCounts(text, j)):
		l.put(token{kind: part, value: 100 + int(m.ordinal)})
	case m.week:
		l.approximate = !l.count(10) || l.approximate
	case m.half && l.count(20):
	case m.part > 0, m.ordinal == 9:
		l.approximate = true
		if m.part > 0 {
			l.put(token{kind: part, value: int(m.part)})
		} else {
			l.put(token{kind: part, value: late})
		}
	case m.season > 0:
		l.put(token{kind: season, value: int(m.season), comma: commaBefore(text, i)})
	case m.bound > 0 && (last < 0 || l.tokens[last].kind != number && l.tokens[last].kind != month):
		l.put(token{kind: bound, value: int(m.bound)})
	case (m.to || m.and) && last >= 0 && (!m.filler || l.joins(text, j)):
		l.put(token{kind: divider, word: true, list: m.and && !m.to, comma: commaBefore(text, i)})
	case m.to && !m.and && j-i > 1 && !m.filler:
		l.put(token{kind: bound, value: upTo})
	default:
		return l.aside(m, text, i, j)
	}
	return true
}

// joins reports whether a word that may be "and" or "to" as well as "of" or
// "in" (Dutch of, Spanish a) stands between two days or two months.
func (l *lexed) joins(text string, j int) bool {
	t := l.tokens[len(l.tokens)-1]
	digits := digitsNext(text, j)
	return t.kind == number && (digits == 1 || digits == 2 || t.digits == 4 && digits == 4) || t.kind == month && digits == 0
}

// digitsNext is how many figures the number after j has; 0: none stands there.
func digitsNext(text string, j int) int {
	for j < len(text) && (text[j] == ' ' || text[j] == '.') {
		j++
	}
	n := 0
	for j+n < len(text) && isDigit(text[j+n]) {
		n++
	}
	return n
}

// aside takes a word that gives no day itself.
func (l *lexed) aside(m *meaning, text string, i, j int) bool {
	switch w := text[i:j]; {
	case m.about:
		l.approximate = true
	case m.between:
		l.between = true
	case m.doubt:
		l.uncertain = true
	case m.weekday > 0:
		if l.weekday > 0 {
			m = &meaning{weekday: 8}
		}
		l.weekday = m.weekday
	case m.not:
		l.not = true
	case m.hour:
		l.dropHour()
	case m.time:
		l.hourNext, l.time = strings.HasPrefix(w, "kl"), true
	case strings.EqualFold(w, "from") && len(l.tokens) == 0 && !l.between:
		l.put(token{kind: bound, value: since})
	case strings.EqualFold(w, "day") && isNumberWord(text, j):
		l.put(token{kind: dayWord})
	case m.filler, m.decade:
	default:
		return false
	}
	return true
}

func isNumberWord(text string, j int) bool {
	return j+1 < len(text) && text[j] == ' ' && isDigit(text[j+1])
}

func isDecade(t token) bool {
	return t.value%10 == 0 && (t.digits == 4 || t.digits == 2 && t.apostrophe || t.digits == 2 && t.value > 31) || t.more == 9
}

// ordinalCounts reports whether a word such as ultima counts weeks or halves.
func (l *lexed) ordinalCounts(text string, j int) bool {
	m := lookup(nextWord(text, j))
	return m != nil && (m.week || m.half)
}

// count turns the ordinal or number before "week" (base 10) or "half" (base
// 20) into a part of a month; false when none stands there.
func (l *lexed) count(base int) bool {
	last := len(l.tokens) - 1
	if last < 0 {
		return false
	}
	t := &l.tokens[last]
	n := 0
	switch {
	case t.kind == part && t.value > 100:
		n = t.value - 100
	case t.kind == part && t.value == late:
		n = 9
	case t.small() && t.value >= 1 && t.value <= 5:
		n = t.value
	}
	if n == 0 || base == 20 && n > 2 && n < 9 {
		return false
	}
	if base == 20 && n == 9 {
		n = 2
	}
	*t = token{kind: part, value: base + n, comma: t.comma}
	return true
}
