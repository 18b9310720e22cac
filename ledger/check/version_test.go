package check_test

import (
	"testing"

	"blotter/ledger/check"
	"blotter/ledger/ledgertest"
	"blotter/ledger/reading"
)

// TestVersion: a finding that changes asks for another Version.
func TestVersion(t *testing.T) {
	got := map[string]string{}
	for key, r := range ledgertest.Corpus(t, "../..") {
		r.Path = path482
		text := ""
		for _, f := range check.One(reading.Of(r, reading.Conventions{}), &standard) {
			text += f.String() + "\n" + f.Field + "\n" + f.Hint + "\n"
		}
		got[key] = text
	}
	ledgertest.Versioned(t, "testdata/findings.txt", check.Version, got)
}
