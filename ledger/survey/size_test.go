package survey_test

import (
	"math"
	"testing"

	"blotter/ledger/survey"

	"pgregory.net/rapid"
)

func TestSampleSize(t *testing.T) {
	for _, c := range []struct {
		name   string
		aim    survey.Aim
		sheets int
		reason string
	}{
		{"the usual one", survey.Aim{Margin: 0.05, Confidence: 0.95, Expected: 0.5}, 385, "1.959964² / 4 / 0.05² = 384.15: standard formula, from memory of the handbook"},
		{"3 %", survey.Aim{Margin: 0.03, Confidence: 0.95, Expected: 0.5}, 1068, "1067.07, the poll of about a thousand"},
		{"99 %", survey.Aim{Margin: 0.05, Confidence: 0.99, Expected: 0.5}, 664, "2.575829² / 4 / 0.05² = 663.49"},
		{"90 %", survey.Aim{Margin: 0.1, Confidence: 0.9, Expected: 0.5}, 68, "1.644854² / 4 / 0.1² = 67.64"},
		{"a tenth expected", survey.Aim{Margin: 0.05, Confidence: 0.95, Expected: 0.1}, 139, "3.841459 x 0.09 / 0.0025 = 138.29"},
		{"few sheets", survey.Aim{Margin: 0.05, Confidence: 0.95, Expected: 0.5, Size: 3}, 3, "almost all of three"},
		{"one sheet", survey.Aim{Margin: 0.05, Confidence: 0.95, Expected: 0.5, Size: 1}, 1, "n0/(1+(n0-1)/1) is 1"},
		{"none expected", survey.Aim{Margin: 0.05, Confidence: 0.95}, 1, "one sheet must be looked at to say anything"},
		{"wide margin", survey.Aim{Margin: 0.9, Confidence: 0.95, Expected: 0.5, Size: 2}, 2, "n0 = 1.19: two sheets, the half rounded up"},
	} {
		if got, err := c.aim.Sheets(); err != nil || got != c.sheets {
			t.Errorf("%s: %d, %v, not %d: %s", c.name, got, err, c.sheets, c.reason)
		}
	}
}

// The table of Krejcie and Morgan (1970), Determining sample size for research
// activities, Educational and Psychological Measurement 30: 607-610 (rows from
// memory): 5 %, 95 %, half expected, rounded to the nearest.
func TestSampleSizeOfThePublishedTable(t *testing.T) {
	for size, n := range map[int]float64{10: 10, 20: 19, 50: 44, 100: 80, 200: 132, 500: 217, 1000: 278, 2000: 322, 5000: 357, 10000: 370, 50000: 381, 75000: 382} {
		got, err := survey.Aim{Margin: 0.05, Confidence: 0.95, Expected: 0.5, Size: size}.Exact()
		if err != nil || math.Round(got) != n {
			t.Errorf("of %d: %v, %v, not %v", size, got, err, n)
		}
	}
}

func TestSampleSizeRefuses(t *testing.T) {
	for name, a := range map[string]survey.Aim{
		"no margin": {Confidence: 0.95, Expected: 0.5}, "percent for a share": {Margin: 5, Confidence: 0.95, Expected: 0.5},
		"sure": {Margin: 0.05, Confidence: 1, Expected: 0.5}, "expected above 1": {Margin: 0.05, Confidence: 0.95, Expected: 50},
		"fewer than none": {Margin: 0.05, Confidence: 0.95, Expected: 0.5, Size: -1}, "not a number": {Margin: math.NaN(), Confidence: 0.95, Expected: 0.5},
		"too fine": {Margin: 1e-9, Confidence: 0.95, Expected: 0.5},
	} {
		if n, err := a.Sheets(); err == nil {
			t.Errorf("%s: %d sheets and no error", name, n)
		}
	}
}

// The correction never asks for more than there are, nor for more than without
// an end, and a larger collection never asks for less.
func TestSampleSizeGrowsWithTheCollection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := survey.Aim{Margin: rapid.Float64Range(0.005, 0.5).Draw(t, "margin"), Confidence: rapid.Float64Range(0.5, 0.999).Draw(t, "confidence"), Expected: rapid.Float64Range(0, 1).Draw(t, "expected")}
		endless, err := a.Sheets()
		if err != nil {
			t.Fatal(err)
		}
		a.Size = rapid.IntRange(1, 2_000_000).Draw(t, "size")
		small, _ := a.Sheets()
		a.Size += rapid.IntRange(0, 1000).Draw(t, "more")
		large, _ := a.Sheets()
		if small > large || large > max(endless, 2) || large > a.Size {
			t.Errorf("%+v: %d, then %d, without an end %d", a, small, large, endless)
		}
	})
}
