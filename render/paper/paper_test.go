package paper

import (
	"bytes"
	"os"
	"testing"
	"time"
)

func TestPDFTwice(t *testing.T) {
	p := &Paper{Title: "Try", Day: time.Unix(0, 0), Pages: []Page{{Size: Size{"A4", 210, 297}}}}
	s := Style{Size: 12}
	p.Pages[0].Items = []Item{
		Text{X: 20, Y: 20, Runs: []Run{{Style: Style{Face: Italic, Size: 12.5}, Text: "Ranunculus acris "}, {Style: s, Text: "subsp. "}, {Style: Style{Face: Italic, Size: 12.5}, Text: "pumilus "}, {Style: s, Text: "(Wahlenb.) Á.Löve & D.Löve × ♂ ♀ 60°42′12″"}}},
		Text{X: 20, Y: 30, Runs: []Run{{Style: Style{Size: 8.5, Spread: 0.04}, Text: "LAUVKROKEN MUSEUM"}}},
		Text{X: 60, Y: 120, Turn: 30, Runs: []Run{{Style: Style{Size: 60, Grey: 0.7}, Text: "DRAFT"}}},
		Rule{20, 40, 115, 40, 0.2, 0}, Frame{Box{20, 50, 100, 50}, 0.3}, Area{[]Box{{20, 110, 1, 1}, {21, 111, 1, 1}}},
	}
	a, err := p.PDF()
	if err != nil {
		t.Fatal(err)
	}
	b, _ := p.PDF()
	if !bytes.Equal(a, b) {
		t.Error("the same paper gave other bytes")
	}
	if f := os.Getenv("TRY"); f != "" {
		os.WriteFile(f, a, 0o666)
	}
}
