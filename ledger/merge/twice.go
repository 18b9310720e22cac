package merge

import (
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/history"
)

// Twice says by which field two files of one path, made apart, are of two
// plants or two works, so that one number was given twice; "" when they may be
// of one, which two people typed. The same collector with the same number on
// the same day is one gathering, however its place was typed; so is a text that
// cannot be read well enough to tell.
func Twice(path string, ours, theirs []byte) (field string) {
	kind, _ := ledger.KindOf(path)
	m := merger{path: path, kind: kind}
	var ok [2]bool
	m.o, ok[0] = m.decode(ours)
	m.t, ok[1] = m.decode(theirs)
	if !ok[0] || !ok[1] {
		return ""
	}
	return m.twoThings()
}

// oneGathering reports whether two records have one collector, number and day.
func oneGathering(a, b []history.FieldList) bool {
	for _, path := range []string{"collector", "coll_no", "date"} {
		x, y := fold(valueOf(a, path)), fold(valueOf(b, path))
		if x != y || x == "" || slices.Contains([]string{"s.n.", "s.d.", "unknown", "not recorded", "illegible", "[illegible]", "not yet typed"}, x) {
			return false
		}
	}
	return true
}

// firstName is the first opinion's name; the cover's says less, and a stub made
// of a picture has only that.
func firstName(fs []history.FieldList) string {
	for _, f := range fs {
		if f.Path == "determinations" && len(f.Entries) > 0 {
			return fold(f.Entries[0].Get("name"))
		}
	}
	return ""
}

func fold(words string) string { return strings.ToLower(strings.Join(strings.Fields(words), " ")) }
