package label

import (
	"fmt"
	"math"

	"blotter/ledger"
	"blotter/render/paper"
)

// Codes of refusals of strips.
const (
	CodeStripSmall  = "strip-too-small"
	CodeStripNumber = "strip-number"
)

// Measures of a strip in millimetres and points (own design).
const (
	stripSide    = 5.0  // from the sides to the ink: the first stands at the edge of the paper
	stripTop     = 1.0  // above and below
	stripNumber  = 11.0 // points of the number; where there is little room down to stripLeast
	stripLeast   = 6.5
	stripMuseum  = 7.0
	stripGap     = 1.6 // from the quiet zone to the words
	stripLeading = 1.2
	stripDot     = 25.4 / 300 // of the printers that a module is made for
	stripDots    = 3          // least dots of a module: 0.254 mm, what hand scanners read (from memory)
)

// Strip is a barcode on paper of W by H millimetres.
type Strip struct {
	Kind   paper.BarcodeKind
	W, H   float64
	Module float64 // the widest; millimetres
	Museum string
}

// Of is the strip of a number: the symbol with its quiet zone, the number in
// letters, the museum. The module is as wide as the strip allows, in whole dots
// of 300 to the inch.
func (s Strip) Of(n ledger.Number) (*paper.Block, *Refusal) {
	refuse := func(code, why, try string) *Refusal {
		return &Refusal{Of: n, Code: code, Why: why, Try: try}
	}
	one, err := paper.Barcode(s.Kind, string(n), paper.BarcodeOptions{Module: 1, Height: 1, Bare: true})
	if err != nil {
		return nil, refuse(CodeStripNumber, err.Error(), "Another kind: --barcode qr")
	}
	for _, words := range []string{string(n), s.Museum} {
		if r, lacks := paper.Lacks(paper.Run{Text: words}); lacks {
			return nil, refuse(CodeStripNumber, "the typeface has no letter "+paper.LetterName(r), "")
		}
	}
	for dots := math.Floor(s.Module/stripDot + 0.01); dots >= stripDots; dots-- {
		if b := s.set(string(n), one, dots*stripDot); b != nil {
			return b, nil
		}
	}
	w, h := s.needs(string(n), one)
	return nil, refuse(CodeStripSmall, fmt.Sprintf("%s of this number, with the words beside it, needs %.0f x %.0f mm; a strip is %.4g x %.4g mm", s.Kind, math.Ceil(w), math.Ceil(h), s.W, s.H),
		"Another kind: --barcode datamatrix   Larger strips: habits.strips.width and habits.strips.height of blotter.yaml")
}

// set lays the strip out with modules of this width; nil: it does not fit.
func (s Strip) set(number string, one *paper.Block, module float64) *paper.Block {
	if s.Kind == paper.Code128 {
		return s.line(number, one, module)
	}
	return s.square(number, one, module)
}

func styled(size float64, words string) paper.Run {
	return paper.Run{Style: paper.Style{Size: size}, Text: words}
}

// square is a symbol of squares at the left, the words at the right.
func (s Strip) square(number string, one *paper.Block, module float64) *paper.Block {
	symbol, err := paper.Barcode(s.Kind, number, paper.BarcodeOptions{Module: module, Bare: true})
	quiet := quietOf(one) * module
	if err != nil || symbol.H > s.H-2*max(stripTop-quiet, 0)+tiny {
		return nil
	}
	b := &paper.Block{W: s.W, H: s.H, Of: number}
	b.Put(symbol, max(stripSide-quiet, 0), (s.H-symbol.H)/2)
	x := max(stripSide-quiet, 0) + symbol.W + stripGap
	room := s.W - stripSide - x
	for size := stripNumber; size >= stripLeast; size -= 0.5 {
		museum := paper.Set([]paper.Run{styled(min(stripMuseum, size), s.Museum)}, room)
		small := min(stripMuseum, size) * stripLeading * paper.Point
		h := size*stripLeading*paper.Point + float64(len(museum))*small
		if paper.Width(styled(size, number)) > room || paper.Overflow(museum, room) != "" || h > s.H-2*stripTop {
			continue
		}
		d, y := drawing{b: b}, (s.H-h)/2
		d.text("number", x, y+baseline(size, size*stripLeading*paper.Point), []paper.Run{styled(size, number)})
		y += size * stripLeading * paper.Point
		for _, l := range museum {
			d.text("museum", x, y+baseline(l.Runs[0].Size, small), l.Runs)
			y += small
		}
		return b
	}
	return nil
}

// quietOf is the quiet zone at the left of a symbol, in its own measure.
func quietOf(one *paper.Block) float64 {
	for _, it := range one.Items {
		if a, ok := it.(paper.Area); ok {
			return a.Box().X
		}
	}
	return 0
}

// line is bars with the words below them.
func (s Strip) line(number string, one *paper.Block, module float64) *paper.Block {
	ink := (one.W - 2*quietOf(one)) * module
	if one.W*module > s.W+tiny || ink > s.W-2*stripSide+tiny {
		return nil
	}
	words := []paper.Run{styled(stripMuseum+1, number), styled(stripMuseum, "   "+s.Museum)}
	if s.Museum == "" {
		words = words[:1]
	}
	row := (stripMuseum + 1) * stripLeading * paper.Point
	high := s.H - 2*stripTop - row
	if high < 5 || paper.Width(words...) > s.W-2*stripSide+tiny { // 5 mm: own judgement
		return nil
	}
	symbol, err := paper.Barcode(s.Kind, number, paper.BarcodeOptions{Module: module, Height: high, Bare: true})
	if err != nil {
		return nil
	}
	b := &paper.Block{W: s.W, H: s.H, Of: number}
	b.Put(symbol, (s.W-symbol.W)/2, stripTop)
	d := drawing{b: b}
	base := s.H - stripTop - row + baseline(stripMuseum+1, row)
	x := (s.W - paper.Width(words...)) / 2
	d.text("number", x, base, words[:1])
	if len(words) > 1 {
		d.text("museum", x+paper.Width(words[0], styled(stripMuseum, "   ")), base, []paper.Run{styled(stripMuseum, s.Museum)})
	}
	return b
}

// needs is the size of a strip that would do, with the narrowest module.
func (s Strip) needs(number string, one *paper.Block) (w, h float64) {
	least := stripDots * stripDot
	big := s
	for big.W, big.H = 20, 6; big.W < 300; big.W++ {
		for _, h := range []float64{8, 10, 12, 15, 20, 30, 40} {
			if big.H = h; big.set(number, one, least) != nil {
				return max(big.W, min(s.W, big.W)), h
			}
		}
	}
	return one.W * least, one.H * least
}
