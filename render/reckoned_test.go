package render

import (
	"path/filepath"
	"strings"
	"testing"
)

// TestReckoned shows where the locality of a sheet without a position reckons
// to, with its shares, as the catalogue's and not the collector's; a withheld
// sheet tells nothing of it.
func TestReckoned(t *testing.T) {
	files := demoFiles(t)
	const rec = "specimens/000/00/LK7-0000002.yaml"
	if !strings.Contains(files[rec], "locality: Stalheim, old road") || strings.Contains(files[rec], "position:") {
		t.Fatal("the demo's LK7-0000002 is no longer one at Stalheim without a position")
	}
	const said = "Reckoned from the locality by this catalogue, not the collector's: 60.83° N, 6.68° E, ± 2,130 m; from Stalheim."
	pages := func() map[string]string {
		dir := filepath.Join(t.TempDir(), "site")
		buildInto(t, dir, inputOf(t, files), nil)
		out := map[string]string{}
		for f, text := range filesOf(t, dir) {
			if strings.Contains(f, "LK7-0000002") {
				out[f] = text
			}
		}
		return out
	}
	open := pages()
	for _, words := range []string{said, "± 2,000 m: Stalheim reaches that far from its middle (2 km)", "± 130 m: Stalheim: the coordinates are written to 0.001°", "Not stated, and not counted: Stalheim: how it was found"} {
		if md := open["specimens/000/00/LK7-0000002.md"]; !strings.Contains(md, words) {
			t.Errorf("the page does not say %q:\n%s", words, md)
		}
	}
	if js := open["specimens/000/00/LK7-0000002.json"]; strings.Contains(js, "60.83") {
		t.Errorf("the reckoned point stands in the data as if it were the sheet's:\n%s", js)
	}
	files[rec] += "sensitive: {why: few plants, category: \"1\"}\n"
	held := pages()
	if len(held) == 0 {
		t.Fatal("no page of the withheld sheet")
	}
	for f, text := range held {
		for _, words := range []string{"Reckoned", "60.83", "6.68", "Stalheim", "2,130"} {
			if strings.Contains(text, words) {
				t.Errorf("%s tells %q of a withheld sheet", f, words)
			}
		}
	}
}
