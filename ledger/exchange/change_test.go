package exchange

import (
	"fmt"
	"testing"

	"blotter/ledger"
)

func record(t *testing.T, text string) *ledger.Record {
	t.Helper()
	r, fs := ledger.Decode("specimens/000/00/LK7-0000001.yaml", []byte("specimen: LK7-0000001\nentry: draft\n"+text))
	for _, f := range fs {
		if f.Severity == ledger.Error {
			t.Fatalf("%v\n%s", f, text)
		}
	}
	return r
}

const det = "determinations:\n  - {name: Ranunculus acris, by: A. Vik, date: \"1931\"}\n"
const det2 = "  - {name: Ranunculus repens, by: O. Lie, date: \"1950\"}\n"
const det3 = "  - {name: Caltha palustris, by: T. Aune, date: \"2026\"}\n"

// Three versions of the words of one row and its record, by hand.
func TestCompare(t *testing.T) {
	cases := []struct{ name, reason, was, is, here, alters, added, conflicts, last string }{
		{"nothing new", "the row is as it was", "habitat: wood\n", "habitat: wood\n", "habitat: meadow\n", "", "", "", ""},
		{"changed", "nobody touched the record", "habitat: wood\n", "habitat: scree\n", "habitat: wood\n", "habitat wood>scree", "", "", ""},
		{"changed alike", "somebody corrected both", "habitat: wood\n", "habitat: scree\n", "habitat: scree\n", "", "", "", ""},
		{"both changed", "a person's words are never overwritten", "habitat: wood\n", "habitat: scree\n", "habitat: fen\n", "", "", "habitat wood>scree here fen", ""},
		{"emptied", "the row has nothing there now", "habitat: wood\n", "", "habitat: wood\n", "habitat wood>", "", "", ""},
		{"filled", "the row had nothing there", "", "habitat: wood\n", "", "habitat >wood", "", "", ""},
		{"list", "a list of words is compared as a whole", "associates: [A b]\n", "associates: [A b, C d]\n", "associates: [A b]\n", "associates A b>A b; C d", "", "", ""},
		{"opinion added", "opinions are only appended", det, det + det2, det, "", "Ranunculus repens, O. Lie, 1950", "", "Ranunculus repens"},
		{"opinion added below another's", "a person determined it meanwhile", det, det + det2, det + det3, "", "Ranunculus repens, O. Lie, 1950", "", "Caltha palustris"},
		{"newer opinion than another's", "the date says which comes last", det, det + det3, det + det2, "", "Caltha palustris, T. Aune, 2026", "", "Caltha palustris"},
		{"opinion without a date", "an undated name of an old list is not the newest", det, det + "  - {name: Poa annua, by: unsigned, date: s.d.}\n", det + det3, "", "Poa annua, unsigned, s.d.", "", "Caltha palustris"},
		{"opinion added before", "an older slip found later", "determinations:\n" + det2, det + det2, "determinations:\n" + det2 + det3, "", "Ranunculus acris, A. Vik, 1931", "", "Caltha palustris"},
		{"opinion there already", "typed in by hand", det, det + det2, det + det2, "", "", "", ""},
		{"opinion altered", "opinions stay as they were given", det, "determinations:\n" + det2, det, "", "", "determinations Ranunculus acris, A. Vik, 1931>Ranunculus repens, O. Lie, 1950 here Ranunculus acris, A. Vik, 1931", ""},
		{"kept column", "words under import are a row's too", "import: {Shelf: K4}\n", "import: {Shelf: K5}\n", "import: {Shelf: K4}\n", "import.Shelf K4>K5", "", "", ""},
		{"origin", "where it comes from is not what it says", "import: {file: a.csv}\n", "import: {file: b.csv}\n", "import: {file: a.csv}\n", "", "", "", ""},
		{"signature of a reading", "the importer signs on another day", "read: {date: {is: 1931-06-14, by: A, date: 2025-01-01}}\n", "read: {date: {is: 1931-06-14, by: B, date: 2026-01-01}}\n", "read: {date: {is: 1931-06-14, by: A, date: 2025-01-01}}\n", "", "", "", ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			made, now := record(t, c.is), record(t, c.here)
			got := Compare(NewBase(record(t, c.was)), made, now)
			alters, added, conflicts := "", "", ""
			for _, a := range got.Alters {
				alters += fmt.Sprintf("%s %s>%s", a.Field, a.Was, a.Is)
			}
			for _, a := range got.Added {
				added += a.Is
			}
			for _, a := range got.Conflicts {
				conflicts += fmt.Sprintf("%s %s>%s here %s", a.Field, a.Was, a.Is, a.Here)
			}
			if alters != c.alters || added != c.added || conflicts != c.conflicts {
				t.Fatalf("%s: got %q %q %q, want %q %q %q", c.reason, alters, added, conflicts, c.alters, c.added, c.conflicts)
			}
			text, err := ledger.Edit(ledger.Encode(now), got.Ops...)
			if err != nil {
				t.Fatal(err)
			}
			after, _ := ledger.Decode(now.Path, text)
			if c.last != "" && after.Determinations[len(after.Determinations)-1].Name.Text != c.last {
				t.Errorf("the last opinion is %+v, want %s", after.Determinations, c.last)
			}
			if again := Compare(NewBase(made), made, after); len(got.Conflicts) == 0 && !again.None() {
				t.Errorf("after its own edits the row still has %+v", again)
			}
		})
	}
}

// A person's words between two versions of the file are not the row's.
func TestBaseLeavesOutWhatPersonsChanged(t *testing.T) {
	first := record(t, "habitat: wood\nremarks: one\n")
	person := record(t, "habitat: fen\nremarks: one\n")
	second := record(t, "habitat: fen\nremarks: two\n")
	base := NewBase(first)
	base.Corrected(person, second)
	got := Compare(base, record(t, "habitat: scree\nremarks: three\n"), second)
	if len(got.Alters) != 1 || got.Alters[0].Field != "remarks" || len(got.Conflicts) != 1 || got.Conflicts[0].Was != "wood" {
		t.Errorf("%+v", got)
	}
}
