package paper

import (
	_ "embed"
	"fmt"
	"math"
	"sync"

	"golang.org/x/image/font/sfnt"
)

// Face is one of the two faces that papers are set in.
type Face uint8

const (
	Roman  Face = iota // Gentium Plus Regular
	Italic             // Gentium Plus Italic
)

// Of Gentium Plus, in ems: how far letters reach over and under the base
// line, accents and all of Latin included, and the height of x.
const (
	Ascent  = 0.86
	Descent = 0.26
	XHeight = 0.469
)

//go:embed fonts/GentiumPlus-Regular.ttf
var romanTTF []byte

//go:embed fonts/GentiumPlus-Italic.ttf
var italicTTF []byte

// face is what is known of a font: the width of each letter.
type face struct {
	ttf  []byte
	font *sfnt.Font
	near [0x0600]uint16 // widths of Latin and Greek in thousandths of an em; missing: not in the font

	mu  sync.Mutex
	far map[rune]uint16
	buf sfnt.Buffer
}

var faces = sync.OnceValue(func() [2]*face { return [2]*face{newFace(romanTTF), newFace(italicTTF)} })

func newFace(ttf []byte) *face {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic("paper: read embedded font: " + err.Error())
	}
	a := &face{ttf: ttf, font: f, far: map[rune]uint16{}}
	for r := range rune(len(a.near)) {
		a.near[r] = a.read(r)
	}
	return a
}

// missing marks a letter that the font does not have: combining marks have a
// width, which is 0.
const missing = 0xffff

// read is the width of r in thousandths of an em, rounded as a PDF keeps it.
func (a *face) read(r rune) uint16 {
	i, err := a.font.GlyphIndex(&a.buf, r)
	if err != nil || i == 0 {
		return missing
	}
	em := a.font.UnitsPerEm()
	adv, err := a.font.GlyphAdvance(&a.buf, i, fixedEm(em), 0)
	if err != nil {
		return missing
	}
	return uint16(math.Round(float64(adv) / 64 * 1000 / float64(em)))
}

// advance is the width of r in thousandths of an em; false: not in the font.
func (a *face) advance(r rune) (uint16, bool) {
	if r >= 0 && int(r) < len(a.near) {
		w := a.near[r]
		return w, w != missing
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	w, ok := a.far[r]
	if !ok {
		w = a.read(r)
		a.far[r] = w
	}
	return w, w != missing
}

// Width is how wide the runs are side by side, in millimetres. Letters that
// the typeface lacks count one em.
func Width(runs ...Run) float64 {
	sum := 0.0
	for _, r := range runs {
		a, n, letters := faces()[r.Face], 0, 0
		for _, c := range r.Text {
			w, ok := a.advance(c)
			if !ok {
				w = 1000
			}
			n += int(w)
			letters++
		}
		sum += (float64(n)/1000 + r.Spread*float64(letters)) * r.Size * Point
	}
	return sum
}

// Lacks is the first letter of the runs that the typeface does not have, for
// the words of a refusal; false when it has all.
func Lacks(runs ...Run) (rune, bool) {
	for _, r := range runs {
		for _, c := range r.Text {
			if _, ok := faces()[r.Face].advance(c); !ok {
				return c, true
			}
		}
	}
	return 0, false
}

// LetterName is a letter as a refusal names it: "☿" (U+263F).
func LetterName(r rune) string { return fmt.Sprintf("%q (U+%04X)", string(r), r) }
