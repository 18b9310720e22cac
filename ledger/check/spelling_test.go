package check_test

import (
	"testing"

	"blotter/ledger/check"
	"blotter/ledger/names"
)

// Whatever the reader of names warns of has a rule.
func TestEveryWarningOfNamesHasARule(t *testing.T) {
	codes := map[string]bool{}
	for _, r := range check.Rules() {
		codes[r.Code] = true
	}
	for _, c := range names.Codes {
		if !codes[c] {
			t.Errorf("no rule passes on %s", c)
		}
	}
}
