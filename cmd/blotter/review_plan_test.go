package main

import (
	"fmt"
	"testing"

	"blotter/ledger"
)

// typedRecords makes n records; of each stretch from, to the first wrong of
// those read are corrected.
func typedRecords(n int, reads ...[3]int) []enteredRecord {
	all := make([]enteredRecord, n)
	for i := range all {
		all[i].number = ledger.Number(fmt.Sprintf("LK7-%07d", i+1))
	}
	for _, r := range reads {
		for i := r[0]; i < r[1]; i++ {
			all[i].checked, all[i].corrected = true, i-r[0] < r[2]
		}
	}
	return all
}

// The figures 200, 100, 10, 2, 20 and 5 are those of Georeferencing Best
// Practices 2020, chapter 6; "in a row" and "content" are ours (review_plan.go).
func TestReviewPlan(t *testing.T) {
	rule := reviewRuleOf(ledger.WithStandard(&ledger.Museum{}).Review)
	if want := (reviewRule{first: 200, of100: 10, moreThan: 2, more: 20, laterOf100: 5, laterAfter: 10}); rule != want {
		t.Fatalf("the standard rule is %+v, not %+v", rule, want)
	}
	sound := [][3]int{{0, 200, 2}}
	for i := range 10 {
		sound = append(sound, [3]int{200 + 100*i, 200 + 100*i + 10, 2})
	}
	for _, c := range []struct {
		name, reason string
		mine         []enteredRecord
		drawn        []int // of each part
		redo         int   // of how many parts
	}{
		{"few", "all of a new person's records", typedRecords(40), []int{40}, 0},
		{"first 200", "what comes later waits until the first 200 are read", typedRecords(450), []int{200}, 0},
		{"first 200 half read", "the rest of them", typedRecords(450, [3]int{0, 90, 0}), []int{110}, 0},
		{"content", "10 of a hundred, of half a hundred 5", typedRecords(450, [3]int{0, 200, 2}), []int{0, 10, 10, 5}, 0},
		{"wrong long ago", "the second hundred has none, so one is content", typedRecords(300, [3]int{0, 200, 50}), []int{0, 10}, 0},
		{"not content", "3 wrong of the last hundred: the next is read whole, and no more before that", typedRecords(500, [3]int{0, 100, 0}, [3]int{100, 200, 3}), []int{0, 100}, 0},
		{"not content twice", "the hundred read whole had 3 as well", typedRecords(500, [3]int{100, 200, 3}, [3]int{0, 100, 0}, [3]int{200, 300, 3}), []int{0, 0, 100}, 0},
		{"content at last", "the hundred read whole had 2", typedRecords(500, [3]int{100, 200, 3}, [3]int{0, 100, 0}, [3]int{200, 300, 2}), []int{0, 0, 10, 10}, 0},
		{"2 wrong of 10", "2 are borne", typedRecords(300, [3]int{0, 200, 0}, [3]int{200, 210, 2}), []int{0, 0}, 0},
		{"3 wrong of 10", "more than 2: 20 more of that hundred", typedRecords(400, [3]int{0, 200, 0}, [3]int{200, 210, 3}), []int{0, 20, 10}, 1},
		{"3 wrong, 20 more read", "nothing more is drawn; the hundred may be done anew", typedRecords(300, [3]int{0, 200, 0}, [3]int{200, 230, 3}), []int{0, 0}, 1},
		{"later", "after ten hundreds in a row 5 of a hundred", typedRecords(1400, sound...), []int{0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 5, 5}, 0},
		{"later, then 3 wrong", "back to 10 for the next", typedRecords(1400, append(sound, [3]int{1200, 1205, 3})...), []int{0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 20, 10}, 1},
		{"read beyond what was asked", "never fewer than none", typedRecords(300, [3]int{0, 260, 0}), []int{0, 0}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			var drawn []int
			redo := 0
			for _, p := range rule.plan(c.mine) {
				got := p.draw("Tiril Aune", "2026-11-03")
				drawn = append(drawn, len(got))
				if p.Redo {
					redo++
				}
				for _, n := range got {
					i := atoi(string(n)[4:]) - 1
					if i < p.First-1 || i >= p.Last || c.mine[i].checked {
						t.Errorf("%s is drawn of records %d to %d", n, p.First, p.Last)
					}
				}
			}
			if fmt.Sprint(drawn) != fmt.Sprint(c.drawn) || redo != c.redo {
				t.Errorf("%s: drawn %v, want %v; %d to do anew, want %d", c.reason, drawn, c.drawn, redo, c.redo)
			}
		})
	}
}
