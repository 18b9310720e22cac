package reading

import (
	"strconv"

	"blotter/ledger"
)

// Act is something that was done with the specimen and has a date, other than
// its determinations: an annotation, a type statement, a fate, a picture.
type Act struct {
	List string // annotations, types, fate, images, duplicates, filed_under, checked, sic, read
	Nth  int    // place in the list, from 1; 0: not in a list
	Of   ledger.Leaf
	Date Date
}

// Field is the dotted path of the act's date.
func (a *Act) Field() string {
	if a.Nth == 0 {
		return a.List + ".date"
	}
	return a.List + "." + strconv.Itoa(a.Nth) + ".date"
}

// acts are those of a record, in its order.
func (x *Reader) acts(r *ledger.Record) []Act {
	var out []Act
	add := func(list string, nth int, l ledger.Leaf) {
		if l.Set() {
			out = append(out, Act{list, nth, l, x.date(l.Text, nil, x.c.Slips())})
		}
	}
	add("filed_under", 0, r.FiledUnder.Date)
	for i := range r.Types {
		add("types", i+1, r.Types[i].Date)
	}
	for i := range r.Annotations {
		add("annotations", i+1, r.Annotations[i].Date)
	}
	for i := range r.Duplicates {
		add("duplicates", i+1, r.Duplicates[i].Date)
	}
	for i := range r.Images {
		add("images", i+1, r.Images[i].Date)
	}
	add("read.date", 0, r.Read.Date.Date)
	add("read.country", 0, r.Read.Country.Date)
	add("read.person", 0, r.Read.Person.Date)
	add("read.position", 0, r.Read.Position.Date)
	add("read.elevation", 0, r.Read.Elevation.Date)
	for i := range r.Sic {
		add("sic", i+1, r.Sic[i].Date)
	}
	add("checked", 0, r.Checked.Date)
	add("sensitive", 0, r.Sensitive.Date)
	for i := range r.Fate {
		add("fate", i+1, r.Fate[i].Date)
	}
	return out
}
