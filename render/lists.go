package render

import (
	"strings"

	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/render/page"
)

// maxRows stand under one heading; a longer list is split by decade of
// collecting.
const maxRows = 200

// rows are the sheets of a list by day of collecting; once as in row.
func (s *shelf) rows(list []*book.Entry, once string) []page.Block {
	return s.grouped(list, once, 10)
}

// grouped are rows, a long list under headings of so many years each.
func (s *shelf) grouped(list []*book.Entry, once string, years int) []page.Block {
	if len(list) <= maxRows {
		return []page.Block{s.rowList(byDate(list), once)}
	}
	var out []page.Block
	for _, sp := range spansOf(list, years) {
		out = append(out, page.Group{Heading: page.Said(s.spanWords(sp)), Blocks: []page.Block{s.rowList(byDate(sp.sheets), once)}})
	}
	return out
}

func (s *shelf) rowList(list []*book.Entry, once string) page.Rows {
	out := page.Rows{List: make([]page.Row, len(list))}
	for i, e := range list {
		out.List[i] = s.row(e, once)
	}
	return out
}

// minChart is the least number of sheets that is drawn as a chart.
const minChart = 10

// monthChart counts sheets by month of collecting.
func (s *shelf) monthChart(list []*book.Entry) []page.Block {
	if len(list) < minChart {
		return nil
	}
	var n [12]int
	unknown := 0
	for _, e := range list {
		if !e.Dated {
			unknown++
			continue
		}
		_, m1, _ := e.First.Date()
		_, m2, _ := e.Last.Date()
		if m1 != m2 || e.Last-e.First > 31 {
			unknown++
			continue
		}
		n[m1-1]++
	}
	var bars []page.Bar
	for i, v := range n {
		bars = append(bars, page.Bar{Label: s.lang.MonthsAbb[i], N: v})
	}
	long := func(i int) string { return s.lang.Months[i] }
	return s.chart(bars, unknown, s.lang.Month, long, func(a, b int) string { return page.Fill(s.lang.FromTo, long(a), long(b)) })
}

// yearChart counts sheets by year, over 120 years by decade. Empty years stay
// empty.
func (s *shelf) yearChart(list []*book.Entry) []page.Block {
	if len(list) < minChart {
		return nil
	}
	count := map[int]int{}
	first, last, unknown := 0, 0, 0
	for _, e := range list {
		y, ok := yearOf(e)
		if !ok {
			unknown++
			continue
		}
		if len(count) == 0 {
			first, last = y, y
		}
		first, last = min(first, y), max(last, y)
		count[y]++
	}
	step, word := 1, s.lang.Year
	if last-first >= 120 {
		step, word = 10, s.lang.Decade
		first = first / 10 * 10
	}
	var bars []page.Bar
	for y := first; y <= last && len(count) > 0; y += step {
		b := page.Bar{Label: itoa(y)}
		for i := range step {
			b.N += count[y+i]
		}
		bars = append(bars, b)
	}
	span := func(a, b int) string {
		if a == b && step == 1 {
			return bars[a].Label
		}
		return page.Fill(s.lang.FromTo, bars[a].Label, itoa(atoi(bars[b].Label)+step-1))
	}
	return s.chart(bars, unknown, word, func(i int) string { return span(i, i) }, span)
}

func atoi(s string) int {
	n := 0
	for _, c := range s {
		n = n*10 + int(c-'0')
	}
	return n
}

// chart is the bars with the sentence that says where most are and where
// none; long names a bar in words, span a run of them.
func (s *shelf) chart(bars []page.Bar, unknown int, category string, long func(int) string, span func(a, b int) string) []page.Block {
	most := 0
	for _, b := range bars {
		most = max(most, b.N)
	}
	if most == 0 {
		return nil
	}
	var tops []string
	for i, b := range bars {
		if b.N == most {
			tops = append(tops, long(i))
		}
	}
	var sentence string
	if len(tops) <= 3 {
		sentence = page.Fill(s.lang.ChartMost, s.list(tops), page.Number(most))
	} else {
		sentence = page.Fill(s.lang.ChartEven, page.Number(most))
	}
	if a, b := longestGap(bars); b-a > 1 {
		sentence += page.Fill(s.lang.ChartNone, span(a, b-1))
	}
	if unknown > 0 {
		sentence += page.Fill(s.lang.ChartUnknown, page.Number(unknown))
		bars = append(bars, page.Bar{Label: s.lang.DateNotKnown, N: unknown, Doubt: true})
	}
	return []page.Block{page.Chart{Sentence: page.Said(sentence + "."), Category: page.Said(category), Measure: page.Said(s.lang.SheetsWord), Bars: bars}}
}

// longestGap is the longest run of empty bars between two that are not.
func longestGap(bars []page.Bar) (from, to int) {
	start := -1
	seen := false
	for i, b := range bars {
		switch {
		case b.N > 0:
			if seen && start >= 0 && i-start > to-from {
				from, to = start, i
			}
			seen, start = true, -1
		case start < 0:
			start = i
		}
	}
	return from, to
}

// years is "1871 to 2026" of a list; "" when no day is known.
func (s *shelf) yearsOf(list []*book.Entry) string {
	var first, last dates.Day
	known := false
	for _, e := range list {
		if !e.Dated {
			continue
		}
		if !known {
			first, last, known = e.First, e.Last, true
		}
		first, last = min(first, e.First), max(last, e.Last)
	}
	switch {
	case !known:
		return ""
	case first.Year() == last.Year():
		return itoa(first.Year())
	}
	return page.Fill(s.lang.FromTo, itoa(first.Year()), itoa(last.Year()))
}

// heldNotice says how many of a list are shown without their place.
func (s *shelf) heldNotice(lists ...[]*book.Entry) []page.Notice {
	n := 0
	for _, list := range lists {
		for _, e := range list {
			n += boolInt(hidden(e))
		}
	}
	if n == 0 {
		return nil
	}
	text := page.Fill(s.lang.HeldCount, s.sheetsWord(n))
	return []page.Notice{{Kind: page.WithheldNotice, Word: page.Said(s.lang.PlacesWithheldWord), Text: []page.Part{said(text)}}}
}

// newPage is a page that is no specimen's.
func (s *shelf) newPage(a page.Address, title string, heading ...page.Part) *page.Page {
	return &page.Page{Address: a, Title: title, Heading: heading, Twinless: s.in.Options.HTMLOnly}
}

func section(p *page.Page, id, heading string, blocks ...page.Block) {
	if len(blocks) > 0 {
		p.Sections = append(p.Sections, page.Section{ID: id, Heading: page.Said(heading), Blocks: blocks})
	}
}

func placeWords(e *book.Entry) string {
	var out []string
	for _, w := range []string{e.District, e.Province, e.Country} {
		if !absent(w) {
			out = append(out, w)
		}
	}
	return strings.Join(out, ", ")
}
