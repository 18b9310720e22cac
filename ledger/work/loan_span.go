package work

import (
	"strconv"
	"strings"

	"blotter/ledger"
)

// mostOfSpan is how many numbers a span is followed through: more is a slip of
// the pen.
const mostOfSpan = 200_000

// sheetsOf are the specimens that an item names: one as it stands, of a span
// those that the ledger has records of.
func (w *Works) sheetsOf(i Item) []ledger.Number {
	if i.Last == "" {
		return []ledger.Number{i.Sheet}
	}
	var out []ledger.Number
	for _, no := range figuresOf(string(i.Sheet), string(i.Last)) {
		n := ledger.Number(no)
		if w.book == nil {
			out = append(out, n)
		} else if e := w.book.Find(n); e != nil {
			out = append(out, e.Number)
		}
	}
	return out
}

// Named is how many things an item names: of a bundle its count, of a span
// every number from first to last.
func (i Item) Named() int {
	switch {
	case i.Bundle():
		return i.Count
	case i.Who != "":
		return len(figuresOf(i.No, i.LastN))
	case i.Last != "":
		return len(figuresOf(string(i.Sheet), string(i.Last)))
	}
	return 1
}

// figuresOf are the numbers from first to last, which differ in their last
// figures alone: 1311..1320, LK7-0000480..LK7-0000489. Of others only the two
// themselves are known.
func figuresOf(first, last string) []string {
	if last == "" {
		return []string{first}
	}
	stem := strings.TrimRight(first, "0123456789")
	if strings.Trim(last, "0123456789") == "" && stem != "" {
		last = stem + last // 480..489 written short
	}
	a, errA := strconv.Atoi(first[len(stem):])
	b, errB := strconv.Atoi(strings.TrimPrefix(last, stem))
	if errA != nil || errB != nil || !strings.HasPrefix(last, stem) || b < a || b-a >= mostOfSpan {
		return []string{first, last}
	}
	width := len(first) - len(stem)
	out := make([]string, 0, b-a+1)
	for n := a; n <= b; n++ {
		digits := strconv.Itoa(n)
		if len(digits) < width {
			digits = strings.Repeat("0", width-len(digits)) + digits
		}
		out = append(out, stem+digits)
	}
	return out
}
