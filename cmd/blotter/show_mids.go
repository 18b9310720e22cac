package main

import (
	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/mids"
	"blotter/ledger/reading"
)

// midsOf is what a record gives of MIDS. A record that is shown is taken for
// entered where there is a history.
func (d *desk) midsOf(read *reading.Reading) mids.Set {
	m := &book.Museum{Museum: *d.museum}
	if src, err := d.read(ledger.PeopleFile); err == nil && src != nil {
		people, _ := ledger.DecodePeople(ledger.PeopleFile, src)
		m.People = book.NewPeople(people)
	}
	e := book.EntryOf(read, nil)
	return mids.OfEntry(&e, m, d.repo != nil)
}

// midsLine says the level and what the next one lacks.
func midsLine(set mids.Set) string {
	line := "MIDS level " + itoa(set.Level())
	if set.Level() < 0 {
		line = "no level of MIDS"
	}
	if lacks := lackWords(set); len(lacks) > 0 {
		line += "; level " + itoa(set.Level()+1) + " lacks " + joinNonEmpty(", ", lacks...)
	}
	return line
}

// lackWords is what the next level lacks, in plain words.
func lackWords(set mids.Set) []string {
	var lacks []string
	for _, e := range set.Lacks().Elements() {
		lacks = append(lacks, e.Says)
	}
	return lacks
}
