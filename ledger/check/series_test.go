package check

import (
	"strconv"
	"testing"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"

	"blotter/ledger/book"
	"blotter/ledger/dates"
)

// collectedBy is the entry that shows s, of a collector as the checks know one.
func collectedBy(who string, s book.Shown) *book.Entry {
	e := entry(s)
	e.Judged = &book.Judged{SeldomJudged: e.SeldomJudged, Who: who}
	return e
}

// collected is a series in order: numbers from first on, each some days after
// the one before.
func collected(r *rapid.T) []*book.Entry {
	day := dates.DayOf(1925, 1, 1) + dates.Day(rapid.IntRange(0, 300).Draw(r, "begin"))
	first := rapid.IntRange(1, 2000).Draw(r, "first")
	var out []*book.Entry
	for i := range rapid.IntRange(9, 30).Draw(r, "sheets") {
		day += dates.Day(rapid.IntRange(0, 3).Draw(r, "step"))
		out = append(out, collectedBy("rask s", book.Shown{Collector: "Signe Rask", CollNo: strconv.Itoa(first + i), Date: day.String(), Dated: true, First: day, Last: day}))
	}
	return out
}

// verdicts are those of all stretches.
func verdicts(same []*book.Entry) map[*book.Entry]verdict {
	groups := map[string][]*book.Entry{}
	for _, e := range same {
		for _, k := range bySeries.Keys(nil, e) {
			groups[k] = append(groups[k], e)
		}
	}
	out := map[*book.Entry]verdict{}
	for k, in := range groups {
		g := &group{key: k, same: in, around: &Around{Museum: &book.Museum{}, Settings: Standard()}}
		for _, v := range g.series() {
			for _, e := range v.of.sheets {
				if v.code != "" {
					out[e] = v
				}
			}
		}
	}
	return out
}

// TestSeries: a series in order gives nothing; a date that is exchanged or of
// another year is told of alone, and what is proposed is what it was.
func TestSeries(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		same := collected(r)
		if vs := verdicts(same); len(vs) > 0 {
			t.Fatalf("a series in order: %d verdicts", len(vs))
		}
		e := same[rapid.IntRange(3, len(same)-4).Draw(r, "which")]
		was := e.First
		y, m, d := was.Date()
		want := "series-swap"
		if rapid.Bool().Draw(r, "year") {
			want, y = "series-year", y+10
		} else {
			if d > 12 || d-m < 2 && m-d < 2 {
				return // no other date, or one near enough to fit perhaps
			}
			m, d = d, m
		}
		e.First = dates.DayOf(y, m, d)
		e.Last, e.Date = e.First, e.First.String()
		if m == 2 && d == 29 || e.First == was {
			return
		}
		vs := verdicts(same)
		if v := vs[e]; len(vs) != 1 || v.code != want || v.fits != was {
			t.Fatalf("%s for %s: %d verdicts, %q %s, not %s", e.First, was, len(vs), v.code, v.fits, want)
		}
	})
}

// TestMidst: each number is judged in one of its two stretches, with half a
// step of numbers on either side in it.
func TestMidst(t *testing.T) {
	for serial := uint32(1); serial < 500; serial++ {
		n := 0
		for _, k := range bySeries.Keys(nil, collectedBy("rask s", book.Shown{CollNo: strconv.Itoa(int(serial)), Dated: true})) {
			if midst(k, serial) {
				n++
			}
		}
		if n != 1 {
			t.Fatalf("%d is judged in %d stretches", serial, n)
		}
	}
}
