package paper

import (
	"bytes"
	"cmp"
	"math"
	"strings"
	"testing"

	"github.com/go-text/typesetting/font"
	"github.com/go-text/typesetting/harfbuzz"
	"github.com/go-text/typesetting/language"
	"golang.org/x/text/unicode/norm"
	"pgregory.net/rapid"
)

// shaped is how wide HarfBuzz sets a text, in units of the font.
func shaped(f *harfbuzz.Font, text string) int {
	letters := []rune(text)
	buf := harfbuzz.NewBuffer()
	buf.Props = harfbuzz.SegmentProperties{Direction: harfbuzz.LeftToRight, Script: language.Latin, Language: "en"}
	buf.AddRunes(letters, 0, len(letters))
	buf.Shape(f, []harfbuzz.Feature{without("liga")})
	n := 0
	for _, p := range buf.Pos {
		n += int(p.XAdvance)
	}
	return n
}

// TestKerning holds the table of pairs to the fonts, for all pairs of ASCII and
// quotation marks and some others.
func TestKerning(t *testing.T) {
	letters := []rune("‘’“”–—…×°′″ÁÄÅØéöåøßçñŁśžΩ♂♀  ")
	for r := ' '; r < 127; r++ {
		letters = append(letters, r)
	}
	for i, a := range faces() {
		ttf, err := font.ParseTTF(bytes.NewReader(a.ttf))
		if err != nil {
			t.Fatal(err)
		}
		f, bad := harfbuzz.NewFont(ttf), 0
		alone := map[rune]int{}
		for _, r := range letters {
			alone[r] = shaped(f, string(r))
		}
		for _, x := range letters {
			for _, y := range letters {
				want := int(math.Round(float64(shaped(f, string(x)+string(y))-alone[x]-alone[y]) * 1000 / 2048))
				if want > 95 {
					want = 95 // see kernPairs
				}
				if got := a.kern.of(kernClass(x), kernClass(y)); got != want && bad < 10 {
					bad++
					t.Errorf("face %d: %c%c %d thousandths, HarfBuzz has %d", i, x, y, got, want)
				}
			}
		}
		for _, line := range []string{"Ranunculus acris subsp. pumilus (Wahlenb.) Á.Löve & D.Löve", "LAUVKROKEN MUSEUM", "T. V. Y. Tykkiä, W. A. Yates: “AVATAR” L’Hér."} {
			n, _ := a.measure(line)
			if want := float64(shaped(f, line)) * 1000 / 2048; math.Abs(float64(n)-want) > 0.5*float64(len(line)) {
				t.Errorf("face %d: %s: %d thousandths, HarfBuzz has %.1f", i, line, n, want)
			}
		}
	}
}

// TestDrawn: what becomes of characters that are no letters.
func TestDrawn(t *testing.T) {
	for _, c := range []struct {
		text, want string
		lacks      rune // 0 none
		reason     string
	}{
		{"Voss 60°42′12″N × ♂ ♀ α–ω", "Voss 60°42′12″N × ♂ ♀ α–ω", 0, "all there"},
		{"A\u030alesund e\u0301", "Ålesund é", 0, "composed"},
		{"q\u0301", "q\u0301", 0, "no form of its own: the mark stays"},
		{"a\tb\r\nc\u2028d", "a b  c d", 0, "white space of control is a space"},
		{"1\u00a0km 2\u202fm", "1\u00a0km 2\u202fm", 0, "no-break spaces stay"},
		{"Ra\u00adnun\u200bculus\ufeff \u202eacris\u202c\u2066x\u2069 a\u200db\x00\x1b", "Ranunculus acrisx ab", 0, "no ink, no room"},
		{"♀\ufe0f", "♀", 0, "a variation selector"},
		{"☿", "\ufffd", '☿', "not in the typeface"},
		{"木", "\ufffd", '木', "not in the typeface"},
		{"𝒜🌿", "\ufffd\ufffd", '𝒜', "beyond U+FFFF"},
		{"a\xffb", "a\ufffdb", '\ufffd', "not UTF-8"},
		{"a\ufffdb", "a\ufffdb", '\ufffd', "was not UTF-8 before"},
		{"א", "\ufffd", 'א', "from right to left, and not in the typeface"},
	} {
		for i, a := range faces() {
			if got := drawn(a, c.text); got != c.want {
				t.Errorf("%q (%s): %q, want %q", c.text, c.reason, got, c.want)
			}
			r, _ := Lacks(Run{Style: Style{Face: Face(i), Size: 9}, Text: c.text})
			if r != c.lacks {
				t.Errorf("%q (%s): lacks %q, want %q", c.text, c.reason, r, c.lacks)
			}
		}
	}
}

// TestMarks: a mark over a letter that has no form with it stands over it:
// within the letter's width, over a tall letter higher than over a low one.
func TestMarks(t *testing.T) {
	for i, a := range faces() {
		place := func(cluster string) piece {
			p := a.pieces(cluster)
			if len(p) != 2 || p[0].marks != 1 {
				t.Fatalf("%q: %+v", cluster, p)
			}
			return p[1]
		}
		if low, tall := place("q\u0301"), place("Q\u0301"); tall.up <= low.up+100 {
			t.Errorf("face %d: %+v over q, %+v over Q", i, low, tall)
		}
		w, _ := a.advance('q')
		if p := place("q\u0301"); p.at < 0 || p.at > int(w)+200 {
			t.Errorf("face %d: %+v, q is %d wide", i, p, w)
		}
	}
}

// TestUndotted: i and j lose their dot under a mark where the shaper takes it
// off by the font's feature ccmp, and every mark stands where it puts it.
func TestUndotted(t *testing.T) {
	var marks []rune
	for r := rune(0x300); r < 0x370; r++ {
		marks = append(marks, r)
	}
	for i, a := range faces() {
		ttf, err := font.ParseTTF(bytes.NewReader(a.ttf))
		if err != nil {
			t.Fatal(err)
		}
		f, bare := harfbuzz.NewFont(ttf), 0
		for _, letter := range []string{"i", "j", "į", "ị", "q", "i\u0323", "i\u0328"} {
			for _, m := range marks {
				cluster := norm.NFC.String(letter + string(m))
				if m == 0x34f || !a.has(m) || len([]rune(cluster)) < 2 { // U+034F is drawn nowhere
					continue
				}
				glyphs := shapedGlyphs(f, cluster)
				got := a.pieces(cluster)
				without := strings.HasSuffix(ttf.GlyphName(glyphs[0].glyph), ".Dotless")
				if base := got[0].text; without != (base == "ı" || base == "ȷ") {
					t.Errorf("face %d: %+q is drawn with %q, the shaper's glyph is %s", i, cluster, base, ttf.GlyphName(glyphs[0].glyph))
				}
				if !without {
					continue
				}
				bare++
				if got[0].said != cluster || len(glyphs) != len(got) {
					t.Errorf("face %d: %+q is %+v, the shaper has %d glyphs", i, cluster, got, len(glyphs))
					continue
				}
				for k, g := range glyphs[1:] {
					p := got[k+1]
					if want, _ := ttf.NominalGlyph([]rune(p.text)[0]); want != g.glyph || math.Abs(float64(p.at)-g.x) > 1.5 || math.Abs(float64(p.up)-g.y) > 1.5 {
						t.Errorf("face %d: mark %d of %+q is %+v, the shaper has glyph %s at %.1f, %.1f", i, k+1, cluster, p, ttf.GlyphName(g.glyph), g.x, g.y)
					}
				}
			}
		}
		if bare < 100 {
			t.Errorf("face %d: only %d without dot", i, bare)
		}
	}
}

// glyphAt is a glyph and where the shaper puts it, in thousandths of an em.
type glyphAt struct {
	glyph font.GID
	x, y  float64
}

func shapedGlyphs(f *harfbuzz.Font, text string) (out []glyphAt) {
	letters := []rune(text)
	buf := harfbuzz.NewBuffer()
	buf.Props = harfbuzz.SegmentProperties{Direction: harfbuzz.LeftToRight, Script: language.Latin, Language: "en"}
	buf.AddRunes(letters, 0, len(letters))
	buf.Shape(f, []harfbuzz.Feature{without("liga")})
	pen, em := 0.0, float64(f.Face().Upem())/1000
	for i, p := range buf.Pos {
		out = append(out, glyphAt{buf.Info[i].Glyph, (pen + float64(p.XOffset)) / em, float64(p.YOffset) / em})
		pen += float64(p.XAdvance)
	}
	return out
}

// anyText is words with what may disturb.
func anyText() *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		var b strings.Builder
		for range rapid.IntRange(0, 20).Draw(t, "n") {
			b.WriteString(rapid.OneOf(
				rapid.SampledFrom([]string{"V", ".", "T", "a", "y", ",", " ", "é", "q\u0301", "i\u030b", "į\u0301", "\u0301", "☿", "\t", "\u00ad", "𝒜", "\xff", "’", "f", "×", "\u00a0", "m\u0304\u0323"}),
				rapid.StringN(0, 3, -1),
			).Draw(t, "letters"))
		}
		return b.String()
	})
}

// TestPieces: the pieces of any text have its drawn letters in order, the last
// ends where Width says, and one run cut in two is as wide as whole.
func TestPieces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := anyText().Draw(t, "text")
		s := Style{Face: Face(rapid.IntRange(0, 1).Draw(t, "face")), Size: 10, Spread: 0.05}
		a := faces()[s.Face]
		var b strings.Builder
		end := 0
		marks := 0 // of a letter that was said with them
		for _, p := range a.pieces(text) {
			if marks--; marks < 0 {
				b.WriteString(cmp.Or(p.said, p.text))
			}
			if p.said != "" {
				marks = p.marks
			}
			n, _ := a.measure(p.text)
			if r := []rune(p.text); !combining(r[0]) {
				end = p.at + n
			}
		}
		want := drawn(a, text)
		if b.String() != want {
			t.Fatalf("%q in pieces is %q, drawn is %q", text, b.String(), want)
		}
		if n, _ := a.measure(text); n != end && !(len(want) > 0 && combining([]rune(want)[0])) {
			t.Fatalf("%q: %d wide, its pieces end at %d", text, n, end)
		}
		plain := rapid.StringMatching(`[A-Za-z.,’ ]{0,12}`).Draw(t, "plain")
		k := rapid.IntRange(0, len(plain)).Draw(t, "cut")
		for k > 0 && k < len(plain) && plain[k]&0xC0 == 0x80 {
			k--
		}
		whole, two := Width(Run{Style: s, Text: plain}), Width(Run{Style: s, Text: plain[:k]}, Run{Style: s, Text: plain[k:]})
		if math.Abs(whole-two) > epsilon {
			t.Fatalf("%q is %v mm, cut at %d %v", plain, whole, k, two)
		}
	})
}
