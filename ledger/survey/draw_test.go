package survey_test

import (
	"crypto/sha256"
	"fmt"
	"math"
	"slices"
	"sort"
	"testing"

	"blotter/ledger/survey"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

func numbers(n int) []string {
	names := make([]string, n)
	for i := range names {
		names[i] = fmt.Sprintf("LK7-%07d", i+1)
	}
	return names
}

// The draw as anybody makes it with a sha256sum program and sort.
func TestDrawIsTheSortedSums(t *testing.T) {
	names, words := numbers(300), []string{"8c1d0fe", "condition-2026-001"}
	byHand := slices.Clone(names)
	sum := func(name string) string {
		return fmt.Sprintf("%x", sha256.Sum256([]byte("8c1d0fe\ncondition-2026-001\n"+name)))
	}
	sort.Slice(byHand, func(i, j int) bool { return sum(byHand[i]) < sum(byHand[j]) })
	if d := cmp.Diff(byHand[:20], survey.Draw(words, names, 20)); d != "" {
		t.Error(d)
	}
	// Frozen: a draw once made is made again for ever.
	frozen := []string{"LK7-0000057", "LK7-0000233", "LK7-0000220", "LK7-0000146", "LK7-0000067"}
	if d := cmp.Diff(frozen, survey.Draw(words, names, 5)); d != "" {
		t.Error(d)
	}
}

func TestDrawDependsOnWordsAndNamesAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		names := numbers(rapid.IntRange(0, 200).Draw(t, "names"))
		n := rapid.IntRange(-2, 210).Draw(t, "n")
		words := []string{rapid.String().Draw(t, "words")}
		drawn := survey.Draw(words, names, n)
		if want := min(max(n, 0), len(names)); len(drawn) != want {
			t.Fatalf("%d drawn, not %d", len(drawn), want)
		}
		other := rapid.Permutation(append(slices.Clone(names), names...)).Draw(t, "another order, each twice")
		if d := cmp.Diff(drawn, survey.Draw(words, other, n)); d != "" {
			t.Error(d)
		}
		more := survey.Draw(words, names, n+5)
		if !slices.Equal(more[:len(drawn)], drawn) {
			t.Errorf("a longer draw begins otherwise: %v, %v", drawn, more)
		}
		if len(names) > 0 && n > 0 { // one name less changes one name at most
			gone := names[len(names)/2]
			left := survey.Draw(words, slices.DeleteFunc(slices.Clone(names), func(s string) bool { return s == gone }), n)
			changed := 0
			for _, name := range drawn {
				if !slices.Contains(left, name) {
					changed++
				}
			}
			if changed > 1 {
				t.Errorf("without %s %d others went too", gone, changed-1)
			}
		}
	})
}

// Each sheet is drawn as often as any other: chi-square over 4,000 draws of 10
// of 50, with bounds that a fair draw oversteps once in a thousand; the draws
// are fixed, so that the test always gives the same.
func TestDrawIsFair(t *testing.T) {
	names, count := numbers(50), map[string]int{}
	for i := range 4000 {
		for _, name := range survey.Draw([]string{"fair", fmt.Sprint(i)}, names, 10) {
			count[name]++
		}
	}
	chi := 0.0
	for _, name := range names {
		d := float64(count[name]) - 800
		chi += d * d / (800 * 0.8) // variance of a count: 4000 x 0.2 x 0.8
	}
	// The counts sum to 40,000, so that 49 of 50 are free; 85.35 is the 99.9 % point of chi-square with 49 degrees.
	if chi*49/50 > 85.35 {
		t.Errorf("chi-square %v with 49 degrees of freedom", chi*49/50)
	}
}

func TestRollingInventorySeesAllOnce(t *testing.T) {
	names := numbers(20000)
	for percent, rounds := range map[float64]int{10: 10, 15: 7, 100: 1, 33: 4, 2: 50} {
		r := survey.Rolling{Words: []string{"inventory"}, Percent: percent}
		if got, err := r.Rounds(); err != nil || got != rounds {
			t.Fatalf("%v %%: %d rounds, %v, not %d", percent, got, err, rounds)
		}
		seen := 0
		for round := range rounds {
			turn, err := r.Turn(names, round)
			if err != nil {
				t.Fatal(err)
			}
			again, _ := r.Turn(names, round+3*rounds)
			if !slices.Equal(turn, again) {
				t.Errorf("%v %%: round %d is another three times later", percent, round)
			}
			seen += len(turn)
			share := percent / 100
			if round == rounds-1 {
				share = 1 - share*float64(round) // the last has the rest
			}
			if sd := math.Sqrt(20000 * share * (1 - share)); math.Abs(float64(len(turn))-20000*share) > 5*sd {
				t.Errorf("%v %%: round %d has %d sheets of %v", percent, round, len(turn), 20000*share)
			}
		}
		if seen != len(names) {
			t.Errorf("%v %%: %d of %d seen", percent, seen, len(names))
		}
	}
	for _, percent := range []float64{0, -1, 101, math.NaN(), 1e-300} {
		if _, err := (survey.Rolling{Percent: percent}).Turn(names, 0); err == nil {
			t.Errorf("%v %% gave no error", percent)
		}
	}
}

func BenchmarkDraw(b *testing.B) {
	names := numbers(100000)
	b.ResetTimer()
	for b.Loop() {
		survey.Draw([]string{"8c1d0fe"}, names, 385)
	}
	b.ReportMetric(float64(len(names)*b.N)/b.Elapsed().Seconds(), "names/s")
}
