package paper

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// What is drawn of a text, in every medium alike: its letters composed (NFC);
// a tab, a line end and other white space of control as a space; nothing for
// the other control characters, soft hyphens, joiners and marks of direction
// (all is set from left to right); U+FFFD for what is no letter of the
// typeface, for what lies beyond U+FFFF, which fpdf cannot write, and for bytes
// that are not UTF-8. Lacks names those, so that a paper with them is refused.
func drawn(a *face, text string) string {
	text = norm.NFC.String(strings.ToValidUTF8(text, string(utf8.RuneError)))
	return strings.Map(func(r rune) rune {
		switch {
		case invisible(r):
			return -1
		case blank(r):
			return ' '
		case !a.has(r):
			return utf8.RuneError
		}
		return r
	}, text)
}

// blank is white space that is drawn as U+0020.
func blank(r rune) bool {
	return r >= '\t' && r <= '\r' || r == 0x85 || r == 0x2028 || r == 0x2029
}

// invisible are characters that have no ink and no room: controls (Cc), format
// characters (Cf: the soft hyphen among them) and variation selectors.
func invisible(r rune) bool {
	return unicode.Is(unicode.Cc, r) && !blank(r) || unicode.Is(unicode.Cf, r) || r >= 0xFE00 && r <= 0xFE0F || r == 0x34F
}

// combining marks stand over or under the letter before them.
func combining(r rune) bool { return r >= 0x300 && unicode.Is(unicode.Mn, r) }

// piece is letters of a run that stand side by side as wide as they are.
type piece struct {
	text    string
	said    string // the letter with its marks, when another one is drawn for it; "": text, and the pieces of its marks
	at, up  int    // of its first letter, in thousandths of an em; up from the base line
	letters int    // before it, marks not counted: each has the run's spread behind it
	marks   int    // the pieces that follow are that many marks of this one letter
}

// pieces cuts what is drawn of a text wherever a letter does not stand right
// behind the one before it: where two are kerned, and about a letter with marks.
func (a *face) pieces(text string) []piece {
	if _, _, plain := a.plain(text); !plain {
		text = drawn(a, text)
	}
	var out []piece
	start, last, at, from, letters, before := 0, -1, 0, 0, 0, 0
	flush := func(end int) {
		if end > start {
			out = append(out, piece{text: text[start:end], at: from, letters: before})
		}
		start, from, before = end, at, letters
	}
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		marks := i + size + marksAt(text[i+size:])
		class := kernClass(r)
		if k := a.kern.of(last, class); k != 0 {
			at += k
			flush(i)
		}
		if marks > i+size {
			flush(i)
		}
		w, _ := a.advance(r)
		at, letters, last = at+int(w), letters+1, class
		i += size
		if marks > i {
			flush(i)
			out = a.marked(out, text[i-size:marks], at, letters)
			start, last, i = marks, -1, marks
		}
	}
	flush(len(text))
	return out
}

// place is where the piece begins in a run of the style: millimetres from the
// first letter, and up from the base line.
func (p piece) place(s Style) (dx, up float64) {
	return (float64(p.at)/1000 + s.Spread*float64(p.letters)) * s.Size * Point, float64(p.up) / 1000 * s.Size * Point
}

// marksAt is how long the combining marks are that text begins with.
func marksAt(text string) int {
	for i, r := range text {
		if !combining(r) {
			return i
		}
	}
	return len(text)
}

// marked adds the marks of a cluster to its letter, the last piece; at is where
// the pen is behind it.
func (a *face) marked(out []piece, cluster string, at, letters int) []piece {
	shown := undotted(cluster)
	_, size := utf8.DecodeRuneInString(shown)
	places, base := a.marks.of(a.ttf, shown), len(out)-1
	if shown != cluster {
		out[base].text, out[base].said = shown[:size], cluster
	}
	for _, m := range shown[size:] {
		out[base].marks++
		at := at + places[out[base].marks].x
		out = append(out, piece{text: string(m), at: at, up: places[out[base].marks].y, letters: letters - 1})
	}
	return out
}

// merged joins neighbours of one style, so that their letters are kerned.
func merged(runs []Run) []Run {
	var out []Run
	for _, r := range runs {
		if n := len(out) - 1; n >= 0 && out[n].Style == r.Style {
			out[n].Text += r.Text
			continue
		}
		out = append(out, r)
	}
	return out
}
