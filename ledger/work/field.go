package work

import (
	"slices"
	"strconv"
	"strings"

	"blotter/ledger/dates"
)

// SamePerson reports whether two spellings name one person, as far as
// people.yaml and the initials tell.
func (w *Works) SamePerson(a, b string) bool {
	people := &w.book.Museum.People
	return a != "" && b != "" && (strings.EqualFold(a, b) || identify(people, a).same(identify(people, b)))
}

// AllowsPerson reports whether a permit names a person; one that names nobody
// allows whoever works for its holder.
func (w *Works) AllowsPerson(f *File, who string) bool {
	for _, l := range f.Work.Permit.Persons {
		if w.SamePerson(l.Text, who) {
			return true
		}
	}
	return len(f.Work.Permit.Persons) == 0
}

// Series is a collector's run of numbers: what stands before the figures, and
// the highest figures used.
type Series struct {
	Stem   string
	Last   int
	Digits int       // of the last, with leading noughts
	Day    dates.Day // the latest day of gathering or pressing; 0: none is dated
}

// After is the number so many after the last.
func (s Series) After(n int) string {
	figures := strconv.Itoa(s.Last + n)
	return s.Stem + strings.Repeat("0", max(s.Digits-len(figures), 0)) + figures
}

// SeriesOf are the runs of numbers that a collector has used, in records and in
// works (presses among them), the one used latest first. A letter behind the
// figures is a part of a gathering and counts with it.
func (w *Works) SeriesOf(who string) []Series {
	is := map[string]bool{}
	same := func(words string) bool {
		known, ok := is[words]
		if !ok {
			known = w.SamePerson(words, who)
			is[words] = known
		}
		return known
	}
	runs := map[string]Series{}
	use := func(no string, day dates.Day) {
		stem, figures, ok := cutSeries(no)
		if !ok {
			return
		}
		s, n := runs[stem], atoiOf(figures)
		s.Stem, s.Day = stem, max(s.Day, day)
		if n >= s.Last {
			s.Last, s.Digits = n, len(figures)
		}
		runs[stem] = s
	}
	for e := range w.book.All() {
		if e.CollNo != "" && same(e.Collector) {
			use(e.CollNo, e.Last)
		}
	}
	for _, e := range w.Events() {
		for _, it := range e.Items {
			if it.Who != "" && same(it.Who) {
				all := figuresOf(it.No, it.LastN)
				use(all[len(all)-1], e.Day)
			}
		}
	}
	var out []Series
	for _, s := range runs {
		out = append(out, s)
	}
	slices.SortFunc(out, func(a, b Series) int {
		if a.Day != b.Day {
			return int(b.Day) - int(a.Day)
		}
		if a.Last != b.Last {
			return b.Last - a.Last
		}
		return strings.Compare(a.Stem, b.Stem)
	})
	return out
}

// cutSeries parts a collector's number: SR-1207a into SR- and 1207.
func cutSeries(no string) (stem, figures string, ok bool) {
	no = strings.TrimRight(strings.TrimSpace(no), "abcdefghijklmnopqrstuvwxyz")
	stem = strings.TrimRight(no, "0123456789")
	figures = no[len(stem):]
	return stem, figures, figures != "" && len(figures) < 10
}

func atoiOf(figures string) int {
	n, _ := strconv.Atoi(figures) // figures alone, fewer than ten
	return n
}
