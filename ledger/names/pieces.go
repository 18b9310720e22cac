package names

// Kind is how a piece of a name is set (interface.md 2.3).
type Kind uint8

const (
	Italic  Kind = iota // genus and epithets; Latin
	Upright             // rank terms, qualifiers, notes, family and above, cultivar names
	Author              // authors, smaller
	Cross               // × or +: upright; before an epithet it is set with space that is no character
	Space               // one space between two pieces
)

// Piece is a run of a name's words that is set alike.
type Piece struct {
	Text string
	Kind Kind
}

// Pieces are the words of the name in order with how each is set; joined
// they are Text.
func (n Name) Pieces() []Piece {
	if n.pieces == nil && n.Text != "" {
		if m, err := Read(n.Text); err == nil {
			return m.pieces
		}
		return []Piece{{n.Text, Upright}}
	}
	return n.pieces
}

// Pieces are the words of a text in order with how each is set; a text that
// cannot be read as a name is one upright piece.
func Pieces(text string) []Piece {
	n, err := Read(text)
	if err != nil {
		if text = tidy(text); text == "" {
			return nil
		}
		return []Piece{{text, Upright}}
	}
	return n.pieces
}

// makePieces merges tokens of one kind.
func makePieces(toks []token) (string, []Piece) {
	size := 0
	for _, t := range toks {
		size += len(t.text) + 1
	}
	buf := make([]byte, 0, size)
	type cut struct {
		end  int
		kind Kind
	}
	cuts := make([]cut, 0, 8)
	for i, t := range toks {
		if i > 0 && !t.glued {
			same := cuts[len(cuts)-1].kind == t.kind && t.kind != Cross
			buf = append(buf, ' ')
			if same {
				cuts[len(cuts)-1].end = len(buf)
			} else {
				cuts = append(cuts, cut{len(buf), Space})
			}
		}
		buf = append(buf, t.text...)
		if k := len(cuts); k > 0 && cuts[k-1].kind == t.kind {
			cuts[k-1].end = len(buf)
		} else {
			cuts = append(cuts, cut{len(buf), t.kind})
		}
	}
	text := string(buf)
	pieces := make([]Piece, len(cuts))
	start := 0
	for i, c := range cuts {
		pieces[i] = Piece{text[start:c.end], c.kind}
		start = c.end
	}
	return text, pieces
}
