package merge

import (
	"errors"
	"strings"
	"testing"

	"blotter/ledger"
)

const path = "specimens/000/04/LK7-0000482.yaml"

const sheet = `# yaml-language-server: $schema=../../../record.schema.json
specimen: LK7-0000482
entry: draft
collector: Signe Rask
coll_no: "1207"
date: 14.vii.2025  # on the cover too
place:
  country: Norway
  locality: 1.2 km NE of Raundal chapel
  elevation: 384 m
# the plant
habitat: Unfertilised hay meadow
with: [Ove Bannister]
determinations:
  - name: Ranunculus acris L.
    by: Signe Rask
    date: 2025-07-14
    from: label
read:
  position: {is: "60.7034, 6.6512", by: Tiril Aune, date: 2026-01-02, from: map}
`

const (
	pumilus = "  - name: Ranunculus acris subsp. pumilus\n    by: M. Ostrander\n    date: 2026-11-02\n"
	conf    = "  - name: Ranunculus acris\n    kind: conf\n    by: Ove Bannister\n    date: 2026-03-01\n"
)

// with puts replacements of lines into the sheet: old, new, old, new ...
func with(t *testing.T, pairs ...string) string {
	t.Helper()
	s := sheet
	for i := 0; i < len(pairs); i += 2 {
		if strings.Count(s, pairs[i]) != 1 {
			t.Fatalf("%q stands %d times", pairs[i], strings.Count(s, pairs[i]))
		}
		s = strings.Replace(s, pairs[i], pairs[i+1], 1)
	}
	return s
}

func TestRecord(t *testing.T) {
	label := "    from: label\n"
	cases := []struct {
		name, reason       string
		ours, theirs, want []string // replacements in the sheet
	}{
		{"one side", "the other did nothing", nil, []string{"384 m", "348 m"}, []string{"384 m", "348 m"}},
		{"two fields", "far apart", []string{"384 m", "348 m"}, []string{"habitat: Unfertilised hay meadow", "habitat: Meadow"},
			[]string{"384 m", "348 m", "habitat: Unfertilised hay meadow", "habitat: Meadow"}},
		{"neighbours", "two lines that touch are two fields", []string{"Signe Rask\ncoll_no", "S. Rask\ncoll_no"}, []string{`"1207"`, `"1208"`},
			[]string{"Signe Rask\ncoll_no", "S. Rask\ncoll_no", `"1207"`, `"1208"`}},
		{"same change", "typed twice alike", []string{"384 m", "348 m"}, []string{"384 m", "348 m"}, []string{"384 m", "348 m"}},
		{"two opinions", "both whole, by date", []string{label, label + pumilus}, []string{label, label + conf}, []string{label, label + conf + pumilus}},
		{"two opinions, other way", "the same order from either side", []string{label, label + conf}, []string{label, label + pumilus}, []string{label, label + conf + pumilus}},
		{"same opinion", "typed twice is one", []string{label, label + pumilus}, []string{label, label + pumilus + conf}, []string{label, label + pumilus + conf}},
		{"lists of words", "both kept", []string{"[Ove Bannister]", "[Ove Bannister, Tiril Aune]"}, []string{"[Ove Bannister]", "[Ove Bannister, Aud Voll]"},
			[]string{"[Ove Bannister]", "[Ove Bannister, Aud Voll, Tiril Aune]"}},
		{"one taken out, one added", "each as it was meant", []string{"[Ove Bannister]", "[]"}, []string{"[Ove Bannister]", "[Ove Bannister, Aud Voll]"},
			[]string{"with: [Ove Bannister]", "with: [Aud Voll]"}},
		{"comments", "of both", []string{"# the plant", "# the plant, dried"}, []string{"habitat: U", "# see the field book\nhabitat: U"},
			[]string{"# the plant\n", "# the plant, dried\n# see the field book\n"}},
		{"comment behind", "kept with its value", []string{label, label + pumilus, "country: Norway", "country: Noreg"}, []string{label, label + conf, "384 m", "384 m  # map"},
			[]string{label, label + conf + pumilus, "country: Norway", "country: Noreg", "384 m", "384 m  # map"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, open, err := Record(path, []byte(sheet), []byte(with(t, c.ours...)), []byte(with(t, c.theirs...)))
			if want := with(t, c.want...); err != nil || len(open) > 0 || string(got) != want {
				t.Errorf("conflicts %v, error %v (%s); got\n%s\nwant\n%s", open, err, c.reason, got, want)
			}
		})
	}
}

func TestRecordConflict(t *testing.T) {
	label := "    from: label\n"
	cases := []struct {
		name, reason string
		ours, theirs []string
		paths        string
		want         []string // replacements; nil: not compared
	}{
		{"one field, two ways", "a person decides", []string{"384 m", "348 m"}, []string{"384 m", "380 m"}, "place.elevation",
			[]string{"  elevation: 384 m\n", "<<<<<<< this copy\n  elevation: 348 m\n=======\n  elevation: 380 m\n>>>>>>> the other copy\n"}},
		{"the rest is merged", "only the field is open", []string{"384 m", "348 m", label, label + pumilus}, []string{"384 m", "380 m", label, label + conf}, "place.elevation",
			[]string{"  elevation: 384 m\n", "<<<<<<< this copy\n  elevation: 348 m\n=======\n  elevation: 380 m\n>>>>>>> the other copy\n", label, label + conf + pumilus}},
		{"taken out and changed", "one says gone, one says else", []string{"  elevation: 384 m\n", ""}, []string{"384 m", "380 m"}, "place.elevation",
			[]string{"  elevation: 384 m\n", "<<<<<<< this copy\n=======\n  elevation: 380 m\n>>>>>>> the other copy\n"}},
		{"one statement", "a signed reading is not pieced together", []string{"60.7034, 6.6512", "60.7, 6.6"}, []string{"by: Tiril Aune", "by: Aud Voll"}, "read.position", nil},
		{"one opinion, two slips mended", "the same field", []string{"by: Signe Rask", "by: S. Rask"}, []string{"by: Signe Rask", "by: Sigrid Rask"}, "determinations.1.by",
			[]string{"    by: Signe Rask\n", "<<<<<<< this copy\n    by: S. Rask\n=======\n    by: Sigrid Rask\n>>>>>>> the other copy\n"}},
		{"opinion taken out", "an opinion is never lost silently", []string{"determinations:\n  - name: Ranunculus acris L.\n    by: Signe Rask\n    date: 2025-07-14\n    from: label\n", ""},
			[]string{"384 m", "380 m"}, "determinations.1", nil},
		{"one word of a list", "changed to two words", []string{"Ove B", "O. B"}, []string{"Ove B", "Ola B"}, "with.1", nil},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, open, err := Record(path, []byte(sheet), []byte(with(t, c.ours...)), []byte(with(t, c.theirs...)))
			if err != nil {
				t.Fatal(err)
			}
			var paths []string
			for _, o := range open {
				paths = append(paths, o.Path)
				if !strings.HasPrefix(strings.Split(string(got), "\n")[o.Line-1], "<<<<<<<") {
					t.Errorf("line %d is no marker", o.Line)
				}
			}
			if strings.Join(paths, " ") != c.paths {
				t.Errorf("conflicts in %q, want %q (%s)", paths, c.paths, c.reason)
			}
			if c.want != nil && string(got) != with(t, c.want...) {
				t.Errorf("got\n%s\nwant\n%s", got, with(t, c.want...))
			}
			checkRefused(t, got)
			if o, th := settle(got, true), settle(got, false); !readable(o) || !readable(th) {
				t.Errorf("a side without markers cannot be read:\n%s\n%s", o, th)
			}
		})
	}
}

func checkRefused(t testing.TB, text []byte) {
	t.Helper()
	if _, fs := ledger.Decode(path, text); len(fs) == 0 || fs[0].Code != "merge-left" {
		t.Errorf("markers give %v", fs)
	}
}

// settle takes one side of every pair of markers.
func settle(text []byte, ours bool) []byte {
	var out []byte
	keep, in := true, false
	for _, l := range ledger.CutLines(text) {
		switch strings.TrimRight(l, "\r\n") {
		case markOurs:
			keep, in = ours, true
			continue
		case markMiddle:
			if in {
				keep = !ours
				continue
			}
		case markTheirs:
			keep, in = true, false
			continue
		}
		if keep {
			out = append(out, l...)
		}
	}
	return out
}

func readable(text []byte) bool {
	_, fs := ledger.Decode(path, text)
	for _, f := range fs {
		if f.Severity == ledger.Error && strings.HasPrefix(f.Code, "yaml") {
			return false
		}
	}
	return true
}

func TestAddedOnBothSides(t *testing.T) {
	stub := "specimen: LK7-0000482\nentry: stub\ncover_name: Ranunculus acris\n"
	got, open, err := Record(path, nil, []byte(stub), []byte(with(t, "draft", "stub")))
	if err != nil || len(open) != 0 || !strings.Contains(string(got), "cover_name") || !strings.Contains(string(got), "384 m") {
		t.Errorf("a stub and the same sheet: %v %v\n%s", open, err, got)
	}
	got, open, err = Record(path, nil, []byte(sheet), []byte(with(t, "collector: Signe Rask", "collector: Ove Bannister")))
	if err != nil || len(open) != 1 || !strings.HasPrefix(open[0].Message, "one number was given twice") || open[0].Path != "" {
		t.Fatalf("two sheets of one number: %v %v", open, err)
	}
	checkRefused(t, got)
	if string(settle(got, true)) != sheet || string(settle(got, false)) != with(t, "collector: Signe Rask", "collector: Ove Bannister") {
		t.Errorf("the records are not whole:\n%s", got)
	}
}

func TestNotARecord(t *testing.T) {
	for name, bad := range map[string]string{
		"yaml": "specimen: [\n", "markers": "<<<<<<< this copy\nspecimen: a\n", "unknown field": sheet + "colour: blue\n", "words cut": sheet + "remarks: see #3\n",
	} {
		if _, _, err := Record(path, []byte(sheet), []byte(with(t, "384 m", "348 m")), []byte(bad)); !errors.Is(err, ErrText) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestLines(t *testing.T) {
	cases := []struct{ name, base, ours, theirs, want string }{
		{"both sides", "a\nb\nc\n", "A\nb\nc\n", "a\nb\nC\n", "A\nb\nC\n"},
		{"same", "a\nb\n", "a\nx\nb\n", "a\nx\nb\n", "a\nx\nb\n"},
		{"one line", "a\n", "b\n", "c\n", "!"},
		{"neighbours", "a\nb\n", "A\nb\n", "a\nB\n", "!"},
		{"both at the end", "a\n", "a\nb\n", "a\nc\n", "!"},
		{"no line feed", "a\nb", "a\nb", "A\nb", "A\nb"},
		{"line ends", "a\r\nb\r\nc\r\n", "A\r\nb\r\nc\r\n", "a\r\nb\r\nC\r\n", "A\r\nb\r\nC\r\n"},
	}
	for _, c := range cases {
		got, clean := lines3([]byte(c.base), []byte(c.ours), []byte(c.theirs))
		if !clean {
			got = []byte("!")
		}
		if string(got) != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}
