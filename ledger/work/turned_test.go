package work

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"blotter/ledger"

	"pgregory.net/rapid"
)

// sheetsNamed are the sheets that the items of an event name, one by one, in order.
func sheetsNamed(e *Event) []string {
	var out []string
	for _, i := range e.Items {
		first, _ := i.Sheet.Serial()
		last := first
		if i.Last != "" {
			last, _ = i.Last.Serial()
		}
		for v := first; v <= last && i.Sheet != ""; v++ {
			out = append(out, fmt.Sprint(v))
		}
	}
	slices.Sort(out)
	return out
}

func batch(t interface{ Fatal(...any) }, lines ...string) *File {
	text := "work: freezer-2026-001\nlines:\n"
	for i, l := range lines {
		text += fmt.Sprintf("  - {date: 2026-11-03 10:%02d, by: Tiril Aune, %s}\n", i, l)
	}
	f, found := Read("work/freezer/freezer-2026-001.yaml", []byte(text))
	if len(found) > 0 {
		t.Fatal(found, text)
	}
	return f
}

// TestTurned: which sheets lines mean once some bear other numbers.
func TestTurned(t *testing.T) {
	const in, moved, swapped = "event: in, sheets: [%s]", "event: renumbered, sheets: [LK7-0000482], to: LK7-0001207, why: stuck", "event: swapped, sheets: [LK7-0000482, LK7-0000517], why: stuck"
	for _, c := range []struct {
		name, reason string
		lines        []string
		want         string // sheets of each line, parted by |
	}{
		{"nothing moved", "", []string{fmt.Sprintf(in, "LK7-0000482")}, "482"},
		{"renumbered", "the line before means the plant, the line after the number as it is then", []string{fmt.Sprintf(in, "LK7-0000482"), moved, fmt.Sprintf(in, "LK7-0000482")}, "1207|1207|482"},
		{"in a span", "parted round it", []string{fmt.Sprintf(in, "LK7-0000480..LK7-0000484"), moved}, "1207 480 481 483 484|1207"},
		{"of others", "", []string{fmt.Sprintf(in, "LK7-0000005"), moved}, "5|1207"},
		{"swapped", "each means the other now", []string{fmt.Sprintf(in, "LK7-0000482"), fmt.Sprintf(in, "LK7-0000517, LK7-0000005"), swapped}, "517|482 5|482 517"},
		{"both in one span", "the same sheets", []string{fmt.Sprintf(in, "LK7-0000482..LK7-0000484, LK7-0000517"), swapped}, "482 483 484 517|482 517"},
		{"there and back", "", []string{fmt.Sprintf(in, "LK7-0000482"), swapped, swapped}, "482|482 517|482 517"},
		{"twice on", "through two numbers", []string{fmt.Sprintf(in, "LK7-0000482"), moved, "event: renumbered, sheets: [LK7-0001207], to: LK7-0001300, why: lost"}, "1300|1300|1300"},
	} {
		var got []string
		for _, e := range batch(t, c.lines...).Events {
			got = append(got, strings.Join(sheetsNamed(e), " "))
		}
		if s := strings.Join(got, "|"); s != c.want {
			t.Errorf("%s (%s): %q, want %q", c.name, c.reason, s, c.want)
		}
	}
}

// TestNames: a file names a sheet by itself or within a span, by the number
// that it bears now.
func TestNames(t *testing.T) {
	f := batch(t, "event: in, sheets: [LK7-0000480..LK7-0000484, lk7-0000005]", "event: renumbered, sheets: [LK7-0000482], to: LK7-0001207, why: stuck")
	for n, want := range map[ledger.Number]bool{"LK7-0000480": true, "LK7-0000483": true, "LK7-0000482": false, "LK7-0001207": true, "LK7-0000005": true, "LK7-0000485": false, "XX-0000483": false} {
		if f.Names(n) != want {
			t.Errorf("%s: %t, want %t", n, !want, want)
		}
	}
}

// TestTurnedIsOneByOne: what lines mean after any renumberings and swaps is
// what following each sheet by itself gives, and no sheet is lost or doubled.
func TestTurnedIsOneByOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := func(v int) string { return fmt.Sprintf("LK7-%07d", v) }
		var lines []string
		var want [][]int // sheets of each line
		bears := map[int]bool{}
		for v := 1; v <= 30; v++ {
			bears[v] = true
		}
		next := 31
		for range rapid.IntRange(1, 9).Draw(t, "lines") {
			held := rapid.SampledFrom(sortedInts(bears))
			a, b := held.Draw(t, "a"), held.Draw(t, "b")
			switch {
			case rapid.IntRange(0, 2).Draw(t, "kind") == 0 && a != b:
				lines = append(lines, fmt.Sprintf("event: swapped, sheets: [%s, %s], why: x", number(a), number(b)))
				want = append(want, []int{a, b})
				turnAll(want, map[int]int{a: b, b: a})
			case rapid.Bool().Draw(t, "renumber"):
				lines = append(lines, fmt.Sprintf("event: renumbered, sheets: [%s], to: %s, why: x", number(a), number(next)))
				want = append(want, []int{a})
				turnAll(want, map[int]int{a: next})
				delete(bears, a)
				bears[next] = true
				next++
			default:
				a, b = min(a, b), max(a, b)
				words := number(a)
				if a < b {
					words += ".." + number(b)
				}
				lines = append(lines, "event: in, sheets: ["+words+"]")
				var all []int
				for v := a; v <= b; v++ {
					all = append(all, v)
				}
				want = append(want, all)
			}
		}
		for i, e := range batch(t, lines...).Events {
			var all []string
			for _, v := range want[i] {
				all = append(all, fmt.Sprint(v))
			}
			slices.Sort(all)
			if got := sheetsNamed(e); !slices.Equal(got, all) {
				t.Fatalf("line %d of\n%s\nmeans %v, want %v", i+1, strings.Join(lines, "\n"), got, all)
			}
		}
	})
}

func sortedInts(m map[int]bool) []int {
	var out []int
	for v := range m {
		out = append(out, v)
	}
	slices.Sort(out)
	return out
}

func turnAll(lines [][]int, to map[int]int) {
	for _, l := range lines {
		for i, v := range l {
			if n, ok := to[v]; ok {
				l[i] = n
			}
		}
	}
}
