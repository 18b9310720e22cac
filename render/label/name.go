package label

import (
	"strings"
	"unicode/utf8"

	"blotter/ledger/names"
	"blotter/render/paper"
)

// Measure is the width of the text of a label and a slip, in millimetres.
const Measure = 95.0

// Name is the words of a name as they are set: genus and epithets italic, of
// latin points; rank markers, qualifiers and authors upright, of upright
// points. Words that cannot be read as a name are upright, of latin points, as
// are names above genus, which have nothing italic. The line may break before
// a rank marker, before the authors and before × in a formula, never inside an
// author nor after &, ex or in; authors that are wider than Measure may break
// between two of them.
func Name(words string, latin, upright float64) []paper.Run {
	return NameWithin(words, latin, upright, Measure)
}

// NameWithin is Name for a line of another width, in millimetres.
func NameWithin(words string, latin, upright, width float64) []paper.Run {
	s := nameSetter{pieces: names.Pieces(words), width: width}
	s.italic = paper.Style{Face: paper.Italic, Size: latin}
	s.roman, s.head = paper.Style{Size: upright}, paper.Style{Size: upright}
	if !s.latin() {
		s.head.Size = latin
	}
	s.formula = s.parentsFit()
	for i, p := range s.pieces {
		s.piece(i, p)
	}
	return s.runs
}

type nameSetter struct {
	pieces              []names.Piece
	width               float64
	italic, roman, head paper.Style
	runs                []paper.Run
	formula             bool // the line breaks before × alone
}

// parentsFit reports whether the name is a formula each of whose parents has
// room on a line of its own.
func (s *nameSetter) parentsFit() bool {
	crosses, wide := 0, 0.0
	for i, p := range s.pieces {
		st := s.roman
		switch {
		case p.Kind == names.Cross && i+1 < len(s.pieces) && s.pieces[i+1].Kind == names.Space:
			crosses, wide = crosses+1, 0
		case p.Kind == names.Italic:
			st = s.italic
		}
		if wide += paper.Width(paper.Run{Style: st, Text: p.Text}); wide > s.width {
			return false
		}
	}
	return crosses > 0
}

func (s *nameSetter) latin() bool {
	for _, p := range s.pieces {
		if p.Kind == names.Italic {
			return true
		}
	}
	return false
}

func (s *nameSetter) add(st paper.Style, text string, keep bool) {
	s.runs = append(s.runs, paper.Run{Style: st, Text: text, Keep: keep})
}

// crossGap is the room between × and its epithet, of an em; it is no
// character, so that copied text stays clean.
const crossGap = 0.08

func (s *nameSetter) piece(i int, p names.Piece) {
	switch p.Kind {
	case names.Space:
		s.add(s.roman, " ", s.glued(i))
	case names.Italic:
		s.kept(s.italic, p.Text)
	case names.Author:
		s.authors(p.Text)
	case names.Cross:
		st := paper.Style{Size: s.italic.Size}
		if i+1 < len(s.pieces) && s.pieces[i+1].Kind != names.Space {
			st.Spread = crossGap
		}
		s.add(st, p.Text, true)
	default:
		st := s.head
		if isCultivar(p.Text) {
			st.Size = s.italic.Size
		}
		if s.last(i) && !short(p.Text) {
			s.add(st, p.Text, false)
			return
		}
		s.kept(st, p.Text)
	}
}

// kept is words that stay together, unless they are wider than the line.
func (s *nameSetter) kept(st paper.Style, text string) {
	r := paper.Run{Style: st, Text: text, Keep: true}
	r.Keep = paper.Width(r) <= s.width
	s.runs = append(s.runs, r)
}

// glued reports whether the space at i is one where the line may not break.
func (s *nameSetter) glued(i int) bool {
	if i == 0 || i+1 >= len(s.pieces) {
		return false
	}
	before, after := s.pieces[i-1], s.pieces[i+1]
	if s.formula {
		return after.Kind != names.Cross || i+2 < len(s.pieces) && s.pieces[i+2].Kind != names.Space
	}
	switch before.Kind {
	case names.Cross:
		return true
	case names.Upright:
		return !isCultivar(before.Text) && short(before.Text)
	case names.Italic:
		if after.Kind == names.Cross { // Mentha ×piperita, not a formula
			return i+2 < len(s.pieces) && s.pieces[i+2].Kind != names.Space
		}
		return after.Kind == names.Upright && s.last(i+1) && len(after.Text) <= 5 // Ranunculus sp.
	}
	return false
}

func (s *nameSetter) last(i int) bool { return i == len(s.pieces)-1 }

// short reports whether upright words are a marker or a qualifier, which
// stay with their neighbour, and no remark.
func short(text string) bool { return utf8.RuneCountInString(text) <= 16 }

func isCultivar(text string) bool {
	return strings.HasPrefix(text, "'") || strings.HasPrefix(text, "‘")
}

// authors stay on one line; where that is too narrow for them each author
// does.
func (s *nameSetter) authors(text string) {
	if r := (paper.Run{Style: s.roman, Text: text, Keep: true}); paper.Width(r) <= s.width {
		s.runs = append(s.runs, r)
		return
	}
	words := strings.Split(text, " ")
	for i, w := range words {
		if i > 0 {
			s.add(s.roman, " ", !betweenAuthors(words[i-1], w))
		}
		s.add(s.roman, w, true)
	}
}

// betweenAuthors reports whether one author ends and the next begins between
// two words.
func betweenAuthors(before, after string) bool {
	if joinsAuthors(before) {
		return false
	}
	return joinsAuthors(after) || strings.HasSuffix(before, ")") || strings.HasSuffix(before, ",") || strings.HasSuffix(before, ";")
}

func joinsAuthors(w string) bool {
	switch w {
	case "&", "et", "ex", "in", "apud", "and", "non", "nec":
		return true
	}
	return false
}
