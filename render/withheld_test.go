package render

import (
	"context"
	"errors"
	"path/filepath"
	"strings"
	"testing"
)

// TestWithheldStaysWithheld looks through every file of the demo's site for
// the place, date, number and words of its most strictly withheld sheet.
func TestWithheldStaysWithheld(t *testing.T) {
	files := demoFiles(t)
	const rec = "specimens/000/04/LK7-0000465.yaml"
	for _, words := range []string{"SSE of Evanger church", "60.63858", "2022-08-06", "coll_no: \"17\""} {
		if !strings.Contains(files[rec], words) {
			t.Fatalf("the demo's LK7-0000465 no longer says %q", words)
		}
	}
	dir := filepath.Join(t.TempDir(), "site")
	buildInto(t, dir, inputOf(t, files), nil)
	for f, text := range filesOf(t, dir) {
		for _, words := range []string{"SSE of Evanger church", "60.63858", "6.11861", "6.1186° E", "Tiril Aune 17\"", "Tiril Aune 17<"} {
			if strings.Contains(text, words) {
				t.Errorf("%s tells %q", f, words)
			}
		}
		if !strings.Contains(f, "LK7-0000465") {
			continue
		}
		for _, words := range []string{"2022-08", "August 2022", "Aug 2022", "190 m", "Evanger", "Voss", "hazel and grey alder"} {
			if strings.Contains(text, words) {
				t.Errorf("%s tells %q", f, words)
			}
		}
		if strings.HasSuffix(f, ".html") && !strings.Contains(text, "withheld: few plants, easily trampled by visitors") {
			t.Errorf("%s does not say why", f)
		}
	}
}

// TestLeakInProse refuses a site whose prose tells a withheld place, before a
// file of it is touched.
func TestLeakInProse(t *testing.T) {
	files := demoFiles(t)
	dir := filepath.Join(t.TempDir(), "site")
	_, state := buildInto(t, dir, inputOf(t, files), nil)
	before := filesOf(t, dir)
	files["pages/about.md"] += "\nSeen at Evanger, 1.1 km SSE of Evanger church, S side of the valley.\n"
	_, _, err := Build(context.Background(), inputOf(t, files), openTree(t, dir), state)
	var leak *Leak
	if !errors.As(err, &leak) || leak.Leaks[0].File != "about/about.html" || leak.Leaks[0].Number != "LK7-0000465" {
		t.Fatalf("a withheld place in pages/about.md gives %v", err)
	}
	if strings.Contains(err.Error(), "SSE") {
		t.Error("the error repeats the withheld words")
	}
	sameFiles(t, "after a refusal", filesOf(t, dir), before)
}
