package check_test

import (
	"testing"

	"blotter/ledger"
	"blotter/ledger/check"
	"blotter/ledger/reading"
)

// TestCollectorNumber: figures behind the collectors are their number unless
// the number stands in its field.
func TestCollectorNumber(t *testing.T) {
	for _, c := range []struct {
		collector, no, why string
		want               bool
	}{
		{"Rask & Ostrander 1218", "", "team and number in one", true},
		{"Signe Rask 1218", "1218", "the number twice", true},
		{"Signe Rask 1218", "s.n.", "none in its field, and one here", true},
		{"Group 1", "73", "the sign of a group, and its number", false},
		{"Signe Rask", "1218", "each in its field", false},
	} {
		src := "specimen: LK7-0000482\nentry: draft\ncollector: " + c.collector + "\ndate: 14.vii.2025\n"
		if c.no != "" {
			src += "coll_no: \"" + c.no + "\"\n"
		}
		r, _ := ledger.Decode(path482, []byte(src))
		got := false
		for _, f := range check.One(reading.Of(r, reading.Conventions{}), &standard) {
			got = got || f.Code == "collector-number"
		}
		if got != c.want {
			t.Errorf("%q, %q (%s): said %v, want %v", c.collector, c.no, c.why, got, c.want)
		}
	}
}
