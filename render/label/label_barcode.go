package label

import (
	"fmt"
	"math"

	"blotter/ledger"
	"blotter/render/paper"
)

// CodeBarcode is the refusal of a label whose number the museum's kind of
// barcode cannot hold, or holds only in a symbol that leaves no room for words.
const CodeBarcode = "label-barcode"

// leastFoot is the least room for collector, number and date beside a barcode,
// in millimetres (own judgement).
const leastFoot = 45.0

// symbol is the barcode at the lower right of a label; nil: it bears none.
type symbol struct {
	*paper.Block           // with its quiet zone
	quietX, quietY float64 // the empty room at its sides; above and below
}

// barcode is the symbol that the settings ask for. Its quiet zone may reach
// into the margin, so that its ink ends where the words end.
func (s *setting) barcode() (*symbol, *Refusal) {
	kind := paper.BarcodeKind(s.set.Barcode.Text)
	n := s.in.Record.Specimen.Text
	if kind == "" || kind == "none" || n == "" || s.museumNumber() != n {
		return nil, nil
	}
	refuse := func(why string) *Refusal {
		out := s.refuse(CodeBarcode, why, "Another kind, or none: habits.labels.barcode of "+ledger.MuseumFile)
		return &out
	}
	o := paper.BarcodeOptions{Bare: true}
	if kind == paper.Code128 {
		o.Height = footAbove + collectorRow + footBetween + footRow - 2*lineClear
	}
	b, err := paper.Barcode(kind, n, o)
	if err != nil {
		return nil, refuse(err.Error())
	}
	ink := darkOf(b)
	out := &symbol{Block: b, quietX: ink.X, quietY: max(ink.Y, lineClear)}
	if room := Measure - out.takes(); room < leastFoot {
		return nil, refuse(fmt.Sprintf("a barcode of its number, %s, leaves %.0f mm for collector and date; they need %.0f mm", kind, math.Floor(max(room, 0)), leastFoot))
	}
	return out, nil
}

// lineClear is what Code 128, which needs no quiet zone above and below, keeps
// from the rule and from the foot of the text, in millimetres.
const lineClear = 0.8

// darkOf is where the dark of a bare symbol stands in its block.
func darkOf(b *paper.Block) paper.Box {
	for _, it := range b.Items {
		if a, ok := it.(paper.Area); ok {
			return a.Box()
		}
	}
	return paper.Box{}
}

// takes is the width of the text that the symbol takes: its ink and the quiet
// zone at its left, with room behind the words.
func (b *symbol) takes() float64 { return b.W - b.quietX + symbolGap }

// symbolGap is from the words to the quiet zone, in millimetres (own design).
const symbolGap = 1.0

// high is the height of the foot that the symbol needs below the rule.
func (b *symbol) high() float64 { return darkOf(b.Block).H + 2*b.quietY }

// footWidth is the width of the text beside the barcode, in millimetres.
func (s *setting) footWidth() float64 {
	if s.symbol == nil {
		return Measure
	}
	return Measure - s.symbol.takes()
}

// footRoom makes the foot as high as its barcode.
func (s *setting) footRoom(foot []footLine) []footLine {
	if s.symbol != nil && len(foot) > 0 {
		foot[0].above += max(0, s.symbol.high()-heightOf(foot))
	}
	return foot
}

// drawBarcode puts the symbol at the lower right of the text, which ends at
// bottom millimetres.
func (s *setting) drawBarcode(b *paper.Block, bottom float64) {
	if s.symbol == nil {
		return
	}
	ink := darkOf(s.symbol.Block)
	b.Put(s.symbol.Block, sideIn+Measure-ink.Right(), bottom-s.symbol.quietY-ink.Bottom())
}
