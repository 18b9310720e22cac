package history

import (
	"slices"
	"strconv"
	"testing"

	"blotter/ledger"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

// entries makes a list whose entries are told apart by their letters.
func entries(letters string) []ledger.Entry {
	out := make([]ledger.Entry, len(letters))
	for i, c := range letters {
		out[i] = ledger.Entry{Fields: []ledger.KV{{Key: "name", Value: string(c)}, {Key: "by", Value: "x" + string(c|0x20)}}, Line: int32(i + 1)}
	}
	return out
}

func broken(parent, child string) []Break {
	return Broken([]ledger.List{{Field: "determinations", Entries: entries(parent)}}, []ledger.List{{Field: "determinations", Entries: entries(child)}})
}

func TestBroken(t *testing.T) {
	cases := []struct {
		name, reason, parent, child string
		at                          []int
		moved                       bool
	}{
		{"same", "nothing changed", "abc", "abc", nil, false},
		{"appended", "at the end", "ab", "abc", nil, false},
		{"inserted", "an older slip anywhere", "ac", "xabyc", nil, false},
		{"first", "the first opinion ever", "", "a", nil, false},
		{"altered", "the same opinion by another name", "abc", "aBc", []int{2}, false},
		{"removed", "gone", "abc", "ac", []int{2}, false},
		{"all removed", "the list is gone", "ab", "", []int{1, 2}, false},
		{"turned", "another order", "ab", "ba", []int{2}, true},
		{"twin removed", "two equal entries are two", "aa", "a", []int{2}, false},
	}
	for _, c := range cases {
		var at []int
		moved := false
		for _, b := range broken(c.parent, c.child) {
			at, moved = append(at, b.At), moved || b.Moved
		}
		if len(at) != len(c.at) || c.name != "turned" && c.name != "twin removed" && !slices.Equal(at, c.at) || moved != c.moved {
			t.Errorf("%s: broken %v moved %v, want %v %v (%s)", c.name, at, moved, c.at, c.moved, c.reason)
		}
	}
}

// The law is: the parent's list is a subsequence of the child's.
func TestBrokenIsSubsequence(t *testing.T) {
	letters := rapid.StringOfN(rapid.RuneFrom([]rune("abcABC")), 0, 7, -1)
	rapid.Check(t, func(t *rapid.T) {
		parent, child := letters.Draw(t, "parent"), letters.Draw(t, "child")
		i := 0
		for _, c := range child {
			if i < len(parent) && rune(parent[i]) == c {
				i++
			}
		}
		bs := broken(parent, child)
		if (i == len(parent)) != (len(bs) == 0) {
			t.Fatalf("%q in %q: breaks %v", parent, child, bs)
		}
		for _, b := range bs {
			if b.Old.Fields[0].Value != string(parent[b.At-1]) {
				t.Fatalf("break names entry %d as %v", b.At, b.Old)
			}
		}
	})
}

// align pairs every entry of both sides once, in order, and as many equal
// ones as a longest common subsequence has.
func TestAlign(t *testing.T) {
	letters := rapid.StringOfN(rapid.RuneFrom([]rune("abcAB")), 0, 8, -1)
	rapid.Check(t, func(t *rapid.T) {
		a, b := letters.Draw(t, "old"), letters.Draw(t, "new")
		same, i, j := 0, 0, 0
		for _, p := range Align(entries(a), entries(b)) {
			if p.Old >= 0 {
				if p.Old != i {
					t.Fatalf("old entry %d out of turn", p.Old)
				}
				i++
			}
			if p.New >= 0 {
				if p.New != j {
					t.Fatalf("new entry %d out of turn", p.New)
				}
				j++
			}
			if p.Same {
				same++
				if a[p.Old] != b[p.New] {
					t.Fatalf("%c paired with %c as the same", a[p.Old], b[p.New])
				}
			}
		}
		if i != len(a) || j != len(b) || same != lcs(a, b) {
			t.Fatalf("%q and %q: %d of %d, %d of %d, %d same of %d", a, b, i, len(a), j, len(b), same, lcs(a, b))
		}
	})
}

func lcs(a, b string) int {
	if a == "" || b == "" {
		return 0
	}
	if a[0] == b[0] {
		return 1 + lcs(a[1:], b[1:])
	}
	return max(lcs(a[1:], b), lcs(a, b[1:]))
}

func TestAlignHuge(t *testing.T) {
	var a, b []ledger.Entry
	for i := range 3000 {
		a = append(a, ledger.Entry{Fields: []ledger.KV{{Key: "name", Value: strconv.Itoa(i)}}})
		b = append(b, ledger.Entry{Fields: []ledger.KV{{Key: "name", Value: strconv.Itoa(i + 1)}}})
	}
	if got := len(Align(a, b)); got != 3000 {
		t.Errorf("%d pairs", got)
	}
}

func TestJudge(t *testing.T) {
	bannister := "determinations:\n  - {name: Ranunculus acris L., by: S. Bannister, date: 2025-07-14, from: label}\n" + pumilus
	old := Version{Record: specimen(t, acris+pumilus)}
	cases := []struct {
		name, reason string
		parents      []Version
		child        Version
		message      string
		want         string // code, line and message of the only finding
		hint         string
	}{
		{"changed", "interface.md 4, message 4", []Version{old}, Version{Record: specimen(t, bannister)}, "",
			"opinion-changed 4 opinion 1 of 2: by Signe Rask, now by S. Bannister",
			"Opinions are kept as they were given. A new opinion: blotter determine 482\n" +
				`A slip of the pen: blotter set 482 determinations.1.by="S. Bannister" --why "typed wrongly; label seen"`},
		{"corrected", "the trailer lifts the law", []Version{old}, Version{Record: specimen(t, bannister)}, "x\n\nCorrects: lk7-0000482 label seen\n", "", ""},
		{"another corrected", "one trailer a number", []Version{old}, Version{Record: specimen(t, bannister)}, "x\n\nCorrects: LK7-0000483 label seen\n",
			"opinion-changed 4 opinion 1 of 2: by Signe Rask, now by S. Bannister", ""},
		{"gone", "removed", []Version{old}, Version{Record: specimen(t, acris)}, "",
			"opinion-changed 0 opinion 2 of 2: Ranunculus acris subsp. pumilus, M. Ostrander, now gone", ""},
		{"merge", "both sides are kept", []Version{{Record: specimen(t, acris+pumilus)}, {Record: specimen(t, acris+conf)}}, Version{Record: specimen(t, acris+pumilus+conf)}, "", "", ""},
		{"merge lost one", "the second parent's entry is gone", []Version{{Record: specimen(t, acris+pumilus)}, {Record: specimen(t, acris+conf)}}, old, "",
			"opinion-changed 0 opinion 2 of 2: Ranunculus acris, Ove Bannister, now gone", ""},
		{"merge, same break twice", "said once", []Version{old, old}, Version{Record: specimen(t, bannister)}, "", "opinion-changed 4 opinion 1 of 2: by Signe Rask, now by S. Bannister", ""},
		{"parent unread", "passed over with a warning", []Version{{Unread: true}}, old, "", "parent-unread 0 the version before this one could not be read, so its opinions were not compared with these", ""},
		{"child unread", "its content is an error elsewhere", []Version{old}, Version{Unread: true}, "", "", ""},
		{"record removed", "a number keeps its record", []Version{old}, Version{}, "",
			"record-removed 0 the record was taken away; a number that was once entered keeps its record, with what became of the sheet", ""},
		{"unmarked", "a mark is never taken out, only released", []Version{{Record: specimen(t, acris+"sensitive: {category: \"2\"}\n")}}, Version{Record: specimen(t, acris)}, "",
			"mark-removed 0 the mark of sensitivity was taken out; with the next publication everybody would see the place", ""},
		{"released", "what ends a mark", []Version{{Record: specimen(t, acris+"sensitive: {category: \"2\"}\n")}},
			Version{Record: specimen(t, acris+"sensitive: {category: \"2\", released: {why: w, by: Rask, date: 2026-01-02}}\n")}, "", "", ""},
		{"first commit", "nothing before", nil, old, "", "", ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got := Judge("LK7-0000482", c.parents, c.child, Corrections(c.message))
			text := ""
			for _, f := range got {
				text += f.Code + " " + strconv.Itoa(f.Line) + " " + f.Message
			}
			if text != c.want || c.hint != "" && got[0].Hint != c.hint {
				t.Errorf("%s\n%q\nwant %q (%s)", got, text, c.want, c.reason)
			}
		})
	}
}

func TestShort(t *testing.T) {
	for n, want := range map[ledger.Number]string{"LK7-0000482": "482", "X": "X", "K-12b": "K-12b", "LK7-000": "LK7-000"} {
		if got := Short(n); got != want {
			t.Errorf("%s: %s, want %s", n, got, want)
		}
	}
}
