package places

import "math"

// angle is one coordinate.
type angle struct {
	value   float64
	step    float64
	side    side
	form    Form
	letterO bool
	sided   bool // a letter or sign says which side
}

// halves parts the tokens of a position into its two coordinates.
func halves(toks []token) (a, b []token, ok bool) {
	for len(toks) > 0 && toks[len(toks)-1].kind == divide {
		toks = toks[:len(toks)-1]
	}
	for _, cut := range []func([]token) int{cutAtSides, cutAtDivide, cutAtDegree, cutAtSign, cutEven} {
		if i := cut(toks); i > 0 && i < len(toks) {
			a, b = trimDivide(toks[:i]), trimDivide(toks[i:])
			if numbers(a) > 0 && numbers(b) > 0 {
				return a, b, true
			}
		}
	}
	return nil, nil, false
}

func trimDivide(t []token) []token {
	for len(t) > 0 && t[0].kind == divide {
		t = t[1:]
	}
	for len(t) > 0 && t[len(t)-1].kind == divide {
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

// cutAtSides cuts by the letters N, S, E, W: before the second one when they
// stand before the figures, after the first one otherwise.
func cutAtSides(toks []token) int {
	first, count := -1, 0
	for i, t := range toks {
		if t.kind != letter {
			continue
		}
		if count++; count == 1 {
			first = i
		} else if count == 2 && numbers(toks[:first]) == 0 {
			return i
		}
	}
	if count == 0 || numbers(toks[:first]) == 0 {
		return -1
	}
	return first + 1
}

func cutAtDivide(toks []token) int {
	at := -1
	for i, t := range toks {
		if t.kind == divide {
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

// angleOf reads one coordinate; why says what hinders it.
func angleOf(toks []token) (a angle, why string) {
	const shape = "cannot be read as degrees, minutes and seconds"
	var parts [3]token
	n, negative, signs, letters := 0, false, 0, 0
	unit := degree
	for i, t := range toks {
		switch t.kind {
		case number:
			if n == 3 {
				return a, shape
			}
			parts[n] = t
			n++
		case degree, minute, second:
			if i == 0 || toks[i-1].kind != number || t.kind < unit || t.kind-degree != kind(n-1) {
				return a, shape
			}
			unit = t.kind
		case letter:
			a.side, a.letterO = t.side, t.letterO
			negative = negative != t.negative
			letters++
		case sign:
			if n > 0 && n < 3 && i+1 < len(toks) && toks[i+1].kind == number {
				if t.negative { // 60-42-12: a hyphen between the parts
					continue
				}
			}
			negative = negative != t.negative
			signs++
		default:
			return a, shape
		}
	}
	a.sided = letters+signs > 0
	if n == 0 || signs > 1 || letters > 1 {
		return a, shape
	}
	return a.set(parts[:n], negative)
}

// set computes value and step from one to three parts.
func (a angle) set(parts []token, negative bool) (angle, string) {
	scale := 1.0
	for i, p := range parts {
		if i > 0 && p.value >= 60 {
			return a, "minutes and seconds go to 59"
		}
		if i > 0 && parts[i-1].value != math.Trunc(parts[i-1].value) {
			return a, "only the last of degrees, minutes and seconds can have decimals"
		}
		a.value += p.value / scale
		a.step = math.Pow10(-p.decimals) / scale
		scale *= 60
	}
	if a.value > 180 {
		return a, "an angle goes to 180°"
	}
	a.form = Form(len(parts))
	if negative {
		a.value = -a.value
	}
	return a, ""
}

// ReadAngle reads one coordinate, in degrees, north and east positive; false
// when it cannot be read.
func ReadAngle(text string) (degrees float64, ok bool) {
	toks, bad := lex(text, true)
	if bad != "" || len(text) > maxText {
		return 0, false
	}
	a, why := angleOf(trimDivide(toks))
	return a.value, why == ""
}
