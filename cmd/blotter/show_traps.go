package main

import (
	"cmp"
	"slices"
	"strings"
	"time"
)

// catchOut is what one trap caught in one month, by the readings of its month.
type catchOut struct {
	Month    string `json:"month"` // 2026-03
	Trap     string `json:"trap"`
	Readings int    `json:"readings"`
	Caught   int    `json:"caught"`
}

// catch is the sum of the readings of each trap by month, up to the day that is
// shown; nil for other works.
func (v *workView) catch() []catchOut {
	if v.file.Kind.Name != "traps" {
		return nil
	}
	type in struct{ month, trap string }
	sums := map[in]*catchOut{}
	for _, e := range v.file.Events {
		if e.Verb != "read" || e.Day > v.on {
			continue
		}
		k := in{e.Day.String()[:len("2026-03")], e.Line.Trap.Text}
		if sums[k] == nil {
			sums[k] = &catchOut{Month: k.month, Trap: k.trap}
		}
		sums[k].Readings++
		sums[k].Caught += e.Caught()
	}
	var out []catchOut
	for _, s := range sums {
		out = append(out, *s)
	}
	slices.SortFunc(out, func(a, b catchOut) int { return cmp.Or(cmp.Compare(a.Month, b.Month), cmp.Compare(a.Trap, b.Trap)) })
	return out
}

// showCatch prints the catch as a table: a row a month, a column a trap, sums
// at the right and below. A dash stands where a trap was not read.
func (v *workView) showCatch(catch []catchOut) {
	if len(catch) == 0 {
		return
	}
	var traps []string
	for _, c := range catch {
		if !slices.Contains(traps, c.Trap) {
			traps = append(traps, c.Trap)
		}
	}
	slices.Sort(traps)
	head := []string{"month"}
	for _, t := range traps {
		head = append(head, cmp.Or(t, "no trap named"))
	}
	rows := [][]string{append(head, "all")}
	below := make([]int, len(traps)+1)
	for len(catch) > 0 {
		n := slices.IndexFunc(catch, func(c catchOut) bool { return c.Month != catch[0].Month })
		if n < 0 {
			n = len(catch)
		}
		row := []string{monthWords(catch[0].Month)}
		all := 0
		for i, t := range traps {
			at := slices.IndexFunc(catch[:n], func(c catchOut) bool { return c.Trap == t })
			if at < 0 {
				row = append(row, "-")
				continue
			}
			row = append(row, thousands(catch[at].Caught))
			all += catch[at].Caught
			below[i] += catch[at].Caught
		}
		below[len(traps)] += all
		rows, catch = append(rows, append(row, thousands(all))), catch[n:]
	}
	sum := []string{"all"}
	for _, n := range below {
		sum = append(sum, thousands(n))
	}
	v.desk.say("Caught, by the month of the reading:")
	v.desk.table("  ", append(rows, sum))
}

// monthWords is March 2026 for 2026-03.
func monthWords(month string) string {
	year, m, _ := strings.Cut(month, "-")
	return time.Month(atoi(m)).String() + " " + year
}
