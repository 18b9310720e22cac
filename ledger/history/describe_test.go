package history

import (
	"testing"

	"blotter/ledger"
)

func record(t *testing.T, text string) *ledger.Record {
	t.Helper()
	r, fs := ledger.Decode("specimens/000/04/LK7-0000482.yaml", []byte(text))
	for _, f := range fs {
		if f.Severity == ledger.Error {
			t.Fatal(f)
		}
	}
	return r
}

const sheet = `specimen: LK7-0000482
entry: full
collector: Signe Rask
coll_no: "1207"
date: 14.vii.2025
place:
  country: Norway
  elevation: 384 m
determinations:
  - name: Ranunculus acris L.
    by: Signe Rask
    date: 2025-07-14
`

func TestDescribe(t *testing.T) {
	old := record(t, sheet)
	det := record(t, sheet+"  - name: Ranunculus acris subsp. pumilus\n    by: M. Ostrander\n    date: 2026-11-02\n")
	conf := record(t, sheet+"  - name: Ranunculus acris\n    kind: conf\n    by: M. Ostrander\n    date: 2026-11-02\n")
	mended := record(t, sheet)
	mended.Place.Elevation.Text = "348 m"
	mended.Habitat.Text = "Hay meadow"
	lost := record(t, sheet+"fate:\n  - is: lost\n    by: Tiril Aune\n    date: 2026-11-05\n    why: not in its folder\n")
	cases := []struct {
		name    string
		changes []RecordChange
		others  []string
		want    string
	}{
		{"new", []RecordChange{{"LK7-0000482", nil, old}}, nil,
			"LK7-0000482 new: Ranunculus acris L., Signe Rask 1207\n\nSheet: LK7-0000482 new\n"},
		{"determined", []RecordChange{{"LK7-0000482", old, det}}, nil,
			"LK7-0000482 det. Ranunculus acris subsp. pumilus, M. Ostrander\n\nSheet: LK7-0000482 determined\n"},
		{"confirmed", []RecordChange{{"LK7-0000482", old, conf}}, nil,
			"LK7-0000482 conf. Ranunculus acris, M. Ostrander\n\nSheet: LK7-0000482 confirmed\n"},
		{"corrected", []RecordChange{{"LK7-0000482", old, mended}}, nil,
			"LK7-0000482 corrected: place.elevation, habitat\n\nSheet: LK7-0000482 corrected\n"},
		{"withdrawn", []RecordChange{{"LK7-0000482", old, lost}}, nil,
			"LK7-0000482 withdrawn: lost\n\nSheet: LK7-0000482 withdrawn\n"},
		{"several new", []RecordChange{{"LK7-0000483", nil, old}, {"LK7-0000482", nil, old}}, nil,
			"2 new sheets, LK7-0000482 to LK7-0000483\n\nSheet: LK7-0000482 new\nSheet: LK7-0000483 new\n"},
		{"mixed", []RecordChange{{"LK7-0000482", old, det}, {"LK7-0000483", old, det}, {"LK7-0000484", nil, old}}, nil,
			"2 sheets determined, 1 new sheet\n\nSheet: LK7-0000482 determined\nSheet: LK7-0000483 determined\nSheet: LK7-0000484 new\n"},
		{"another file", nil, []string{"names/Ranunculaceae.yaml"}, "Ranunculaceae.yaml altered\n"},
	}
	for _, c := range cases {
		if got := Describe(c.changes, nil, c.others); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
}
