package html

import (
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"blotter/render/figure"
)

// TestContrast computes from site.css the contrast of every token with every
// ground, by the formula of WCAG 2.2 (definitions of contrast ratio and
// relative luminance), against the floors of 1.4.3 (text, 4.5) and 1.4.11
// (frames and marks, 3), and against the figures printed in the design.
func TestContrast(t *testing.T) {
	css, err := fs.ReadFile(Assets, "site.css")
	if err != nil {
		t.Fatal(err)
	}
	token := regexp.MustCompile(`--([a-z]+): #([0-9A-F]{6})`)
	roots := regexp.MustCompile(`(?s):root \{(.*?)\}`).FindAllStringSubmatch(string(css), -1)
	if len(roots) != 3 {
		t.Fatalf("%d sets of tokens in site.css, want light, dark, print", len(roots))
	}
	for i, want := range []map[string][3]float64{
		{"ink": {15.9, 14.3, 13.4}, "soft": {6.7, 6.1, 5.7}, "line": {3.8, 3.4, 3.2}, "woad": {8.0, 7.2, 6.7}, "madder": {8.0, 7.2, 6.7}},
		{"ink": {14.8, 13.2, 10.3}, "soft": {8.4, 7.5, 5.8}, "line": {5.3, 4.7, 3.7}, "woad": {9.6, 8.5, 6.7}, "madder": {8.9, 7.9, 6.2}},
		nil,
	} {
		at := map[string]float64{}
		for _, m := range token.FindAllStringSubmatch(roots[i][1], -1) {
			at[m[1]] = luminance(t, m[2])
		}
		for _, name := range []string{"ink", "soft", "line", "woad", "madder"} {
			floor := 4.5
			if name == "line" {
				floor = 3
			}
			for g, ground := range []string{"paper", "panel", "weld"} {
				c := contrast(at[name], at[ground])
				if c < floor {
					t.Errorf("set %d: %s on %s has contrast %.2f, floor %.1f", i, name, ground, c, floor)
				}
				if want != nil && math.Abs(c-want[name][g]) > 0.06 {
					t.Errorf("set %d: %s on %s has contrast %.2f, the design says %.1f", i, name, ground, c, want[name][g])
				}
			}
		}
	}
}

func luminance(t *testing.T, hex string) float64 {
	v, err := strconv.ParseUint(hex, 16, 32)
	if err != nil {
		t.Fatal(err)
	}
	lin := func(b uint64) float64 {
		c := float64(b&255) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*lin(v>>16) + 0.7152*lin(v>>8) + 0.0722*lin(v)
}

func contrast(a, b float64) float64 { return (math.Max(a, b) + 0.05) / (math.Min(a, b) + 0.05) }

// TestNothingOutside looks for an address in what every page carries.
func TestNothingOutside(t *testing.T) {
	for _, f := range []string{"site.css", "search.js"} {
		b, err := fs.ReadFile(Assets, f)
		if err != nil {
			t.Fatal(err)
		}
		if regexp.MustCompile(`(?i)https?://|url\("?//|@import|fetch\(|XMLHttp|innerHTML|eval\(`).Match(b) {
			t.Errorf("%s asks for something outside the site, or makes markup of text", f)
		}
	}
}

// TestMarkupIsConstant finds a value turned into markup.
func TestMarkupIsConstant(t *testing.T) {
	names, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for i, line := range strings.Split(string(b), "\n") {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			if strings.Contains(line, "markup(") && !strings.Contains(line, `markup("`) {
				t.Errorf("%s:%d: a value becomes markup", name, i+1)
			}
		}
	}
}

// TestMapColours holds the colours of the maps' land, which stands in files of
// its own, to the tokens of site.css.
func TestMapColours(t *testing.T) {
	css, err := fs.ReadFile(Assets, "site.css")
	if err != nil {
		t.Fatal(err)
	}
	svg, err := figure.Land("data/map/0_40_1.svg")
	if err != nil {
		t.Fatal(err)
	}
	colours := regexp.MustCompile(`#[0-9A-F]{6}`).FindAllString(string(svg), -1)
	if len(colours) < 8 {
		t.Fatalf("%d colours in a map", len(colours))
	}
	for _, c := range colours {
		if !strings.Contains(string(css), ": "+c+";") {
			t.Errorf("%s is no token of site.css", c)
		}
	}
}
