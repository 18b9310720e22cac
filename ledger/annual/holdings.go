package annual

import (
	"slices"
	"strings"

	"blotter/ledger/dates"
)

// holdings are opening, in, out and closing by the way specimens came.
type holdings map[string]*balance

// balance is opening + in - out = closing of one way.
type balance struct {
	opening, in, out, closing int
	left                      map[string]int // of out, by how they went
}

// add counts one specimen. One that came and went within the year is in and
// out; one found again after it was given up counts as in.
func (h holdings) add(s stay, from, to dates.Day) {
	b := h[s.way]
	if b == nil {
		b = &balance{left: map[string]int{}}
		h[s.way] = b
	}
	came := s.came >= from && s.came <= to && !s.teaching
	if s.opened {
		b.opening++
	}
	if s.closed {
		b.closing++
	}
	if !s.opened && (s.closed || came) {
		b.in++
	}
	if !s.closed && (s.opened || came) {
		b.out++
		b.left[s.left]++
	}
}

// words of the ways and ends, as the report shows them.
var wayWords = map[string]string{
	before: "here before the ledger", noLot: "in no lot", collected: "collected by the museum", "gift": "gifts", "exchange": "exchange",
	"purchase": "bought", "bequest": "bequests", "transfer": "transfers", "found-in-collection": "found in the collection", "unknown": "of unknown source",
}

func wayWord(way string) string {
	if w := wayWords[way]; w != "" {
		return w
	}
	return strings.ReplaceAll(way, "-", " ")
}

func (h holdings) section(key, title string) Section {
	s := Section{Key: key, Title: title, Notes: []string{
		"Specimens that have a record, by the way they came. Opening + in - out = closing.",
		"One that no lot names was here before the ledger, unless it was collected later: then it counts from the day of collecting, as in no lot.",
	}}
	var ways []string
	var sum balance
	for way, b := range h {
		if b.opening+b.in+b.out+b.closing > 0 {
			ways = append(ways, way)
		}
		sum.opening, sum.in, sum.out, sum.closing = sum.opening+b.opening, sum.in+b.in, sum.out+b.out, sum.closing+b.closing
	}
	slices.Sort(ways)
	s.Rows = append(s.Rows, Row{Key: "opening", Label: "opening", N: sum.opening})
	for _, way := range ways {
		if n := h[way].in; n > 0 {
			s.Rows = append(s.Rows, Row{Key: "in." + way, Label: "in: " + wayWord(way), N: n})
		}
	}
	s.Rows = append(s.Rows, Row{Key: "in", Label: "in, together", N: sum.in})
	s.Rows = append(s.Rows, h.leftRows()...)
	s.Rows = append(s.Rows, Row{Key: "out", Label: "out, together", N: sum.out}, Row{Key: "closing", Label: "closing", N: sum.closing})
	for _, way := range ways {
		if b := h[way]; b.closing > 0 {
			s.Rows = append(s.Rows, Row{Key: "closing." + way, Label: "of these " + wayWord(way), N: b.closing, Of: sum.closing})
		}
	}
	return s
}

// leftRows are the specimens that went, by how.
func (h holdings) leftRows() []Row {
	left := map[string]int{}
	for _, b := range h {
		for how, n := range b.left {
			left[how] += n
		}
	}
	var hows []string
	for how := range left {
		hows = append(hows, how)
	}
	slices.Sort(hows)
	var rows []Row
	for _, how := range hows {
		rows = append(rows, Row{Key: "out." + how, Label: "out: " + wayWord(how), N: left[how]})
	}
	return rows
}
