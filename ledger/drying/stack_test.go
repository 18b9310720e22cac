package drying_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"blotter/ledger/drying"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func lay(b drying.Build, n int) string {
	var out []string
	for l := range b.Layers(n) {
		if l.Plant > 0 && l.Item == drying.Fold {
			out = append(out, fmt.Sprintf("%s %d", l.Item, l.Plant))
			continue
		}
		out = append(out, string(l.Item))
	}
	return strings.Join(out, ", ")
}

func TestStackOrder(t *testing.T) {
	for _, c := range []struct {
		build  drying.Build
		n      int
		want   string
		reason string
	}{
		{drying.Plain, 1, "press board, blotter, folded paper 1, blotter, press board", "common practice, no source"},
		{drying.Plain, 2, "press board, blotter, folded paper 1, blotter, press board, blotter, folded paper 2, blotter, press board", "common practice, no source: three boards"},
		{drying.Corrugated, 1, "press frame, corrugate, blotter, folded paper 1, blotter, corrugate, press frame", "layout as Florida Museum herbarium, voucher preparation"},
		{drying.Corrugated, 2, "press frame, corrugate, blotter, folded paper 1, blotter, corrugate, blotter, folded paper 2, blotter, corrugate, press frame", "the same"},
		{drying.Bagged, 3, "folded paper 1, folded paper 2, folded paper 3", "newspaper folds in a bag: Liesner, Field techniques used by MO"},
		{drying.Plain, 0, "", "nothing to press"},
		{drying.Build("heap"), 2, "", "no such build"},
	} {
		if got := lay(c.build, c.n); got != c.want {
			t.Errorf("%s of %d: %s\nnot %s: %s", c.build, c.n, got, c.want, c.reason)
		}
	}
}

// The counts of the issue: N plants in one stack are N+1 boards, 2N blotters, N
// folds; and for every build the counts are those of the layers.
func TestStackCounts(t *testing.T) {
	got, err := drying.Plain.Counts(1)
	if d := cmp.Diff([]drying.Quantity{{Item: drying.Board, Count: 2}, {Item: drying.Blotter, Count: 2}, {Item: drying.Fold, Count: 1}}, got); d != "" || err != nil {
		t.Error(d, err)
	}
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.SampledFrom([]drying.Build{drying.Plain, drying.Corrugated, drying.Bagged}).Draw(t, "build")
		n := rapid.IntRange(0, 60).Draw(t, "plants")
		counts, err := b.Counts(n)
		if err != nil {
			t.Fatal(err)
		}
		laid := map[drying.Item]int{}
		for l := range b.Layers(n) {
			laid[l.Item]++
		}
		for _, q := range counts {
			if q.Item != drying.Bag && laid[q.Item] != q.Count {
				t.Errorf("%s of %d: %d x %s counted, %d laid", b, n, q.Count, q.Item, laid[q.Item])
			}
			delete(laid, q.Item)
		}
		if len(laid) > 0 {
			t.Errorf("%s of %d: laid and not counted: %v", b, n, laid)
		}
		if b == drying.Plain && n > 0 && !slices.Equal(counts, []drying.Quantity{{Item: drying.Board, Count: n + 1}, {Item: drying.Blotter, Count: 2 * n}, {Item: drying.Fold, Count: n}}) {
			t.Errorf("%d plants: %v", n, counts)
		}
	})
	for _, n := range []int{-1, math.MaxInt} {
		if _, err := drying.Plain.Counts(n); err == nil {
			t.Errorf("%d plants: no error", n)
		}
	}
}

var thick = drying.Thickness{Frame: 10, Board: 5, Corrugate: 4, Blotter: 1, Fold: 0.5}

func TestStackHeight(t *testing.T) {
	// By hand: 3 boards 15, 4 blotters 4, 2 folds 1, plants 3 + 7.
	if h, err := drying.Plain.Height([]float64{3, 7}, thick); err != nil || h != 30 {
		t.Errorf("plain: %v mm, %v, not 30", h, err)
	}
	// 2 frames 20, 3 corrugates 12, 4 blotters 4, 2 folds 1, plants 10.
	if h, err := drying.Corrugated.Height([]float64{3, 7}, thick); err != nil || h != 47 {
		t.Errorf("corrugated: %v mm, %v, not 47", h, err)
	}
	for name, plants := range map[string][]float64{"below 0": {-1}, "not a number": {math.NaN()}, "a tree": {5000}} {
		if _, err := drying.Plain.Height(plants, thick); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if _, err := drying.Plain.Height([]float64{1}, drying.Thickness{Board: -1}); err == nil {
		t.Error("a board below 0 gave no error")
	}
}

// Liesner, Field techniques used by MO: about a litre of alcohol for a stack of
// 15 to 20 cm.
func TestLitres(t *testing.T) {
	k := drying.Keeping{LitreFrom: 150, LitreTo: 200}
	for height, want := range map[float64][2]float64{150: {0.75, 1}, 200: {1, 4.0 / 3}, 600: {3, 4}, 0: {0, 0}, -3: {0, 0}} {
		if from, to := k.Litres(height); math.Abs(from-want[0])+math.Abs(to-want[1]) > 1e-12 {
			t.Errorf("%v mm: %v to %v l, not %v", height, from, to, want)
		}
	}
	if from, to := (drying.Keeping{}).Litres(100); from != 0 || to != 0 {
		t.Errorf("no settings: %v to %v l", from, to)
	}
}

func TestPackingList(t *testing.T) {
	// Three warm-air presses of 20: by hand 6 frames, 63 corrugates + 7 spare, 2 sets of 120 blotters + 24, 60 folds + 6, 6 straps + 1.
	trip := drying.Trip{Presses: 3, Plants: 20, Build: drying.Corrugated, Plant: 5, Blotters: 2, Straps: 2, Spare: 0.1}
	got, err := trip.Pack(thick, drying.Keeping{})
	want := drying.Packing{Items: []drying.Quantity{{Item: drying.Frame, Count: 6}, {Item: drying.Corrugate, Count: 70}, {Item: drying.Blotter, Count: 264}, {Item: drying.Fold, Count: 66}, {Item: drying.Strap, Count: 7}},
		Height: 2*10 + 21*4 + 40*1 + 20*0.5 + 20*5}
	if d := cmp.Diff(want, got); d != "" || err != nil {
		t.Error(d, err)
	}
	// Two bagged stacks of 60 folds with plants of 5 mm: 330 mm, two bags each, 1.65 to 2.2 l each.
	trip = drying.Trip{Presses: 2, Plants: 60, Build: drying.Bagged, Plant: 5, Blotters: 1, Straps: 2}
	got, err = trip.Pack(thick, drying.Keeping{LitreFrom: 150, LitreTo: 200})
	if d := cmp.Diff([]drying.Quantity{{Item: drying.Fold, Count: 120}, {Item: drying.Bag, Count: 4}}, got.Items); d != "" || err != nil || math.Abs(got.LitresFrom-3.3)+math.Abs(got.LitresTo-4.4) > 1e-9 {
		t.Error(d, err, got.LitresFrom, got.LitresTo)
	}
	for name, trip := range map[string]drying.Trip{
		"no blotters": {Presses: 1, Plants: 1, Build: drying.Plain}, "no such build": {Presses: 1, Plants: 1, Blotters: 1, Build: "heap"},
		"presses below 0": {Presses: -1, Plants: 1, Blotters: 1, Build: drying.Plain}, "a plant that is no number": {Presses: 1, Plants: 1, Blotters: 1, Build: drying.Plain, Plant: math.NaN()},
	} {
		if _, err := trip.Pack(thick, drying.Keeping{}); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func TestPresses(t *testing.T) {
	for _, c := range []struct{ days, aDay, drying, plants, want int }{
		{5, 30, 6, 50, 3},   // 150 plants, none dry before the end
		{14, 30, 6, 50, 4},  // six days' plants at a time: 180
		{1, 1, 6, 50, 1},    // one plant is one press
		{0, 30, 6, 50, 0},   // a day's outing without days
		{14, 25, 8, 100, 2}, // 200 exactly
	} {
		if got, err := drying.Presses(c.days, c.aDay, c.drying, c.plants); err != nil || got != c.want {
			t.Errorf("%+v: %d, %v", c, got, err)
		}
	}
	if _, err := drying.Presses(1, 1, 0, 0); err == nil {
		t.Error("no days of drying gave no error")
	}
}
