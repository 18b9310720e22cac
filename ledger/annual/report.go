package annual

import (
	"context"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/reading"
	"blotter/ledger/work"
)

// Report is the figures of one year.
type Report struct {
	Year     int
	From, To dates.Day // the first and last day counted
	Whole    bool      // the year was over on the day of the report
	Sections []Section
}

// Section is the figures of one subject.
type Section struct {
	Key   string // for programs; the same for ever
	Title string
	Notes []string // what the figures are and are not
	Rows  []Row
	Chart bool // its rows are worth a picture
}

// Row is one figure.
type Row struct {
	Key   string // unique in its section
	Label string
	N     int
	Of    int    // what N is a part of; 0: of nothing
	Words string // a figure that is no count: 12.5 h, 47 %; "" for a count
}

// Source is what the figures are made of.
type Source struct {
	Works   *work.Works
	Load    func(context.Context, *book.Entry) (*ledger.Record, error) // a record with every word
	Entered bool                                                       // the ledger has a history
}

// Of works out the figures of a year up to a day: the whole year when the day
// lies behind it. The year must have begun on that day.
func Of(ctx context.Context, src Source, year int, on dates.Day) (*Report, error) {
	r := &Report{Year: year, From: dates.DayOf(year, 1, 1), To: dates.DayOf(year, 12, 31)}
	r.Whole = on >= r.To
	r.To = min(r.To, on)
	c := newCount(src, r.From, r.To)
	reader := reading.NewReader(c.museum.Conventions)
	for e := range c.book.All() {
		record, err := src.Load(ctx, e)
		if err != nil {
			return nil, err
		}
		c.add(e, reader.Opinions(record))
	}
	r.Sections = []Section{
		c.holdings.section("holdings", "What there is"), c.countedLots(), c.kinds(), c.done(), c.named(), c.lending(),
		c.waiting(), c.complete(), c.levels(),
		c.closing.families.section(), c.closing.countries.section(), c.closing.decades.section(), c.closing.collectors.section(),
		c.traps(), c.climate(),
	}
	kept := r.Sections[:0]
	for _, s := range r.Sections {
		if len(s.Rows) > 0 {
			kept = append(kept, s)
		}
	}
	r.Sections = kept
	return r, nil
}

// Find is the row of a section; false when the report has none such.
func (r *Report) Find(section, row string) (Row, bool) {
	for _, s := range r.Sections {
		if s.Key != section {
			continue
		}
		for _, x := range s.Rows {
			if x.Key == row {
				return x, true
			}
		}
	}
	return Row{}, false
}
