package main

import (
	"fmt"
	"math"

	"blotter/ledger/places"
)

// elevationTold is the reading of a height.
type elevationTold struct {
	readHead
	Min   *float64 `json:"min_m,omitempty"`   // metres; absent when the words set no lower end
	Max   *float64 `json:"max_m,omitempty"`   // absent when they set no upper end
	Error *float64 `json:"error_m,omitempty"` // how far the figures may be off by the way they are written
	words string
}

// The highest land, and the shore of the Dead Sea, in metres (defaults of the
// TDWG data quality test VALIDATION_ELEVATION_INRANGE, 8850 and -430).
const highestLand, lowestLand = 8850, -430

func (t *elevationTold) object() any { return t }

func readElevationText(_ *readDesk, text string) told {
	t := &elevationTold{readHead: headOf(text)}
	l := places.ReadElevation(text)
	for _, w := range l.Warnings {
		t.warn(w.Code, w.Message)
	}
	switch {
	case l.Known():
		if !l.OpenBelow {
			t.Min = metresOf(l.Min)
		}
		if !l.OpenAbove {
			t.Max = metresOf(l.Max)
		}
		if l.Min > highestLand || l.Max < lowestLand {
			t.warn("elevation-range", "no land lies there: the highest is 8,849 m, the lowest 430 m below the sea")
		}
		t.Error = metresOf(l.Error)
		t.words = "read as " + l.String()
	case l.None != places.Stated:
		t.words = noneSaid(l.None == places.NotRecorded, l.None == places.Illegible)
	default:
		t.refuse("no height can be read in these words")
	}
	return t
}

// metresOf is a length to the millimetre.
func metresOf(v float64) *float64 {
	v = math.Round(v*1000) / 1000
	return &v
}

func (t *elevationTold) lines() []string {
	var more []string
	if t.Error != nil && *t.Error > 0 {
		more = append(more, fmt.Sprintf("the figures are good to %g m", *t.Error))
	}
	return t.linesWith(t.words, more...)
}
