package dates

import (
	"strings"
	"testing"
)

// Forms of EDTF level 2 (Library of Congress 2019; the examples are of its
// page, from memory) are named as such; where the days are plain they are read.
func TestLevelTwoIsNamed(t *testing.T) {
	for _, c := range []struct{ text, edtf string }{
		{"[1667,1668,1670..1672]", ""}, {"{1960,1961-12}", ""}, {"[..1760-12-03]", ""}, {"1950S2", ""}, {"Y17E7", ""}, {"Y3388E2S3", ""},
		{"156X-12-25", ""}, {"XXXX-12-XX", ""}, {"1XXX-12", ""}, {"1987-34", ""},
		{"2004-06?-11", "2004-06-11?"}, {"?2004-06-~11", "2004-06-11%"}, {"2004?-06-11", "2004-06-11?"}, {"2004-06-~01/2004-06-20", "2004-06-01~/2004-06-20~"},
	} {
		r := Read(c.text, Ask)
		if r.EDTF() != c.edtf {
			t.Errorf("%s: read as %q, want %q", c.text, r.EDTF(), c.edtf)
		}
		if len(r.Warnings) == 0 || !strings.Contains(r.Warnings[len(r.Warnings)-1].Message, "EDTF level 2") {
			t.Errorf("%s: nothing says that it is level 2: %v", c.text, r.Warnings)
		}
	}
	for _, text := range []string{"[1890]", "1890?", "2004-06-11?", "2004-06~/2004-07?", "187?-1880", "1909-34", "[14, 15 May 1890]", "198X", "1999-XX"} {
		for _, w := range Read(text, Ask).Warnings {
			if strings.Contains(w.Message, "level 2") {
				t.Errorf("%s: %s", text, w.Message)
			}
		}
	}
}
