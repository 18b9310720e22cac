package paper

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/boombuler/barcode"
	"github.com/boombuler/barcode/code128"
	"github.com/boombuler/barcode/datamatrix"
	"github.com/boombuler/barcode/qr"
)

// BarcodeKind is a symbology.
type BarcodeKind string

const (
	DataMatrix BarcodeKind = "datamatrix" // ISO/IEC 16022, ECC 200
	QR         BarcodeKind = "qr"         // ISO/IEC 18004, correction level M
	Code128    BarcodeKind = "code128"    // ISO/IEC 15417
)

// BarcodeKinds are all of them, the smallest symbol first.
var BarcodeKinds = []BarcodeKind{DataMatrix, QR, Code128}

// symbology is what is particular to a kind.
type symbology struct {
	encode func(text string) (barcode.Barcode, error)
	quiet  int     // modules left empty around it, from memory of the standard named above
	module float64 // millimetres where none is asked for
	ascii  bool    // holds no other letters that every scanner reads alike
}

// The modules are own judgement: whole dots at 300 and 600 to the inch, so that
// a printer draws all alike (0.423 mm is 5 and 10, 0.254 mm is 3 and 6), and
// not under 0.25 mm, which most hand scanners read (from memory).
var symbologies = map[BarcodeKind]symbology{
	DataMatrix: {func(s string) (barcode.Barcode, error) { return datamatrix.Encode(s) }, 1, 5 * 25.4 / 300, true},
	QR:         {func(s string) (barcode.Barcode, error) { return qr.Encode(s, qr.M, qr.Auto) }, 4, 5 * 25.4 / 300, false},
	Code128:    {func(s string) (barcode.Barcode, error) { return code128.Encode(s) }, 10, 3 * 25.4 / 300, true},
}

// BarcodeOptions are how a barcode is drawn. All may be left zero.
type BarcodeOptions struct {
	Module float64  // width of the narrowest bar or of one square, in mm; 0: 0.423, of Code 128 0.254
	Height float64  // of the bars of Code 128, in mm; 0: 15 % of their length, at least 8 (own judgement)
	Words  []string // lines that people read; none: the text itself
	Size   float64  // of the words, in points; 0: 8
	Beside bool     // the words stand at the right of the symbol, not below it
	Bare   bool     // no words: they stand elsewhere
}

// wordGap is between the quiet zone and the words, in millimetres.
const wordGap = 0.8

// Barcode draws text as a symbol with its quiet zone and the words that people
// read. The parts of the block are "barcode", the symbol with its quiet zone,
// and "number", the words. Text that the kind cannot hold, or that a scanner
// would type as keys, is an error.
func Barcode(kind BarcodeKind, text string, o BarcodeOptions) (*Block, error) {
	s, ok := symbologies[kind]
	if !ok {
		return nil, fmt.Errorf("barcode %q: no such kind; there are datamatrix, qr, code128", kind)
	}
	if err := s.holds(text); err != nil {
		return nil, fmt.Errorf("%s of %q: %w", kind, text, err)
	}
	symbol, err := s.encode(text)
	if err != nil {
		return nil, fmt.Errorf("%s of %q: %w", kind, text, err)
	}
	if o.Module == 0 {
		o.Module = s.module
	}
	if o.Size == 0 {
		o.Size = 8
	}
	if len(o.Words) == 0 {
		o.Words = []string{text}
	}
	return o.block(kind, text, symbol, float64(s.quiet)*o.Module), nil
}

// holds finds letters that the kind cannot hold.
func (s symbology) holds(text string) error {
	if text == "" {
		return fmt.Errorf("no text")
	}
	if !utf8.ValidString(text) {
		return fmt.Errorf("not UTF-8")
	}
	for _, r := range text {
		if unicode.IsControl(r) {
			return fmt.Errorf("control character U+%04X", r)
		}
		if s.ascii && r > unicode.MaxASCII {
			return fmt.Errorf("%s: not a letter of this kind of barcode", LetterName(r))
		}
	}
	return nil
}

// block puts the symbol and its words together.
func (o BarcodeOptions) block(kind BarcodeKind, text string, symbol barcode.Barcode, quiet float64) *Block {
	cols, rows := symbol.Bounds().Dx(), symbol.Bounds().Dy()
	high := o.Module
	above := quiet
	if kind == Code128 {
		high, above = o.Height, 0 // a line is quiet at its ends alone
		if high == 0 {
			high = max(8, 0.15*float64(cols)*o.Module)
		}
	}
	zone := Box{W: float64(cols)*o.Module + 2*quiet, H: float64(rows)*high + 2*above}
	b := &Block{W: zone.W, H: zone.H, Of: text}
	bars := Area{darkBoxes(symbol, o.Module, high)}.moved(quiet, above)
	if o.Bare {
		b.Add(bars)
		b.Parts = []Part{{"barcode", zone, text}}
		return b
	}
	wide, line := 0.0, 1.15*o.Size*Point
	for _, w := range o.Words {
		wide = max(wide, Width(Run{Style: Style{Size: o.Size}, Text: w}))
	}
	words := Box{W: wide, H: (Ascent+Descent)*o.Size*Point + line*float64(len(o.Words)-1)}
	if o.Beside {
		words.X = zone.W + wordGap
		b.W, b.H = words.Right(), max(zone.H, words.H)
		words.Y, zone.Y = (b.H-words.H)/2, (b.H-zone.H)/2
	} else {
		b.W = max(zone.W, words.W)
		words.X, zone.X, words.Y = (b.W-words.W)/2, (b.W-zone.W)/2, zone.H+max(0, wordGap-above)
		b.H = words.Bottom()
	}
	b.Add(bars.moved(zone.X, zone.Y))
	for i, w := range o.Words {
		r := Run{Style: Style{Size: o.Size}, Text: w}
		x := words.X
		if !o.Beside {
			x += (words.W - Width(r)) / 2
		}
		b.Add(Text{X: x, Y: words.Y + Ascent*o.Size*Point + line*float64(i), Runs: []Run{r}})
	}
	b.Parts = []Part{{"barcode", zone, text}, {"number", words, strings.Join(o.Words, " ")}}
	return b
}

// darkBoxes are the dark modules, those beside each other in a row as one, and
// the same stretch of rows below each other as one: bars of a line, and squares
// between which no printer leaves a light line.
func darkBoxes(symbol barcode.Barcode, wide, high float64) []Box {
	area := symbol.Bounds()
	var out []Box
	open := map[[2]int]int{} // stretches of the last row, by their ends; where they are in out
	for y := range area.Dy() {
		now := map[[2]int]int{}
		for x := 0; x < area.Dx(); {
			end := x
			for end < area.Dx() && dark(symbol, area.Min.X+end, area.Min.Y+y) {
				end++
			}
			if end == x {
				x++
				continue
			}
			k := [2]int{x, end}
			i, seen := open[k]
			if !seen {
				i = len(out)
				out = append(out, Box{float64(x) * wide, float64(y) * high, float64(end-x) * wide, 0})
			}
			out[i].H += high
			now[k] = i
			x = end
		}
		open = now
	}
	return out
}

func dark(symbol barcode.Barcode, x, y int) bool {
	r, _, _, _ := symbol.At(x, y).RGBA()
	return r < 0x8000
}
