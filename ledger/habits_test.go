package ledger

import "testing"

// TestStandardReads: standard.yaml is a file of settings without a finding,
// or the first command that wants a habit would end in a panic.
func TestStandardReads(t *testing.T) {
	_, found := DecodeMuseum(MuseumFile, StandardText())
	for _, f := range found {
		if f.Code != "field-missing" {
			t.Error(f)
		}
	}
	if got := WithStandard(&Museum{}).Mounting.WeightHours.Text; got != "24" {
		t.Errorf("weight hours %q", got)
	}
}
