package merge

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"blotter/ledger"
	"blotter/ledger/history"
)

// dress changes how a record is written and none of its words: quotes, lists
// in brackets, empty lines, the order of its fields, line ends.
func dress(t *rapid.T, src []byte) []byte {
	lines := ledger.CutLines(src)
	at := rapid.IntRange(0, len(lines)).Draw(t, "line")
	end := lineEnd(src)
	out := src
	switch rapid.IntRange(0, 6).Draw(t, "dress") {
	case 0:
		out = []byte(strings.Join(slices.Insert(lines, at, end), ""))
	case 1:
		quote := rapid.SampledFrom([]string{`"`, `'`}).Draw(t, "quote")
		if at < len(lines) {
			lines[at] = unquoted.ReplaceAllString(lines[at], "${1}"+quote+"${2}"+quote+"${3}")
			out = []byte(strings.Join(lines, ""))
		}
	case 2:
		out = crossFields(t, lines)
	case 3:
		if out = bytes.ReplaceAll(src, []byte("\r\n"), []byte("\n")); !bytes.Contains(src, []byte("\r\n")) {
			out = bytes.ReplaceAll(src, []byte("\n"), []byte("\r\n"))
		}
	case 4:
		if out = bytes.TrimRight(src, "\r\n"); len(out) == len(src) {
			out = append(bytes.Clone(src), end...)
		}
	case 5:
		if at < len(lines) {
			out = []byte(strings.Join(slices.Replace(lines, at, min(at+3, len(lines)), bracketed(lines[at:min(at+3, len(lines))])), ""))
		}
	case 6:
		if at < len(lines) && !strings.Contains(lines[at], "#") {
			lines[at] = strings.TrimRight(lines[at], "\r\n") + rapid.SampledFrom([]string{"  # so", "  #", "   "}).Draw(t, "behind") + end
			out = []byte(strings.Join(lines, ""))
		}
	}
	if !readable(out) || !same(src, out) {
		return src
	}
	return out
}

var unquoted = regexp.MustCompile(`^(\s*(?:- )?[a-z_]+: )([^"'\[{|>#&*!\s][^"'\\#\r\n]*?)(\s*)$`)

// crossFields exchanges two fields of the record, with their lines.
func crossFields(t *rapid.T, lines []string) []byte {
	var fields []string
	for _, l := range lines {
		if len(fields) == 0 || l[0] >= 'a' && l[0] <= 'z' && strings.HasSuffix(fields[len(fields)-1], "\n") {
			fields = append(fields, l)
		} else {
			fields[len(fields)-1] += l
		}
	}
	i, j := rapid.IntRange(0, max(0, len(fields)-1)).Draw(t, "field"), rapid.IntRange(0, max(0, len(fields)-1)).Draw(t, "with")
	if len(fields) > 0 && strings.HasSuffix(fields[i], "\n") && strings.HasSuffix(fields[j], "\n") {
		fields[i], fields[j] = fields[j], fields[i]
	}
	return []byte(strings.Join(fields, ""))
}

// bracketed is an entry of three lines in braces; what is none comes out as
// something else, which the caller finds.
func bracketed(lines []string) string {
	var words []string
	for _, l := range lines {
		key, v, _ := strings.Cut(strings.TrimSpace(strings.TrimLeft(l, " -")), ": ")
		words = append(words, key+": \""+strings.Trim(v, "\"'")+"\"")
	}
	return strings.Repeat(" ", len(lines[0])-len(strings.TrimLeft(lines[0], " "))) + "- {" + strings.Join(words, ", ") + "}\n"
}

// fatal is a test that a law ends: a drawn case of one, or the test itself.
type fatal interface {
	Helper()
	Fatalf(format string, args ...any)
}

// sameFromThere holds a merge to the one that the other copy makes: the same
// bytes; where a person must decide, the same with the two readings exchanged.
func sameFromThere(t fatal, path string, base, ours, theirs []byte) {
	t.Helper()
	a, openA, errA := Record(path, base, ours, theirs)
	b, openB, errB := Record(path, base, theirs, ours)
	tell := func(what string) {
		t.Fatalf("%s\nbase\n%s\nours\n%s\ntheirs\n%s\nhere\n%s\nthere\n%s", what, base, ours, theirs, a, b)
	}
	switch {
	case errA != errB:
		tell(fmt.Sprint(errA, errB))
	case len(openA) != len(openB):
		tell(fmt.Sprintf("conflicts %v and %v", openA, openB))
	case len(openA) == 0 && !bytes.Equal(a, b):
		tell("other bytes")
	case len(openA) > 0 && (!sameButEnd(settle(a, true), settle(b, false)) || !sameButEnd(settle(a, false), settle(b, true))):
		tell("other readings")
	}
	for i, c := range openA {
		if d := openB[i].turned(); c.Path != d.Path || c.Ours != d.Ours || c.Theirs != d.Theirs || c.Kind != d.Kind {
			tell(fmt.Sprintf("%+v and %+v", c, d))
		}
	}
}

// sameButEnd compares texts that stood between marks, where a text without a
// line's end at its own end gets one.
func sameButEnd(a, b []byte) bool {
	return bytes.Equal(bytes.TrimRight(a, "\r\n"), bytes.TrimRight(b, "\r\n"))
}

// Merging from either side gives the same bytes, whatever the two made of the
// form.
func TestEitherSide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base, ours, theirs := three(t)
		if rapid.IntRange(0, 9).Draw(t, "no base") == 0 {
			base = nil
		}
		sameFromThere(t, path, base, ours, theirs)
	})
}

// broken is what a merge does not keep of one parent, the other's order being
// allowed.
func broken(parent, merged, other []ledger.List) []history.Break {
	var out []history.Break
	for _, b := range history.BrokenJoined(parent, merged) {
		if !b.Moved || !crossed(parent, other, b.List) {
			out = append(out, b)
		}
	}
	return out
}

// crossed reports whether two parents have entries of a list in two orders.
func crossed(a, b []ledger.List, field string) bool {
	x, y := plainWords(a, field), plainWords(b, field)
	for i := range x {
		for j := i + 1; j < len(x); j++ {
			if p, q := slices.Index(y, x[i]), slices.Index(y, x[j]); p > q && q >= 0 {
				return true
			}
		}
	}
	return false
}

func plainWords(ls []ledger.List, field string) []string {
	var out []string
	for _, l := range ls {
		if l.Field == field {
			for _, e := range l.Entries {
				out = append(out, history.EntryWords(history.Plainly(e)))
			}
		}
	}
	return out
}

var opinionFields = []string{"determinations", "annotations"}

// noneTwice holds a merge to the opinions of both: each stands as often as on
// the side that has it more often.
func noneTwice(t fatal, ours, theirs, merged []ledger.List, texts ...[]byte) {
	t.Helper()
	for _, field := range opinionFields {
		count := func(ls []ledger.List) map[string]int {
			n := map[string]int{}
			for _, w := range plainWords(ls, field) {
				n[w]++
			}
			return n
		}
		o, th := count(ours), count(theirs)
		for w, n := range count(merged) {
			if n != max(o[w], th[w]) {
				t.Fatalf("%s %q stands %d times, on the sides %d and %d\n%s", field, w, n, o[w], th[w], bytes.Join(texts, []byte("\n----\n")))
			}
		}
	}
}

// Two people join the same two copies each for themselves, go on, and join what
// they have: there are then two that both grew from. No opinion comes out
// twice, none is lost, and both come to the same.
func TestCrosswise(t *testing.T) {
	merges := 0
	rapid.Check(t, func(t *rapid.T) {
		base, a, b := three(t)
		here, open1, err1 := Record(path, base, a, b)
		there, _, err2 := Record(path, base, b, a)
		if err1 != nil || err2 != nil {
			t.Fatalf("%v %v", err1, err2)
		}
		if len(open1) > 0 { // each decided for himself
			is := func(c Conflict) Answer { return Answer{Is: []Verdict{Ours, Theirs}[len(c.Path)%2]} }
			var open2 []Conflict
			here, open1, _ = Answered(path, base, a, b, is)
			there, open2, _ = Answered(path, base, b, a, is)
			if len(open1)+len(open2) > 0 {
				return
			}
		}
		here, there = grow(t, here, 2), grow(t, there, 2)
		ancestor, _, _ := Record(path, a, base, b) // any text serves as the tests of git's own
		for _, between := range [][]byte{base, ancestor, virtual(base, a, b)} {
			got, open, err := Record(path, between, here, there)
			if err != nil {
				t.Fatalf("%v\nbetween\n%s\nhere\n%s\nthere\n%s", err, between, here, there)
			}
			sameFromThere(t, path, between, here, there)
			if len(open) > 0 {
				continue
			}
			merges++
			x, y, now := lists(t, here), lists(t, there), lists(t, got)
			if l := append(broken(x, now, y), broken(y, now, x)...); len(l) > 0 {
				t.Fatalf("lost %+v\nbetween\n%s\nhere\n%s\nthere\n%s\nmerged\n%s", l, between, here, there, got)
			}
			noneTwice(t, x, y, now, between, here, there, got)
		}
	})
	if merges == 0 {
		t.Error("nothing was merged")
	}
}

// virtual is what git makes of two that both copies grew from: their merge,
// with its marks.
func virtual(base, a, b []byte) []byte {
	got, _, _ := Record(path, base, a, b)
	return got
}

// Three copies, joined in any order, come to the same facts; no opinion is lost
// or stands twice.
func TestThreeCopies(t *testing.T) {
	joined, alike := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		base := grow(t, []byte(rapid.SampledFrom(bases).Draw(t, "base")), 2)
		copies := [3][]byte{grow(t, base, 3), grow(t, base, 3), grow(t, base, 3)}
		var texts [][]byte
		for _, o := range [][3]int{{0, 1, 2}, {1, 2, 0}, {2, 0, 1}} {
			first, open, err := Record(path, base, copies[o[0]], copies[o[1]])
			if err != nil || len(open) > 0 {
				return
			}
			all, open, err := Record(path, base, first, copies[o[2]])
			if err != nil || len(open) > 0 {
				return
			}
			sameFromThere(t, path, base, first, copies[o[2]])
			texts = append(texts, all)
		}
		joined++
		tell := func(what string) {
			t.Fatalf("%s\nbase\n%s\nA\n%s\nB\n%s\nC\n%s\nAB.C\n%s\nBC.A\n%s\nCA.B\n%s", what, base, copies[0], copies[1], copies[2], texts[0], texts[1], texts[2])
		}
		want := factsIn(texts[0])
		for _, text := range texts[1:] {
			if got := factsIn(text); !slices.Equal(got, want) {
				tell(fmt.Sprintf("other facts\n%q\n%q", want, got))
			}
		}
		for _, c := range copies {
			for _, field := range opinionFields {
				for _, w := range plainWords(lists(t, c), field) {
					if !slices.Contains(plainWords(lists(t, texts[0]), field), w) {
						tell("lost " + w)
					}
				}
			}
		}
		if bytes.Equal(texts[0], texts[1]) && bytes.Equal(texts[0], texts[2]) {
			alike++
		}
	})
	t.Logf("%d of %d came to the same bytes too", alike, joined)
	if joined == 0 || alike*4 < joined*3 {
		t.Errorf("%d of %d came to the same bytes", alike, joined)
	}
}

// factsIn is what a record says, whatever the order of its lists.
func factsIn(text []byte) []string {
	r, _ := ledger.Decode(path, text)
	var out []string
	for _, f := range history.Group(r) {
		if !f.List {
			out = append(out, f.Path+" "+fold1(f.Value))
		}
		for _, e := range f.Entries {
			out = append(out, f.Path+" "+history.EntryWords(history.Plainly(e)))
		}
	}
	slices.Sort(out)
	return out
}
