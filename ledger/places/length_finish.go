package places

import (
	"math"
	"strconv"
	"strings"
)

// highestLand is Mount Everest in metres, rounded up (TDWG data quality tests,
// VALIDATION_ELEVATION_INRANGE, default 8850).
const highestLand = 8850

// lowestLand is the shore of the Dead Sea in metres (ibid., default -430).
const lowestLand = -430

// finish puts what was taken apart together.
func (r *lengthReader) finish() Length {
	l := r.length
	if r.quantities[0].n == 0 {
		if r.sea && r.use != forDistance && !r.belowSea {
			return Length{Error: 1, Unit: Metre, Approximate: l.Approximate, known: true}
		}
		return noLength("length-unread", "no figure; write for example 348 m or 1200 ft")
	}
	r.fill(&l, &r.quantities[0])
	if r.quantities[1].n > 0 {
		r.both(&l)
	}
	if r.off {
		if r.stated.unit == NoUnit {
			r.stated.unit = l.Unit
		}
		l.Error = max(r.stated.value*r.stated.unit.Metres(), 0.001)
	}
	if w := r.machine(l); w != "" {
		return noLength("length-sentinel", w)
	}
	switch {
	case r.use == forDepth:
		if l.OpenAbove && l.Min < 0 {
			l.Max = l.Min // the lesser figure is the bound, as it is shown
		}
		if l.Max <= 0 || -l.Min > l.Max { // minus is down: -10 to 5 m
			l.Min, l.Max = -l.Max, -l.Min
		}
		l.Min, l.Max = l.Min+0, l.Max+0 // no minus nought
	case r.belowSea && l.Min > 0:
		l.Min, l.Max = -l.Max, -l.Min
		l.OpenBelow, l.OpenAbove = l.OpenAbove, l.OpenBelow
	}
	if l.OpenBelow {
		l.Min = min(0, l.Max)
	}
	if l.Unit == NoUnit {
		l.Warnings = append(l.Warnings, Warning{"length-no-unit", "no unit; read as metres"})
		if digits := r.quantities[0].figures[0].digits; r.use == forHeight && (digits == "99" || digits == "999") && r.quantities[0].n == 1 {
			l.Warnings = append(l.Warnings, Warning{"length-sentinel", digits + " is also what machines write when they know nothing"})
		}
	}
	return l
}

// fill sets the value of l to that of q.
func (r *lengthReader) fill(l *Length, q *quantity) {
	a := q.figures[0]
	b := a
	if q.n == 2 {
		b = q.figures[1]
		if a.unit == NoUnit {
			a.unit = b.unit
		}
		if b.unit == NoUnit {
			b.unit = a.unit
		}
	}
	r.thousands(l, &a)
	if q.n == 2 {
		r.thousands(l, &b)
	} else {
		b = a
	}
	l.known, l.Unit = true, b.unit
	// the ends of a range count in the finer unit of the two: 1-1.5 m, 1000-1050 m
	l.Min, l.Max = a.value*a.unit.Metres(), b.value*b.unit.Metres()
	l.Error = min(a.half*a.unit.Metres()+math.Abs(a.value)*measures[a.unit].spread, b.half*b.unit.Metres()+math.Abs(b.value)*measures[b.unit].spread)
	if which := measures[b.unit].which; which != "" {
		l.Warnings = append(l.Warnings, Warning{"length-old-unit", b.unit.String() + " is taken for " + which})
	}
	switch {
	case l.Min > l.Max:
		r.turned(l, a, b)
	case q.n == 2 && a.unit == b.unit && shortened(a.digits, b.digits):
		zeros := b.digits[len(a.digits):]
		l.Warnings = append(l.Warnings, Warning{"length-order", "or is it " + a.digits + zeros + " to " + b.digits + "? Both readings stand"})
	}
}

// shortened reports whether a leaves out the noughts that b ends with:
// 5-6000.
func shortened(a, b string) bool {
	return len(b) > len(a)+1 && a != "0" && strings.Trim(b[len(a):], "0") == "" && a < b[:len(a)]
}

// turned takes a range whose second figure is the lesser: 1150-80 is perhaps
// 1150 to 1180, and both readings stand.
func (r *lengthReader) turned(l *Length, a, b figure) {
	l.Min, l.Max = l.Max, l.Min
	short := len(a.digits) - len(b.digits)
	if short > 0 && !strings.Contains(a.digits+b.digits, ".") && a.unit == b.unit && b.value > 0 {
		if v, err := strconv.ParseFloat(a.digits[:short]+b.digits, 64); err == nil && v > a.value {
			top := v * b.unit.Metres()
			l.Warnings = append(l.Warnings, Warning{"length-order",
				"the greater figure stands first; or is it " + a.digits + " to " + a.digits[:short] + b.digits + "? Both readings stand"})
			l.Max = max(l.Max, top)
			return
		}
	}
	l.Warnings = append(l.Warnings, Warning{"length-order", "the greater figure stands first"})
}

// thousands takes the point of 1.200 m in a height for a thousands mark, as
// long as that gives a height that land has.
func (r *lengthReader) thousands(l *Length, f *figure) {
	if !f.point || r.use != forHeight || f.unit > Foot || math.Abs(f.value)*1000*f.unit.Metres() > highestLand {
		return
	}
	f.value *= 1000
	f.digits = strings.Replace(f.digits, ".", "", 1)
	f.half = HalfUnit(f.digits)
	l.Warnings = append(l.Warnings, Warning{"length-thousands", "the point is taken for a thousands mark: " + f.digits + "; if it is a decimal sign, fewer decimals say so"})
}

// both compares the same length in two units. When they agree the first one
// holds, with the greater of the two errors; when not, all of both.
func (r *lengthReader) both(l *Length) {
	var x Length
	r.fill(&x, &r.quantities[1])
	switch slack := l.Error + x.Error + 0.5; {
	case x.Unit == l.Unit || x.Unit == NoUnit:
		if x.Unit == NoUnit {
			x.Min, x.Max = x.Min*l.Unit.Metres(), x.Max*l.Unit.Metres()
		}
		l.Warnings = append(l.Warnings, Warning{"length-two", "two figures stand there; read as all between"})
	case math.Abs(l.Min-x.Min) <= slack && math.Abs(l.Max-x.Max) <= slack:
		l.Error = max(l.Error, x.Error)
		return
	default:
		l.Warnings = append(l.Warnings, Warning{"length-two-units", "the figures in " + l.Unit.String() + " and " + x.Unit.String() + " do not agree: " + l.String() + " and " + x.String()})
	}
	l.Min, l.Max, l.Error = min(l.Min, x.Min), max(l.Max, x.Max), max(l.Error, x.Error)
}

// machine says that a figure is what machines write when they know nothing:
// nines alone, beyond what there is; "" when it may be meant.
func (r *lengthReader) machine(l Length) string {
	q := &r.quantities[0]
	f := q.figures[0]
	digits := strings.TrimLeft(f.digits, "0")
	if q.n != 1 || len(digits) < 2 || strings.Trim(digits, "9") != "" || f.unit > Metre {
		return ""
	}
	v := f.value
	beyond := v > highestLand || v < lowestLand || v < 0 && f.unit == NoUnit
	if r.use == forDepth {
		beyond = math.Abs(v) >= 9999 || math.Abs(v) >= 999 && (v < 0 || f.unit == NoUnit)
	}
	if !beyond {
		return ""
	}
	return strconv.FormatFloat(v, 'f', -1, 64) + " is what machines write when they know nothing"
}
