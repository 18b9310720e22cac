package paper

import (
	_ "embed"
	"fmt"
	"math"
	"strings"
	"sync"
	"unicode/utf8"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/text/unicode/norm"
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

// face is what is known of a font: the width of each letter, kerning and the
// places of combining marks.
type face struct {
	ttf  []byte
	font *sfnt.Font
	near [0x2300]uint16 // widths up to the technical signs in thousandths of an em
	kern *kerns

	mu  sync.Mutex
	far map[rune]uint16
	buf sfnt.Buffer

	marks markPlaces
}

var faces = sync.OnceValue(func() [2]*face {
	return [2]*face{newFace(romanTTF, kernPairs[Roman]), newFace(italicTTF, kernPairs[Italic])}
})

func newFace(ttf []byte, pairs string) *face {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic("paper: read embedded font: " + err.Error())
	}
	a := &face{ttf: ttf, font: f, kern: readKerns(pairs), far: map[rune]uint16{}}
	for r := range rune(len(a.near)) {
		a.near[r] = a.read(r)
	}
	return a
}

// special marks what has no width of its own: a letter that the font does not
// have, a combining mark, a control character.
const special = 0xffff

// read is the width of r in thousandths of an em, rounded as a PDF keeps it.
func (a *face) read(r rune) uint16 {
	i, err := a.font.GlyphIndex(&a.buf, r)
	if err != nil || i == 0 || r > 0xffff || blank(r) || invisible(r) || combining(r) {
		return special
	}
	em := a.font.UnitsPerEm()
	adv, err := a.font.GlyphAdvance(&a.buf, i, fixedEm(em), 0)
	if err != nil {
		return special
	}
	return uint16(math.Round(float64(adv) / 64 * 1000 / float64(em)))
}

// advance is the width of r in thousandths of an em; false: it is special, and 0.
func (a *face) advance(r rune) (uint16, bool) {
	w := uint16(special)
	if r >= 0 && int(r) < len(a.near) {
		w = a.near[r]
	} else {
		a.mu.Lock()
		defer a.mu.Unlock()
		known := false
		if w, known = a.far[r]; !known {
			w = a.read(r)
			a.far[r] = w
		}
	}
	if w == special {
		return 0, false
	}
	return w, true
}

// has tells whether the font has a letter for r, or is to draw nothing for it.
func (a *face) has(r rune) bool {
	if _, ok := a.advance(r); ok {
		return true
	}
	if blank(r) || invisible(r) {
		return true
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	i, err := a.font.GlyphIndex(&a.buf, r)
	return err == nil && i != 0 && r <= 0xffff
}

// plain is the width of text in thousandths of an em and how many letters it
// has; false: some of them are special.
func (a *face) plain(text string) (width, letters int, ok bool) {
	last := -1
	for _, r := range text {
		if int(r) >= len(a.near) || a.near[r] == special {
			return 0, 0, false
		}
		class := kernClass(r)
		width += int(a.near[r]) + a.kern.of(last, class)
		last = class
		letters++
	}
	return width, letters, true
}

// measure is the same of any text.
func (a *face) measure(text string) (width, letters int) {
	if width, letters, ok := a.plain(text); ok {
		return width, letters
	}
	last := -1
	for _, r := range drawn(a, text) {
		if combining(r) {
			last = -1
			continue
		}
		w, _ := a.advance(r)
		class := kernClass(r)
		width += int(w) + a.kern.of(last, class)
		last = class
		letters++
	}
	return width, letters
}

// Width is how wide the runs are side by side, kerned, in millimetres.
func Width(runs ...Run) float64 {
	sum := 0.0
	for i, r := range runs {
		a := faces()[r.Face]
		n, letters := a.measure(r.Text)
		if i > 0 && runs[i-1].Style == r.Style {
			n += a.kern.of(lastClass(runs[i-1].Text), firstClass(r.Text))
		}
		sum += (float64(n)/1000 + r.Spread*float64(letters)) * r.Size * Point
	}
	return sum
}

func lastClass(text string) int {
	r, _ := utf8.DecodeLastRuneInString(text)
	return kernClass(r)
}

func firstClass(text string) int {
	r, _ := utf8.DecodeRuneInString(text)
	return kernClass(r)
}

// Lacks is the first letter of the runs that cannot be drawn, for the words of
// a refusal: one that the typeface does not have, U+FFFD for what is not UTF-8.
// Control characters are no letters: they are never drawn. False: it has all.
func Lacks(runs ...Run) (rune, bool) {
	for _, r := range runs {
		a := faces()[r.Face]
		if _, _, ok := a.plain(r.Text); ok {
			continue
		}
		for _, c := range norm.NFC.String(strings.ToValidUTF8(r.Text, string(utf8.RuneError))) {
			if c == utf8.RuneError || !a.has(c) {
				return c, true
			}
		}
	}
	return 0, false
}

// LetterName is a letter as a refusal names it: "☿" (U+263F).
func LetterName(r rune) string { return fmt.Sprintf("%q (U+%04X)", string(r), r) }
