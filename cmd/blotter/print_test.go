package main

import (
	"strings"
	"testing"

	"blotter/ledger"
	"blotter/render/paper"
)

// TestReadSize: sizes as people and settings write them. A4 and the others by
// ISO 216 and ANSI/ASME Y14.1.
func TestReadSize(t *testing.T) {
	for _, c := range []struct {
		typed  string
		w, h   float64
		ok     bool
		reason string
	}{
		{"A4", 210, 297, true, "by name"},
		{"letter", 215.9, 279.4, true, "in any case"},
		{"200 x 100 mm", 200, 100, true, "width by height"},
		{"210x297", 210, 297, true, "as a setting has it: millimetres"},
		{"20 × 30 cm", 200, 300, true, "the sign, and centimetres"},
		{"8.5 in x 11 in", 215.9, 279.4, true, "inches"},
		{"8,5x11 in", 215.9, 279.4, true, "a comma for the point; one unit for both"},
		{"20 x 30", 0, 0, false, "as millimetres too small for a label"},
		{"A44", 0, 0, false, "no name"},
		{"2000 x 1000 mm", 0, 0, false, "no printer takes that"},
		{"", 0, 0, false, "nothing"},
	} {
		s, ok := readSize(c.typed)
		if ok != c.ok || ok && (abs(s.W-c.w) > 0.01 || abs(s.H-c.h) > 0.01) {
			t.Errorf("%q (%s): %v, %v", c.typed, c.reason, s, ok)
		}
	}
}

func abs(v float64) float64 { return max(v, -v) }

func TestSizeWords(t *testing.T) {
	for want, s := range map[string]paper.Size{"A4": {Name: "A4", W: 210, H: 297}, "215.9 x 100 mm": {W: 215.9, H: 100}, "105 x 27.25 mm": {W: 105, H: 27.25}} {
		if got := sizeWords(s); got != want {
			t.Errorf("%v: %q, want %q", s, got, want)
		}
	}
}

// TestBlockSizes: other heights than that of a place are told.
func TestBlockSizes(t *testing.T) {
	place := paper.Size{W: 105, H: 68}
	block := func(h float64) *paper.Block { return &paper.Block{W: 105, H: h} }
	for want, blocks := range map[string][]*paper.Block{
		"105 x 68 mm":                        {block(68), block(68)},
		"105 x 68 mm, 1 of them 102 mm high": {block(68), block(102)},
		"105 x 68 mm, 2 of them 102 mm high, 1 of them 136 mm high": {block(136), block(102), block(68), block(102)},
	} {
		if got := blockSizes(place, blocks); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// TestEveryPrintKind holds the table: names, words, something that makes it;
// what is kept has the name that a printing keeps.
func TestEveryPrintKind(t *testing.T) {
	names := map[string]bool{}
	for _, k := range printKinds() {
		if k.Name == "" || names[k.Name] || k.Says == "" || strings.HasSuffix(k.Says, ".") {
			t.Errorf("kind %q: name used twice or empty, or its words end in a full stop: %q", k.Name, k.Says)
		}
		names[k.Name] = true
		if k.Make == nil && k.Blocks == nil && k.Pages == nil {
			t.Errorf("%s makes nothing", k.Name)
		}
		if len(k.forms()) == 0 {
			t.Errorf("%s has no form", k.Name)
		}
	}
}

// TestBriefSpans: numbers to be typed behind --except.
func TestBriefSpans(t *testing.T) {
	d := &desk{museum: &ledger.Museum{}, all: []ledger.Number{}, call: &call{env: &env{}}}
	d.museum.Numbering.Prefix.Text, d.museum.Numbering.Digits.Text = "LK7-", "7"
	got := strings.Join(d.briefSpans([]ledger.Number{"LK7-0000480", "LK7-0000481", "LK7-0000482", "LK7-0000490", "XY-3"}), ",")
	if got != "480..482,490,XY-3" {
		t.Error(got)
	}
}
