package page

// The two voices. Words are a person's: what stands on a label, in a
// determination, in a note. Said is the program's: readings, counts, names of
// fields, dates of entry. Each has its own type, and neither fits where the
// other belongs, so that no value can mix them.
type (
	Words string
	Said  string
)

// Run is one run of a person's words: Words, a Name, or a WordsLink.
type Run interface{ run() }

// Part is one run of a line that the program says: Said, a Name, a Link, or a
// person's words quoted in it.
type Part interface{ part() }

func (Words) run()     {}
func (Name) run()      {}
func (WordsLink) run() {}
func (Said) part()     {}
func (Name) part()     {}
func (Link) part()     {}
func (Quote) part()    {}
func (Absence) part()  {}

// WordsLink is a person's words that lead to a page, such as a collector's
// name on a label.
type WordsLink struct {
	To    Address
	Words Words
}

// Link is a run of a line that leads somewhere.
type Link struct {
	To   Address
	Text []Part // Said, Quote or Name; never another Link
	Nav  bool   // stands alone, so its target is made large enough for a finger
}

// Quote is a person's words inside a line of the program's: a person's name,
// a value before its correction.
type Quote struct {
	Words Words
	Plain bool // a person's or a museum's name: set as the line is, not in the serif
}

// Person is a person's name in a line of the program's.
func Person(name string) Quote { return Quote{Words: Words(name), Plain: true} }

// Name is a scientific name, or a family's, as a list of pieces; each medium
// sets it in one function. A name that could not be read has one piece, of
// kind Unread.
type Name struct{ Pieces []Piece }

// Piece is a run of a name that is set in one way.
type Piece struct {
	Kind PieceKind
	Text string
}

// PieceKind says how a piece of a name is set.
type PieceKind uint8

const (
	Latin   PieceKind = iota // genus, epithet: italic
	Marker                   // rank marker, qualifier, family, indet.: upright
	Cross                    // the hybrid sign before an epithet: upright, close to it
	Between                  // the hybrid sign between two names of a formula: upright
	Author                   // upright, smaller
	Unread                   // the words as they stand: upright
)

// Readable reports whether the words could be read as a name.
func (n Name) Readable() bool { return len(n.Pieces) > 0 && n.Pieces[0].Kind != Unread }

// Plain is the name as plain text, pieces parted by blanks, a hybrid sign
// close to its epithet.
func (n Name) Plain() string {
	if len(n.Pieces) == 1 {
		return n.Pieces[0].Text
	}
	b := make([]byte, 0, 64)
	for i, p := range n.Pieces {
		if i > 0 && n.Pieces[i-1].Kind != Cross {
			b = append(b, ' ')
		}
		b = append(b, p.Text...)
	}
	return string(b)
}
