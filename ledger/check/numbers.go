package check

import (
	"fmt"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
)

var numberRules = []Rule{
	{Code: "number-twice", Severity: ledger.Error,
		Says:  "A number stands in one file only, ignoring case.",
		Why:   "A number is one specimen for ever. Where two files bear it, labels, loans and citations lead to the wrong plant.",
		Of:    &byNumber,
		Group: numberTwice},
	{Code: "number-used", Severity: ledger.Error,
		Says: "A number that another specimen once bore is not used again.",
		Why:  "Labels and citations of the first specimen are still about. Only a number withdrawn as a typing mistake, which no sheet bore, is free again.",
		Join: numberUsed},
}

func numberTwice(g *group, say sayOf) {
	same := g.own()
	if len(same) < 2 {
		return
	}
	for i, e := range same {
		other := same[(i+1)%len(same)]
		say(e, place{line: int(e.Lines.Specimen), field: "specimen"}, words{
			fmt.Sprintf("the number %s stands also in %s; a number is one specimen for ever", e.Number, other.Path),
			"Give the one that was numbered last the next free number: blotter new takes it by itself."}, other)
	}
}

// numberUsed compares a record with the last one that bore its number and was
// taken away before it came.
func numberUsed(e *book.Entry, a *Around, say say) {
	if a.Former == nil {
		return
	}
	r := a.Former(e.Number)
	if r == nil || freed(r) || sameSpecimen(e, r) {
		return
	}
	say(place{line: int(e.Lines.Specimen), field: "specimen"}, words{
		fmt.Sprintf("the number %s was borne by another specimen, whose record was taken away; a number is never used twice", e.Number),
		"Bring the old record back from the history and give this one the next free number: blotter new takes it by itself."})
}

// freed reports whether a record was withdrawn as a typing mistake.
func freed(r *ledger.Record) bool {
	return len(r.Fate) > 0 && r.Fate[len(r.Fate)-1].Is.Text == "mistake"
}

// sameSpecimen reports whether a record may be of the specimen that r was of:
// nothing that says who collected what, when and where speaks against it.
func sameSpecimen(e *book.Entry, r *ledger.Record) bool {
	return agree([5]string{e.Collector, e.CollNo, e.Date, e.Country, e.Locality}, gatheredAs(r))
}

// AnotherSpecimen reports whether a record is of another specimen than the
// former record of its number, which was not free to be used again: the rule
// number-used, of two records.
func AnotherSpecimen(now, former *ledger.Record) bool {
	return !freed(former) && !agree(gatheredAs(now), gatheredAs(former))
}

// gatheredAs is who collected what, when and where.
func gatheredAs(r *ledger.Record) [5]string {
	return [5]string{r.Collector.Text, r.CollNo.Text, r.Date.Text, r.Place.Country.Text, r.Place.Locality.Text}
}

func agree(a, b [5]string) bool {
	for i := range a {
		if a[i] != "" && b[i] != "" && !strings.EqualFold(a[i], b[i]) {
			return false
		}
	}
	return true
}
