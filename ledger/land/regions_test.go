package land_test

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"blotter/ledger/land"
)

func TestRegion(t *testing.T) {
	for _, c := range []struct{ code, words, want, reason string }{
		{"NO", "Hordaland", "Hordaland", "as it is"},
		{"NO", "HORDALAND FYLKE", "Hordaland", "capitals, the word for county"},
		{"NO", "Vestland", "Vestland", "merged in 2020"},
		{"NO", "More og Romsdal", "Møre og Romsdal", "no accent"},
		{"NO", "Nordre Bergenhus amt", "Sogn og Fjordane", "before 1919"},
		{"NO", "Fylke", "", "a word for a county is no county"},
		{"DE", "Bavaria", "Bayern", "English"},
		{"DE", "Bayern", "Bayern", "German"},
		{"CH", "Kanton Bern", "Bern", "kind before"},
		{"US", "Calif.", "California", "shortened"},
		{"US", "NY", "New York", "postal"},
		{"IE", "Co. Kerry", "Kerry", "shortened county"},
		{"IT", "Toscana", "Toscana", "a region over provinces"},
		{"FR", "Bretagne", "Bretagne", "a region over departments"},
		{"GB", "Scotland", "Scotland", "a part over authorities"},
		{"ES", "Andalucía", "Andalucía", "of several provinces"},
		{"NO", "Florida", "", "not there"},
		{"QQ", "Florida", "", "no country"},
	} {
		if got, _ := land.Region(c.code, c.words); got != c.want {
			t.Errorf("Region(%s, %q) = %q, want %q: %s", c.code, c.words, got, c.want, c.reason)
		}
	}
}

func TestOutsideRegion(t *testing.T) {
	for _, c := range []struct {
		lat, lon    float64
		code, words string
		least, most float64
		reason      string
	}{
		{60.70, 6.65, "NO", "Vestland", 0, 0, "Raundal is in what was Hordaland"},
		{61.23, 7.10, "NO", "Vestland", 0, 0, "Sogndal is in what was Sogn og Fjordane"},
		{60.70, 6.65, "NO", "Rogaland", 50_000, 120_000, "the next county but one"},
		{60.70, 6.65, "NO", "Sogn og Fjordane", 1, 40_000, "the next county"},
		{43.77, 11.25, "IT", "Tuscany", 0, 0, "Florence"},
		{56.8, -5.0, "GB", "Scotland", 0, 0, "Ben Nevis"},
	} {
		d, known := land.OutsideRegion(c.lat, c.lon, c.code, c.words)
		if !known || d < c.least || d > c.most {
			t.Errorf("%g, %g is %.0f m outside %s: %s", c.lat, c.lon, d, c.words, c.reason)
		}
	}
	if _, known := land.OutsideRegion(60.7, 6.65, "NO", "Nowhereland"); known {
		t.Error("Nowhereland is known")
	}
}

// TestEveryRegion: each name that is listed is found, and a region covers
// some land.
func TestEveryRegion(t *testing.T) {
	n := 0
	for _, c := range land.Codes() {
		for _, r := range land.Regions(c) {
			n++
			if got, ok := land.Region(c, r); !ok || got != r && !slices.Contains(land.Regions(c), got) {
				t.Errorf("%s %q: %q", c, r, got)
			}
		}
	}
	if n < 4400 {
		t.Errorf("%d regions", n)
	}
}

func TestSuggestRegion(t *testing.T) {
	for _, c := range []struct{ code, words, want string }{
		{"NO", "Hordalnd", "Hordaland"}, {"NO", "Vestlandet", "Vestland"}, {"US", "Colorodo", "Colorado"},
		{"NO", "Hordaland", ""}, {"NO", "Florida", ""},
	} {
		if got := land.SuggestRegion(c.code, c.words); got != c.want {
			t.Errorf("SuggestRegion(%s, %q) = %q, want %q", c.code, c.words, got, c.want)
		}
	}
}

func TestCountriesOf(t *testing.T) {
	for _, c := range []struct {
		words string
		want  []string
	}{{"WA", []string{"AU", "US"}}, {"Tasmania", []string{"AU"}}, {"Limburg", []string{"BE", "NL"}}, {"Taswegion", nil}} {
		if got := land.CountriesOf(c.words); !slices.Equal(got, c.want) {
			t.Errorf("CountriesOf(%q) = %v, want %v", c.words, got, c.want)
		}
	}
}

// TestArea: against land areas of countries with no or little coast as
// commonly published, in km2, from memory.
func TestArea(t *testing.T) {
	for code, want := range map[string]float64{
		"MN": 1_564_116, "CH": 41_285, "LS": 30_355, "PY": 406_752, "AT": 83_879, "HU": 93_030, "BO": 1_098_581, "AU": 7_688_287, "US": 9_372_610,
	} {
		if got := land.Area(code) / 1e6; math.Abs(got/want-1) > 0.015 {
			t.Errorf("%s: %.0f km2, want %.0f", code, got, want)
		}
	}
	if land.Area("VA") != 0 {
		t.Error("the Holy See has an area")
	}
}

// TestCentres: they lie where they should. Mongolia's centroid is commonly
// given as 46.9 N, 103.8 E (box) and that of Switzerland, Aelggi-Alp, as
// 46.80 N, 8.23 E; from memory.
func TestCentres(t *testing.T) {
	near := func(code string, lat, lon float64) bool {
		return slices.ContainsFunc(land.Centres(code), func(c land.Centre) bool {
			return math.Abs(c.Lat-lat) < 0.05 && math.Abs(c.Lon-lon) < 0.05
		})
	}
	if !near("CH", 46.80, 8.23) || !near("MN", 46.86, 103.82) {
		t.Errorf("%v %v", land.Centres("CH"), land.Centres("MN"))
	}
	for _, code := range land.Codes() {
		for _, c := range land.Centres(code) {
			if !(math.Abs(c.Lat) <= 90 && math.Abs(c.Lon) <= 180) || c.What == "" {
				t.Errorf("%s: %+v", code, c)
			}
		}
	}
	// Fiji lies on both sides of the date line, its middle among its islands.
	for _, c := range land.Centres("FJ") {
		if math.Abs(c.Lon) < 170 {
			t.Errorf("Fiji: %+v", c)
		}
	}
}

func TestRepairs(t *testing.T) {
	for _, c := range []struct {
		lat, lon float64
		code     string
		want     int
		first    land.Proposal
	}{
		{60.7, 6.65, "NO", 0, land.Proposal{}},
		{6.65, 60.7, "NO", 1, land.Proposal{Lat: 60.7, Lon: 6.65, What: "latitude and longitude change places"}},
		{25.46, 135.87, "AU", 1, land.Proposal{Lat: -25.46, Lon: 135.87, What: "the sign of the latitude is turned"}}, // TDWG data quality tests, AMENDMENT_COORDINATES_TRANSPOSED
		{39.7, 105.0, "US", 1, land.Proposal{Lat: 39.7, Lon: -105.0, What: "the sign of the longitude is turned"}},
		{-105.0, 39.7, "US", 1, land.Proposal{Lat: 39.7, Lon: -105.0, What: "latitude and longitude change places"}},
		{0, 0, "NO", 0, land.Proposal{}},
	} {
		got := land.Repairs(c.lat, c.lon, c.code, 3000)
		if len(got) != c.want || c.want > 0 && got[0] != c.first {
			t.Errorf("Repairs(%g, %g, %s) = %+v", c.lat, c.lon, c.code, got)
		}
	}
}

// TestRegionsText: each row of regions.txt names units that there are.
func TestRegionsText(t *testing.T) {
	src, err := os.ReadFile("regions.txt")
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(src)) {
		if line[0] == '#' {
			continue
		}
		f := strings.Split(strings.TrimSpace(line), "|")
		if len(f) != 4 {
			t.Errorf("%q: %d columns", line, len(f))
			continue
		}
		for _, name := range strings.Split(f[1]+";"+f[2], ";") {
			if _, ok := land.Region(f[0], name); !ok {
				t.Errorf("%s has no region %q", f[0], name)
			}
		}
	}
}
