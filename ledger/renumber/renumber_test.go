package renumber_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	_ "blotter/ledger/ledgertest/seed"

	"blotter/ledger"
	"blotter/ledger/history"
	"blotter/ledger/renumber"

	"pgregory.net/rapid"
)

var (
	exchanged = renumber.Of(history.Move{From: "LK7-0000482", To: "LK7-0000517", Swap: true}, history.Move{From: "LK7-0000517", To: "LK7-0000482", Swap: true})
	goneOn    = renumber.Of(history.Move{From: "LK7-0000482", To: "LK7-0001207"})
)

// TestRecord: of a record that goes on under another number the number is
// another, and what names one that moves; everything else stays to the byte.
func TestRecord(t *testing.T) {
	for _, c := range []struct {
		name, reason string
		m            renumber.Moves
		to           ledger.Number
		src, want    string
		alters       bool
	}{
		{"number alone", "nothing else is touched, no comment and no blank", goneOn, "LK7-0001207",
			"# seen\nspecimen:  LK7-0000482   # stuck\nentry: draft\n\nremarks: of LK7-0000482\n",
			"# seen\nspecimen:  LK7-0001207   # stuck\nentry: draft\n\nremarks: of LK7-0000482\n", false},
		{"names itself", "two sheets of one plant exchange: each names the other still", exchanged, "LK7-0000517",
			"specimen: LK7-0000482\nentry: draft\nshares_sheet: [LK7-0000517]\n",
			"specimen: LK7-0000517\nentry: draft\nshares_sheet: [LK7-0000482]\n", false},
		{"two lists", "each link follows by itself", goneOn, "LK7-0001207",
			"specimen: LK7-0000482\nentry: draft\nsame_gathering:\n  - LK7-0000005\n  - lk7-0000482\nshares_sheet: [LK7-0000482]\n",
			"specimen: LK7-0001207\nentry: draft\nsame_gathering:\n  - LK7-0000005\n  - LK7-0001207\nshares_sheet: [LK7-0001207]\n", false},
		{"fate", "an entry of a list that only grows is altered, which needs a correction", goneOn, "LK7-0001207",
			"specimen: LK7-0000482\nentry: stub\nfate:\n  - {is: same-as, to: LK7-0000482, by: x, date: 2026, why: y}\n",
			"specimen: LK7-0001207\nentry: stub\nfate:\n  - {is: same-as, to: LK7-0001207, by: x, date: 2026, why: y}\n", true},
		{"fate of another kind", "given to a museum that is called so", goneOn, "LK7-0001207",
			"specimen: LK7-0000482\nentry: stub\nfate:\n  - {is: given, to: LK7-0000482, by: x, date: 2026, why: y}\n",
			"specimen: LK7-0001207\nentry: stub\nfate:\n  - {is: given, to: LK7-0000482, by: x, date: 2026, why: y}\n", false},
		{"line ends of another system", "they stay", goneOn, "LK7-0001207", "specimen: LK7-0000482\r\nentry: draft\r\n", "specimen: LK7-0001207\r\nentry: draft\r\n", false},
	} {
		got, err := c.m.Record([]byte(c.src), c.to)
		if err != nil || string(got) != c.want {
			t.Errorf("%s (%s): %v\n%s\nwant\n%s", c.name, c.reason, err, got, c.want)
		}
		r, _ := ledger.Decode("", []byte(c.src))
		if c.m.AltersList(r) != c.alters {
			t.Errorf("%s: AltersList %t", c.name, !c.alters)
		}
	}
}

// TestLines: which words of a work's lines follow, and how spans are parted.
func TestLines(t *testing.T) {
	three := renumber.Of(history.Move{From: "LK7-0000482", To: "LK7-0001207"}, history.Move{From: "LK7-0000484", To: "LK7-0000009"}, history.Move{From: "LK7-0000999", To: "LK7-0000007"})
	for _, c := range []struct {
		name, reason string
		m            renumber.Moves
		sheets, want string // parted by blanks; want "": no edit
	}{
		{"others", "nothing to do", goneOn, "LK7-0000481 LK7-0000483..LK7-0000490", ""},
		{"one", "by itself", goneOn, "LK7-0000005 LK7-0000482", "LK7-0000005 LK7-0001207"},
		{"in a span", "parted round it", goneOn, "LK7-0000480..LK7-0000484", "LK7-0000480..LK7-0000481 LK7-0000483..LK7-0000484 LK7-0001207"},
		{"first of a span", "", goneOn, "LK7-0000482..LK7-0000484", "LK7-0000483..LK7-0000484 LK7-0001207"},
		{"last of a span of two", "one is left, by itself", goneOn, "LK7-0000481..LK7-0000482", "LK7-0000481 LK7-0001207"},
		{"two in one span", "both go", three, "LK7-0000480..LK7-0000486", "LK7-0000480..LK7-0000481 LK7-0000483 LK7-0000485..LK7-0000486 LK7-0001207 LK7-0000009"},
		{"swap within a span", "the same sheets, once each", exchanged, "LK7-0000481..LK7-0000518", "LK7-0000481 LK7-0000483..LK7-0000516 LK7-0000518 LK7-0000517 LK7-0000482"},
	} {
		src := "work: freezer-2026-001\nlines:\n  - date: 2026-11-03\n    event: in\n    sheets:\n"
		for _, s := range strings.Fields(c.sheets) {
			src += "      - " + s + "\n"
		}
		w, _ := ledger.DecodeWork("work/freezer/freezer-2026-001.yaml", []byte(src))
		ops := c.m.Lines(w, nil)
		if c.want == "" {
			if ops != nil {
				t.Errorf("%s (%s): edits %v", c.name, c.reason, ops)
			}
			continue
		}
		out, err := ledger.EditFile(ledger.WorkFileKind, []byte(src), ops...)
		if err != nil {
			t.Fatal(err)
		}
		after, _ := ledger.DecodeWork("", out)
		var got []string
		for _, l := range after.Lines[0].Sheets {
			got = append(got, l.Text)
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s (%s): %q, want %q", c.name, c.reason, got, c.want)
		}
		if none := c.m.Lines(w, func(int) bool { return false }); none != nil {
			t.Errorf("%s: edits though no line is wanted: %v", c.name, none)
		}
		if keys := c.m.NamedIn(&w.Lines[0]); len(keys) == 0 {
			t.Errorf("%s: no number is said to be named", c.name)
		}
	}
}

// TestPictures: which files below images/ bear the number.
func TestPictures(t *testing.T) {
	const src = "specimen: LK7-0000482\nentry: draft\nimages:\n  - file: images/LK7-0000482.jpg\n    public: images/public/lk7-0000482_b.jpg\n" +
		"  - file: images/LK7-00004821.jpg\n  - file: https://example.org/LK7-0000482.jpg\n  - file: images/herbarium 7.jpg\n"
	r, _ := ledger.Decode("", []byte(src))
	ops, files := goneOn.Pictures(r, "LK7-0000482", "LK7-0001207")
	want := [][2]string{{"images/LK7-0000482.jpg", "images/LK7-0001207.jpg"}, {"images/public/lk7-0000482_b.jpg", "images/public/LK7-0001207_b.jpg"}}
	if !slices.Equal(files, want) || len(ops) != 2 {
		t.Errorf("%q with %d edits, want %q: a longer number, an address and another name stay", files, len(ops), want)
	}
}

// TestStub: what is left says where the plant is and nothing else.
func TestStub(t *testing.T) {
	src := renumber.Stub("LK7-0000482", "LK7-0001207", "Ove Bannister", "2026-11-03", "the sheet bears 1207: seen")
	r, found := ledger.Decode(ledger.Number("LK7-0000482").Path(), src)
	if to, ok := history.Retired(r); !ok || to != "LK7-0001207" || len(found) > 0 {
		t.Errorf("retired %t as %s, findings %v in\n%s", ok, to, found, src)
	}
}

// TestThereAndBack: renumbered or swapped and then put back, a record, its
// neighbours and a permit's work are the same to the byte, however they were
// written.
func TestThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		prefix := rapid.SampledFrom([]string{"LK7-", "", "V_"}).Draw(t, "prefix")
		number := func(i int) ledger.Number { return ledger.Number(fmt.Sprintf("%s%07d", prefix, i)) }
		a, b := number(rapid.IntRange(1, 9).Draw(t, "a")), number(rapid.IntRange(10, 19).Draw(t, "b"))
		there := []history.Move{{From: a, To: b}}
		back := []history.Move{{From: b, To: a}}
		if rapid.Bool().Draw(t, "swap") {
			there, back = append(there, back[0]), append(back, there[0])
		}
		named := rapid.IntRange(1, 9)
		if len(there) == 2 {
			named = rapid.IntRange(1, 19) // renumbering goes to a number that nobody names
		}
		const quote = `"` // a word that is altered has these
		write := func(n ledger.Number) string {
			if prefix == "" || rapid.Bool().Draw(t, "quoted") {
				return quote + string(n) + quote
			}
			return string(n)
		}
		end := rapid.SampledFrom([]string{"\n", "\r\n"}).Draw(t, "end")
		src := "specimen: " + write(a) + rapid.SampledFrom([]string{"", "  # stuck"}).Draw(t, "comment") + end + "entry: draft" + end
		for _, field := range []string{"same_gathering", "shares_sheet"} {
			var list []string
			for range rapid.IntRange(0, 3).Draw(t, field) {
				list = append(list, write(number(named.Draw(t, "named"))))
			}
			switch {
			case list == nil:
			case rapid.Bool().Draw(t, "flow"):
				src += field + ": [" + strings.Join(list, rapid.SampledFrom([]string{", ", ",", " , "}).Draw(t, "comma")) + "]" + end
			default:
				src += field + ":" + end
				for _, x := range list {
					src += "  - " + x + end
				}
			}
		}
		src += "remarks: bore " + string(a) + end
		moved, err := renumber.Of(there...).Record([]byte(src), b)
		if err != nil {
			t.Fatal(err)
		}
		if r, _ := ledger.Decode("", moved); r.Specimen.Text != string(b) {
			t.Fatalf("bears %s, not %s:\n%s", r.Specimen.Text, b, moved)
		}
		again, err := renumber.Of(back...).Record(moved, a)
		if err != nil || string(again) != src {
			t.Fatalf("%v\nbefore:\n%s\nthere:\n%s\nback:\n%s", err, src, moved, again)
		}
	})
}
