package pictures

import (
	"fmt"
	"slices"
	"testing"
)

func TestNumbers(t *testing.T) {
	lk7 := SeriesOf("LK7-", 7)
	for _, c := range []struct {
		text    string
		serials []uint64
		shows   string
		why     string
	}{
		{"LK7-0000482", []uint64{482}, "", "as it is written"},
		{"LK7-0000482_2", []uint64{482}, "", "a second picture"},
		{"lk7 482 label", []uint64{482}, "label", "as people type it, and what it shows"},
		{"LK7_0000482-b", []uint64{482}, "", "one letter says nothing"},
		{"lk70000482", []uint64{482}, "", "without anything between"},
		{"IMG LK7-0000482 whole sheet (2)", []uint64{482}, "whole sheet", "the camera's word says nothing"},
		{"LK7-0000482 LK7-0000483", []uint64{482, 483}, "", "two numbers"},
		{"LK7-0000482 LK7-482", []uint64{482}, "", "the same twice"},
		{"https://herbarium.example/specimens/LK7-0000482", []uint64{482}, "", "an address in a QR code"},
		{"0000482", []uint64{482}, "", "figures alone, as many as a number has"},
		{"0000482_label", []uint64{482}, "label", "and more"},
		{"482", nil, "", "too few figures to be sure"},
		{"00004820", nil, "", "too many"},
		{"0000482x", nil, "", "no end of the number"},
		{"IMG_20260302_140506", nil, "", "a camera's name"},
		{"LK7-2026-03-02 sheet", nil, "", "a day, no number"},
		{"XLK7-0000482", nil, "", "another museum's"},
		{"", nil, "", "nothing"},
	} {
		got, rest := lk7.Numbers(c.text)
		if !slices.Equal(got, c.serials) {
			t.Errorf("%q (%s): %v, want %v", c.text, c.why, got, c.serials)
		}
		if len(got) > 0 && c.shows != Shows(rest) && c.text[0] != 'h' {
			t.Errorf("%q (%s): shows %q, want %q", c.text, c.why, Shows(rest), c.shows)
		}
	}
	bare := SeriesOf("", 8)
	for text, want := range map[string]string{"00000482": "[482]", "20260302_140506": "[]", "20269999": "[20269999]"} {
		if got, _ := bare.Numbers(text); fmt.Sprint(got) != want {
			t.Errorf("without a prefix %q: %v, want %s", text, got, want)
		}
	}
}
