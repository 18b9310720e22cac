package check_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blotter/ledger"
	"blotter/ledger/check"
	"blotter/ledger/reading"
)

// TestSensitiveKeepsSilent: what is said of a record that is marked sensitive
// repeats no word of its place.
func TestSensitiveKeepsSilent(t *testing.T) {
	files, err := filepath.Glob(records + "/bad/*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	said := map[string]bool{}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		r, _ := ledger.Decode(path482, append(src, []byte("sensitive:\n  category: \"1\"\n  why: rare\n  review: \"2030\"\n")...))
		if !r.Sensitive.Category.Set() {
			continue // its YAML is what is bad
		}
		p := r.Place
		for _, f := range check.One(reading.Of(r, reading.Conventions{}), &standard) {
			said[f.Code] = true
			for _, l := range []ledger.Leaf{p.Province, p.District, p.Locality, p.Position, p.Elevation} {
				if w := strings.TrimSpace(l.Text); len(w) > 2 && strings.Contains(f.Message+f.Hint, w) {
					t.Errorf("%s: %s repeats %q:\n%s\n%s", filepath.Base(file), f.Code, w, f.Message, f.Hint)
				}
			}
		}
	}
	for _, code := range []string{"position-country", "position-turned", "position-province", "position-sea", "position-centre", "province-spelling", "elevation-feet"} {
		if !said[code] {
			t.Errorf("nothing was said of %s", code)
		}
	}
}

// TestPlaces: what is said of a point by its country, province and year.
func TestPlaces(t *testing.T) {
	for _, c := range []struct{ country, province, position, date, more, want, reason string }{
		{"Norway", "Vestland", "60.7033, 6.6514", "14.vii.2025", "", "", "it is there"},
		{"Norge", "Hordaland fylke", "60.7033, 6.6514", "14.vii.2025", "", "", "local names, the old county"},
		{"Norway", "", "60.62, 12.55", "14.vii.2025", "", "", "two kilometres beyond the border are within the buffer"},
		{"Norway", "", "60.62, 13.50", "14.vii.2025", "", "position-country", "in Sweden"},
		{"Norway", "", "78.2, 16.5", "14.vii.2025", "", "", "Svalbard is Norway's"},
		{"Svalbard", "", "60.7033, 6.6514", "14.vii.2025", "", "position-country", "Norway is not Svalbard"},
		{"Germany", "", "51.11, 17.03", "14.vii.1901", "", "", "Breslau was German then"},
		{"Germany", "", "51.11, 17.03", "14.vii.2001", "", "position-country", "Wroclaw is not"},
		{"Sudan", "", "4.85, 31.6", "14.vii.1935", "", "", "Juba before 2011"},
		{"Ukraine", "", "44.95, 34.10", "14.vii.2020", "", "", "claimed by two: either is let stand"},
		{"Norway", "", "60.4, 4.0", "14.vii.2025", "depth: 12 m\n", "", "an alga has a depth"},
		{"Norway", "", "60.4, 4.0", "14.vii.2025", "family: Zosteraceae\n", "", "eelgrass lives in the sea"},
		{"Fiji", "", "-16.85, -179.97", "14.vii.2025", "", "", "beyond the date line"},
		{"unknown", "", "60.7033, 6.6514", "14.vii.2025", "", "", "no country is named"},
		{"Norway", "", "60.7033, -6.6514", "14.vii.2025", "", "position-turned", "W for E"},
		{"USA", "Calif.", "34.05, -118.24", "14.vii.2025", "", "", "shortened state"},
		{"United Kingdom", "Scotland", "56.8, -5.0", "14.vii.2025", "", "", "a part over the units"},
		{"Sweden", "Lappland", "68.35, 18.8", "14.vii.1920", "", "", "an old province"},
	} {
		text := "specimen: LK7-0000482\nentry: full\ncollector: Signe Rask\ncoll_no: \"1207\"\ndate: " + c.date + "\n" + c.more +
			"place:\n  country: " + c.country + "\n"
		if c.province != "" {
			text += "  province: " + c.province + "\n"
		}
		text += "  locality: by the track\n  position: " + c.position + "\n  datum: WGS84\n"
		r, _ := ledger.Decode(path482, []byte(text))
		got := ""
		for _, f := range check.One(reading.Of(r, reading.Conventions{}), &standard) {
			if strings.HasPrefix(f.Code, "position-") || strings.HasPrefix(f.Code, "province-") || strings.HasPrefix(f.Code, "country-") {
				got += f.Code
			}
		}
		if got != c.want {
			t.Errorf("%s %s %s, %s: %q, want %q: %s", c.country, c.province, c.position, c.date, got, c.want, c.reason)
		}
	}
}
