package check

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/reading"
)

var fateRules = []Rule{
	{Code: "fate-order", Severity: ledger.Warning,
		Says: "A specimen is found only after it was lost, and withdrawn only while it is here.",
		Why:  "The last entry holds. Two withdrawals in a row, or a find of what was never away, mean that an entry is missing or stands on the wrong record.",
		One:  fateOrder},
	{Code: "fate-to", Severity: ledger.Warning,
		Says: "A specimen exchanged or transferred says where it went, and one that is the same as another says which.",
		Why:  "The page of the number stays for ever and tells readers where to ask.",
		One:  fateTo},
}

func fateOrder(d *reading.Reading, say say) {
	away := false
	for i, f := range d.Record.Fate {
		found := strings.TrimSpace(f.Is.Text) == "found"
		switch {
		case found && !away:
			say(at(f.Is, nth("fate", i, "is")), words{"is found again, and nothing before it says that it was away",
				"Put the loss in before it. " + accept(numberOf(d), "fate-order")})
		case !found && away:
			say(at(f.Is, nth("fate", i, "is")), words{"is withdrawn a second time, and nothing between says that it was found",
				"If it was found: blotter found " + numberOf(d) + "   " + accept(numberOf(d), "fate-order")})
		}
		away = !found
	}
}

func fateTo(d *reading.Reading, say say) {
	for i, f := range d.Record.Fate {
		if f.To.Set() {
			continue
		}
		switch f.Is.Text {
		case "exchanged", "transferred":
			say(at(f.Is, nth("fate", i, "is")), words{"nothing says where it went, so nobody can ask for it there",
				set(numberOf(d), nth("fate", i, "to"), "MUSEUM")})
		case "same-as":
			say(at(f.Is, nth("fate", i, "is")), words{"nothing says which number it is the same as",
				set(numberOf(d), nth("fate", i, "to"), "NUMBER")})
		}
	}
}
