package history

import (
	"context"
	"testing"

	"blotter/ledger"
	"blotter/ledger/reading"

	"github.com/google/go-cmp/cmp"
)

const (
	acris = `determinations:
  - name: Ranunculus acris L.
    by: Signe Rask
    date: 2025-07-14
    from: label
`
	pumilus = `  - name: Ranunculus acris subsp. pumilus
    by: M. Ostrander
    date: 2026-11-02
    seen: sheet
`
	conf = `  - name: Ranunculus acris
    kind: conf
    by: Ove Bannister
    date: 2026-12-01
`
)

func TestCompare(t *testing.T) {
	cases := []struct {
		name, reason string
		old, new     string // "" is no record
		message      string
		kinds        Kinds
		fields       []FieldChange
		entered      []EntryRef
	}{
		{"new", "no parent has it", "", acris, "", New, nil, []EntryRef{{"determinations", 1}}},
		{"named anew", "another name is current", acris, acris + pumilus, "", Redetermined, nil, []EntryRef{{"determinations", 2}}},
		{"agreed", "conf", acris, acris + conf, "", Confirmed, nil, []EntryRef{{"determinations", 2}}},
		{"agreed with the former", "a conf that renews an earlier opinion renames the sheet", acris + pumilus, acris + pumilus + conf, "",
			Redetermined | Confirmed, nil, []EntryRef{{"determinations", 3}}},
		{"older slip", "the current name stays", acris, "determinations:\n  - {name: Ranunculus repens, by: X, date: v.1930}\n" + acris[len("determinations:\n"):], "",
			Added, nil, []EntryRef{{"determinations", 1}}},
		{"corrected", "words changed", "place: {elevation: 384 m}\n", "place: {elevation: 348 m}\n", "x\n\nCorrects: LK7-0000482 label says 348\n",
			Corrected, []FieldChange{{Path: "place.elevation", Before: "384 m", After: "348 m"}}, nil},
		{"completed", "words came", "place: {locality: a}\n", "place: {locality: a, elevation: 348 m}\n", "", Completed, []FieldChange{{Path: "place.elevation", Before: "", After: "348 m"}}, nil},
		{"taken out", "words gone", "habitat: meadow\n", "", "", Corrected, nil, nil},
		{"opinion corrected", "a slip of the pen", acris, "determinations:\n  - {name: Ranunculus acris L., by: S. Bannister, date: 2025-07-14, from: label}\n", "",
			Corrected, []FieldChange{{Path: "determinations.1.by", Before: "Signe Rask", After: "S. Bannister"}}, nil},
		{"opinion removed", "cut by hand", acris + pumilus, acris, "", Redetermined | Corrected,
			[]FieldChange{{Path: "determinations.2", Before: "name: Ranunculus acris subsp. pumilus; by: M. Ostrander; date: 2026-11-02; seen: sheet", After: ""}}, nil},
		{"annotated", "something noted", "habitat: meadow\n", "habitat: meadow\nannotations:\n  - {kind: seen, by: X, date: v.2026}\n", "", Annotated, nil, []EntryRef{{"annotations", 1}}},
		{"type status", "not a determination", "habitat: meadow\n", "habitat: meadow\ntypes:\n  - {status: isotype, of: Ranunculus acris, by: X, date: s.d.}\n", "", Typed, nil, []EntryRef{{"types", 1}}},
		{"withdrawn", "fate", "habitat: meadow\n", "habitat: meadow\nfate:\n  - {is: lost, by: X, date: v.2026, why: beetles}\n", "", Withdrawn, nil, []EntryRef{{"fate", 1}}},
		{"found", "fate found", "habitat: meadow\nfate:\n  - {is: lost, by: X, date: v.2026, why: beetles}\n", "habitat: meadow\nfate:\n  - {is: lost, by: X, date: v.2026, why: beetles}\n  - {is: found, by: X, date: v.2027, why: seen}\n", "",
			Found, nil, []EntryRef{{"fate", 2}}},
		{"one of a list", "the others are no change", "with: [A, B, C]\n", "with: [A, D, C]\n", "", Corrected, []FieldChange{{Path: "with.2", Before: "B", After: "D"}}, nil},
		{"entry of a list", "a duplicate sent", "duplicates:\n  - {made: \"3\"}\n", "duplicates:\n  - {made: \"3\"}\n  - {sent: Fjellheim Museum}\n", "", Completed, []FieldChange{{Path: "duplicates.2", Before: "", After: "sent: Fjellheim Museum"}}, nil},
		{"order and quotes", "no change of words", "habitat: meadow\nremarks: x\n", "remarks: \"x\"\nhabitat: 'meadow'\n", "", 0, nil, nil},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var parents []Version
			if c.old != "" {
				parents = []Version{{Record: specimen(t, c.old)}}
			}
			got := Compare("LK7-0000482", parents, Version{Record: specimen(t, c.new)}, Corrections(c.message), reading.Conventions{})
			if c.name == "taken out" {
				c.fields = []FieldChange{{Path: "habitat", Before: "meadow", After: ""}}
			}
			if got.Kinds != c.kinds {
				t.Errorf("kinds %v, want %v (%s)", got.Kinds, c.kinds, c.reason)
			}
			if d := cmp.Diff(c.fields, got.Fields); d != "" {
				t.Errorf("fields (%s):\n%s", c.reason, d)
			}
			if d := cmp.Diff(c.entered, got.Entered); d != "" {
				t.Errorf("entered (%s):\n%s", c.reason, d)
			}
			if c.message != "" && got.Reason != "label says 348" {
				t.Errorf("reason %q", got.Reason)
			}
		})
	}
}

// What a merge took from one side was done there, not by the merge.
func TestCompareMerge(t *testing.T) {
	ours, theirs := specimen(t, "habitat: meadow\n"+acris), specimen(t, "habitat: old meadow\n"+acris+pumilus)
	parents := []Version{{Record: ours}, {Record: theirs}}
	clean := Compare("LK7-0000482", parents, Version{Record: specimen(t, "habitat: meadow\n"+acris+pumilus)}, nil, reading.Conventions{})
	if clean.Kinds != 0 {
		t.Errorf("a clean merge did %v", clean)
	}
	own := Compare("LK7-0000482", parents, Version{Record: specimen(t, "habitat: wet meadow\n"+acris+pumilus)}, nil, reading.Conventions{})
	if want := []FieldChange{{Path: "habitat", Before: "meadow", After: "wet meadow"}}; own.Kinds != Corrected || !cmp.Equal(want, own.Fields) {
		t.Errorf("a merge with work of its own: %v %v", own.Kinds, own.Fields)
	}
}

func TestCompareRemovedAndUnread(t *testing.T) {
	old := []Version{{Record: specimen(t, acris)}}
	if got := Compare("LK7-0000482", old, Version{}, nil, reading.Conventions{}); got.Kinds != Removed || got.Before != "Ranunculus acris L." {
		t.Errorf("removed: %+v", got)
	}
	if got := Compare("LK7-0000482", old, Version{Unread: true}, nil, reading.Conventions{}); got.Kinds != Unread {
		t.Errorf("unread: %+v", got)
	}
	if got := Compare("LK7-0000482", []Version{{Unread: true}}, old[0], nil, reading.Conventions{}); got.Kinds != Unread {
		t.Errorf("parent unread: %+v", got)
	}
}

func TestChanges(t *testing.T) {
	s := newTale(t)
	first := s.step("Add", acris)
	s.step("Determine", acris+pumilus)
	s.step("Correct\n\nCorrects: LK7-0000482 seen", "habitat: meadow\n"+acris+pumilus)
	v := view(t, &s.x, s.tip)
	got, err := v.Changes(context.Background(), v.Since(view(t, &s.x, first)), reading.Conventions{}, s.read)
	if err != nil {
		t.Fatal(err)
	}
	want := []Change{
		{Number: "LK7-0000482", Place: 1, Kinds: Redetermined, Before: "Ranunculus acris L.", After: "Ranunculus acris subsp. pumilus", Entered: []EntryRef{{"determinations", 2}}},
		{Number: "LK7-0000482", Place: 2, Kinds: Completed, Before: "Ranunculus acris subsp. pumilus", After: "Ranunculus acris subsp. pumilus",
			Fields: []FieldChange{{Path: "habitat", Before: "", After: "meadow"}}, Reason: "seen", Corrects: true},
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	s.versions = map[ledger.BlobID]Version{}
	if _, err := v.Changes(context.Background(), []int{1}, reading.Conventions{}, s.read); err == nil {
		t.Error("a version that cannot be fetched is passed over")
	}
}
