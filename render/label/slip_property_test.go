package label

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"blotter/ledger"
	"blotter/ledger/reading"
	"blotter/render/paper"
)

// drawnSlips is a record with opinions, types and acts of any words.
func drawnSlips(t *rapid.T) *ledger.Record {
	drawnFields = 0
	r := &ledger.Record{Specimen: ledger.Leaf{Text: "LK7-0000001"}, Entry: ledger.Leaf{Text: "full"}}
	one := func(field string, most int) ledger.Leaf { return someWords(t, field, most) }
	pick := func(field string, of ...string) ledger.Leaf {
		return ledger.Leaf{Text: rapid.SampledFrom(of).Draw(t, field)}
	}
	for range rapid.IntRange(0, 4).Draw(t, "determinations") {
		r.Determinations = append(r.Determinations, ledger.Determination{
			Name: pick("name", "Poa annua L.", "Poa annua", "Ranunculus acris cf. subsp. pumilus (Wahlenb.) Á.Löve & D.Löve", "Salix aurita L. × Salix lapponum L.", "Poa sp. 3", "indet.", "quite unreadable zx"),
			Kind: pick("kind", "", "det", "conf", "not", "name-change"), By: one("by", 8), At: one("at", 8),
			Date: pick("date", "2026-11-02", "1931", "s.d.", "3.v.1962"), From: pick("from", "", "", "slip", "label", "letter"),
			Seen: pick("seen", "", "sheet", "picture", "duplicate", "dna"), Part: one("part", 3), Source: one("source", 12), Why: one("why", 30),
			Mistake: pick("mistake", "", "", "", "typed twice"),
		})
	}
	for range rapid.IntRange(0, 2).Draw(t, "annotations") {
		r.Annotations = append(r.Annotations, ledger.Annotation{Kind: pick("act", "seen", "material-removed", "question", "note", "other"), What: one("what", 30), By: one("by", 4), Date: ledger.Leaf{Text: "2026-03-02"}, From: pick("stands", "", "", "slip", "label")})
	}
	for range rapid.IntRange(0, 2).Draw(t, "types") {
		r.Types = append(r.Types, ledger.TypeEntry{Status: pick("status", "isotype", "possible isotype", "not a type", "holotype?"), Of: pick("of", "Poa annua L.", "Hieracium vossense Moldstad"),
			Published: one("published", 12), Basis: pick("basis", "", "verified", "label", "picture", "suspected"), By: one("by", 4), Date: ledger.Leaf{Text: "1962"}, Part: one("part", 3), Mistake: pick("mistake", "", "", "x")})
	}
	return r
}

// fixedOnSlips are the words that a language brings onto slips, and marks.
func fixedOnSlips(l *Language) map[string]bool {
	m := map[string]bool{"of": true}
	for _, w := range []string{l.Det, l.Conf, l.NotThis, l.NotLookedAt, l.DeterminedAs, l.FromPicture, l.FromDuplicate, l.FromDNA, l.TypeOf, l.PossibleType, l.VerifiedBy, l.SaidOnLabel, l.SeenInPicture, l.SuspectedOnly, l.NotVerified} {
		for _, x := range bare(w) {
			m[x] = true
		}
	}
	for _, w := range l.Acts {
		for _, x := range bare(w) {
			m[x] = true
		}
	}
	return m
}

// bare are the words of a text without case and the marks at their ends.
func bare(text string) []string {
	var out []string
	for _, w := range strings.Fields(strings.ToLower(text)) {
		if w = strings.Trim(w, ".,;:"); w != "" {
			out = append(out, w)
		}
	}
	return out
}

// TestSlipsLoseNothing: each opinion and act of any record is set whole, with
// nothing added but fixed words, no part meeting another, or is refused with a
// code, a reason and something to type; nothing else gets a slip.
func TestSlipsLoseNothing(t *testing.T) {
	m, _ := ledger.DecodeMuseum(ledger.MuseumFile, []byte(museumText))
	rapid.Check(t, func(rt *rapid.T) {
		h := ledger.WithStandard(m)
		h.Labels.Language.Text = rapid.SampledFrom(LanguageCodes).Draw(rt, "language")
		r := drawnSlips(rt)
		in := &Input{Record: r, Reading: reading.Of(r, reading.ConventionsOf(m)), Museum: m, Habits: h}
		o := SlipOptions{Parts: rapid.IntRange(0, 3).Draw(rt, "parts")}
		slips, refused := Slips(in, o)
		want := 0
		for _, d := range r.Determinations {
			if !d.Mistake.Set() && d.From.Text != "slip" && d.From.Text != "label" {
				want++
			}
		}
		for _, a := range r.Annotations {
			if a.From.Text == "" && a.Kind.Text != "question" && a.Kind.Text != "other" {
				want++
			}
		}
		if len(slips)+len(refused) != want {
			rt.Fatalf("%d slips and %d refusals of %d entries", len(slips), len(refused), want)
		}
		for i, e := range slipEvents(in) {
			if len(refused) > 0 {
				break
			}
			holdsWords(rt, slips[i], in, newSlip(in).event(e))
		}
		types, no := Types(in, o)
		for _, x := range slices.Concat(refused, no) {
			if x.Why == "" || x.Try == "" || x.Code != CodeSlipTooLong && x.Code != CodeSlipWordWide {
				rt.Fatalf("refused: %+v", x)
			}
		}
		if again, _ := Slips(in, SlipOptions{Parts: o.Parts, Printed: r}); len(again) > 0 {
			rt.Fatalf("%d slips of what was printed", len(again))
		}
		for _, b := range slices.Concat(slips, types) {
			apart(rt, b)
		}
	})
}

// holdsWords: a slip has every word of what it tells, and no other.
func holdsWords(t *rapid.T, b *paper.Block, in *Input, s *slip) {
	fixed, have := fixedOnSlips(s.lang), map[string]bool{}
	for _, p := range b.Parts {
		for _, w := range bare(p.Text) {
			have[w] = true
		}
	}
	want := map[string]bool{}
	for _, p := range s.runs() {
		if b.H < SlipHeight && strings.HasSuffix(p.field, ".name") {
			continue // the slip below it bears the name
		}
		for _, w := range bare(textOf(p.runs)) {
			if want[w] = true; !have[w] && !strings.Contains(p.field, "museum") {
				t.Fatalf("%q of %s is not on the slip %v", w, p.field, b.Parts)
			}
		}
	}
	for w := range have {
		if !want[w] && !fixed[w] {
			t.Fatalf("%q stands on the slip and nowhere else", w)
		}
	}
}

// apart: no part of a slip meets another or leaves it.
func apart(t *rapid.T, b *paper.Block) {
	const slack = 0.03
	for i, p := range b.Parts {
		if p.Box.X < sideIn-slack || p.Box.Right() > Width-sideIn+slack || p.Box.Y < slipIn-slack || p.Box.Bottom() > b.H-slipIn+slack {
			t.Fatalf("%s %.2f leaves the slip", p.Name, p.Box)
		}
		for _, q := range b.Parts[:i] {
			if p.Box.X < q.Box.Right()-slack && q.Box.X < p.Box.Right()-slack && p.Box.Y < q.Box.Bottom()-slack && q.Box.Y < p.Box.Bottom()-slack {
				t.Fatalf("%s %.2f meets %s %.2f", p.Name, p.Box, q.Name, q.Box)
			}
		}
	}
}

// TestNamesOnSlips sets every name of oracles/names/botanical.tsv (gnparser
// test data, MIT) on a slip of its own.
func TestNamesOnSlips(t *testing.T) {
	root := os.Getenv("BLOTTER_ORACLES")
	if root == "" {
		root = filepath.Join("..", "..", "..", "shared", "oracles")
	}
	f, err := os.Open(filepath.Join(root, "names", "botanical.tsv"))
	if err != nil {
		t.Skipf("the data to test against is not here: %v", err)
	}
	defer f.Close()
	c := csv.NewReader(f)
	c.Comma = '\t'
	rows, err := c.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	m, _ := ledger.DecodeMuseum(ledger.MuseumFile, []byte(museumText))
	whole, tall := 0, 0
	refusals := map[string]int{}
	for _, row := range rows[1:] {
		r := &ledger.Record{Specimen: ledger.Leaf{Text: "LK7-0000001"}}
		r.Determinations = []ledger.Determination{{Name: ledger.Leaf{Text: row[2]}, By: ledger.Leaf{Text: "M. Ostrander"}, Date: ledger.Leaf{Text: "2026-11-02"}}}
		in := &Input{Record: r, Reading: reading.Of(r, reading.ConventionsOf(m)), Museum: m, Habits: ledger.WithStandard(m)}
		blocks, refused := Slips(in, SlipOptions{Parts: 2})
		switch {
		case len(refused) > 0:
			refusals[refused[0].Code]++
			t.Logf("%s: %s", refused[0].Code, row[2])
		case blocks[0].H > SlipHeight:
			tall++
		default:
			whole++
		}
		for _, b := range blocks {
			slipSound(t, b)
		}
	}
	t.Logf("%d names: %d on a slip, %d on one of two places, refused %v", len(rows)-1, whole, tall, refusals)
	if whole < namesOnSlips {
		t.Errorf("%d names fit a slip, %d did", whole, namesOnSlips)
	}
}

// namesOnSlips is how many of the 420 names fit a slip of 27 mm.
const namesOnSlips = 419
