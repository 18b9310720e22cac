package label

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"blotter/ledger"
	"blotter/ledger/reading"
	"blotter/render/paper"
)

// bareParts are the words of the parts of a block, in order; all is each word
// as often as it stands there.
func bareParts(blocks ...*paper.Block) []string {
	var all []string
	for _, b := range blocks {
		for _, p := range b.Parts {
			if p.Name != "barcode" {
				all = append(all, bare(p.Text)...)
			}
		}
	}
	slices.Sort(all)
	return all
}

// refusedWell: a refusal says why and what to type.
func refusedWell(t *rapid.T, no *Refusal) {
	if no.Code == "" || no.Why == "" || no.Try == "" {
		t.Fatalf("refused: %+v", no)
	}
}

// TestPacketsHold: the label of a packet of any record has the words that it
// is to have and no others, its parts lie within it and apart; or it is refused.
func TestPacketsHold(t *testing.T) {
	m, _ := ledger.DecodeMuseum(ledger.MuseumFile, []byte(museumText))
	made, draws := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		draws++
		h := ledger.WithStandard(m)
		h.Labels.Language.Text = rapid.SampledFrom(LanguageCodes).Draw(rt, "language")
		r := drawn(rt)
		in := &Input{Record: r, Reading: reading.Of(r, reading.ConventionsOf(m)), Museum: m, Habits: h, Family: r.Family.Text, Draft: true}
		p := Packet{What: someWords(rt, "what", 6).Text, Number: someWords(rt, "number", 3).Text}
		height := rapid.SampledFrom([]float64{25, 34, 60}).Draw(rt, "height")
		b, no := PacketLabel(in, p, height)
		if no != nil {
			refusedWell(rt, no)
			return
		}
		made++
		if b.W != Width || b.H != height {
			rt.Fatalf("%g x %g mm", b.W, b.H)
		}
		held(rt, b, sideIn)
		s := newSetting(in)
		want := bare(s.name.words)
		if len(want) == 0 {
			want = bare(s.lang.Indet)
		}
		for _, words := range []string{placeShort(r, s.lang), r.Collector.Text, r.CollNo.Text, r.Date.Text} {
			want = append(want, bare(words)...)
		}
		number := r.Specimen.Text
		if p.What != "" {
			want = append(want, bare(p.What+" ("+number+")")...)
		} else {
			want = append(want, bare(Fill(s.lang.FragmentsOf, number))...)
		}
		if p.Number != "" {
			want = append(want, bare(p.Number)...)
		} else {
			want = append(want, bare(m.Name.Text)...)
		}
		slices.Sort(want)
		if got := bareParts(b); !slices.Equal(got, want) {
			rt.Fatalf("words %q, want %q", got, want)
		}
	})
	if made < draws/5 {
		t.Errorf("only %d labels of %d were made", made, draws)
	}
}

// TestStripsHold: a strip of any number, kind and size has the number and the
// museum, whole and apart from the barcode, or is refused.
func TestStripsHold(t *testing.T) {
	made, draws := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		draws++
		s := Strip{Kind: rapid.SampledFrom(paper.BarcodeKinds).Draw(rt, "kind"), W: rapid.Float64Range(20, 120).Draw(rt, "w"), H: rapid.Float64Range(6, 40).Draw(rt, "h"),
			Module: rapid.Float64Range(0.25, 1).Draw(rt, "module"), Museum: rapid.SampledFrom([]string{"", "Lauvkroken Museum", "Lauvkroken Museum, the herbarium of the old school at Voss"}).Draw(rt, "museum")}
		n := ledger.Number(fmt.Sprintf("%s%d", rapid.StringMatching(`[A-Z]{1,4}[0-9]?-`).Draw(rt, "prefix"), rapid.IntRange(1, 999_999_999).Draw(rt, "n")))
		b, no := s.Of(n)
		if no != nil {
			refusedWell(rt, no)
			return
		}
		made++
		if b.W != s.W || b.H != s.H {
			rt.Fatalf("%g x %g mm of %g x %g", b.W, b.H, s.W, s.H)
		}
		held(rt, b, 0)
		if code, words := partNamed(b, "barcode"), partNamed(b, "number"); code.Text != string(n) || words.Text != string(n) {
			rt.Fatalf("%s: %+v", n, b.Parts)
		}
		if museum := partNamed(b, "museum"); museum.Text != "" && strings.Join(bare(museum.Text), " ") != strings.Join(bare(s.Museum), " ") {
			rt.Fatalf("%q of the museum %q", museum.Text, s.Museum)
		}
	})
	if made < draws/5 {
		t.Errorf("only %d strips of %d were made", made, draws)
	}
}

// TestExsiccataeHold: labels of a printed set of any record are sound, bear the
// title and number of the set and never that of the museum, or are refused.
func TestExsiccataeHold(t *testing.T) {
	m, _ := ledger.DecodeMuseum(ledger.MuseumFile, []byte(museumText))
	made, draws := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		draws++
		h := ledger.WithStandard(m)
		r := drawn(rt)
		r.Exsiccata.Series, r.Exsiccata.Number = ledger.Leaf{Text: "Plantae Vossenses"}, ledger.Leaf{Text: "6307"}
		in := &Input{Record: r, Reading: reading.Of(r, reading.ConventionsOf(m)), Museum: m, Habits: h, Family: r.Family.Text, Draft: true}
		labels, refused := Exsiccatae([]*Input{in}, []ledger.IssuedSeries{{Series: ledger.Leaf{Text: "Plantae Vossenses"}, Editor: ledger.Leaf{Text: "M. Ostrander"}}}, Options{Parts: 9})
		for i := range refused {
			refusedWell(rt, &refused[i])
		}
		for _, x := range labels {
			made++
			tt := &failing{TB: t}
			for _, b := range x.Blocks {
				sound(tt, "drawn", b)
			}
			if len(tt.said) > 0 {
				rt.Fatal(strings.Join(tt.said, "\n"))
			}
			got := bareParts(x.Blocks...)
			for _, want := range slices.Concat(bare("Plantae Vossenses Edited by M. Ostrander 6307"), bare(r.Collector.Text), bare(r.Date.Text), bare(r.Place.Locality.Text), bare(r.Habitat.Text)) {
				if _, has := slices.BinarySearch(got, want); !has {
					rt.Fatalf("%q is not among %q", want, got)
				}
			}
			if slices.Contains(got, bare(r.Specimen.Text)[0]) {
				rt.Fatalf("the museum's number stands on it: %q", got)
			}
		}
	})
	if made < draws/5 {
		t.Errorf("only %d labels of %d were made", made, draws)
	}
}
