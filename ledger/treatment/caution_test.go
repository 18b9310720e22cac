package treatment_test

import (
	"strings"
	"testing"

	"blotter/ledger/treatment"
)

// Every method ends with whose rules come first, and all but cold say who may
// do it or when not to.
func TestCautions(t *testing.T) {
	for _, m := range append(treatment.Methods(), "something else") {
		all := treatment.Cautions(m, standard)
		if last := all[len(all)-1].Words; !strings.Contains(last, "licensed practice come first") {
			t.Errorf("%s ends with %q", m, last)
		}
		if m != "something else" && len(all) < 2 {
			t.Errorf("%s: no caution of its own", m)
		}
	}
	said := func(p treatment.Profile, words string) bool {
		for _, c := range treatment.Cautions(treatment.Freezing, p) {
			if strings.Contains(c.Words, words) {
				return true
			}
		}
		return false
	}
	deep, mild := with(func(p *treatment.Profile) { p.SetPoint = -80 }), with(func(p *treatment.Profile) { p.SetPoint = -10 })
	for _, c := range []struct {
		p     treatment.Profile
		words string
		want  bool
	}{
		{standard, "bag first", true}, {standard, "frost-free", true}, {standard, "room temperature", true}, {standard, "-80 °C", false}, {standard, "warmer than any", false},
		{deep, "-80 °C is advised against", true}, {mild, "-10 °C is warmer than any protocol found", true},
	} {
		if got := said(c.p, c.words); got != c.want {
			t.Errorf("at %v °C %q is said: %v", c.p.SetPoint, c.words, got)
		}
	}
}
