package merge

import (
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"blotter/ledger"
	"blotter/ledger/history"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

// A merge that loses an opinion is the worst that this program could do, so
// BLOTTER_WHOLE=1 tries the laws on 10,000 cases each; else a sample is.
func TestMain(m *testing.M) {
	flag.Parse()
	if f := flag.Lookup("rapid.checks"); f.Value.String() == f.DefValue {
		n := "120"
		if os.Getenv("BLOTTER_WHOLE") == "1" {
			n = "10000"
		}
		if err := f.Value.Set(n); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}

var (
	scalars = []string{"habitat", "remarks", "collector", "place.locality", "place.elevation", "read.position.is", "read.position.by", "checked.by", "checked.date", "import.Col 3"}
	words   = []string{"one", "two # no", "three: yes", "\"four\"", "five  5", "five 5", "- six", "[seven]", "#8", "a long line of words about a meadow above the lake, with more words than fit on one line of eighty"}
	names   = []string{"Ranunculus acris L.", "Ranunculus repens", "Ranunculus cf. acris", "indet."}
	days    = []string{"1930", "s.d.", "14.vii.1987", "1987-07-14", "2025-07-14", "3/4/34", "1980"}
)

func word(t *rapid.T, from []string) string { return rapid.SampledFrom(from).Draw(t, "words") }

func entry(t *rapid.T, list string) []ledger.KV {
	switch list {
	case "determinations":
		e := []ledger.KV{{Key: "name", Value: word(t, names)}, {Key: "by", Value: word(t, []string{"Signe Rask", "Ove Bannister"})}, {Key: "date", Value: word(t, days)}}
		if rapid.Bool().Draw(t, "why") {
			e = append(e, ledger.KV{Key: "why", Value: word(t, words)})
		}
		return e
	case "annotations":
		return []ledger.KV{{Key: "kind", Value: "note"}, {Key: "what", Value: word(t, words)}, {Key: "by", Value: "Tiril Aune"}, {Key: "date", Value: word(t, days)}}
	case "duplicates":
		return []ledger.KV{{Key: "sent", Value: word(t, words)}, {Key: "date", Value: word(t, days)}}
	}
	return []ledger.KV{{Value: word(t, []string{"Aud Voll", "Ove Bannister", "Tiril Aune"})}}
}

// step changes a record as its writers may; opinions are only added.
func step(t *rapid.T, src []byte) []byte {
	var op ledger.Op
	list := rapid.SampledFrom([]string{"determinations", "annotations", "duplicates", "with"}).Draw(t, "list")
	n := 0
	r, _ := ledger.Decode(path, src)
	for _, f := range history.Group(r) {
		if f.Path == list {
			n = len(f.Entries)
		}
	}
	switch rapid.IntRange(0, 9).Draw(t, "what") {
	case 8, 9:
		return dress(t, src)
	case 0, 1:
		op = ledger.Set(word(t, scalars), word(t, append(words, "")))
	case 2, 3:
		op = ledger.Append(list, entry(t, list)...)
	case 4:
		op = ledger.Insert(list, rapid.IntRange(1, n+1).Draw(t, "at"), entry(t, list)...)
	case 5:
		if n == 0 || history.IsOpinions(list) {
			return src
		}
		op = ledger.Remove(fmt.Sprintf("%s.%d", list, rapid.IntRange(1, n).Draw(t, "at")))
	case 6:
		if n == 0 || list != "duplicates" {
			return src
		}
		op = ledger.Set(fmt.Sprintf("duplicates.%d.number", rapid.IntRange(1, n).Draw(t, "at")), word(t, words))
	case 7:
		return remark(t, src)
	}
	out, err := ledger.Edit(src, op)
	if err != nil {
		return src
	}
	return out
}

var remarks int

// remark puts a comment that stands nowhere else above some line.
func remark(t *rapid.T, src []byte) []byte {
	lines := ledger.CutLines(src)
	at := rapid.IntRange(0, len(lines)).Draw(t, "line")
	remarks++
	out := []byte(strings.Join(slices.Insert(lines, at, fmt.Sprintf("# remark %d%s", remarks, lineEnd(src))), ""))
	if !readable(out) || !same(src, out) {
		return src
	}
	return out
}

func same(a, b []byte) bool {
	x, _ := ledger.Decode(path, a)
	y, _ := ledger.Decode(path, b)
	return slices.Equal(ledger.Flatten(x), ledger.Flatten(y))
}

func grow(t *rapid.T, src []byte, most int) []byte {
	for range rapid.IntRange(0, most).Draw(t, "steps") {
		src = step(t, src)
	}
	return src
}

var bases = []string{sheet, "specimen: LK7-0000482\nentry: draft\n",
	strings.ReplaceAll(sheet, "\n", "\r\n"),
	"specimen: LK7-0000482\nentry: draft\nwith: [A, B]\ndeterminations: [{name: Ranunculus acris, by: X, date: s.d.}]\nremarks: |\n  a text\n  # not a remark\n  of lines",
	"specimen: LK7-0000482\nentry: draft\ndeterminations:\n- name: Ranunculus acris\n  by: X   # so it seems\n  date: s.d.\nremarks: >-\n    folded\n    words\n"}

// three are a base and two versions that grew from it.
func three(t *rapid.T) (base, ours, theirs []byte) {
	base = grow(t, []byte(rapid.SampledFrom(bases).Draw(t, "base")), 3)
	return base, grow(t, base, 4), grow(t, base, 4)
}

func lists(t *rapid.T, src []byte) []ledger.List {
	r, fs := ledger.Decode(path, src)
	if history.Unreadable(fs) {
		t.Fatalf("cannot be read: %v\n%s", fs, src)
	}
	return ledger.Lists(r)
}

// insideMarks is the lines between the marks of conflicts.
func insideMarks(text []byte) string {
	var in strings.Builder
	open := false
	for line := range strings.Lines(string(text)) {
		switch {
		case strings.HasPrefix(line, markOurs):
			open = true
		case strings.HasPrefix(line, markTheirs):
			open = false
		case open:
			in.WriteString(line)
		}
	}
	return in.String()
}

// Whatever both sides did: every opinion of either stands in the merge,
// unchanged and in order, in whichever way a conflict is then settled; every
// comment is kept; a field that one side changed has that side's words.
func TestNothingIsLost(t *testing.T) {
	conflicts, merges := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		base, ours, theirs := three(t)
		got, open, err := Record(path, base, ours, theirs)
		if err != nil {
			t.Fatalf("%v\nbase\n%s\nours\n%s\ntheirs\n%s", err, base, ours, theirs)
		}
		merges++
		settled, marked := [][]byte{got}, ""
		if len(open) > 0 {
			conflicts++
			marked = insideMarks(got) // a comment in there goes with the side that a person does not take
			checkMarked(t, got)
			if strings.HasPrefix(string(got), markOurs) {
				return // both are whole
			}
			settled = [][]byte{settle(got, true), settle(got, false)}
		}
		for _, text := range settled {
			now := lists(t, text)
			for i, side := range [][]byte{ours, theirs} {
				if b := broken(lists(t, side), now, lists(t, [][]byte{theirs, ours}[i])); len(b) > 0 {
					t.Fatalf("lost %+v\nbase\n%s\nours\n%s\ntheirs\n%s\nmerged\n%s", b, base, ours, theirs, text)
				}
				other := [][]byte{theirs, ours}[i]
				for r := range remarksOf(side) {
					takenOut := remarksOf(base)[r] && !remarksOf(other)[r]
					if !takenOut && !remarksOf(text)[r] && !strings.Contains(marked, r) {
						t.Fatalf("lost %s\nbase\n%s\nours\n%s\ntheirs\n%s\nmerged\n%s", r, base, ours, theirs, text)
					}
				}
			}
		}
		if len(open) == 0 {
			checkScalars(t, base, ours, theirs, got)
		}
	})
	if merges >= 1000 && conflicts == 0 || conflicts == merges {
		t.Errorf("%d of %d cases in conflict: the cases try nothing", conflicts, merges)
	}
}

func remarksOf(text []byte) map[string]bool {
	out := map[string]bool{}
	for _, l := range ledger.CutLines(text) {
		if _, c := comment(l); strings.HasPrefix(c, "# remark") {
			out[c] = true
		}
	}
	return out
}

func checkMarked(t *rapid.T, text []byte) {
	if _, fs := ledger.Decode(path, text); !slices.ContainsFunc(fs, func(f ledger.Finding) bool { return f.Code == "merge-left" }) {
		t.Fatalf("markers give %v\n%s", fs, text)
	}
}

func values(src []byte) map[string]string {
	out := map[string]string{}
	r, _ := ledger.Decode(path, src)
	for _, f := range history.Group(r) {
		if !f.List {
			out[f.Path] = f.Value
		}
	}
	return out
}

func checkScalars(t *rapid.T, base, ours, theirs, merged []byte) {
	b, o, th, m := values(base), values(ours), values(theirs), values(merged)
	for _, p := range scalars {
		want := o[p]
		if o[p] == b[p] {
			want = th[p]
		}
		if bothChanged := o[p] != b[p] && th[p] != b[p]; m[p] != want && !(bothChanged && fold1(m[p]) == fold1(want)) {
			t.Fatalf("%s is %q, want %q", p, m[p], want)
		}
	}
}

func TestTrivial(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base, ours, _ := three(t)
		for name, c := range map[string][3][]byte{"theirs untouched": {base, ours, base}, "ours untouched": {base, base, ours}, "both alike": {base, ours, ours}} {
			if got, open, err := Record(path, c[0], c[1], c[2]); err != nil || len(open) > 0 || string(got) != string(ours) {
				t.Fatalf("%s: %v %v\n%s", name, open, err, got)
			}
		}
	})
}

// Every conflict can be answered: with one side for all, nothing stands open,
// and the field has that side's words.
func TestAnswered(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base, ours, theirs := three(t)
		_, open, err := Record(path, base, ours, theirs)
		if err != nil || len(open) == 0 || slices.ContainsFunc(open, func(c Conflict) bool { return c.Kind == File }) {
			return
		}
		for _, is := range []Verdict{Ours, Theirs} {
			got, left, err := Answered(path, base, ours, theirs, func(Conflict) Answer { return Answer{Is: is} })
			if err != nil || len(left) > 0 || !readable(got) {
				t.Fatalf("%v %v\n%s", left, err, got)
			}
			now := values(got)
			for _, c := range open {
				want := c.Ours
				if is == Theirs {
					want = c.Theirs
				}
				if c.Kind == Field && !strings.ContainsAny(c.Path, "123456789") && now[c.Path] != want {
					t.Fatalf("%s is %q, want %q", c.Path, now[c.Path], want)
				}
			}
		}
	})
}
