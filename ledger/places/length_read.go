package places

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// figure is one number of a length.
type figure struct {
	value, half float64
	unit        Unit
	digits      string // as written, without thousands marks
	point       bool   // 1.200: the point may be a thousands mark
}

// quantity is one length, or the two ends of one.
type quantity struct {
	figures [2]figure
	n       int
	beside  bool // stands in brackets or behind "or", =: the same in another unit
}

// lengthReader takes a text apart word by word. A length is one quantity, or
// the same in two units.
type lengthReader struct {
	text       string
	use        use
	quantities [2]quantity
	at         int // which of them is being read
	stated     figure
	off        bool // stated holds: a figure behind ±

	unit      Unit // written before the figure: m 1200
	joined    bool // a range sign stands after the first figure
	negate    bool // a minus stands before the next figure
	plusMinus bool // ± stands before the next figure
	another   bool // the next figure begins another quantity
	sea       bool // the level of the sea is named
	belowSea  bool
	below     bool // below, under: of the sea, if that follows
	length    Length
}

func (r *lengthReader) now() *quantity { return &r.quantities[r.at] }

// read takes the text apart; it returns what it cannot read.
func (r *lengthReader) read() string {
	s := r.text
	for i := 0; i < len(s); {
		c, size := utf8.DecodeRuneInString(s[i:])
		switch {
		case c >= '0' && c <= '9' || (c == '.' || c == ',') && i+1 < len(s) && isDigit(s[i+1]) || fractionOf(c) != 0:
			f, n := lengthFigure(s[i:])
			if n == 0 || !r.figure(f) {
				return s[i:min(len(s), i+12)]
			}
			i += n
		case unicode.IsLetter(c):
			j := wordEnd(s, i)
			if slip(s, i, j) || !r.words(s[i:j]) {
				return s[i:j]
			}
			i = j
		default:
			if !r.mark(c, s[i+size:]) {
				return string(c)
			}
			i += size
		}
	}
	return ""
}

// slip reports whether the word of s from i to j is a letter in place of a
// figure: l200, 120O, 1e3.
func slip(s string, i, j int) bool {
	if j != i+1 || strings.IndexByte("oOlIe", s[i]) < 0 {
		return false
	}
	before, after := i > 0 && isDigit(s[i-1]), j < len(s) && isDigit(s[j])
	return before && after || s[i] != 'e' && (before || after)
}

// wordEnd is the end of the word at i, with the full stops and apostrophes
// inside it.
func wordEnd(s string, i int) int {
	j := i
	for j < len(s) {
		c, n := utf8.DecodeRuneInString(s[j:])
		next, _ := utf8.DecodeRuneInString(s[j+n:])
		if !unicode.IsLetter(c) && !(strings.ContainsRune(".'", c) && j > i && unicode.IsLetter(next)) {
			break
		}
		j += n
	}
	return j
}

func (r *lengthReader) figure(f figure) bool {
	if r.plusMinus && r.now().n > 0 && !r.off {
		r.stated, r.off, r.plusMinus = f, true, false
		return true
	}
	q := r.now()
	full := q.n == 2 || q.n == 1 && !r.joined
	if full || r.another && q.n > 0 {
		own := q.n > 0 && q.figures[q.n-1].unit != NoUnit
		if r.at == 1 || full && !r.another && !own {
			return false
		}
		r.at = 1
		q = r.now()
		q.beside = r.another
		r.joined = false
	}
	r.another = false
	if r.negate {
		f.value = -f.value
	}
	r.negate = false
	f.unit, r.unit = r.unit, NoUnit
	q.figures[q.n] = f
	q.n++
	return true
}

// words takes a word; one with full stops inside that is none is taken piece
// by piece.
func (r *lengthReader) words(w string) bool {
	if r.word(w) {
		return true
	}
	pieces := strings.FieldsFunc(w, func(c rune) bool { return c == '.' || c == '\'' })
	if len(pieces) < 2 {
		return false
	}
	for _, p := range pieces {
		if !r.word(p) {
			return false
		}
	}
	return true
}

func (r *lengthReader) word(w string) bool {
	f := strings.ToLower(strings.ReplaceAll(w, ".", ""))
	q := r.now()
	first := q.n == 0 && r.at == 0
	u, isUnit := unitOf(f)
	last := &q.figures[max(0, q.n-1)]
	switch {
	case isUnit && r.off && r.stated.unit == NoUnit:
		r.stated.unit = u
		if last.unit == NoUnit {
			last.unit = u
		}
	case isUnit && q.n > 0 && last.unit == NoUnit:
		last.unit = u
	case isUnit && q.n == 0 && r.unit == NoUnit:
		r.unit = u
	case lengthLoose[f] && !(f == "a" && q.n > 0):
		r.length.Approximate = true
	case q.n == 1 && !r.joined && lengthRange[f]:
		r.joined = true
	case seaWords[f]:
		r.seaLevel(first)
	case first && lengthUpTo[f]:
		r.length.OpenBelow = true
	case lengthBelow[f]:
		r.under(first, f)
	case first && lengthAbove[f]:
		r.length.OpenAbove = true
	case q.n > 0 && lengthOther[f]:
		r.another = true
	case lengthFillers[f] || seaMarks[f] || lengthAbove[f] || lengthThan[f] || isUnit && q.n > 0:
	default:
		return false
	}
	return true
}

// under is a word for below: of the figure that follows, or of the sea.
func (r *lengthReader) under(first bool, w string) {
	r.below = true
	switch {
	case w == "bsl" || w == "bmsl":
		r.belowSea = true
	case first && r.use == forDepth && w != "less" && w != "up" && w != "max" && w != "maximum":
		r.length.OpenAbove = true
	case first:
		r.length.OpenBelow = true
	}
}

// seaLevel takes "sea level": what stands before it is above or below the
// sea, and no bound of the figure that follows.
func (r *lengthReader) seaLevel(first bool) {
	r.sea = true
	r.belowSea = r.belowSea || r.below
	if first {
		r.length.OpenAbove, r.length.OpenBelow, r.below = false, false, false
	}
}

func (r *lengthReader) mark(c rune, rest string) bool {
	q := r.now()
	digit := rest != "" && isDigit(rest[0])
	switch c {
	case '-', '–', '—', '−', '‑', '‐':
		switch {
		case q.n == 0 || r.joined:
			r.negate = digit
		default:
			r.joined = true
		}
	case '/':
		switch {
		case q.n == 0 || strings.HasPrefix(rest, "-"): // +/-
		case q.figures[q.n-1].unit != NoUnit:
			r.another = true
		default:
			r.joined = true
		}
	case '…':
		r.joined = q.n > 0
	case '~', '≈', '?':
		r.length.Approximate = true
	case '<', '≤':
		r.length.OpenBelow = true
	case '>', '≥':
		r.length.OpenAbove = true
	case '\'', '′':
		if q.n > 0 && q.figures[q.n-1].unit == NoUnit {
			q.figures[q.n-1].unit = Foot
		}
	case '±':
		r.plusMinusSign()
	case '+':
		if strings.HasPrefix(rest, "/-") || strings.HasPrefix(rest, "-") {
			r.plusMinusSign()
		} else if q.n > 0 && !digit {
			r.length.OpenAbove = true
		}
	case '(', '[', '=', ';', ',':
		r.another = r.another || q.n > 0
	case ' ', '.', ':', ')', ']', '\t':
	default:
		return false
	}
	return true
}

func (r *lengthReader) plusMinusSign() {
	r.plusMinus = r.now().n > 0
	if !r.plusMinus && r.use != forDistance {
		r.length.Approximate = true
	}
}

// lengthFigure takes a number from the start of s: 1,200; 0.5; 1/2; 1½; ¾. n
// is how many bytes it took, 0 when it is none.
func lengthFigure(s string) (f figure, n int) {
	if c, size := utf8.DecodeRuneInString(s); fractionOf(c) != 0 {
		return fraction(0, c), size
	}
	written, n := figureAt(s)
	if written == "" || len(written) > 15 {
		return f, 0
	}
	v, err := strconv.ParseFloat(written, 64)
	if err != nil || v > 1e9 {
		return f, 0
	}
	rest := s[n:]
	if c, size := utf8.DecodeRuneInString(strings.TrimLeft(rest, " ")); fractionOf(c) != 0 {
		return fraction(v, c), len(s) - len(strings.TrimLeft(rest, " ")) + size
	}
	if a, b, size := slashed(written, rest); size > 0 {
		return figure{value: a / b, half: 1 / (2 * b), digits: "1"}, n + size
	}
	if a, b, size := slashed(strings.TrimSpace(rest), ""); size > 0 && strings.HasPrefix(rest, " ") {
		return figure{value: v + a/b, half: 1 / (2 * b), digits: "1"}, n + 1 + size
	}
	whole, frac, _ := strings.Cut(written, ".")
	return figure{value: v, half: HalfUnit(written), digits: written,
		point: len(frac) == 3 && len(whole) <= 3 && whole[0] != '0' && s[len(whole)] == '.'}, n
}

// fractions are the signs for parts of one, by their denominator.
var fractions = map[rune][2]float64{'½': {1, 2}, '¼': {1, 4}, '¾': {3, 4}, '⅓': {1, 3}, '⅔': {2, 3}, '⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8}}

// fractionOf is the value of a sign such as ½; 0 when it is none.
func fractionOf(c rune) float64 {
	if c < 0x80 {
		return 0
	}
	f := fractions[c]
	return f[0]
}

func fraction(whole float64, c rune) figure {
	f := fractions[c]
	return figure{value: whole + f[0]/f[1], half: 1 / (2 * f[1]), digits: "1"}
}

// slashed reads 1/2, 3/4, 2/3: a figure and a greater one after a slash, both
// below 17. Without rest both stand in a.
func slashed(a, rest string) (num, den float64, size int) {
	joined := a + rest
	i := strings.IndexByte(joined, '/')
	if i < 1 || i > 2 || rest != "" && i != len(a) {
		return 0, 0, 0
	}
	j := i + 1
	for j < len(joined) && isDigit(joined[j]) {
		j++
	}
	num, err1 := strconv.ParseFloat(joined[:i], 64)
	den, err2 := strconv.ParseFloat(joined[i+1:j], 64)
	if err1 != nil || err2 != nil || num >= den || den > 16 || num < 1 || j < len(joined) && strings.IndexByte(".,", joined[j]) >= 0 && j+1 < len(joined) && isDigit(joined[j+1]) {
		return 0, 0, 0
	}
	if rest == "" {
		return num, den, j
	}
	return num, den, j - len(a)
}
