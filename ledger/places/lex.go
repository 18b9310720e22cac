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
	divide // , ; /
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
	digits   int // before the decimal sign
	side     side
	negative bool // of a letter: S or W; of a sign: minus
	letterO  bool
}

// sideWords name a side of the world. Folded to lower case.
var sideWords = map[string]token{
	"n": {kind: letter, side: north}, "north": {kind: letter, side: north}, "nord": {kind: letter, side: north}, "norte": {kind: letter, side: north},
	"s": {kind: letter, side: north, negative: true}, "south": {kind: letter, side: north, negative: true}, "sør": {kind: letter, side: north, negative: true},
	"sud": {kind: letter, side: north, negative: true}, "süd": {kind: letter, side: north, negative: true}, "sur": {kind: letter, side: north, negative: true},
	"sul": {kind: letter, side: north, negative: true}, "syd": {kind: letter, side: north, negative: true},
	"e": {kind: letter, side: east}, "east": {kind: letter, side: east}, "ø": {kind: letter, side: east}, "ö": {kind: letter, side: east},
	"øst": {kind: letter, side: east}, "öst": {kind: letter, side: east}, "ost": {kind: letter, side: east}, "est": {kind: letter, side: east}, "este": {kind: letter, side: east},
	"leste": {kind: letter, side: east}, "o": {kind: letter, side: east, letterO: true},
	"w": {kind: letter, side: east, negative: true}, "west": {kind: letter, side: east, negative: true}, "vest": {kind: letter, side: east, negative: true},
	"väst": {kind: letter, side: east, negative: true}, "v": {kind: letter, side: east, negative: true}, "ouest": {kind: letter, side: east, negative: true},
	"oeste": {kind: letter, side: east, negative: true},
}

// unitWords are words for degrees, minutes and seconds.
var unitWords = map[string]kind{
	"d": degree, "deg": degree, "degs": degree, "degree": degree, "degrees": degree, "grad": degree, "grader": degree, "g": degree, "gr": degree,
	"m": minute, "min": minute, "mins": minute, "minute": minute, "minutes": minute, "minutter": minute, "minuten": minute,
	"sec": second, "secs": second, "second": second, "seconds": second, "sek": second, "sekunder": second,
}

// fillers say nothing.
var fillers = map[string]bool{"lat": true, "lon": true, "long": true, "latitude": true, "longitude": true, "lng": true, "br": true, "and": true, "y": true, "og": true, "ca": true, "b": true, "l": true}

// lex splits a text; bad is the first word that is no part of a position.
// With commas, a comma between figures is a decimal sign.
func lex(text string, commas bool) (toks []token, bad string) {
	toks = make([]token, 0, 16)
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		switch {
		case r >= '0' && r <= '9', r == '.' && i+1 < len(text) && text[i+1] >= '0' && text[i+1] <= '9':
			t, n := lexNumber(text[i:], commas)
			if n == 0 {
				return nil, text[i:min(len(text), i+12)]
			}
			toks = append(toks, t)
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
			if toks, ok = lexWord(toks, text[i:j], i); !ok {
				return nil, text[i:j]
			}
			i = j
		default:
			var n int
			if toks, n = lexMark(toks, text[i:], r, size); n == 0 {
				return nil, string(r)
			}
			i += n
		}
	}
	return toks, ""
}

// isWord reports whether r is a letter and no mark; º, ʹ and ʺ are letters to
// Unicode.
func isWord(r rune) bool {
	return unicode.IsLetter(r) && !strings.ContainsRune("ºʹʺʼˊꞌ", r)
}

// decimalCommas reports whether commas between figures are decimal signs: no
// point is written and the text parts in two without them.
func decimalCommas(text string) bool {
	inner, outer := 0, strings.ContainsAny(text, ";/")
	for i, c := range []byte(text) {
		if c == '.' && i+1 < len(text) && text[i+1] >= '0' && text[i+1] <= '9' {
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

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

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
		scale := 1.0
		whole := t.value
		frac := 0.0
		for ; i < len(s) && isDigit(s[i]); i++ {
			if t.decimals < 15 {
				frac = frac*10 + float64(s[i]-'0')
				scale *= 10
				t.decimals++
			}
		}
		t.value = whole + frac/scale
		if i < len(s) && (s[i] == ',' && commas) && i+1 < len(s) && isDigit(s[i+1]) {
			return t, 0 // 20,432,12
		}
	} else if i < len(s) && s[i] == '.' {
		i++ // "42." is 42
	}
	return t, i
}

// lexWord takes a unit, a side of the world or a filler; several letters
// written together, such as sE, are taken one by one.
func lexWord(toks []token, w string, at int) ([]token, bool) {
	f := strings.ToLower(w)
	afterNumber := len(toks) > 0 && toks[len(toks)-1].kind == number
	if k, ok := unitWords[f]; ok && afterNumber && (f != "s" || w == "s") {
		return append(toks, token{kind: k}), true
	}
	if f == "o" && w == "o" && afterNumber && !hasKind(toks, degree, lastAngle(toks)) {
		return append(toks, token{kind: degree}), true // 61o50'
	}
	if w == "s" && len(toks) > 0 && toks[len(toks)-1].kind == minute {
		return toks, true // "18m s N": seconds left empty
	}
	if w == "s" && afterNumber && hasKind(toks, minute, lastAngle(toks)) && !hasKind(toks, second, lastAngle(toks)) {
		return append(toks, token{kind: second}), true // 50.00s
	}
	if t, ok := sideWords[f]; ok {
		return append(toks, t), true
	}
	if fillers[f] {
		return toks, true
	}
	if len(w) == 2 {
		var ok bool
		if toks, ok = lexWord(toks, w[:1], at); ok {
			return lexWord(toks, w[1:], at+1)
		}
	}
	return toks, false
}

// lastAngle is where the angle at hand began: after the last side or divider,
// at the last degrees.
func lastAngle(toks []token) int {
	for i := len(toks) - 1; i >= 0; i-- {
		switch toks[i].kind {
		case letter, divide:
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

const minuteMarks = "'′’‘´`ʹ‛ʼˊꞌ＇"
const secondMarks = "\"″”“ʺ˝„‟＂"

// lexMark takes one sign; 0 when it is none of ours.
func lexMark(toks []token, s string, r rune, size int) ([]token, int) {
	switch {
	case r == ' ' || r == '\t' || r == '\u00a0' || r == '\u2009' || r == '\u202f' || r == '(' || r == ')' || r == ':' || r == '~' || r == '.' || r == '[' || r == ']':
		return toks, size
	case strings.ContainsRune("°º˚∘⁰゜§", r):
		return append(toks, token{kind: degree}), size
	case strings.ContainsRune(secondMarks, r):
		return append(toks, token{kind: second}), size
	case strings.ContainsRune(minuteMarks, r):
		next, n := utf8.DecodeRuneInString(s[size:])
		if strings.ContainsRune(minuteMarks, next) && n > 0 && next != utf8.RuneError {
			return append(toks, token{kind: second}), size + n
		}
		return append(toks, token{kind: minute}), size
	case r == ',' || r == ';' || r == '/' || r == '|':
		return append(toks, token{kind: divide}), size
	case r == '-' || r == '−' || r == '–' || r == '‐' || r == '‑' || r == '—' || r == '﹣' || r == '－':
		return append(toks, token{kind: sign, negative: true}), size
	case r == '+':
		return append(toks, token{kind: sign}), size
	}
	return toks, 0
}
