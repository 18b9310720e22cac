package ledger

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"
)

// TestDarwinCoreTerms holds the terms of the field table to the list of
// current terms that the Darwin Core maintenance group publishes
// (standards/dwc/current_terms.csv beside the project, when it is there).
func TestDarwinCoreTerms(t *testing.T) {
	file := "../../shared/standards/dwc/current_terms.csv"
	if dir := os.Getenv("BLOTTER_ORACLES"); dir != "" {
		file = dir + "/../standards/dwc/current_terms.csv"
	}
	f, err := os.Open(file)
	if err != nil {
		t.Skip("the list of Darwin Core terms is not here")
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	terms := map[string]bool{}
	for _, row := range rows {
		terms[row[0][strings.LastIndexByte(row[0], '/')+1:]] = true
	}
	for k := range plans() {
		for _, f := range FieldsOf(FileKind(k)) {
			if f.DwC != "" && !terms[f.DwC] {
				t.Errorf("%s: %s is no Darwin Core term", f.Path, f.DwC)
			}
		}
	}
}
