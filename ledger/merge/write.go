package merge

import (
	"bytes"
	"slices"

	"blotter/ledger"
)

const (
	markOurs   = ledger.MarkHere
	markMiddle = ledger.MarkMiddle
	markTheirs = ledger.MarkThere
)

// write makes the merged text: the text merged line by line when that says
// what the fields say, for it keeps both writers' comments; else our text with
// their changes put in.
func (m *merger) write() ([]byte, []Conflict, error) {
	if text, clean := lines3(m.base, m.ours, m.theirs); clean && len(m.open) == 0 && m.says(text) {
		return text, nil, nil
	}
	text, err := ledger.EditFile(m.kind, m.ours, m.ops...)
	if err != nil || !m.says(text) {
		return m.whole(m.ours, m.theirs), []Conflict{{Number: m.number(), Kind: File, Line: 1,
			Message: "the two versions are written in a way that this program does not know how to merge",
			Hint:    "Make one record of the two, take the lines of the markers out, then: blotter enter"}}, nil
	}
	for _, from := range [][]byte{m.theirs, m.ours} { // ours may go with an entry that they took out
		for _, homes := range []bool{true, false} {
			kept := withComments(text, m.base, from, homes)
			if bytes.Equal(kept, text) {
				break
			}
			if m.says(kept) {
				text = kept
				break
			}
		}
	}
	return m.settle(text)
}

// settle puts what a person decides into the merged text, and both readings
// of the rest between markers.
func (m *merger) settle(text []byte) ([]byte, []Conflict, error) {
	var decided, theirs []ledger.Op
	var left []Conflict
	for _, u := range m.open {
		a := m.asked(u.Conflict)
		if u.answerable(a) {
			decided, theirs = append(decided, u.opsOf(a)...), append(theirs, u.opsOf(a)...)
			continue
		}
		theirs, left = append(theirs, u.theirs...), append(left, u.Conflict)
	}
	mine, err := ledger.EditFile(m.kind, text, decided...)
	if err != nil {
		return m.whole(m.ours, m.theirs), m.told(m.conflicts()), nil
	}
	if len(left) == 0 {
		return mine, nil, nil
	}
	other, err := ledger.EditFile(m.kind, text, theirs...)
	if err != nil {
		mine, other = m.ours, m.theirs
	}
	out := m.readings(mine, other)
	if !m.refused(out) {
		out = m.whole(mine, other)
	}
	line := bytes.Count(out[:max(0, bytes.Index(out, []byte(markOurs)))], []byte("\n")) + 1
	for i := range left {
		left[i].Line = line // which marker is whose the lines between them say
	}
	return out, m.told(left), nil
}

func (m *merger) conflicts() []Conflict {
	var out []Conflict
	for _, u := range m.open {
		u.Line = 1
		out = append(out, u.Conflict)
	}
	return out
}

// says reports whether a text has exactly the words of the merged record.
func (m *merger) says(text []byte) bool {
	r, ok := m.decode(text)
	if !ok {
		return false
	}
	if len(r.list) != len(m.mine) {
		return false
	}
	for _, f := range r.list {
		want, ok := m.mine[f.Path]
		if !ok || want.Value != f.Value || !slices.EqualFunc(want.Entries, f.Entries, sameWords) {
			return false
		}
	}
	return true
}

// sameWords compares entries whatever the order of their fields.
func sameWords(a, b ledger.Entry) bool {
	if len(a.Fields) != len(b.Fields) {
		return false
	}
	for _, kv := range a.Fields {
		if b.Get(kv.Key) != kv.Value {
			return false
		}
	}
	return true
}

func (m *merger) refused(text []byte) bool {
	_, fs := ledger.DecodeDocument(m.path, text)
	return slices.ContainsFunc(fs, func(f ledger.Finding) bool { return f.Severity == ledger.Error })
}

// marked puts markers around the lines in which two texts differ.
func marked(ours, theirs []byte) []byte {
	a, b := ledger.CutLines(ours), ledger.CutLines(theirs)
	var out []byte
	end := lineEnd(ours)
	i, j := 0, 0
	for _, p := range append(common(a, b), [2]int{len(a), len(b)}) {
		if i < p[0] || j < p[1] {
			out = block(out, a[i:p[0]], b[j:p[1]], end)
		}
		if p[0] < len(a) {
			out = append(out, a[p[0]]...)
		}
		i, j = p[0]+1, p[1]+1
	}
	return out
}

func block(out []byte, ours, theirs []string, end string) []byte {
	line := func(s string) {
		if len(out) > 0 && out[len(out)-1] != '\n' && out[len(out)-1] != '\r' {
			out = append(out, end...)
		}
		out = append(out, s...)
	}
	line(markOurs + end)
	for _, l := range ours {
		line(l)
	}
	line(markMiddle + end)
	for _, l := range theirs {
		line(l)
	}
	line(markTheirs + end)
	return out
}
