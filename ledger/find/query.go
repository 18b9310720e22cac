// Package find is the language in which sheets are looked for: words,
// phrases and field:value, joined by "and". It reads a query and says whether
// a sheet matches it; it knows no files and no commands. The catalogue's
// search takes the same words.
//
//	ranunculus place:Voss year:1980..1989 not is:withdrawn
package find

import (
	"slices"
	"strings"

	"blotter/ledger/dates"
	"blotter/ledger/work"
)

// Query is a query as read: every term must hold.
type Query struct {
	terms []term
}

// Empty reports whether the query has no term; it then matches every sheet.
func (q Query) Empty() bool { return len(q.terms) == 0 }

// term is one condition.
type term struct {
	not   bool
	field string   // "" for words found anywhere; else a key of shortFields or a path of the field table
	words []string // folded, in order; a phrase when more than one
	text  string   // as typed, for String

	lo, hi       float64 // of elevation, in metres
	first, last  dates.Day
	element      int  // of has and lacks: the place of an element of MIDS, from 1; 0: a field
	onlyA, onlyB bool // the span has no start; has no end
}

// shortFields are the names that stand for something other than one field of
// the record, with what they mean.
var shortFields = []struct{ name, means string }{
	{"number", "the sheet's number"},
	{"name", "the name that stands"},
	{"genus", "its genus"},
	{"family", "its family"},
	{"was", "any name that does not stand any more"},
	{"by", "who determined it, at any time"},
	{"collector", "who collected it, companions too"},
	{"place", "country, province, district or locality"},
	{"year", "year of collecting: 1987, 1980..1989, ..1950"},
	{"date", "day of collecting, or a span: 1987-07, 1987-06-01..1987-08-31"},
	{"elevation", "metres above the sea: 300, 200..400, ..300"},
	{"mids", "level of MIDS, from -1 to 3: 1, 0..1"},
	{"is", "type, suspected, withheld, withdrawn, divided (named before its name was divided among others), draft, stub, full, unprinted (a label or slip waits to be printed), reprint (one that was printed would read otherwise now); or where it is: " + placeWords(", ")},
	{"has", "the record has this field, or this element of MIDS: has:mids.Media"},
	{"lacks", "the record does not have this field or element: lacks:mids.Media"},
}

// ShortFields lists the short names and what they mean, two strings each.
func ShortFields() [][2]string {
	all := make([][2]string, len(shortFields))
	for i, f := range shortFields {
		all[i] = [2]string{f.name, f.means}
	}
	return all
}

func isShort(name string) bool {
	for _, f := range shortFields {
		if f.name == name {
			return true
		}
	}
	return false
}

// states are the words that is: takes.
var states = []string{"type", "suspected", "withheld", "withdrawn", "divided", "draft", "stub", "full", Unprinted, Reprint}

// States that the printings tell, and not the record.
const (
	Unprinted = "unprinted" // a label or slip of it waits to be printed
	Reprint   = "reprint"   // a paper of it that was printed would read otherwise now
)

// isPlace reports whether a word of is: asks where a sheet is.
func isPlace(word string) bool { return slices.Contains(work.Places(), work.Place(word)) }

// placeWords are the words of is: that ask where a sheet is.
func placeWords(between string) string {
	var all []string
	for _, p := range work.Places() {
		all = append(all, string(p))
	}
	return strings.Join(all, between)
}

// String is the query in a form that reads to the same query.
func (q Query) String() string {
	var parts []string
	for _, t := range q.terms {
		s := quoted(t.text)
		if t.field != "" {
			s = t.field + ":" + s
		}
		if t.not {
			s = "not " + s
		}
		parts = append(parts, s)
	}
	return strings.Join(parts, " ")
}

// quoted is always in quotes, so that no word in it is taken for syntax.
func quoted(s string) string { return `"` + s + `"` }
