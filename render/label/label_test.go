package label

import (
	"os"
	"strings"
	"testing"
	"time"

	"blotter/ledger"
	"blotter/ledger/reading"
	"blotter/render/paper"
)

// museumText is the invented museum of the tests.
const museumText = "format: \"1\"\nname: Lauvkroken Museum\ncode: LK7\ntreated_before: \"1980\"\n"

// input is a record written as YAML, with the settings of a museum added.
func input(t testing.TB, record, settings string) *Input {
	t.Helper()
	m, found := ledger.DecodeMuseum(ledger.MuseumFile, []byte(museumText+settings))
	for _, f := range found {
		t.Errorf("museum: %s", f)
	}
	number, _, _ := strings.Cut(strings.TrimPrefix(record, "specimen: "), "\n")
	r, found := ledger.Decode(ledger.Number(number).Path(), []byte(record))
	for _, f := range found {
		if f.Code != "word-unusual" {
			t.Errorf("record: %s", f)
		}
	}
	return &Input{Record: r, Reading: reading.Of(r, reading.ConventionsOf(m)), Museum: m, Habits: ledger.WithStandard(m), Family: r.Family.Text}
}

// sketch is the record of the label drawn in interface.md section 3.
const sketch = `specimen: LK7-0000482
entry: full
family: Ranunculaceae
collector: Signe Rask
with: [Ove Bannister]
coll_no: "1207"
date: 14.vii.2025
place:
  country: Norway
  province: Vestland
  district: Voss
  locality: Unfertilised hay meadow above the lake, 1.2 km NE of the church
  position: 60°42′12″N 6°39′05″E
  datum: WGS84
  gps_accuracy: 8 m
  elevation: 348 m
habitat: Hay meadow on moraine
associates: [Trollius europaeus]
description: Perennial herb to 40 cm. In flower. Petals clear yellow, paler beneath.
abundance: occasional
cautions: [fresh sap irritates skin]
determinations:
  - name: Ranunculus acris subsp. pumilus (Wahlenb.) Á.Löve & D.Löve
    kind: det
    by: Signe Rask
    date: 14.vii.2025
    from: label
`

// one sets one label.
func one(t testing.TB, in *Input) Made {
	t.Helper()
	made, refused := Labels([]*Input{in}, Options{})
	for _, r := range refused {
		t.Fatalf("%s: %s [%s] %s", r.Of, r.Why, r.Code, r.Try)
	}
	return made[0]
}

// TestSketch: the lines of the sketch, in its order; where they end is by the
// measure of 95 mm.
func TestSketch(t *testing.T) {
	m := one(t, input(t, sketch, ""))
	if m.Size != 9.5 || m.Height != 68 {
		t.Errorf("set in %g points on %g mm", m.Size, m.Height)
	}
	want := []string{
		"LAUVKROKEN MUSEUM   Ranunculaceae",
		"Ranunculus acris subsp. pumilus (Wahlenb.) Á.Löve & D.Löve",
		"det. Signe Rask, 14.vii.2025",
		"Norway: Vestland: Voss. Unfertilised hay meadow above the lake,",
		"1.2 km NE of the church.",
		"60°42′12″N 6°39′05″E, WGS84, ± 8 m. 348 m.",
		"Hay meadow on moraine, with Trollius europaeus.",
		"Perennial herb to 40 cm. In flower. Petals clear yellow, paler beneath.",
		"Occasional.",
		"CAUTION: fresh sap irritates skin.",
		"Signe Rask 1207   14.vii.2025",
		"with Ove Bannister   LK7-0000482",
	}
	if got := strings.Join(Lines(m.Blocks[0]), "\n"); got != strings.Join(want, "\n") {
		t.Errorf("lines:\n%s\nwant:\n%s", got, strings.Join(want, "\n"))
	}
}

// show writes blocks into the PDF that TRY names, to be looked at.
func show(t *testing.T, blocks []*paper.Block) {
	file := os.Getenv("TRY")
	if file == "" {
		return
	}
	p := &paper.Paper{Title: "labels", Day: time.Unix(0, 0)}
	var page *paper.Page
	y := 1000.0
	col := 0.0
	for _, b := range blocks {
		if y+b.H > 290 {
			if page == nil || col > 0 {
				p.Pages = append(p.Pages, paper.Page{Size: paper.Size{Name: "A4", W: 210, H: 297}})
				page, col = &p.Pages[len(p.Pages)-1], 0
			} else {
				col = 105
			}
			y = 4
		}
		page.Put(b, col, y)
		page.Items = append(page.Items, paper.Frame{B: paper.Box{X: col, Y: y, W: b.W, H: b.H}, Width: 0.05})
		y += b.H
	}
	text, err := p.PDF()
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, text, 0o666); err != nil {
		t.Fatal(err)
	}
}

func TestShow(t *testing.T) {
	var blocks []*paper.Block
	for _, s := range samples {
		in := input(t, s.record, s.settings)
		if s.with != nil {
			s.with(in)
		}
		made, refused := Labels([]*Input{in}, Options{Parts: s.parts})
		for _, r := range refused {
			t.Errorf("%s: %s %s [%s]\n%s", s.name, r.Of, r.Why, r.Code, r.Try)
		}
		for _, m := range made {
			for _, b := range m.Blocks {
				sound(t, s.name, b)
			}
			blocks = append(blocks, m.Blocks...)
		}
	}
	show(t, blocks)
}

// sound holds a block to its own law: no part meets another, none leaves the
// text area.
func sound(t testing.TB, name string, b *paper.Block) {
	t.Helper()
	const slack = 0.02
	for i, p := range b.Parts {
		right := Width - sideIn
		if p.Name == "barcode" { // its quiet zone may reach into the margin
			right += 10 * 25.4 / 100
		}
		if p.Box.X < sideIn-slack || p.Box.Right() > right+slack || p.Box.Y < topIn-slack || p.Box.Bottom() > b.H-topIn+slack {
			t.Errorf("%s: %s at %.2f leaves the text area", name, p.Name, p.Box)
		}
		for _, q := range b.Parts[:i] {
			if p.Box.X < q.Box.Right()-slack && q.Box.X < p.Box.Right()-slack && p.Box.Y < q.Box.Bottom()-slack && q.Box.Y < p.Box.Bottom()-slack {
				t.Errorf("%s: %s %.2f meets %s %.2f", name, p.Name, p.Box, q.Name, q.Box)
			}
		}
	}
}

// TestCautions: a label bears the cautions that the record has, and none that
// is only assumed from the age of the sheet.
func TestCautions(t *testing.T) {
	const old = "specimen: LK7-0000421\nentry: full\ncollector: K. Moldstad\ncoll_no: s.n.\ndate: July 1931\nplace: {country: Norway, locality: Raundalen}\n"
	for _, c := range []struct {
		name, more, want string
		assumed          int
	}{
		{"by its age", "", "", 1},
		{"known", "cautions: [\"treated, tested\"]\n", "CAUTION: treated with poison (tested): may carry mercury or arsenic.", 0},
		{"written by a person as assumed", "cautions: [\"treated, assumed\"]\n", "CAUTION: assumed to be treated with poison: may carry mercury or arsenic.", 0},
		{"another beside the age", "cautions: [toxic, spiny]\n", "CAUTION: toxic; spiny.", 1},
	} {
		in := input(t, old+c.more, "")
		assumed := 0
		for _, x := range in.Reading.Cautions {
			if x.Assumed {
				assumed++
			}
		}
		made, refused := Labels([]*Input{in}, Options{})
		if len(refused) > 0 || assumed != c.assumed {
			t.Fatalf("%s: %v, %d assumed", c.name, refused, assumed)
		}
		got := ""
		for _, p := range made[0].Blocks[0].Parts {
			if p.Name == "caution" {
				got = p.Text
			}
		}
		if got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}
