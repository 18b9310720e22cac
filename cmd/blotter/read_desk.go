package main

import (
	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/reading"
)

var (
	flagDatum = &flag{Name: "datum", Value: "DATUM", Help: "the datum of positions that do not state one, for example WGS84"}
	flagOrder = &flag{Name: "order", Value: "ORDER", Help: "how a date in figures is taken: day-month or month-day"}
)

// readDesk takes the habits and files of the ledger we stand in; outside of
// one there are none.
func (c *call) readDesk() (*readDesk, error) {
	x := &readDesk{call: c}
	if root, ok := ledgerAbove(c.Dir); ok {
		d := &desk{call: c, root: root}
		if err := x.files(d); err != nil {
			return nil, err
		}
		x.habits = reading.ConventionsOf(x.museum)
	}
	if o := c.opts.text("order"); o != "" {
		x.habits.Order = dates.OrderOf(o)
		if x.habits.Order == dates.Ask {
			return nil, misuse("--order is day-month or month-day, not %q", o)
		}
	}
	return x, nil
}

// files reads the museum's own files; their faults are check's affair.
func (x *readDesk) files(d *desk) error {
	for _, f := range []struct {
		path string
		take func(src []byte)
	}{
		{ledger.MuseumFile, func(src []byte) { x.museum, _ = ledger.DecodeMuseum(ledger.MuseumFile, src) }},
		{ledger.PlacesFile, func(src []byte) {
			list, _ := ledger.DecodePlaces(ledger.PlacesFile, src)
			x.gazetteer = reading.Gazetteer(list.Places)
		}},
		{ledger.PeopleFile, func(src []byte) {
			list, _ := ledger.DecodePeople(ledger.PeopleFile, src)
			x.people = book.NewPeople(list)
		}},
	} {
		src, err := d.read(f.path)
		if err != nil {
			return err
		}
		f.take(src)
	}
	return nil
}
