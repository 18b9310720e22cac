package land_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"blotter/ledger/land"
)

func TestCodeOf(t *testing.T) {
	for _, c := range []struct{ words, want, reason string }{
		{"Norway", "NO", "English name"},
		{"NORGE", "NO", "local name in capitals"},
		{"Noreg", "NO", "the other Norwegian"},
		{"Norge (Norway)", "NO", "two names of one country"},
		{"NO", "NO", "alpha-2"},
		{"NOR", "NO", "alpha-3"},
		{"no", "", "a word in small letters is no code"},
		{"USA", "US", "alpha-3 and common"},
		{"U.S.A.", "US", "full stops"},
		{"U. S. A.", "", "letters apart are taken for words"},
		{"EE.UU.", "US", "Spanish initials are two letters each"},
		{"United States of America (the)", "US", "as the ISO list has it"},
		{"England", "GB", "a part that has no code"},
		{"Scotland", "GB", "a part that has no code"},
		{"Holland", "NL", "common"},
		{"Burma", "MM", "former name of one country"},
		{"Zaire", "CD", "former name of one country"},
		{"Persia", "IR", "former name of one country"},
		{"Ceylon", "LK", "former name of one country"},
		{"Swaziland", "SZ", "former name of one country"},
		{"Siam", "TH", "former name of one country"},
		{"USSR", "", "several countries today"},
		{"Jugoslavia", "", "several countries today"},
		{"Czechoslovakia", "", "two countries today"},
		{"Korea, South", "KR", "turned about"},
		{"Gambia, The", "GM", "the article behind"},
		{"Congo", "CG", "as the ISO list has it"},
		{"Dem. Rep. Congo", "CD", "shortened"},
		{"Côte d’Ivoire", "CI", "curly apostrophe"},
		{"Cote d'Ivoire", "CI", "no accent"},
		{"ÖSTERREICH", "AT", "capital with a mark"},
		{"St. Lucia", "LC", "St. for Saint"},
		{"Trinidad & Tobago", "TT", "& for and"},
		{"Bosnia-Herzegovina", "BA", "hyphen"},
		{"Kosovo", "XK", "user-assigned"},
		{"high seas", "XZ", "Darwin Core"},
		{"Tasmania", "", "no country"},
		{"Fred", "", "no country"},
		{"", "", "nothing"},
	} {
		if got, _ := land.CodeOf(c.words); got != c.want {
			t.Errorf("CodeOf(%q) = %q, want %q: %s", c.words, got, c.want, c.reason)
		}
	}
}

func TestCountryOfSeveral(t *testing.T) {
	is, ok := land.Country("Czechoslovakia")
	if !ok || is.Kind != land.Former || !slices.Equal(is.Codes, []string{"CZ", "SK"}) {
		t.Errorf("Czechoslovakia: %+v", is)
	}
	if is, _ := land.Country("Scotland"); is.Kind != land.Part {
		t.Errorf("Scotland: %+v", is)
	}
	if is, _ := land.Country("Borneo"); is.Kind != land.Lands {
		t.Errorf("Borneo: %+v", is)
	}
}

// TestEveryCode: each of the 249 has a name that leads back to it, an alpha-3
// code that does, and belongs to a country that there is.
func TestEveryCode(t *testing.T) {
	if n := len(land.Codes()); n != 249 {
		t.Errorf("%d codes, ISO 3166-1 has 249", n)
	}
	seen := map[string]bool{}
	for _, c := range land.Codes() {
		for _, words := range []string{c, land.Alpha3(c), land.Name(c)} {
			if got, _ := land.CodeOf(words); got != c {
				t.Errorf("CodeOf(%q) = %q, want %q", words, got, c)
			}
		}
		if seen[land.Alpha3(c)] {
			t.Errorf("%s twice", land.Alpha3(c))
		}
		seen[land.Alpha3(c)] = true
		if of := land.PartOf(c); of != "" && (!land.Official(of) || land.PartOf(of) != "") {
			t.Errorf("%s belongs to %q", c, of)
		}
	}
}

// TestNamesOfTheList: every name of the published list (datasets/country-list,
// ODC-PDDL 1.0, commit 0f12c2e) gives its code.
func TestNamesOfTheList(t *testing.T) {
	file := filepath.Join("..", "..", "..", "shared", "standards", "iso3166", "country-list.csv")
	if dir := os.Getenv("BLOTTER_ORACLES"); dir != "" {
		file = filepath.Join(dir, "..", "standards", "iso3166", "country-list.csv")
	}
	f, err := os.Open(file)
	if err != nil {
		t.Skip("the list is not here: ", err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows[1:] {
		if got, _ := land.CodeOf(r[0]); got != r[1] {
			t.Errorf("CodeOf(%q) = %q, want %q", r[0], got, r[1])
		}
	}
	if len(rows) != 250 {
		t.Errorf("%d rows", len(rows))
	}
}

func TestSuggestCountry(t *testing.T) {
	for _, c := range []struct{ words, want, reason string }{
		{"Norwya", "Norway", "two letters changed"},
		{"Argentinia", "Argentina", "a letter too many"},
		{"Swedn", "Sweden", "a letter missing"},
		{"Norway", "", "is one"},
		{"Xyzzyland", "", "near none"},
		{"Ira", "", "too short to tell"},
	} {
		if got := land.SuggestCountry(c.words); got != c.want {
			t.Errorf("SuggestCountry(%q) = %q, want %q: %s", c.words, got, c.want, c.reason)
		}
	}
}

func BenchmarkCodeOf(b *testing.B) {
	for b.Loop() {
		land.CodeOf("Österreich")
	}
}

// TestHeights: Galdhøpiggen is 2,469 m by the Norwegian mapping authority,
// Everest 8,849 m by the survey of 2020 (from memory), Denali 6,190 m; the
// Factbook differs by metres.
func TestHeights(t *testing.T) {
	for code, want := range map[string]float64{"NO": 2469, "NP": 8849, "US": 6190, "CH": 4634, "DK": 171} {
		if _, h, known := land.Heights(code); !known || h < want-10 || h > want+10 {
			t.Errorf("%s: %g, want about %g", code, h, want)
		}
	}
	n := 0
	for _, c := range land.Codes() {
		if low, high, known := land.Heights(c); known {
			n++
			if !(low >= -2600 && low < high && high < 8900) {
				t.Errorf("%s: %g to %g", c, low, high)
			}
		}
	}
	if n < 235 {
		t.Errorf("%d countries", n)
	}
}

func TestMayMean(t *testing.T) {
	for _, c := range []struct {
		code, other string
		year        int
		want        bool
	}{
		{"NO", "SJ", 2020, true}, {"SJ", "NO", 2020, false}, {"SD", "SS", 1990, true}, {"SD", "SS", 2020, false},
		{"DE", "PL", 1900, true}, {"DE", "PL", 1990, false}, {"DE", "PL", 0, true}, {"NO", "SE", 1900, false}, {"US", "PR", 2000, true},
	} {
		if got := land.MayMean(c.code, c.other, c.year); got != c.want {
			t.Errorf("MayMean(%s, %s, %d) = %v", c.code, c.other, c.year, got)
		}
	}
}
