package reading

import "testing"

// TestCollNo: the forms that trade.md, section 2, lists of collecting numbers
// (97-12: University of Arizona Herbarium; JAD/2008/010/003: USDA ARS;
// 1234a: common practice, no source), and what is none.
func TestCollNo(t *testing.T) {
	for _, c := range []struct {
		text string
		want CollNo
		ok   bool
		why  string
	}{
		{"1207", CollNo{"", 1207, ""}, true, "a plain number"},
		{" No. 1207 ", CollNo{"", 1207, ""}, true, "a word for number"},
		{"97-12", CollNo{"97-", 12, ""}, true, "a year before it"},
		{"JAD/2008/010/003", CollNo{"jad/2008/010/", 3, ""}, true, "initials, year, site, plant"},
		{"1234a", CollNo{"", 1234, "a"}, true, "a mixed gathering split later"},
		{"1234 A", CollNo{"", 1234, "a"}, true, "the same, apart"},
		{"0012", CollNo{"", 12, ""}, true, "noughts in front"},
		{"s.n.", CollNo{}, false, "no number"},
		{"", CollNo{}, false, "nothing"},
		{"0", CollNo{}, false, "numbers begin with 1"},
		{"12 (in part)", CollNo{}, false, "words after it"},
		{"20240614001", CollNo{}, false, "too long for a series"},
	} {
		got, ok := ReadCollNo(c.text)
		if got != c.want || ok != c.ok {
			t.Errorf("%q: %+v %v, not %+v %v: %s", c.text, got, ok, c.want, c.ok, c.why)
		}
	}
}

func TestWho(t *testing.T) {
	for _, c := range []struct{ text, want, why string }{
		{"Signe Rask", "rask s", "a full name"},
		{"S. Rask", "rask s", "initials"},
		{"Rask, S. & Ove Bannister", "rask s", "the first of a team, turned round"},
		{"Rask", "rask", "a family name alone"},
		{"J. van der Berg", "van der berg j", "a particle"},
		{"s.n.", "", "nobody"},
		{"unknown", "", "nobody"},
		{"", "", "not typed"},
	} {
		if got := Who(c.text); got != c.want {
			t.Errorf("%q: %q, not %q: %s", c.text, got, c.want, c.why)
		}
	}
}

// FuzzCollNo: no text makes the reader fall over, and what it gives can be
// read again.
func FuzzCollNo(f *testing.F) {
	for _, s := range []string{"1207", "97-12", "№ 12bis", "JAD/2008/010/003", "s.n."} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if n, ok := ReadCollNo(s); ok && (n.Serial == 0 || n.Serial > maxSerial) {
			t.Errorf("%q: %+v", s, n)
		}
		Who(s)
	})
}
