package hooks

import (
	"os"
	"strings"
	"testing"

	"blotter/ledger"
)

// TestCodesStandInFormat holds FORMAT.md's table of rules about entries to
// Codes, row by row.
func TestCodesStandInFormat(t *testing.T) {
	text, err := os.ReadFile("../ledger/FORMAT.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range Codes() {
		need := "should"
		if c.Severity == ledger.Error {
			need = "must"
		}
		if row := "| " + c.Code + " | " + need + " | " + c.Meaning + " |"; !strings.Contains(string(text), row) {
			t.Errorf("FORMAT.md lacks the row\n%s", row)
		}
	}
}
