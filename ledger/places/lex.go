package places

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

type kind uint8

const (
	number kind = iota
	degree
	minute
	second
	letter // N, S, E, W
	axis   // latitude, longitude
	divide // , ; /
	soft   // a tab or a line end: a divider where there is no other
	sign
)

type side uint8

const (
	unsaid side = iota
	north       // latitude
	east        // longitude
)

type token struct {
	kind     kind
	value    float64
	decimals int
	digits   int  // before the decimal sign
	point    bool // a decimal sign was written
	side     side
	negative bool // of a letter: S or W; of a sign: minus
	letterO  bool
	word     bool // of a unit: a letter or word, no mark
	upper    bool // of a letter or word: in capitals
	tight    bool // of a sign: a blank stands before it and a figure after
}

// lex splits a text; bad is the first word that is no part of a position.
// With commas, a comma between figures is a decimal sign.
func lex(text string, commas bool) (toks []token, bad string) {
	toks = make([]token, 0, 16)
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		switch {
		case r >= '0' && r <= '9', r == '.' && i+1 < len(text) && isDigit(text[i+1]):
			n := 0
			if toks, n = lexFigure(toks, text[i:], commas); n == 0 {
				return nil, text[i:min(len(text), i+12)]
			}
			i += n
		case isWord(r):
			j := i
			for j < len(text) {
				r, n := utf8.DecodeRuneInString(text[j:])
				if !isWord(r) {
					break
				}
				j += n
			}
			var ok bool
			if toks, ok = lexWord(toks, text[i:j]); !ok {
				return nil, text[i:j]
			}
			i = j
		default:
			var n int
			if toks, n = lexMark(toks, text[i:], r, size); n == 0 {
				return nil, string(r)
			}
			i += n
			if len(toks) == 0 || i >= len(text) {
				break
			}
			switch last := &toks[len(toks)-1]; {
			case last.kind == sign:
				last.tight = isDigit(text[i]) && i > n && text[i-n-1] == ' '
			case text[i] == '.' && last.kind <= second:
				i += fractionBehind(toks, text[i:])
			}
		}
	}
	return toks, ""
}

// fractionBehind takes the decimals that stand behind the mark of their unit,
// 42'.2 for 42.2', and returns how many bytes it took.
func fractionBehind(toks []token, s string) int {
	n := len(toks)
	if n < 2 || toks[n-1].kind == number || toks[n-2].kind != number || toks[n-2].point || len(s) < 2 || !isDigit(s[1]) {
		return 0
	}
	f, size := lexNumber("0"+s, false)
	if size == 0 {
		return 0
	}
	t := &toks[n-2]
	t.value, t.decimals, t.point = t.value+f.value, f.decimals, true
	return size - 1
}

// isWord reports whether r is a letter and no mark; º, ʹ and ʺ are letters to
// Unicode.
func isWord(r rune) bool {
	if r < utf8.RuneSelf {
		return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z'
	}
	return unicode.IsLetter(r) && !strings.ContainsRune("ºª"+minuteMarks+secondMarks, r)
}

// decimalCommas reports whether commas between figures are decimal signs: no
// point is written and the text parts in two without them.
func decimalCommas(text string) bool {
	inner, outer := 0, strings.ContainsAny(text, ";/|\t\n")
	for i, c := range []byte(text) {
		if c == '.' && i+1 < len(text) && isDigit(text[i+1]) {
			return false
		}
		if c != ',' {
			continue
		}
		if i > 0 && i+1 < len(text) && isDigit(text[i-1]) && isDigit(text[i+1]) {
			inner++
		} else {
			outer = true
		}
	}
	fields := len(strings.Fields(text))
	return inner > 0 && (inner == 2 || outer || fields > 1 || inner == 1 && strings.ContainsAny(text, "°ºNSEW'"))
}

// commasAlone parts -46,33,51,8717 in two: four runs of figures, of which the
// second or fourth is no count of minutes.
func commasAlone(text string) string {
	if strings.Count(text, ",") != 3 || strings.Trim(text, "0123456789,+-−") != "" {
		return text
	}
	p := strings.Split(text, ",")
	minutes := func(s string) bool { return len(s) < 2 || len(s) == 2 && s < "60" }
	for i, s := range p {
		if s == "" || !isDigit(s[len(s)-1]) || i%2 == 1 && !isDigit(s[0]) {
			return text
		}
	}
	if minutes(p[1]) && minutes(p[3]) {
		return text
	}
	return p[0] + "," + p[1] + ";" + p[2] + "," + p[3]
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// lexFigure takes a number, or degrees, minutes and seconds with points
// between them: 60.42.12.
func lexFigure(toks []token, s string, commas bool) ([]token, int) {
	if n := dotted(s); n > 0 {
		for _, part := range strings.Split(s[:n], ".") {
			t, _ := lexNumber(part, false)
			toks = append(toks, t)
		}
		return toks, n
	}
	t, n := lexNumber(s, commas)
	return append(toks, t), n
}

// dotted is the length of D.MM.SS at the start of s; 0 when that is not
// there.
func dotted(s string) int {
	i := 0
	for part := range 3 {
		from := i
		for i < len(s) && isDigit(s[i]) {
			i++
		}
		if n := i - from; n == 0 || n > 3 || part > 0 && n > 2 {
			return 0
		}
		if part < 2 {
			if i >= len(s) || s[i] != '.' {
				return 0
			}
			i++
		}
	}
	if i+1 < len(s) && s[i] == '.' && isDigit(s[i+1]) {
		return 0
	}
	return i
}

func lexNumber(s string, commas bool) (token, int) {
	t := token{kind: number}
	i := 0
	for ; i < len(s) && isDigit(s[i]); i++ {
		t.value = t.value*10 + float64(s[i]-'0')
		t.digits++
	}
	if t.digits > 9 {
		return t, 0
	}
	if i+1 < len(s) && (s[i] == '.' || s[i] == ',' && commas) && isDigit(s[i+1]) {
		i++
		t.point = true
		scale, whole, frac := 1.0, t.value, 0.0
		for ; i < len(s) && isDigit(s[i]); i++ {
			if t.decimals < 15 {
				frac = frac*10 + float64(s[i]-'0')
				scale *= 10
				t.decimals++
			}
		}
		t.value = whole + frac/scale
		if i+1 < len(s) && (s[i] == ',' && commas || s[i] == '.') && isDigit(s[i+1]) {
			return t, 0 // 20,432,12
		}
	} else if i < len(s) && s[i] == '.' {
		t.point = true
		i++ // "42." is 42
	}
	return t, i
}

// lexWord takes a unit, a side of the world, an axis or a filler; several
// letters written together, such as sE, are taken one by one.
func lexWord(toks []token, w string) ([]token, bool) {
	f := strings.ToLower(w)
	last := token{kind: sign}
	if len(toks) > 0 {
		last = toks[len(toks)-1]
	}
	afterNumber := last.kind == number
	if k, ok := unitWords[f]; ok && afterNumber {
		return append(toks, token{kind: k, word: true, upper: w != f}), true
	}
	if w == "o" && afterNumber && !hasKind(toks, degree, lastAngle(toks)) {
		return append(toks, token{kind: degree, word: true}), true // 61o50'
	}
	if w == "s" && last.kind == minute && last.word && len(w) == 1 {
		return toks, true // "18m s N": seconds left empty
	}
	if w == "S" && afterNumber && len(toks) > 1 && toks[len(toks)-2].kind == minute && toks[len(toks)-2].upper {
		return append(toks, token{kind: second, word: true, upper: true}), true // 1D2M3S
	}
	if w == "s" && afterNumber && hasKind(toks, minute, lastAngle(toks)) && !hasKind(toks, second, lastAngle(toks)) {
		return append(toks, token{kind: second, word: true}), true // 50.00s
	}
	if t, ok := sideWords[f]; ok {
		t.upper = w != f
		return append(toks, t), true
	}
	if a, ok := axisWords[f]; ok {
		return append(toks, token{kind: axis, side: a}), true
	}
	if fillers[f] {
		return toks, true
	}
	if len(w) == 2 {
		var ok bool
		if toks, ok = lexWord(toks, w[:1]); ok {
			return lexWord(toks, w[1:])
		}
		return toks, false
	}
	for i := range sideStems {
		if strings.HasPrefix(f, sideStems[i].stem) {
			return append(toks, sideStems[i].token), true
		}
	}
	return toks, false
}

// lastAngle is where the angle at hand began: after the last side or divider,
// at the last degrees.
func lastAngle(toks []token) int {
	for i := len(toks) - 1; i >= 0; i-- {
		switch toks[i].kind {
		case letter, divide, soft:
			return i + 1
		case degree:
			return i
		}
	}
	return 0
}

func hasKind(toks []token, k kind, from int) bool {
	for _, t := range toks[from:] {
		if t.kind == k {
			return true
		}
	}
	return false
}

// The marks that stand for degrees, minutes and seconds, and minus signs, as
// keyboards and typesetters have them: those that GeographicLib takes (its
// manual page, from memory) and look-alikes.
const (
	degreeMarks = "°º˚∘⁰゜§*^ª◦"
	minuteMarks = "'′’‘´`ʹ‛ʼˊˋꞌ＇‵ʻ"
	secondMarks = "\"″”“ʺ˝„‟＂‶〃«»"
	minusMarks  = "-−–‐‑—﹣－‒―➖⁻"
	plusMarks   = "+➕＋﹢⁺"
	blankMarks  = " \u00a0\u2002\u2003\u2007\u2008\u2009\u200a\u200b\u202f\u2060\ufeff()[]{}:~.=_\r"
)

// lexMark takes one sign; 0 when it is none of ours.
func lexMark(toks []token, s string, r rune, size int) ([]token, int) {
	switch {
	case r == ' ' || strings.ContainsRune(blankMarks, r):
		return toks, size
	case r == '\ufffd' || r == '?': // a mark that was lost on the way: the degrees
		if len(toks) == 0 || toks[len(toks)-1].kind != number || len(s) <= size || !isDigit(s[size]) || hasKind(toks, degree, lastAngle(toks)) {
			return toks, 0
		}
		return append(toks, token{kind: degree}), size
	case strings.ContainsRune(degreeMarks, r):
		return append(toks, token{kind: degree}), size
	case strings.ContainsRune(secondMarks, r):
		return append(toks, token{kind: second}), size
	case strings.ContainsRune(minuteMarks, r):
		next, n := utf8.DecodeRuneInString(s[size:])
		if n > 0 && next != utf8.RuneError && strings.ContainsRune(minuteMarks, next) {
			return append(toks, token{kind: second}), size + n
		}
		return append(toks, token{kind: minute}), size
	case r == ',' || r == ';' || r == '/' || r == '|' || r == '&' || r == '，' || r == '、' || r == '；':
		return append(toks, token{kind: divide}), size
	case r == '\t' || r == '\n':
		return append(toks, token{kind: soft}), size
	case strings.ContainsRune(minusMarks, r):
		return append(toks, token{kind: sign, negative: true}), size
	case strings.ContainsRune(plusMarks, r):
		return append(toks, token{kind: sign}), size
	}
	return toks, 0
}
