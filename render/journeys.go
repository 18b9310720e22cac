package render

import (
	"time"

	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/render/page"
)

// journeys are the runs of days, two or more without a gap, on which somebody
// collected, each with its places in order. Sheets of no sure day, those whose
// day is withheld among them, count for nothing here.
func (s *shelf) journeys(collected []*book.Entry) []page.Block {
	var sure []*book.Entry
	for _, e := range byDate(collected) {
		if e.Dated && e.First == e.Last && !e.Uncertain {
			sure = append(sure, e)
		}
	}
	var out page.Lines
	for len(sure) > 0 {
		n := 1
		for n < len(sure) && sure[n].First-sure[n-1].First <= 1 {
			n++
		}
		if run := sure[:n]; run[0].First != run[n-1].First {
			out.List = append(out.List, s.journey(run))
		}
		sure = sure[n:]
	}
	if len(out.List) == 0 {
		return nil
	}
	return []page.Block{out}
}

// journey is one run: its days, then place by place the sheets from there.
func (s *shelf) journey(run []*book.Entry) []page.Part {
	span := page.Fill(s.lang.FromTo, s.dayWords(run[0].First), s.dayWords(run[len(run)-1].First))
	line := []page.Part{said(span + ": ")}
	for i := 0; i < len(run); {
		n := 1
		for i+n < len(run) && placeWords(run[i+n]) == placeWords(run[i]) {
			n++
		}
		if i > 0 {
			line = append(line, said("; "))
		}
		if w := placeWords(run[i]); w == "" {
			line = append(line, said(s.lang.NoPlaceWords))
		} else {
			line = append(line, page.Person(w))
		}
		line = append(line, said(", "+s.sheetsWord(n)))
		i += n
	}
	return line
}

func (s *shelf) dayWords(d dates.Day) string {
	y, m, day := d.Date()
	return s.day(time.Date(y, time.Month(m), day, 12, 0, 0, 0, time.UTC))
}
