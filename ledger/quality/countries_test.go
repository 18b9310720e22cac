package quality

import "testing"

// Names as CLDR has them, in scripts of several kinds.
func TestCodeInAnyLanguage(t *testing.T) {
	for _, c := range []struct{ name, want string }{
		{"Noorwegen", "NO"}, {"Νορβηγία", "NO"}, {"挪威", "NO"}, {"Норвегия", "NO"}, {"Estados Unidos", "US"}, {"Verenigd Koninkrijk", "GB"},
		{"Côte d’Ivoire", "CI"}, {"Tasmania", ""}, {"", ""}, {"Ranunculus", ""},
	} {
		if got, _ := codeMeant(c.name); got != c.want {
			t.Errorf("%q is %q, want %q", c.name, got, c.want)
		}
	}
}
