package places

import "math"

// angle is one coordinate.
type angle struct {
	value    float64
	step     float64
	side     side // of a letter, else of a word for the axis
	form     Form
	letterO  bool
	sided    bool // a letter or sign says which side
	lettered bool // a letter does
	marked   bool // a degree sign or word stands in it
	twoSigns bool // a minus sign and a letter
	unknown  bool // 99 stands for minutes or seconds that nobody knows
	decimals int
}

// fault says why tokens are no angle.
type fault struct {
	why   string
	value bool // the figures are at fault, not their arrangement
}

const shape = "cannot be read as degrees, minutes and seconds"

// halves parts the tokens of a position into its two coordinates. The first
// way of parting that gives two angles holds; where none does, a single other
// one may.
func halves(toks []token) (a, b angle, f fault) {
	toks = dropJoints(trimDivide(toks))
	first := fault{why: "cannot be read as latitude and longitude; for example 60°42'12\"N 6°39'05\"E or 60.7033, 6.6514"}
	told := false
	for _, cut := range []func([]token) int{cutAtSides, cutAtDivide, cutAtSoft, cutAtDegree, cutAtSign, cutEven} {
		i := cut(toks)
		if i <= 0 || i >= len(toks) || numbers(toks[:i]) == 0 || numbers(toks[i:]) == 0 {
			continue
		}
		a, b, f := both(toks, i)
		if f.why == "" || f.value {
			return a, b, f
		}
		if !told {
			first, told = f, true
		}
	}
	if !hasKind(toks, letter, 0) {
		return a, b, first
	}
	found := 0
	for i := 1; i < len(toks); i++ {
		if numbers(toks[:i]) == 0 || numbers(toks[i:]) == 0 {
			continue
		}
		if x, y, f := both(toks, i); f.why == "" && x.sided && y.sided && x.side != y.side {
			a, b = x, y
			found++
		}
	}
	if found == 1 {
		return a, b, fault{}
	}
	return angle{}, angle{}, first
}

// dropJoints takes away what stands between two coordinates that have their
// letters and is neither sign nor letter there: dashes (22°54'S - 43°12'W), and
// the and of Italian and Portuguese (23°32'S e 46°38'W).
func dropJoints(toks []token) []token {
	letters := 0
	for _, t := range toks {
		if t.kind == letter {
			letters++
		}
	}
	if letters < 2 || toks[0].kind == letter {
		return toks
	}
	for i := 1; i+1 < len(toks); i++ {
		if toks[i].kind != letter || numbers(toks[:i]) == 0 {
			continue
		}
		j := i + 1
		for j < len(toks) && (toks[j].kind == sign && !toks[j].tight || toks[j].kind == divide || letters > 2 && toks[j].kind == letter && toks[j].side == east && !toks[j].upper && !toks[j].negative) {
			j++
		}
		if j > i+1 && j < len(toks) && hasKind(toks, letter, j) && toks[j].kind == number {
			out := append(make([]token, 0, len(toks)), toks[:i+1]...)
			return append(append(out, token{kind: divide}), toks[j:]...)
		}
		return toks
	}
	return toks
}

// both reads the two coordinates that a cut at i leaves.
func both(toks []token, i int) (a, b angle, f fault) {
	a, f = angleOf(trimDivide(toks[:i]))
	if f.why == "" {
		b, f = angleOf(trimDivide(toks[i:]))
	}
	return a, b, f
}

func trimDivide(t []token) []token {
	for len(t) > 0 && (t[0].kind == divide || t[0].kind == soft) {
		t = t[1:]
	}
	for len(t) > 0 && (t[len(t)-1].kind == divide || t[len(t)-1].kind == soft) {
		t = t[:len(t)-1]
	}
	return t
}

func numbers(toks []token) int {
	n := 0
	for _, t := range toks {
		if t.kind == number {
			n++
		}
	}
	return n
}

// cutAtSides cuts by the letters N, S, E, W, or words for latitude and
// longitude where there are none: before the second when they stand before
// the figures, after the first otherwise. Words that touch a letter go with
// it.
func cutAtSides(toks []token) int {
	what := letter
	if !hasKind(toks, letter, 0) {
		what = axis
	}
	first, end, count := -1, -1, 0
	for i := 0; i < len(toks); i++ {
		if toks[i].kind != what {
			continue
		}
		from := i
		for from > 0 && toks[from-1].kind == axis {
			from--
		}
		for i+1 < len(toks) && (toks[i+1].kind == axis || toks[i+1].kind == what) {
			i++
		}
		if count++; count == 1 {
			first, end = from, i+1
		} else if count == 2 && numbers(toks[:first]) == 0 {
			return from
		}
	}
	if count == 0 || numbers(toks[:first]) == 0 {
		return -1
	}
	return end
}

func cutAtDivide(toks []token) int { return cutAtOnly(toks, divide) }
func cutAtSoft(toks []token) int   { return cutAtOnly(toks, soft) }

// cutAtOnly cuts at the only token of a kind.
func cutAtOnly(toks []token, k kind) int {
	at := -1
	for i, t := range toks {
		if t.kind == k {
			if at >= 0 {
				return -1
			}
			at = i
		}
	}
	return at
}

// cutAtDegree cuts before the second number that a degree sign follows.
func cutAtDegree(toks []token) int {
	count := 0
	for i := 1; i < len(toks); i++ {
		if toks[i].kind == degree && toks[i-1].kind == number {
			if count++; count == 2 {
				if i > 1 && toks[i-2].kind == sign {
					return i - 2
				}
				return i - 1
			}
		}
	}
	return -1
}

func cutAtSign(toks []token) int {
	for i := len(toks) - 1; i > 0; i-- {
		if toks[i].kind == sign {
			return i
		}
	}
	return -1
}

// cutEven cuts plain figures in two: 2, 4 or 6 numbers.
func cutEven(toks []token) int {
	n := numbers(toks)
	if n != 2 && n != 4 && n != 6 {
		return -1
	}
	seen := 0
	for i, t := range toks {
		if t.kind == number {
			if seen == n/2 {
				return i
			}
			seen++
		}
	}
	return -1
}

// angleOf reads one coordinate.
func angleOf(toks []token) (a angle, f fault) {
	var parts [3]token
	n, negative, minus, signs, letters, axes, letterAt := 0, false, false, 0, 0, 0, 0
	plusLetter := false
	var word side
	unit := degree
	for i, t := range toks {
		afterNumber := i > 0 && toks[i-1].kind == number
		switch t.kind {
		case number:
			// A letter stands before the figures, after them, or in place of the
			// degree sign: 60N42.
			if n == 3 || letterAt > 1 || letterAt == 1 && (a.marked || n == 1 && !toks[i-1].upper) {
				return a, fault{why: shape}
			}
			parts[n] = t
			n++
		case degree, minute, second:
			if !afterNumber || t.kind < unit || t.kind-degree != kind(n-1) {
				return a, fault{why: shape}
			}
			unit = t.kind
			a.marked = true
		case letter:
			a.side, a.letterO = t.side, t.letterO
			negative, plusLetter = negative || t.negative, !t.negative
			letters++
			letterAt = n
		case axis:
			word = t.side
			axes++
		case sign:
			if n > 0 && n < 3 && i+1 < len(toks) && toks[i+1].kind == number && t.negative {
				continue // 60-42-12: a hyphen between the parts
			}
			negative = negative || t.negative
			if n > 0 {
				return a, fault{why: shape}
			}
			minus = minus || t.negative
			signs++
		case soft:
		default:
			return a, fault{why: shape}
		}
	}
	if n == 0 || signs > 1 || letters > 1 || axes > 1 {
		return a, fault{why: shape}
	}
	if plusLetter && minus {
		return a, fault{why: "a minus sign stands with N or E, and they contradict each other: write one of them", value: true}
	}
	a.sided, a.lettered, a.twoSigns = letters+signs > 0, letters > 0, letters > 0 && minus
	if word != unsaid && letters > 0 && word != a.side {
		return a, fault{why: "the word and the letter name different axes", value: true}
	} else if letters == 0 {
		a.side = word
	}
	return a.set(parts[:n], negative)
}

// unknownPart is what some collections write for minutes or seconds that
// nobody knows: 30 25 99 (common practice in Mexican herbaria, no source).
const unknownPart = 99

// set computes value and step from one to three parts.
func (a angle) set(parts []token, negative bool) (angle, fault) {
	a.form = Form(len(parts))
	for n := len(parts); n > 1 && parts[n-1].value == unknownPart && parts[n-1].decimals == 0; n-- {
		parts = parts[:n-1]
		a.unknown = true
	}
	scale := 1.0
	for i, p := range parts {
		if i > 0 && p.value >= 60 && !(p.value == 60 && p.point && p.decimals == 0) {
			return a, fault{why: "minutes and seconds go to 59", value: true}
		}
		if i > 0 && parts[i-1].value != math.Trunc(parts[i-1].value) {
			return a, fault{why: "only the last of degrees, minutes and seconds can have decimals"}
		}
		a.value += p.value / scale
		a.step = math.Pow10(-p.decimals) / scale
		a.decimals = p.decimals
		scale *= 60
	}
	if a.unknown {
		a.value += a.step / 2
	}
	if a.value > 180 {
		return a, fault{why: "an angle goes to 180°", value: true}
	}
	if negative {
		a.value = -a.value
	}
	return a, fault{}
}

// ReadAngle reads one coordinate, in degrees, north and east positive; false
// when it cannot be read.
func ReadAngle(text string) (degrees float64, ok bool) {
	if len(text) > maxText {
		return 0, false
	}
	toks, bad := lex(plain(text), true)
	if bad != "" {
		return 0, false
	}
	a, f := angleOf(trimDivide(toks))
	return a.value, f.why == ""
}
