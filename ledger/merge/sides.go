package merge

import (
	"bytes"
	"slices"

	"blotter/ledger"
	"blotter/ledger/history"
)

// turns reports whether theirs is the text that is written on. Which of two
// texts that is must not depend on where they are joined, or two people who
// join the same two copies would have two texts of one record: it is the one
// that is further from what both grew from, for whoever set a record out anew
// did more work than whoever added a line; and of two as far the lesser by its
// bytes.
func turns(base, ours, theirs []byte) bool {
	b := ledger.CutLines(base)
	o, t := distance(b, ledger.CutLines(ours)), distance(b, ledger.CutLines(theirs))
	if o != t {
		return o < t
	}
	return bytes.Compare(ours, theirs) > 0
}

// distance is how many lines went and came.
func distance(base, now []string) int {
	return len(base) + len(now) - 2*len(common(base, now))
}

// turned is a conflict as the other copy has it.
func (c Conflict) turned() Conflict {
	c.Ours, c.Theirs = c.Theirs, c.Ours
	c.OursBy, c.TheirsBy = c.TheirsBy, c.OursBy
	return c
}

func (v Verdict) turned() Verdict {
	switch v {
	case Ours:
		return Theirs
	case Theirs:
		return Ours
	}
	return v
}

// asked is the answer to a conflict, for whoever asked to have them joined.
func (m *merger) asked(c Conflict) Answer {
	if m.decide == nil {
		return Answer{}
	}
	if !m.turned {
		return m.decide(c)
	}
	a := m.decide(c.turned())
	a.Is = a.Is.turned()
	return a
}

// told are conflicts for whoever asked.
func (m *merger) told(open []Conflict) []Conflict {
	if m.turned {
		for i := range open {
			open[i] = open[i].turned()
		}
	}
	return open
}

// readings puts markers around the lines in which two texts differ, ours being
// the one that is written on.
func (m *merger) readings(ours, theirs []byte) []byte {
	if m.turned {
		ours, theirs = theirs, ours
	}
	return marked(ours, theirs)
}

// whole puts both texts between markers.
func (m *merger) whole(ours, theirs []byte) []byte {
	if m.turned {
		ours, theirs = theirs, ours
	}
	return block(nil, []string{string(ours)}, []string{string(theirs)}, lineEnd(ours))
}

// fieldMap is the fields of a record by their paths.
type fieldMap map[string]history.FieldList

// version is one version of the file: its fields, by path and in order.
type version struct {
	ledger.Document
	list   []history.FieldList
	fields fieldMap
}

func versionOf(d ledger.Document) version {
	v := version{Document: d, list: history.GroupOf(d)}
	v.fields = make(fieldMap, len(v.list))
	for _, f := range v.list {
		v.fields[f.Path] = f
	}
	return v
}

// agreed is the version that both grew from when that holds two readings
// itself, as it does where two people joined the same two copies each for
// themselves, and git joins what they had before to have one to compare with:
// what the readings have in common. Of the rest nobody knows what it was.
func (m *merger) agreed(base []byte) (version, bool) {
	marks, ok := ledger.ReadMarks(base)
	if !ok {
		return version{}, false
	}
	here, okHere := m.decode(marks.Take(func(int) ledger.Choice { return ledger.Here }))
	there, okThere := m.decode(marks.Take(func(int) ledger.Choice { return ledger.There }))
	if !okHere || !okThere {
		return version{}, false
	}
	out := version{Document: here.Document, fields: fieldMap{}}
	for _, f := range here.list {
		g := there.fields[f.Path]
		if f.List {
			f.Entries = inBoth(f.Entries, g.Entries)
		}
		if f.List && len(f.Entries) > 0 || !f.List && f.Value == g.Value {
			out.list = append(out.list, f)
			out.fields[f.Path] = f
		}
	}
	return out, true
}

func inBoth(a, b []ledger.Entry) []ledger.Entry {
	var out []ledger.Entry
	rest := plainly(b)
	for i, e := range plainly(a) {
		if k := slices.IndexFunc(rest, e.Equal); k >= 0 {
			out = append(out, a[i])
			rest = slices.Delete(rest, k, k+1)
		}
	}
	return out
}
