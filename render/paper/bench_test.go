package paper

import (
	"bytes"
	"fmt"
	"io"
	"testing"
	"time"

	"codeberg.org/go-pdf/fpdf"
)

// labelLines is the text of one label in its runs, as labels are set: about
// 330 letters.
func labelLines(i int) [][]Run {
	roman, italic := Style{Size: 9.5}, Style{Face: Italic, Size: 12.5}
	return [][]Run{
		{{Style: Style{Size: 8.5, Spread: 0.04}, Text: "LAUVKROKEN MUSEUM"}},
		{{Style: italic, Text: "Ranunculus acris "}, {Style: roman, Text: "subsp. "}, {Style: italic, Text: "pumilus "}, {Style: roman, Text: "(Wahlenb.) Á.Löve & D.Löve"}},
		{{Style: roman, Text: "det. Signe Rask, 14.vii.2025"}},
		{{Style: roman, Text: fmt.Sprintf("Norway: Vestland: Voss. Unfertilised hay meadow above the lake, %d km NE of the church. 60°42′12″N 6°39′05″E, WGS84, ± 8 m. 348 m. Hay meadow on moraine, with Trollius europaeus. Perennial herb to 40 cm. In flower. Petals clear yellow, paler beneath.", i)}},
		{{Style: roman, Text: fmt.Sprintf("Signe Rask %d", i)}},
		{{Style: roman, Text: fmt.Sprintf("LK7-%07d", i)}},
	}
}

// BenchmarkPDF sets 2,000 labels in lines, lays them on sheets and writes the
// PDF; BenchmarkPlain writes the same letters with fpdf alone, where they fall.
func BenchmarkPDF(b *testing.B) {
	for b.Loop() {
		var blocks []*Block
		for i := range 2000 {
			block, y := &Block{W: 105, H: 68}, 8.0
			for _, runs := range labelLines(i) {
				for _, l := range Set(runs, 95) {
					block.Add(Text{X: 5, Y: y, Runs: l.Runs})
					y += 4
				}
			}
			blocks = append(blocks, block)
		}
		p, _, err := Impose(blocks, Imposition{Size: a4, Place: labelPlace})
		if err != nil {
			b.Fatal(err)
		}
		p.Day = time.Unix(0, 0)
		text, err := p.PDF()
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(text)), "bytes/file")
	}
}

func BenchmarkPlain(b *testing.B) {
	for b.Loop() {
		f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm"})
		for i, a := range faces() {
			f.AddUTF8FontFromBytes("G", pdfStyle[i], a.ttf)
		}
		for i := range 2000 {
			if i%8 == 0 {
				f.AddPage()
			}
			for k, runs := range labelLines(i) {
				for _, r := range runs {
					f.SetFont("G", pdfStyle[r.Face], r.Size)
					f.Text(5, float64(8+4*k+34*(i%8)), r.Text)
				}
			}
		}
		var out bytes.Buffer
		if err := f.Output(&out); err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(out.Len()), "bytes/file")
	}
}

// BenchmarkOnePDF is a file of one label: what reading the fonts costs.
func BenchmarkOnePDF(b *testing.B) {
	p := &Paper{Pages: []Page{{Size: a4, Items: []Item{Text{X: 5, Y: 9, Runs: labelLines(1)[1]}}}}}
	for b.Loop() {
		text, err := p.PDF()
		if err != nil {
			b.Fatal(err)
		}
		io.Discard.Write(text)
	}
}

// BenchmarkFaces is what the tables of the two faces cost once.
func BenchmarkFaces(b *testing.B) {
	for b.Loop() {
		newFace(romanTTF, kernPairs[Roman])
		newFace(italicTTF, kernPairs[Italic])
	}
}
