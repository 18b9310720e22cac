package merge

import (
	"strings"
	"testing"
)

// TestMovedPlant: git's own merge gives the driver one file at a time, and an
// opinion that belongs under another number is left to a person, whole.
func TestMovedPlant(t *testing.T) {
	label := "    from: label\n"
	stub := "specimen: LK7-0000482\nentry: stub\nfate:\n  - is: same-as\n    to: LK7-0001207\n    by: Ove Bannister\n    date: 2026-11-03\n    why: stuck\n"
	swapped := with(t, "collector: Signe Rask", "collector: Ove Bannister", `"1207"`, `"88"`, "habitat: Unfertilised hay meadow", "habitat: Ditch")
	for _, c := range []struct{ name, ours, theirs, want, reason string }{
		{"renumbered there", with(t, label, label+conf), stub, "goes on as LK7-0001207", ""},
		{"renumbered here", stub, with(t, label, label+conf), "goes on as LK7-0001207", "the same from either side"},
		{"swapped there", with(t, "habitat: Unfertilised", "habitat: Mown"), swapped, "bears another plant", "no opinion says so"},
		{"renumbered in both", stub, strings.Replace(stub, "why: stuck", "why: wrongly stuck", 1), "", "the two reasons are to be asked, not the plant"},
		{"a slip in one field", with(t, `"1207"`, `"1208"`), with(t, "habitat: Unfertilised", "habitat: Mown"), "", ""},
	} {
		got, open, err := Record(path, []byte(sheet), []byte(c.ours), []byte(c.theirs))
		said := ""
		for _, o := range open {
			if o.Kind == File {
				said = o.Message
			}
		}
		if err != nil || (said != "") != (c.want != "") || !strings.Contains(said, c.want) {
			t.Errorf("%s: %q, %v (%s)\n%s", c.name, said, err, c.reason, got)
		}
		if c.want != "" && (string(settle(got, true)) != c.ours || string(settle(got, false)) != c.theirs) {
			t.Errorf("%s: not whole\n%s", c.name, got)
		}
		sameFromThere(t, path, []byte(sheet), []byte(c.ours), []byte(c.theirs))
	}
}
