package treatment_test

import (
	"strings"
	"testing"
	"time"

	"blotter/ledger/treatment"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

var start = time.Date(2026, 11, 3, 9, 0, 0, 0, time.UTC)

// at is readings at hours after start.
func at(pairs ...float64) []treatment.Reading {
	var out []treatment.Reading
	for i := 0; i < len(pairs); i += 2 {
		out = append(out, treatment.Reading{At: hour(pairs[i]), C: pairs[i+1]})
	}
	return out
}

func hour(h float64) time.Time { return start.Add(time.Duration(h * float64(time.Hour))) }

// steady is hourly readings of c from one hour to another, both included.
func steady(from, to, c float64) []float64 {
	var out []float64
	for h := from; h <= to; h++ {
		out = append(out, h, c)
	}
	return out
}

func join(parts ...[]float64) []treatment.Reading {
	var all []float64
	for _, p := range parts {
		all = append(all, p...)
	}
	return at(all...)
}

var standard = treatment.Profile{Name: "standard", SetPoint: -30, Hours: 72, MaxGap: 90, Closed: 24}

func with(f func(*treatment.Profile)) treatment.Profile { p := standard; f(&p); return p }

// Worked on paper. In at 0 h: 20 °C, -10 °C at 1 h, -40 °C from 2 h to 74 h,
// 20 °C at 75 h. The line from -10 to -40 is at -30 after 20/30 of the hour,
// 1 h 40 min; that from -40 to 20 after 10/60, 74 h 10 min: 72 h 30 min.
func TestJudgeByHand(t *testing.T) {
	r := treatment.Judge(join([]float64{0, 20, 1, -10}, steady(2, 74, -40), []float64{75, 20}), nil, standard)
	if r.Verdict != treatment.Pass || len(r.Runs) != 1 {
		t.Fatalf("%s: %s", r.Verdict, r.Reason)
	}
	if got := r.Longest; !got.From.Equal(hour(0).Add(100*time.Minute)) || !got.To.Equal(hour(74).Add(10*time.Minute)) || got.Cold != 72*time.Hour+30*time.Minute {
		t.Errorf("%+v", got)
	}
	if r.ToReach != 100*time.Minute || r.Coldest.C != -40 || r.Warmest.C != 20 || len(r.Gaps)+len(r.Excursions) != 0 {
		t.Errorf("%+v", r)
	}
	if want := "72 h 30 min at or below -30 °C, 2026-11-03 10:40 to 2026-11-06 11:10; 72 h asked for"; r.Reason != want {
		t.Errorf("%s\nnot %s", r.Reason, want)
	}
}

// Worked on paper: -32 °C at 40 h, -26 at 40 h 15, -34 at 40 h 30: above -30
// from a third of the first quarter (40 h 5 min) to half of the second (40 h
// 22 min 30 s). Cold from 50/52 of the first hour (57 min 42 s) to 4/54 of the
// last (80 h 4 min 27 s): 39 h 7 min and 39 h 42 min, or 78 h 49 min in one.
func TestJudgeExcursionByHand(t *testing.T) {
	log := join([]float64{0, 20}, steady(1, 39, -32), []float64{40, -32, 40.25, -26, 40.5, -34}, steady(41, 80, -34), []float64{81, 20})
	for _, c := range []struct {
		name          string
		minutes, rise float64
		verdict       treatment.Verdict
		reason        string
	}{
		{"none may pass", 0, 0, treatment.Fail, "a warm excursion of 18 min to -26 °C, 2026-11-05 01:05"},
		{"just too long", 17.4, 5, treatment.Fail, "longest at or below -30 °C: 39 h 42 min of 72 h"},
		{"just too high", 17.5, 3.9, treatment.Fail, "39 h 42 min"},
		{"passes", 17.5, 4, treatment.Pass, "78 h 49 min at or below -30 °C"},
	} {
		r := treatment.Judge(log, nil, with(func(p *treatment.Profile) { p.Excursion, p.Rise = c.minutes, c.rise }))
		if r.Verdict != c.verdict || !strings.Contains(r.Reason, c.reason) {
			t.Errorf("%s: %s: %s", c.name, r.Verdict, r.Reason)
		}
		if len(r.Excursions) != 1 {
			t.Fatalf("%s: %+v", c.name, r.Excursions)
		}
		x := r.Excursions[0]
		if x.Passed != (c.verdict == treatment.Pass) || x.Peak != -26 || !x.From.Equal(hour(40).Add(5*time.Minute)) || !x.To.Equal(hour(40).Add(22*time.Minute+30*time.Second)) {
			t.Errorf("%s: %+v", c.name, x)
		}
	}
}

func TestJudgeVerdicts(t *testing.T) {
	cold := steady(1, 80, -35)
	in, out := []float64{0, 20}, []float64{81, 20}
	short := join(in, steady(1, 40, -35), []float64{41, 20})
	gap := join(in, steady(1, 40, -35), steady(43, 80, -35), out)
	two := with(func(p *treatment.Profile) { p.Cycles, p.Between, p.Warm, p.Hours = 2, 24, 15, 48 })
	cycle := steady(2, 60, -35)
	book := []treatment.Stay{{In: hour(0), Out: hour(60.5)}, {In: hour(90), Out: hour(150)}}
	for _, c := range []struct {
		name    string
		log     []treatment.Reading
		stays   []treatment.Stay
		p       treatment.Profile
		verdict treatment.Verdict
		reason  string
	}{
		{"passes", join(in, cold, out), nil, standard, treatment.Pass, "79 h 11 min at or below"},
		{"no log", nil, nil, standard, treatment.TimesOnly, "neither pass nor fail; no times in and out"},
		{"no log, times", nil, []treatment.Stay{{In: hour(0), Out: hour(75)}}, standard, treatment.TimesOnly, "75 h of 72 h, by the clock"},
		{"no log, too short", nil, []treatment.Stay{{In: hour(0), Out: hour(48)}}, standard, treatment.TimesOnly, "48 h of 72 h, too short even by the clock"},
		{"no log, still in", nil, []treatment.Stay{{In: hour(0)}}, standard, treatment.TimesOnly, "in since 2026-11-03 09:00"},
		{"one reading", at(0, -40), nil, standard, treatment.NotEnough, "1 readings of temperature"},
		{"too short", short, nil, standard, treatment.Fail, "39 h 11 min of 72 h"},
		{"never cold", join(in, steady(1, 80, -25), out), nil, standard, treatment.Fail, "never at or below -30 °C: the coldest reading was -25 °C, 2026-11-03 10:00"},
		{"exactly at the set point", join(in, steady(1, 73, -30), []float64{74, 20}), nil, standard, treatment.Pass, "72 h at or below -30 °C"},
		{"a minute short", join(in, steady(1, 72, -30), []float64{72.98, -30, 73.5, 20}), nil, standard, treatment.Fail, "71 h 59 min of 72 h"},
		{"a second short", join(in, steady(1, 72, -30), []float64{73 - 1.0/3600, -30, 73.5, 20}), nil, standard, treatment.Fail, "72 h less 1 s of 72 h"},
		{"a gap in the cold", gap, nil, standard, treatment.NotEnough, "a gap of 3 h in the log, 2026-11-05 01:00 to 2026-11-05 04:00; were it as cold in the gaps"},
		{"a gap beside the cold", join(in, steady(1, 40, -35), []float64{41, -20}, steady(44, 80, -35), out), nil, standard, treatment.Fail, "39 h 25 min of 72 h"},
		{"begins in the cold", join(cold[:100], []float64{51, 20}), nil, standard, treatment.NotEnough, "the log begins in the cold, 2026-11-03 10:00"},
		{"begins in the cold, in by the book", join(cold[:100], []float64{51, 20}), []treatment.Stay{{In: hour(0), Out: hour(50)}}, standard, treatment.Fail, "49 h of 72 h"},
		{"ends in the cold", join(in, cold[:100]), nil, standard, treatment.NotEnough, "the log ends in the cold, 2026-11-05 11:00"},
		{"ends in the cold, out by the book", join(in, cold[:100]), []treatment.Stay{{In: hour(0), Out: hour(51)}}, standard, treatment.Fail, "49 h 5 min"},
		{"ends in the cold, out long after", join(in, cold[:100]), []treatment.Stay{{In: hour(0), Out: hour(90)}}, standard, treatment.NotEnough, "ends in the cold"},
		{"two cycles", join(in, cycle, steady(62, 90, 19), steady(91, 150, -35), []float64{151, 20}), nil, two, treatment.Pass, "cycle 2: 59 h"},
		{"two cycles, the pause too short", join(in, cycle, steady(62, 70, 19), steady(71, 150, -35), []float64{151, 20}), nil, two, treatment.Fail, "at 15 °C or warmer, 24 h are asked for: one cycle, not two"},
		{"two cycles, the pause too cold", join(in, cycle, steady(62, 90, 4), steady(91, 150, -35), []float64{151, 20}), nil, two, treatment.Fail, "1 of 2 cycles; between"},
		{"two cycles, the logger out in the pause", join(in, cycle, steady(91, 150, -35), []float64{151, 20}), nil, two, treatment.Fail, "it was 0 min at 15 °C"},
		{"two cycles, the pause by the book", join(in, cycle, steady(91, 150, -35), []float64{151, 20}), book, two, treatment.Pass, "after 29 h 30 min warm by the book, not by the log"},
		{"two cycles, one done", join(in, cycle, steady(62, 90, 19)), nil, two, treatment.Fail, "1 of 2 cycles; the log shows no other time in the cold"},
		{"two cycles, the second not in the log", join(in, cycle, steady(62, 70, 19)), book, two, treatment.NotEnough, "the stay that began 2026-11-07 03:00 is not in the log"},
		{"the probe lives in the freezer, the load in for a day", join(steady(0, 300, -35)), []treatment.Stay{{In: hour(100), Out: hour(124)}}, standard, treatment.Fail, "longest at or below -30 °C: 24 h of 72 h"},
		{"the probe lives in the freezer, the load in for long enough", join(steady(0, 300, -35)), []treatment.Stay{{In: hour(100.5), Out: hour(172.5)}}, standard, treatment.Pass, "72 h at or below -30 °C, 2026-11-07 13:30 to 2026-11-10 13:30"},
		{"the probe lives in the freezer, the load still in", join(steady(0, 300, -35)), []treatment.Stay{{In: hour(260)}}, standard, treatment.NotEnough, "longest at or below -30 °C: 40 h of 72 h, 2026-11-14 05:00 to 2026-11-15 21:00; the log ends in the cold"},
		{"the log of another load", join(in, cold, out), []treatment.Stay{{In: hour(200), Out: hour(300)}}, standard, treatment.NotEnough, "the log, 2026-11-03 09:00 to 2026-11-06 18:00, has no reading between in and out by the book"},
		{"a gap over going in", join(steady(0, 20, -35), steady(30, 100, -35)), []treatment.Stay{{In: hour(25), Out: hour(98)}}, standard, treatment.NotEnough, "68 h of 72 h, 2026-11-04 15:00 to 2026-11-07 11:00; a gap of 5 h in the log, 2026-11-04 10:00 to 2026-11-04 15:00; were it as cold"},
		{"a profile that is none", join(in, cold, out), nil, treatment.Profile{}, treatment.NotEnough, "hours at the set point"},
	} {
		r := treatment.Judge(c.log, c.stays, c.p)
		if r.Verdict != c.verdict || !strings.Contains(r.Reason, c.reason) {
			t.Errorf("%s: %s: %s\nnot %s: %s", c.name, r.Verdict, r.Reason, c.verdict, c.reason)
		}
	}
	// The pause between two cycles is no excursion to worry about.
	r := treatment.Judge(join(in, cycle, steady(62, 90, 19), steady(91, 150, -35), []float64{151, 20}), nil, two)
	if len(r.Excursions) != 1 || !r.Excursions[0].Pause || len(r.Cycles) != 2 || r.Cycles[1].Pause < 28*time.Hour {
		t.Errorf("%+v %+v", r.Excursions, r.Cycles)
	}
}

// drawLog is a log of readings 5 to 60 minutes apart, now and then with a gap.
func drawLog(t *rapid.T) []treatment.Reading {
	var log []treatment.Reading
	now, c := start, 20.0
	for range rapid.IntRange(2, 120).Draw(t, "readings") {
		minutes := rapid.OneOf(rapid.IntRange(5, 60), rapid.IntRange(5, 60), rapid.IntRange(5, 60), rapid.IntRange(95, 600)).Draw(t, "minutes")
		now = now.Add(time.Duration(minutes) * time.Minute)
		c = min(25, max(-45, c+rapid.Float64Range(-20, 18).Draw(t, "change")))
		log = append(log, treatment.Reading{At: now, C: c})
	}
	return log
}

func drawProfile(t *rapid.T) treatment.Profile {
	return treatment.Profile{SetPoint: rapid.Float64Range(-40, -10).Draw(t, "set point"), Hours: rapid.Float64Range(0.5, 20).Draw(t, "hours"), MaxGap: 90,
		Excursion: rapid.Float64Range(0, 60).Draw(t, "minutes allowed"), Rise: rapid.Float64Range(0, 15).Draw(t, "rise allowed")}
}

// A colder log never fails where a warmer one passes, nor has less cold time.
func TestColderNeverFails(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log, p := drawLog(t), drawProfile(t)
		colder := make([]treatment.Reading, len(log))
		for i, r := range log {
			colder[i] = treatment.Reading{At: r.At, C: r.C - rapid.Float64Range(0, 5).Draw(t, "colder by")}
		}
		a, b := treatment.Judge(log, nil, p), treatment.Judge(colder, nil, p)
		if a.Verdict == treatment.Pass && b.Verdict != treatment.Pass {
			t.Errorf("passes: %s\ncolder: %s: %s", a.Reason, b.Verdict, b.Reason)
		}
		if b.Longest.Cold < a.Longest.Cold-time.Microsecond {
			t.Errorf("cold for %v, colder for %v", a.Longest.Cold, b.Longest.Cold)
		}
	})
}

// Taking readings out of the middle, so that a gap is left, never lengthens the
// time, nor does judging the parts alone; the order of readings does not matter;
// what is in runs adds up to what a plain count of small steps finds.
func TestGapsNeverLengthen(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log, p := drawLog(t), drawProfile(t)
		whole := treatment.Judge(log, nil, p)
		cut := rapid.IntRange(0, len(log)).Draw(t, "cut")
		for _, part := range [][]treatment.Reading{log[:cut], log[cut:]} {
			if r := treatment.Judge(part, nil, p); r.Longest.Cold > whole.Longest.Cold || r.Verdict == treatment.Pass && whole.Verdict != treatment.Pass {
				t.Errorf("a part is cold for %v, the whole for %v", r.Longest.Cold, whole.Longest.Cold)
			}
		}
		to := min(len(log), cut+40) // 40 readings are more than MaxGap
		if to-cut == 40 {
			holed := append(append([]treatment.Reading{}, log[:cut]...), log[to:]...)
			if r := treatment.Judge(holed, nil, p); r.Longest.Cold > whole.Longest.Cold {
				t.Errorf("with a hole cold for %v, without for %v", r.Longest.Cold, whole.Longest.Cold)
			}
		}
		mixed := rapid.Permutation(log).Draw(t, "order")
		if r := treatment.Judge(mixed, nil, p); r.Verdict != whole.Verdict || r.Reason != whole.Reason {
			t.Errorf("in another order: %s, not %s", r.Reason, whole.Reason)
		}
	})
}

// Times by the book only ever take away: no run is longer than without them or
// than the stay, and none lies outside.
func TestStaysTakeAway(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log, p := drawLog(t), drawProfile(t)
		in := start.Add(time.Duration(rapid.IntRange(-100, 3000).Draw(t, "in, minutes")) * time.Minute)
		stay := treatment.Stay{In: in, Out: in.Add(time.Duration(rapid.IntRange(0, 3000).Draw(t, "for minutes")) * time.Minute)}
		all, part := treatment.Judge(log, nil, p), treatment.Judge(log, []treatment.Stay{stay}, p)
		if part.Longest.Cold > all.Longest.Cold+time.Microsecond || part.Longest.Cold > stay.Out.Sub(stay.In) {
			t.Errorf("cold for %v, without the book %v, in for %v", part.Longest.Cold, all.Longest.Cold, stay.Out.Sub(stay.In))
		}
		for _, run := range part.Runs {
			if run.From.Before(stay.In) || run.To.After(stay.Out) {
				t.Errorf("a run from %v to %v, in from %v to %v", run.From, run.To, stay.In, stay.Out)
			}
		}
		if part.Verdict == treatment.Pass && all.Verdict != treatment.Pass {
			t.Errorf("passes by the book only: %s; %s", part.Reason, all.Reason)
		}
	})
}

// The cold time of all runs is that which a walk in steps of a second counts.
func TestColdTimeAgainstACount(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log, p := drawLog(t)[:2:2], drawProfile(t)
		log = append(log, drawLog(t)[:1]...)
		for i := range log {
			log[i].At = start.Add(time.Duration(i) * time.Hour)
		}
		count := 0.0
		for i := 1; i < len(log); i++ {
			for s := 0.5; s < 3600; s++ {
				if log[i-1].C+(log[i].C-log[i-1].C)*s/3600 <= p.SetPoint {
					count++
				}
			}
		}
		sum := 0.0
		for _, run := range treatment.Judge(log, nil, p).Runs {
			sum += run.Cold.Seconds()
		}
		if d := sum - count; d > 3 || d < -3 {
			t.Errorf("%v s in runs, %v counted", sum, count)
		}
	})
}
