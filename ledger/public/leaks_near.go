package public

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/people"
	"blotter/ledger/reading"
)

// near is what must stand near a collector's number for it to tell a
// gathering: the collector's family name within three words, or the day within
// eight. A number alone may be anything.
type near struct {
	family uint64
	dates  [][]uint64
}

const (
	familyWithin = 3 // words between
	dateWithin   = 8
	nearBytes    = 160 // looked at before and behind
	rangeMost    = 100 // numbers in a range; our choice, no source
)

// stands reports whether the number at text[start:end] has its collector or
// its day beside it in the same row.
func (n *near) stands(text []byte, start, end int, lines bool) bool {
	if n.inAnother(text, start, end) {
		return false
	}
	before := text[max(0, start-nearBytes):start]
	if i := lastRow(before, lines); i >= 0 {
		before = before[i+1:]
	}
	behind := text[end:min(len(text), end+nearBytes)]
	if i := firstRow(behind, lines); i >= 0 {
		behind = behind[:i]
	}
	var b, f []uint64
	wordsOf(before, func(h uint64, _, _ int) { b = append(b, h) })
	wordsOf(behind, func(h uint64, _, _ int) { f = append(f, h) })
	if n.family != 0 && (slices.Contains(b[max(0, len(b)-familyWithin):], n.family) || slices.Contains(f[:min(len(f), familyWithin)], n.family)) {
		return true
	}
	b, f = b[max(0, len(b)-dateWithin-3):], f[:min(len(f), dateWithin+3)]
	return slices.ContainsFunc(n.dates, func(d []uint64) bool { return holds(b, d) || holds(f, d) })
}

// inAnother reports whether the number at text[start:end] is the last part of
// a number of another kind that hyphens join, as 739 is in the accession
// 1898-739: the part before it holds figures, and none is the collector's family
// name, belongs to the day (2025-1207) or begins a range that ends here.
func (n *near) inAnother(text []byte, start, end int) bool {
	from := start
	for from > 0 && start-from < nearBytes && (text[from-1] == '-' || folded[text[from-1]&0x7f] != 0 && text[from-1] < 0x80) {
		from--
	}
	if from == start || text[start-1] != '-' || end < len(text) && text[end] == '-' {
		return false
	}
	figures := false
	for part := range bytes.SplitSeq(text[from:start-1], []byte("-")) {
		if len(part) == 0 || rangeTo(part, text[start:end]) {
			return false
		}
		for _, h := range hashesOf(string(part)) {
			if h == n.family || slices.ContainsFunc(n.dates, func(d []uint64) bool { return slices.Contains(d, h) }) {
				return false
			}
		}
		figures = bytes.ContainsAny(part, "0123456789")
	}
	return figures
}

// rangeTo reports whether first and last may be the ends of a range of
// gatherings, as 1200-1207.
func rangeTo(first, last []byte) bool {
	a, err := strconv.Atoi(string(first))
	b, err2 := strconv.Atoi(string(last))
	return err == nil && err2 == nil && a < b && b-a <= rangeMost
}

func lastRow(text []byte, lines bool) int {
	i := bytes.LastIndexByte(text, rowBreak)
	if lines {
		i = max(i, bytes.LastIndexByte(text, '\n'))
	}
	return i
}

func firstRow(text []byte, lines bool) int {
	i := bytes.IndexByte(text, rowBreak)
	if j := bytes.IndexByte(text, '\n'); lines && j >= 0 && (i < 0 || j < i) {
		return j
	}
	return i
}

// holds reports whether part stands in list as a run.
func holds(list, part []uint64) bool {
	for i := 0; i+len(part) <= len(list); i++ {
		if slices.Equal(list[i:i+len(part)], part) {
			return true
		}
	}
	return false
}

// gatheringOf are the values of a collector's number that is withheld. A short
// number, and one that may be a year, counts only directly beside the
// collector's name and the day.
func (g *gatherer) gatheringOf(r *ledger.Record, d *reading.Reading, record int32) {
	number := hashesOf(r.CollNo.Text)
	if len(number) == 0 || len(number) > runLength || !strings.ContainsAny(r.CollNo.Text, "0123456789") {
		return
	}
	n := &near{family: familyOf(r.Collector.Text), dates: dayForms(d)}
	if clean := strings.Trim(r.CollNo.Text, " .0"); len(clean) >= 3 && !mayBeYear(clean) {
		g.add(value{kind: gathering, record: record, field: "coll_no", words: number, near: n})
		return
	}
	if n.family == 0 {
		return
	}
	for _, d := range n.dates {
		g.add(value{kind: gathering, record: record, field: "coll_no", words: append(append([]uint64{n.family}, number...), d...)})
	}
}

func mayBeYear(number string) bool {
	return len(number) == 4 && (number[0] == '1' && number[1] >= '6' || strings.HasPrefix(number, "20"))
}

// familyOf is the family name of the first collector; 0 when there is none.
func familyOf(words string) uint64 {
	for _, p := range people.Read(words) {
		if h := hashesOf(p.Family); len(h) > 0 {
			return h[len(h)-1]
		}
	}
	return 0
}

var monthNames = strings.Fields("january february march april may june july august september october november december")

var romanMonths = strings.Fields("i ii iii iv v vi vii viii ix x xi xii")

// dayForms are the usual ways of writing the day of gathering; those of its
// words alone when it is no single day.
func dayForms(d *reading.Reading) [][]uint64 {
	out := [][]uint64{}
	words := d.Record.Date.Text
	if h := hashesOf(words); len(h) >= 2 && strings.ContainsAny(words, "0123456789") {
		out = append(out, h)
	}
	if !d.Date.Known || d.Date.First != d.Date.Last {
		return out
	}
	y, m, day := d.Date.First.Date()
	for _, form := range []string{
		fmt.Sprintf("%d %d %d", day, m, y), fmt.Sprintf("%02d %02d %d", day, m, y), fmt.Sprintf("%d %02d %02d", y, m, day),
		fmt.Sprintf("%d %s %d", day, monthNames[m-1], y), fmt.Sprintf("%s %d %d", monthNames[m-1], day, y),
		fmt.Sprintf("%d %s %d", day, monthNames[m-1][:3], y), fmt.Sprintf("%d %s %d", day, romanMonths[m-1], y),
	} {
		if h := hashesOf(form); !slices.ContainsFunc(out, func(o []uint64) bool { return slices.Equal(o, h) }) {
			out = append(out, h)
		}
	}
	return out
}
