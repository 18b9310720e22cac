package ledger

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var newDet = []KV{{"by", "M. Ostrander"}, {"name", "Carex nigra (L.) Reichard"}, {"date", "s.d."}, {"why", ""}}

func TestEdit(t *testing.T) {
	for _, c := range []struct {
		name, reason, src, want string
		ops                     []Op
	}{
		{"plain", "a value gives way to another, its comment stays", "specimen: A1\nplace:\n  elevation: 384 m  # as read\n", "specimen: A1\nplace:\n  elevation: 348 m  # as read\n", []Op{Set("place.elevation", "348 m")}},
		{"quoted stays quoted", "quoting is the writer's", "coll_no: '12'\n", "coll_no: \"13 a\"\n", []Op{Set("coll_no", "13 a")}},
		{"needs quotes", "a figure is no word to YAML", "coll_no: s.n.\n", "coll_no: \"13\"\n", []Op{Set("coll_no", "13")}},
		{"empty value", "the words go behind the colon", "host:   # none\ndate:\n", "host: Betula   # none\ndate: s.d.\n", []Op{Set("host", "Betula"), Set("date", "s.d.")}},
		{"empty value, near comment", "the comment stays a comment", "host: # none\n", "host: Betula  # none\n", []Op{Set("host", "Betula")}},
		{"folded", "words over several lines are one value", "habitat: hay\n  meadow\n  on moraine\ndate: s.d.\n", "habitat: bog\ndate: s.d.\n", []Op{Set("habitat", "bog")}},
		{"block scalar", "sign and lines go, what follows stays", "remarks: |\n  a\n\n  b\n\n# c\ndate: s.d.\n", "remarks: bog\n\n# c\ndate: s.d.\n", []Op{Set("remarks", "bog")}},
		{"block scalar +", "blank lines belong to the value", "remarks: |+\n  a\n\ndate: s.d.\n", "remarks: bog\ndate: s.d.\n", []Op{Set("remarks", "bog")}},
		{"block scalar to block scalar", "the indent stays", "writings:\n- text: |-\n      a\n      b\n  hand: K\n", "writings:\n- text: |-\n      c\n      d\n  hand: K\n", []Op{Set("writings.1.text", "c\nd")}},
		{"plain to block scalar", "lines go below", "remarks: a\ndate: s.d.\n", "remarks: |-\n  c\n  d\ndate: s.d.\n", []Op{Set("remarks", "c\nd")}},
		{"missing field", "field order decides the place", "specimen: A1\n# who\ncollector: X\nplace:\n  country: N\n", "specimen: A1\n# who\ncollector: X\ndate: s.d.\nplace:\n  country: N\n", []Op{Set("date", "s.d.")}},
		{"missing group", "parents are made", "specimen: A1\ndate: s.d.\nhabitat: bog\n", "specimen: A1\ndate: s.d.\nplace:\n  elevation: 3 m\nhabitat: bog\n", []Op{Set("place.elevation", "3 m")}},
		{"deep missing group", "parents are made", "specimen: A1\n", "specimen: A1\nread:\n  date:\n    is: 1934-04-03\n", []Op{Set("read.date.is", "1934-04-03")}},
		{"first field", "it goes before the first line", "# head\nentry: full\n", "# head\nspecimen: A1\nentry: full\n", []Op{Set("specimen", "A1")}},
		{"empty group", "brackets give way to lines", "place: {}\ndate: s.d.\n", "place:\n  country: Eire\ndate: s.d.\n", []Op{Set("place.country", "Eire")}},
		{"flow group", "the field goes inside", "place: {country: N, datum: W}\n", "place: {country: N, locality: \"a, b\", datum: W}\n", []Op{Set("place.locality", "a, b")}},
		{"empty list", "brackets give way to lines", "determinations: []\nentry: full\n", "determinations:\n  - name: Carex nigra (L.) Reichard\n    by: M. Ostrander\n    date: s.d.\nentry: full\n", []Op{Append("determinations", newDet...)}},
		{"empty list with comment", "the comment stays beside the field", "determinations: [] # none yet\n", "determinations:  # none yet\n  - name: Carex nigra (L.) Reichard\n    by: M. Ostrander\n    date: s.d.\n", []Op{Append("determinations", newDet...)}},
		{"null list", "lines go below", "types:\ndeterminations:\n", "types:\ndeterminations:\n  - name: Carex nigra (L.) Reichard\n    by: M. Ostrander\n    date: s.d.\n", []Op{Append("determinations", newDet...)}},
		{"missing list", "made in field order", "entry: full\nwritings: []\n", "entry: full\ndeterminations:\n  - name: Carex nigra (L.) Reichard\n    by: M. Ostrander\n    date: s.d.\nwritings: []\n", []Op{Append("determinations", newDet...)}},
		{"indent 0", "the hyphens keep their column", "determinations:\n- name: A\n  by: B\nentry: full\n", "determinations:\n- name: A\n  by: B\n- name: Carex nigra (L.) Reichard\n  by: M. Ostrander\n  date: s.d.\nentry: full\n", []Op{Append("determinations", newDet...)}},
		{"indent 4", "the hyphens keep their column and the fields their gap", "determinations:\n    -   name: A\n        by: B\n", "determinations:\n    -   name: A\n        by: B\n    -   name: Carex nigra (L.) Reichard\n        by: M. Ostrander\n        date: s.d.\n", []Op{Append("determinations", newDet...)}},
		{"comment after the last entry", "it belongs to the entry before", "determinations:\n  - name: A\n    by: B\n    # seen again 2020\n# next\nentry: full\n", "determinations:\n  - name: A\n    by: B\n    # seen again 2020\n  - name: Carex nigra (L.) Reichard\n    by: M. Ostrander\n    date: s.d.\n# next\nentry: full\n", []Op{Append("determinations", newDet...)}},
		{"no newline at the end", "the file keeps that form", "determinations:\n  - name: A\n    by: B", "determinations:\n  - name: A\n    by: B\n  - name: Carex nigra (L.) Reichard\n    by: M. Ostrander\n    date: s.d.", []Op{Append("determinations", newDet...)}},
		{"CRLF", "line ends are the writer's", "determinations:\r\n  - name: A\r\n    by: B\r\n", "determinations:\r\n  - name: A\r\n    by: B\r\n  - name: Carex nigra (L.) Reichard\r\n    by: M. Ostrander\r\n    date: s.d.\r\n", []Op{Append("determinations", newDet...)}},
		{"flow entries", "inside the brackets", "determinations: [{name: A, by: B}]\n", "determinations: [{name: A, by: B}, {name: Carex nigra (L.) Reichard, by: M. Ostrander, date: s.d.}]\n", []Op{Append("determinations", newDet...)}},
		{"flow list of words", "inside the brackets", "with: [A, 'B' ] # x\n", "with: [A, 'B', C ] # x\n", []Op{Append("with", KV{"", "C"})}},
		{"empty list of words", "stays on its line", "with: []\n", "with: [C]\n", []Op{Append("with", KV{"", "C"})}},
		{"insert older slip", "at its date", "determinations:\n  - name: A\n    by: B\n  - name: C\n    by: D\n", "determinations:\n  - name: A\n    by: B\n  - name: Carex nigra (L.) Reichard\n    by: M. Ostrander\n    date: s.d.\n  - name: C\n    by: D\n", []Op{Insert("determinations", 2, newDet...)}},
		{"insert first", "at the beginning", "determinations:\n  # old\n  - name: A\n", "determinations:\n  # old\n  - name: Carex nigra (L.) Reichard\n    by: M. Ostrander\n    date: s.d.\n  - name: A\n", []Op{Insert("determinations", 1, newDet...)}},
		{"field of an entry", "in field order within the entry", "determinations:\n  - name: A\n    date: s.d.\n", "determinations:\n  - name: A\n    by: B\n    date: s.d.\n", []Op{Set("determinations.1.by", "B")}},
		{"first field of an entry", "it takes the place behind the hyphen", "determinations:\n  - by: B\n", "determinations:\n  - name: A\n    by: B\n", []Op{Set("determinations.1.name", "A")}},
		{"remove field", "the line goes", "a: 1\nhost: B\ndate: s.d.\n", "a: 1\ndate: s.d.\n", []Op{Remove("host")}},
		{"remove what is not there", "nothing to do", "date: s.d.\n", "date: s.d.\n", []Op{Remove("place.country"), Remove("host")}},
		{"remove the only field of a group", "the group goes with it", "place:\n  country: N\ndate: s.d.\n", "date: s.d.\n", []Op{Remove("place.country")}},
		{"remove first field of an entry", "the next takes its place", "parts:\n  - part: a\n    where: b\n", "parts:\n  - where: b\n", []Op{Remove("parts.1.part")}},
		{"remove entry", "its lines go", "with:\n- A\n- B\n- C\n", "with:\n- A\n- C\n", []Op{Remove("with.2")}},
		{"remove in flow", "its comma goes", "with: [A, B, C]\nphenology: [bud]\n", "with: [A, C]\nphenology: []\n", []Op{Remove("with.2"), Remove("phenology.1")}},
		{"list of words", "all at once", "with: [A]\nphenology:\n  - bud\ndate: s.d.\n", "with: [B, C]\nphenology:\n  - fruit\n  - seed\ndate: s.d.\n", []Op{SetList("with", "B", "C"), SetList("phenology", "fruit", "seed")}},
		{"empty file", "the first field", "# head\n", "# head\nspecimen: A1\n", []Op{Set("specimen", "A1")}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := Edit([]byte(c.src), c.ops...)
			if err != nil {
				t.Fatalf("%v (%s)", err, c.reason)
			}
			if d := cmp.Diff(c.want, string(got)); d != "" {
				t.Errorf("%s\n%s", c.reason, d)
			}
		})
	}
}

func TestEditRefused(t *testing.T) {
	for _, c := range []struct {
		name, src, lines string
		op               Op
	}{
		{"unknown field", "date: s.d.\n", "", Set("determinatons.1.by", "X")},
		{"no such entry", "determinations: []\n", "determinations:\n  - by: X\n", Set("determinations.1.by", "X")},
		{"words for a group", "date: s.d.\n", "place: X\n", Set("place", "X")},
		{"unknown field of an entry", "date: s.d.\n", "determinations:\n  - nme: X\n", Append("determinations", KV{"nme", "X"})},
		{"entry in an entry", "date: s.d.\n", "determinations:\n  - [{name: X}]\n", Append("determinations.1", KV{"name", "X"})},
		{"alias", "date: &a s.d.\nhost: *a\n", "date: X\n", Set("date", "X")},
		{"unreadable", "date: a: b\n", "date: X\n", Set("date", "X")},
		{"twice", "date: a\ndate: b\n", "date: X\n", Set("date", "X")},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Edit([]byte(c.src), c.op)
			var refused *RefusedEdit
			if !errors.As(err, &refused) {
				t.Fatalf("error %v", err)
			}
			if strings.TrimSpace(refused.Why) == "" || refused.Lines != c.lines {
				t.Errorf("why %q, lines %q", refused.Why, refused.Lines)
			}
		})
	}
}
