package treatment_test

import (
	"strings"
	"testing"
	"time"

	"blotter/ledger/treatment"

	"github.com/google/go-cmp/cmp"
)

func plan(p treatment.Profile, stays ...treatment.Stay) []string {
	var out []string
	for _, s := range p.Plan(stays...) {
		out = append(out, s.At.Format("2006-01-02 15:04 ")+s.Words(p))
	}
	return out
}

// The plan of interface.md's week: in on 3 November 09:40, 72 h, then a day in
// the closed bag.
func TestPlan(t *testing.T) {
	in := time.Date(2026, 11, 3, 9, 40, 0, 0, time.UTC)
	want := []string{"2026-11-06 09:40 out of the freezer, then 24 h in its closed bag", "2026-11-07 09:40 the bag may be opened when it is at room temperature"}
	if d := cmp.Diff(want, plan(standard, treatment.Stay{In: in})); d != "" {
		t.Error(d)
	}
	two := treatment.Profile{SetPoint: -20, Hours: 168, Cycles: 2, Between: 24, Warm: 15, Lead: 12, Closed: 24, MaxGap: 60}
	want = []string{
		"2026-11-10 21:40 out of the freezer, cycle 1 of 2, then 24 h warm in its closed bag",
		"2026-11-11 21:40 into the freezer again, cycle 2 of 2",
		"2026-11-19 09:40 out of the freezer, then 24 h in its closed bag",
		"2026-11-20 09:40 the bag may be opened when it is at room temperature",
	}
	if d := cmp.Diff(want, plan(two, treatment.Stay{In: in})); d != "" {
		t.Error(d)
	}
	// As it went: out two hours late, in again a day later than planned.
	out := in.Add(182 * time.Hour)
	if d := cmp.Diff([]string{"2026-11-11 23:40 into the freezer again, cycle 2 of 2"}, plan(two, treatment.Stay{In: in, Out: out})[:1]); d != "" {
		t.Error(d)
	}
	again := out.Add(48 * time.Hour)
	if d := cmp.Diff([]string{"2026-11-20 11:40 out of the freezer, then 24 h in its closed bag", "2026-11-21 11:40 the bag may be opened when it is at room temperature"},
		plan(two, treatment.Stay{In: in, Out: out}, treatment.Stay{In: again})); d != "" {
		t.Error(d)
	}
	if got := plan(standard); got != nil {
		t.Errorf("nothing in, and a plan: %v", got)
	}
	// Summer time ends on 25 October 2026: 72 h on a stopwatch are an hour less on the clock.
	oslo, err := time.LoadLocation("Europe/Oslo")
	if err != nil {
		t.Skip("no time zones here: ", err)
	}
	if got := plan(standard, treatment.Stay{In: time.Date(2026, 10, 23, 9, 40, 0, 0, oslo)}); !strings.HasPrefix(got[0], "2026-10-26 08:40") {
		t.Errorf("over the end of summer time: %v", got)
	}
}

func TestProblemsOfProfiles(t *testing.T) {
	if got := standard.Problems(); len(got) > 0 {
		t.Errorf("the standard profile: %q", got)
	}
	for want, p := range map[string]treatment.Profile{
		"set point 30":              with(func(p *treatment.Profile) { p.SetPoint = 30 }),
		"0 hours at the set":        with(func(p *treatment.Profile) { p.Hours = 0 }),
		"11 cycles":                 with(func(p *treatment.Profile) { p.Cycles, p.Between, p.Warm = 11, 1, 15 }),
		"without hours warm":        with(func(p *treatment.Profile) { p.Cycles, p.Warm = 2, 15 }),
		"warm from -40 °C":          with(func(p *treatment.Profile) { p.Cycles, p.Between, p.Warm = 2, 24, -40 }),
		"closed -1":                 with(func(p *treatment.Profile) { p.Closed = -1 }),
		"at most 0 minutes apart":   with(func(p *treatment.Profile) { p.MaxGap = 0 }),
		"excursions of -1 minutes ": with(func(p *treatment.Profile) { p.Excursion = -1 }),
	} {
		if got := p.Problems(); len(got) != 1 || !strings.Contains(got[0], want) {
			t.Errorf("%q: %q", want, got)
		}
	}
}
