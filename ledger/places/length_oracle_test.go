package places

import (
	"math"
	"strconv"
	"testing"
)

// Written elevations beside the collections' own reading, 150 of open specimen
// rows. What differs is theirs: the lower end is left out of a range and the
// upper one kept (5), metres rounded to tens (7), a bare 1400 taken for feet
// (1), "<4000ft" kept as 4000 ft (1), where ours ends there.
func TestElevationsOfSpecimens(t *testing.T) {
	column, rows := table(t, "oracles/coordinates/elevation.tsv", '\t')
	count := map[string]int{}
	for _, row := range rows {
		words := column(row, "verbatimElevation")
		l := ReadElevation(words)
		theirs, err := strconv.ParseFloat(column(row, "minimumElevationInMeters"), 64)
		if err != nil || !l.Known() {
			t.Errorf("%q: not read, %v", row, l.Warnings)
			continue
		}
		top := column(row, "maximumElevationInMeters")
		switch {
		case math.Abs(theirs-l.Min) <= 1.01 && (top == "" || near(top, l.Max, 1.01)):
			count["right"]++
		case math.Mod(theirs, 10) == 0 && math.Abs(theirs-l.Min) < 5:
			count["rounded"]++
		case l.Min < l.Max && math.Abs(theirs-l.Max) <= 1.01 && !l.OpenBelow:
			count["upper end"]++
		case l.OpenBelow && math.Abs(theirs-l.Max) <= 1.01:
			count["open"]++
		case l.Unit == NoUnit && math.Abs(theirs-l.AsFeet().Min) <= 1.01:
			count["bare feet"]++
		default:
			t.Errorf("%q: %s", row, l)
		}
	}
	t.Logf("%v of %d", count, len(rows))
	if count["right"] < 136 || count["right"]+count["rounded"] < 143 {
		t.Errorf("%v of %d; 136 were right and 7 rounded", count, len(rows))
	}
}
