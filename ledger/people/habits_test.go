package people

import (
	"strings"
	"testing"
)

// Habits of labels and of lists typed from them, with invented persons; common
// practice, no source.
func TestHabits(t *testing.T) {
	for _, c := range []struct{ why, text, people string }{
		{"one family name for two, turned", "Rask, S. & O.", "S. Rask|O. Rask"},
		{"a family", "Rask family", "Rask"},
		{"a family name of three capitals before its initial", "ULF S.", "S. ULF"},
		{"a second family name by its letter", "José M. Rask L.", "José M. Rask L."},
		{"a former owner", "Ex herb. Rask", ""},
		{"a name in religion is kept whole", "Frère Rask", "Frère Rask"},
		{"a body, shortened", "Univ. of Voss", ""},
		{"a body", "Voss Botanical Association", ""},
		{"German u.", "S. Rask u. O. Lund", "S. Rask|O. Lund"},
		{"and others still", "S. Rask u. a.", "S. Rask"},
		{"a word before", "possibly S. Rask", "S. Rask"},
		{"a gift", "gift of S. Rask", "S. Rask"},
		{"bought", "purchased from S. Rask", "S. Rask"},
		{"gathered by", "gesammelt von S. Rask", "S. Rask"},
		{"gathered by", "samlet av Signe Rask", "Signe Rask"},
		{"gathered by", "récolté par Ana Lopez", "Ana Lopez"},
		{"a particle is no by", "S. Rask leg., von Berg det.", "S. Rask|von Berg"},
		{"what else was done", "Signe Rask curated by Ove Lund", "Signe Rask|Ove Lund"},
		{"what else was done", "Signe Rask transcribed by Ove Lund", "Signe Rask|Ove Lund"},
		{"personal communication", "S. Rask pers. comm.", "S. Rask"},
		{"an expedition called after a person", "S. Rask Expedition", "S. Rask"},
		{"an expedition called after a person", "S. Rask exped.", "S. Rask"},
		{"a museum behind a comma", "S. Rask, Lauvkroken Museum", "S. Rask"},
		{"a service, not a person", "U.S. Forest Service", ""},
		{"a museum called after a person", "S. Rask Museum", ""},
		{"sharp brackets", "<S. Rask>", "S. Rask"},
		{"other marks between", "Signe Rask • Ove Lund", "Signe Rask|Ove Lund"},
		{"other marks between", `Signe Rask\Ove Lund`, "Signe Rask|Ove Lund"},
		{"other marks between", "Signe Rask = Ove Lund", "Signe Rask|Ove Lund"},
		{"a word that joins nobody", "and S. Rask", "S. Rask"},
		{"a word that joins nobody", "S. Rask with", "S. Rask"},
		{"a name before marriage", "Signe Rask née Lund", "Signe Rask"},
		{"no number, twice", "Signe Rask s.n., O. Lund s.n.", "Signe Rask|O. Lund"},
		{"about a year", "S. Rask ca. 1900", "S. Rask"},
		{"no date", "S. Rask undated", "S. Rask"},
		{"a family name that is a month", "S. May 1987", "S. May"},
		{"a month", "S. Rask May 1987", "S. Rask"},
		{"a month behind initials", "Rask S. May 1987", "S. Rask"},
		{"none", "ohne Sammler", ""},
		{"none", "Leg.?", ""},
	} {
		var got []string
		for _, p := range Read(c.text) {
			got = append(got, p.String())
		}
		if strings.Join(got, "|") != c.people {
			t.Errorf("%s (%s): %q, want %q", c.text, c.why, got, c.people)
		}
	}
}
