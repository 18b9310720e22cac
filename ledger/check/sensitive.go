package check

import (
	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/reading"
)

var sensitiveRules = []Rule{
	{Code: "sensitive-category", Severity: ledger.Warning,
		Says: "A sensitive record has a category, 1 to 4.",
		Why:  "The category says how much of the place may be shown. Until there is one, nothing finer than the province is.",
		One:  sensitiveCategory},
	{Code: "sensitive-review", Severity: ledger.Warning,
		Says: "A sensitive record says when it is looked at again.",
		Why:  "What was at risk once need not be for ever, and a place withheld for ever is lost to science.",
		One:  sensitiveReview},
}

func sensitiveCategory(d *reading.Reading, say say) {
	s := d.Record.Sensitive
	if !book.MarkedSensitive(s) || s.Category.Set() {
		return
	}
	say(place{line: int(s.Line), col: 1, field: "sensitive.category"}, words{"has no category, so it is withheld as strictly as the strictest",
		"1 most sensitive, 4 least: blotter set " + numberOf(d) + " sensitive.category=2 --why TEXT"})
}

func sensitiveReview(d *reading.Reading, say say) {
	s := d.Record.Sensitive
	if !book.MarkedSensitive(s) || s.Review.Set() {
		return
	}
	say(place{line: int(s.Line), col: 1, field: "sensitive.review"}, words{"nothing says when this is to be looked at again",
		"blotter set " + numberOf(d) + " sensitive.review=YEAR --why TEXT"})
}
