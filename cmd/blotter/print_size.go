package main

import (
	"cmp"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger"
	"blotter/render/paper"
)

// paperSize is the paper in the printer: --paper, else habits.labels.paper.
func (d *desk) paperSize() (paper.Size, error) {
	habits := ledger.WithStandard(d.museum)
	from, typed := "--paper", strings.TrimSpace(d.opts.text("paper"))
	if typed == "" {
		from, typed = "habits.labels.paper of blotter.yaml,", habits.Labels.Paper.Text
	}
	size, ok := readSize(typed)
	if ok {
		return size, nil
	}
	var names []string
	for _, s := range paper.Sizes {
		names = append(names, s.Name)
	}
	f := misuse("%s %s is no size of paper", from, typed)
	if near := nearest(typed, names); near != "" {
		f = misuse("%s %s is no size of paper; did you mean %s?", from, typed, near)
	}
	return paper.Size{}, f.try("One of " + strings.Join(names, ", ") + `, or width by height: --paper "200 x 100 mm"`)
}

var sizeByMeasure = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^([0-9]+(?:[.,][0-9]+)?) ?(mm|cm|in)? ?[x×*] ?([0-9]+(?:[.,][0-9]+)?) ?(mm|cm|in)?$`)
})

// millimetresOf are the units that a size may be typed in.
var millimetresOf = map[string]float64{"mm": 1, "cm": 10, "in": 25.4}

// smallest and largest measure of paper, in millimetres: below the one there
// is no room for a label, beyond the other no printer for sheets (own judgement).
const smallest, largest = 50, 1200

// readSize reads a size: a name, or width by height, in millimetres when it has
// no unit.
func readSize(words string) (paper.Size, bool) {
	for _, s := range paper.Sizes {
		if strings.EqualFold(s.Name, words) {
			return s, true
		}
	}
	w, h, ok := readMeasures(words)
	if !ok || w < smallest || h < smallest || w > largest || h > largest { // 20 x 30 is centimetres, and as millimetres too small
		return paper.Size{}, false
	}
	return paper.Size{W: w, H: h}, true
}

// readMeasures reads width by height, in millimetres when they have no unit.
func readMeasures(words string) (w, h float64, ok bool) {
	m := sizeByMeasure().FindStringSubmatch(strings.ToLower(strings.TrimSpace(words)))
	if m == nil {
		return 0, 0, false
	}
	unit := cmp.Or(m[4], m[2], "mm")
	return measure(m[1], cmp.Or(m[2], unit)), measure(m[3], unit), true
}

func measure(figures, unit string) float64 {
	v, _ := strconv.ParseFloat(strings.Replace(figures, ",", ".", 1), 64)
	return v * millimetresOf[unit]
}

// sizeWords is "A4", or "200 x 100 mm".
func sizeWords(s paper.Size) string { return cmp.Or(s.Name, measures(s.W, s.H)) }

func measures(w, h float64) string { return millimetres(w) + " x " + millimetres(h) + " mm" }

// millimetres is v with at most two places.
func millimetres(v float64) string {
	return strings.TrimRight(strings.TrimRight(strconv.FormatFloat(v, 'f', 2, 64), "0"), ".")
}
