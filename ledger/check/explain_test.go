package check_test

import (
	"strings"
	"testing"

	"blotter/ledger"
	"blotter/ledger/check"
)

// TestCodeOf: every code is explained, and can be let stand when it is a
// warning of a record.
func TestCodeOf(t *testing.T) {
	if n := len(check.Codes()); n != len(check.Rules())+len(ledger.Rules()) {
		t.Errorf("%d codes", n)
	}
	for _, c := range check.Codes() {
		one, ok := check.CodeOf(c.Code)
		text := one.String()
		if !ok || one != c || !strings.HasPrefix(text, c.Code+" (") || !strings.Contains(text, c.Says) || !strings.Contains(text, c.Why) {
			t.Errorf("%s: %+v %q", c.Code, one, text)
		}
		if c.Settles != strings.Contains(text, "blotter accept NUMBER "+c.Code+" --why TEXT") || c.Settles && c.Severity == ledger.Error {
			t.Errorf("%s: %q", c.Code, text)
		}
	}
	if _, ok := check.CodeOf("date-wrong"); ok {
		t.Error("a code that does not exist is explained")
	}
	for code, want := range map[string]bool{"date-two-ways": true, "collno-twice": true, "number-folder": true, "sic-idle": false, "names-twice": false, "number-twice": false} {
		if c, _ := check.CodeOf(code); c.Settles != want {
			t.Errorf("%s can be let stand: %v", code, c.Settles)
		}
	}
}
