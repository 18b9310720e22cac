package check_test

import (
	"strings"
	"testing"

	"blotter/ledger"
	"blotter/ledger/check"
)

func TestExplain(t *testing.T) {
	for _, r := range check.Rules() {
		text, ok := check.Explain(r.Code)
		if !ok || !strings.HasPrefix(text, r.Code+" (") || !strings.Contains(text, r.Says) || !strings.Contains(text, r.Why) {
			t.Errorf("%s: %q", r.Code, text)
		}
	}
	for _, r := range ledger.Rules() {
		if text, ok := check.Explain(r.Code); !ok || !strings.Contains(text, r.Meaning) {
			t.Errorf("%s: %q", r.Code, text)
		}
	}
	if _, ok := check.Explain("date-wrong"); ok {
		t.Error("a code that does not exist is explained")
	}
	text, _ := check.Explain("date-two-ways")
	if !strings.Contains(text, "blotter accept NUMBER date-two-ways --why TEXT") {
		t.Errorf("no way to let it stand: %q", text)
	}
}
