// Package reading reads every value of ONE record: where its words meet the
// readers of dates, places, names and people, and nowhere else. It is pure:
// a reading depends on the record and the museum's conventions alone, so it
// may be kept by (blob, conventions, Version). It looks up no accepted name
// and no person: what depends on another file is joined in ledger/book.
package reading

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/opinion"
)

// Version is raised whenever Of gives another answer for the same words; what
// was kept by an older one is then read anew.
const Version = 19

// Reading is one record with all of its values as read.
type Reading struct {
	Record *ledger.Record

	Who       string   // the collector named first: family name and first initial, folded; "": nobody
	Date      Date     // of gathering
	Position  Position // of gathering
	Elevation Length   // above sea level
	Country   Place    // what country it is now, when somebody said so

	Opinions []Opinion     // one for each determination, in the record's order
	Chain    opinion.Chain // what they amount to
	Filed    Name          // of filed_under; zero when the record has none
	Types    []Type        // one for each type entry, in the record's order
	Acts     []Act         // what else was done and has a date

	Fate     string    // "" while it is here; else the last fate, never "found"
	Cautions []Caution // what is written, then what is assumed
}

// Place is the words of a place and a person's reading of them.
type Place struct {
	Words  string
	ByHand *ledger.ReadValue // nil: nobody read it
}

// Of reads every value of r. It never refuses: what cannot be read says so.
func Of(r *ledger.Record, c Conventions) *Reading { return NewReader(c).Of(r) }

// Reader reads record after record. It remembers the names and dates it has
// read, which many records share; what it gives is what Of gives. It is not for several
// goroutines at once.
type Reader struct {
	c     Conventions
	names map[string]Name
	dates map[dateKey]dates.Reading
	whos  map[string]string
}

type dateKey struct {
	words     string
	firstYear int
}

// NewReader is a Reader by the conventions c.
func NewReader(c Conventions) *Reader {
	return &Reader{c: c, names: map[string]Name{}, dates: map[dateKey]dates.Reading{}, whos: map[string]string{}}
}

// remembered is how many names and dates a Reader remembers at most.
const remembered = 1 << 14

func (x *Reader) name(words string) Name {
	n, ok := x.names[words]
	if !ok {
		n = ReadName(words)
		if len(x.names) < remembered {
			x.names[words] = n
		}
	}
	return n
}

func (x *Reader) day(words string, o dates.Options) dates.Reading {
	key := dateKey{words, o.FirstYear}
	d, ok := x.dates[key]
	if !ok {
		d = dates.ReadWith(words, o)
		if len(x.dates) < remembered {
			x.dates[key] = d
		}
	}
	return d
}

// Of reads every value of r.
func (x *Reader) Of(r *ledger.Record) *Reading {
	d := &Reading{Record: r}
	d.Date = x.date(r.Date.Text, byHand(&r.Read.Date), x.c.Collected())
	d.Who = x.who(r.Collector.Text)
	d.Position = positionOf(r.Place, byHand(&r.Read.Position), d.Date)
	d.Elevation = lengthOf(r.Place.Elevation.Text, byHand(&r.Read.Elevation))
	d.Country = Place{Words: r.Place.Country.Text, ByHand: byHand(&r.Read.Country)}
	x.opinions(d)
	d.Types = x.types(r)
	d.Acts = x.acts(r)
	d.Fate = fateOf(r.Fate)
	d.Cautions = cautionsOf(r, d.Date, x.c)
	return d
}

// Full reports whether the record is ready to publish.
func (d *Reading) Full() bool { return d.Record.Entry.Text == string(ledger.Full) }

// byHand is nil for a reading that the record does not have.
func byHand(v *ledger.ReadValue) *ledger.ReadValue {
	if !v.Is.Set() {
		return nil
	}
	return v
}

// fateOf is the last fate; "" when there is none or the plant was found again.
func fateOf(fs []ledger.Fate) string {
	if len(fs) == 0 {
		return ""
	}
	if is := strings.TrimSpace(fs[len(fs)-1].Is.Text); is != "found" {
		return is
	}
	return ""
}
