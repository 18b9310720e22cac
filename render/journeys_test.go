package render

import (
	"strings"
	"testing"

	"blotter/render/markdown"
)

// twinsOf are the Markdown twins of all pages of an Input, by address.
func twinsOf(t *testing.T, in *Input) map[string]string {
	t.Helper()
	s, pages := pagesOf(t, in)
	out := map[string]string{}
	for _, p := range pages {
		if !p.Twinless {
			checkTwin(t, s.site, p)
			out[string(p.Address)] = string(markdown.Append(nil, s.site, p))
		}
	}
	return out
}

// TestJourneys tells the runs of days of a collector: four days in July 2025
// over two places; single days, a month without a day and the withheld sheet
// of June are no part of one.
func TestJourneys(t *testing.T) {
	twin := twinsOf(t, goldenInput(t))["people/signe-rask"]
	_, text, ok := strings.Cut(twin, "## Days in a row\n\n")
	text, _, _ = strings.Cut(text, "\n\n")
	if want := "- 14 July 2025 to 17 July 2025: Voss, Vestland, Norway, 5 sheets; Granvin, Vestland, Norway, 1 sheet"; !ok || text != want {
		t.Errorf("Signe Rask: %q, want %q", text, want)
	}
	twin = twinsOf(t, goldenInput(t))["people/torstein-hernas"]
	_, text, _ = strings.Cut(twin, "## Days in a row\n\n")
	text, _, _ = strings.Cut(text, "\n\n")
	if want := "- 3 July 1903 to 5 July 1903: Voss, Søndre Bergenhus amt, Norway, 3 sheets"; text != want {
		t.Errorf("Torstein Hernås: %q, want %q", text, want)
	}
}

// TestStandingPlace shows position and extent where places.yaml has the place.
func TestStandingPlace(t *testing.T) {
	twins := twinsOf(t, goldenInput(t))
	if want := "Its middle: 60.63, 6.42; its furthest edge lies 40 km from there."; !strings.Contains(twins["places/norway/vestland/voss"], want) {
		t.Errorf("the page of Voss does not say %q", want)
	}
	if strings.Contains(twins["places/norway/vestland"], "Its middle") {
		t.Error("the county is shown with the position of a district")
	}
}

// TestCutHistory says in words that what changed is not all there.
func TestCutHistory(t *testing.T) {
	in := goldenInput(t)
	for _, cut := range []bool{false, true} {
		in.Cut = cut
		if got := strings.Contains(twinsOf(t, in)["changes/index"], "is cut short"); got != cut {
			t.Errorf("history cut: %t, said: %t", cut, got)
		}
	}
}
