// Package merge makes one record of two versions that grew apart: field by
// field on the decoded words, with both sides' opinions kept whole in the
// order of their dates and the writers' comments and formatting kept
// (FORMAT.md, "Of commits"). It is pure: it reads no git and no
// disk. What two people changed in two ways it never decides; it leaves both
// readings in the file between markers, which no reader takes for a record.
package merge

import (
	"bytes"
	"errors"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/history"
)

// ErrText is returned when a version cannot be read well enough to be merged
// by its fields, and for files that are no records: the caller merges the
// text as git would.
var ErrText = errors.New("merge: not a record that can be merged by its fields")

// Record merges two versions of the file at path, relative to the ledger: a
// record, a work or one of the museum's own files. base is what both grew
// from, empty when the file was added on both sides. The text without
// conflicts holds every change of both sides; with conflicts it holds markers
// (ledger.ReadMarks), and everything else is merged. The error is ErrText.
func Record(path string, base, ours, theirs []byte) ([]byte, []Conflict, error) {
	return Answered(path, base, ours, theirs, nil)
}

// Answered is Record with the answers of a person: what is decided stands in
// the text, and only the rest is among the conflicts.
func Answered(path string, base, ours, theirs []byte, decide Decide) ([]byte, []Conflict, error) {
	return join(path, base, ours, theirs, decide, false)
}

// Onto is Record where theirs is put upon ours and the result has ours alone
// before it, as when entries are replayed: of one fact in two spellings that of
// ours stands, for what it says is never altered.
func Onto(path string, base, ours, theirs []byte) ([]byte, []Conflict, error) {
	return join(path, base, ours, theirs, nil, true)
}

func join(path string, base, ours, theirs []byte, decide Decide, onto bool) ([]byte, []Conflict, error) {
	switch {
	case bytes.Equal(ours, theirs), len(base) > 0 && bytes.Equal(base, theirs):
		return slices.Clone(ours), nil, nil
	case len(base) > 0 && bytes.Equal(base, ours):
		return slices.Clone(theirs), nil, nil
	}
	kind, known := ledger.KindOf(path)
	if !known || kind == ledger.MappingKind {
		return nil, nil, ErrText
	}
	m := merger{path: path, kind: kind, base: base, ours: ours, theirs: theirs, decide: decide, onto: onto, mine: fieldMap{}}
	if m.turned = !onto && turns(base, ours, theirs); m.turned {
		m.ours, m.theirs = theirs, ours
	}
	var ok [3]bool
	if m.b, ok[0] = m.decode(base); !ok[0] {
		m.b, ok[0] = m.agreed(base)
	}
	m.o, ok[1] = m.decode(m.ours)
	m.t, ok[2] = m.decode(m.theirs)
	if !ok[0] || !ok[1] || !ok[2] {
		return nil, nil, ErrText
	}
	if len(base) == 0 {
		if differ := m.twoThings(); differ != "" {
			return m.twice(differ)
		}
	}
	if text, open, moved := m.movedOn(); moved {
		return text, open, nil
	}
	m.fields()
	return m.write()
}

// merger holds the versions and what comes of them.
type merger struct {
	path               string
	base, ours, theirs []byte // ours is the one that is written on
	turned             bool   // and it is the one that the caller calls theirs
	onto               bool   // ours keeps its spellings
	b, o, t            version
	kind               ledger.FileKind
	decide             Decide // nil: nobody is asked

	mine fieldMap    // the merged record, our side where undecided
	ops  []ledger.Op // that make mine of ours
	open []undecided
}

// decode reads one version; false: its words cannot be trusted whole.
func (m *merger) decode(src []byte) (version, bool) {
	r, fs := ledger.DecodeDocument(m.path, src)
	if len(src) == 0 {
		return versionOf(r), true
	}
	bad := func(f ledger.Finding) bool {
		return f.Code == "field-unknown" || f.Code == "field-kind" || f.Code == "value-cut"
	}
	if history.Unreadable(fs) || slices.ContainsFunc(fs, bad) {
		return version{}, false
	}
	return versionOf(r), true
}

// ofOnePlant are the fields by which two records of one number are of
// different plants.
var ofOnePlant = []string{"collector", "coll_no", "date", "place.country", "place.province", "place.district", "place.locality", "place.position"}

// twoThings says by which field two records of one number are of different
// plants, or two works of one number are different work; "" when they may be
// the same. Two works that were opened apart are never the same, whatever
// they say alike in their headings.
func (m *merger) twoThings() string {
	a, b := m.o.list, m.t.list
	if m.kind == ledger.WorkFileKind {
		x, y := firstLine(a), firstLine(b)
		for _, k := range keys(x, y) {
			if x.Get(k) != y.Get(k) {
				return "the first line"
			}
		}
		for _, f := range a {
			if y := valueOf(b, f.Path); !f.List && y != "" && y != f.Value {
				return f.Path
			}
		}
		return ""
	}
	if m.kind != ledger.RecordKind || oneGathering(a, b) {
		return ""
	}
	common := false
	for _, path := range ofOnePlant {
		x, y := valueOf(a, path), valueOf(b, path)
		if x != "" && y != "" && fold(x) != fold(y) {
			return path
		}
		common = common || x != "" && y != ""
	}
	if x, y := firstName(a), firstName(b); !common && x != "" && y != "" && x != y {
		return "the name, and have nothing in common"
	}
	return ""
}

func (m *merger) number() string {
	return strings.TrimSuffix(m.path[strings.LastIndexByte(m.path, '/')+1:], ".yaml")
}

// firstLine is the line with which a work was opened.
func firstLine(fs []history.FieldList) ledger.Entry {
	for _, f := range fs {
		if f.Path == "lines" && len(f.Entries) > 0 {
			return f.Entries[0]
		}
	}
	return ledger.Entry{}
}

func valueOf(fs []history.FieldList, path string) string {
	for _, f := range fs {
		if f.Path == path && !f.List {
			return f.Value
		}
	}
	return ""
}

// twice leaves both records, whole, between markers.
func (m *merger) twice(field string) ([]byte, []Conflict, error) {
	if m.kind == ledger.WorkFileKind {
		return m.whole(m.ours, m.theirs), []Conflict{{Number: m.number(), Kind: File, Line: 1,
			Message: "one number was given to two works: they differ in " + field,
			Hint: "Keep the one that was sent first in this file, give the other a file of its own with the next free number, " +
				"take the lines of the markers out, then: blotter enter"}}, nil
	}
	return m.whole(m.ours, m.theirs), []Conflict{{Number: m.number(), Kind: File, Line: 1,
		Message: "one number was given twice: the two sheets differ in " + field,
		Hint: "Look which sheet bears the number. Keep its record in this file, give the other the next free number (blotter new), " +
			"take the lines of the markers out, then: blotter enter"}}, nil
}
