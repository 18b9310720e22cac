package check

import (
	"blotter/ledger"
	"blotter/ledger/reading"
)

var settledRules = []Rule{
	{Code: "sic-code", Severity: ledger.Warning,
		Says: "A sic entry names the code of a finding.",
		Why:  "With another word it settles nothing, and the finding comes back.",
	},
	{Code: "sic-error", Severity: ledger.Warning,
		Says: "A sic entry settles a warning; an error is mended.",
		Why:  "What harms the ledger cannot be let stand.",
	},
	{Code: codeIdle, Severity: ledger.Warning,
		Says: "A sic entry settles a warning that still arises, on its record or between it and another.",
		Why:  "Once the words are mended it settles nothing, and would hide the next slip of the same kind.",
	},
}

// codeIdle is told of when everything else about a record is.
const codeIdle = "sic-idle"

const idleMessage = "settles nothing: the warning does not arise any more, and the next of its kind would be hidden"

// The rules of this family look into the list of rules, so they are tied in
// when the program starts.
func init() {
	settledRules[0].One = sicCode
	settledRules[1].One = sicError
}

func sicCode(d *reading.Reading, say say) {
	for i, s := range d.Record.Sic {
		if s.Code.Set() && !Known(s.Code.Text) {
			say(at(s.Code, nth("sic", i, "code")), words{"no finding has this code, so nothing is settled by it",
				"blotter check --explain CODE says what a code means; it stands in brackets at the end of each finding."})
		}
	}
}

func sicError(d *reading.Reading, say say) {
	for i, s := range d.Record.Sic {
		if severity, ok := severityOf(s.Code.Text); ok && severity == ledger.Error {
			say(at(s.Code, nth("sic", i, "code")), words{"is an error, which cannot be let stand: it harms the ledger",
				"blotter check --explain " + s.Code.Text})
		}
	}
}

// severityOf is the severity of a code, before any museum raises it.
func severityOf(code string) (ledger.Severity, bool) {
	for _, r := range Rules() {
		if r.Code == code {
			return r.Severity, true
		}
	}
	for _, r := range ledger.Rules() {
		if r.Code == code {
			return r.Severity, true
		}
	}
	return 0, false
}
