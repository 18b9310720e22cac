package paper

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

// FuzzSet: no word is lost, doubled or moved however words are cut into runs,
// no line is wider than asked unless it is one word, and what is set can be
// drawn in every medium.
func FuzzSet(f *testing.F) {
	for _, s := range []string{
		"Ranunculus acris subsp. pumilus (Wahlenb.) Á.Löve & D.Löve",
		"Norway: Vestland: Voss. Unfertilised hay meadow above the lake, 1.2\u00a0km NE of the church.",
		"  two  spaces, a\ttab\r\nand a line end ", "q\u0301 \u0301 m\u0304\u0323", "Ra\u00adnun\u200bculus \u202eacris\u202c", "☿ 木 𝒜 🌿", "a\xffb \xf0\x9f", "V. Tay, L.Y. “A f’s", "",
	} {
		f.Add(s, uint8(40), uint8(3), uint8(7))
	}
	f.Fuzz(func(t *testing.T, text string, wide, first, second uint8) {
		if len(text) > 2000 {
			return
		}
		a, b := min(int(first), len(text)), min(int(first)+int(second), len(text))
		roman, italic := Style{Size: 9.5}, Style{Face: Italic, Size: 11, Spread: 0.02}
		runs := []Run{{Style: roman, Text: text[:a]}, {Style: italic, Text: text[a:b], Keep: second%2 == 1}, {Style: roman, Text: text[b:]}}
		width := float64(wide) / 2
		lines := Set(runs, width)
		if got, want := strings.Fields(spaced(TextOf(lines))), strings.Fields(spaced(text)); strings.Join(got, " ") != strings.Join(want, " ") {
			t.Fatalf("%q is set as %q", text, TextOf(lines))
		}
		var page Page
		for i, l := range lines {
			if l.Width > width+epsilon && second%2 == 0 && strings.Contains(strings.Trim(l.Text(), " "), " ") {
				t.Fatalf("%q is %v mm wide, %v asked", l.Text(), l.Width, width)
			}
			page.Items = append(page.Items, Text{X: 5, Y: float64(5 + 4*i), Runs: l.Runs})
		}
		Lacks(runs...)
		for _, r := range runs {
			a := faces()[r.Face]
			for _, c := range drawn(a, r.Text) {
				if c > 0xffff || !a.has(c) && c != utf8.RuneError || unicode.IsControl(c) {
					t.Fatalf("%q: %q is drawn", r.Text, c)
				}
			}
		}
		page.SVG()
		var written strings.Builder
		for _, it := range page.Items {
			htmlText(&written, it.(Text))
		}
		if !utf8.ValidString(written.String()) {
			t.Fatalf("HTML of %q is not UTF-8", text)
		}
	})
}

// TestPDFOfAnything: what fpdf cannot write it is never given.
func TestPDFOfAnything(t *testing.T) {
	p := &Paper{Pages: []Page{{Size: a4}}}
	for i, s := range []string{"a\xffb \xf0\x9f", "☿ 木 𝒜 🌿", "(\\) \x00\x1b\r\n", "\u0301", "q\u0301(\u0323", "\ufffe\uffff", ""} {
		p.Pages[0].Items = append(p.Pages[0].Items, Text{X: 5, Y: float64(9 + 9*i), Runs: []Run{{Style: Style{Size: 9}, Text: s}, {Style: Style{Size: 9}, Text: s + " end"}}})
	}
	text := output(t, "pdftotext", "-layout", writePDF(t, p), "-")
	if n := strings.Count(text, "end"); n != 7 || !strings.Contains(text, "(\\)") {
		t.Errorf("%d ends, want 7: %q", n, text)
	}
}

// spaced is text in which only U+0020 parts words, as Set has it.
func spaced(text string) string {
	return strings.Map(func(r rune) rune {
		if r != ' ' && unicode.IsSpace(r) {
			return '_'
		}
		return r
	}, text)
}
