package mount

import (
	"cmp"
	"slices"

	"blotter/render/paper"
)

// Kind is what a piece is. Pieces are placed and numbered in this order.
type Kind int

// Kinds of pieces.
const (
	Label      Kind = iota // of the museum
	OldLabel               // that the sheet has already and keeps
	Pencil                 // the line above the label for what is written by hand
	Transcript             // the museum's label of an old sheet, which never replaces the old one
	TypeLabel
	Slip
	Packet
	Strip // with the barcode
)

// Piece is something that goes onto the sheet beside the plant.
type Piece struct {
	Kind    Kind
	W, H    float64
	Says    string // what tells it from others of its kind: "det. M. Ostrander, 2.xi.2026"
	Assumed bool   // nobody knows its size
}

// Sheet is the paper on which the plant is mounted.
type Sheet struct {
	W, H   float64
	Margin float64 // from its edges to what is glued on
	Gap    float64 // between two pieces
}

// room is the sheet within its margins.
func (s Sheet) room() paper.Box {
	return paper.Box{X: s.Margin, Y: s.Margin, W: s.W - 2*s.Margin, H: s.H - 2*s.Margin}
}

// Input is what is to be placed.
type Input struct {
	Sheet
	Pieces    []Piece
	StripLeft bool       // the strip goes to the upper left, not to the upper right
	Plant     paper.Size // 0: its size is not known
}

// Placed is a piece at its place.
type Placed struct {
	Piece
	paper.Box
	No int // from 1, in the order of kinds
}

// Plan is where all goes.
type Plan struct {
	Input
	Placed []Placed
	Left   []Piece // for which the sheet has no place
	// Free is an empty rectangle within the margins, Gap away from every piece:
	// of those that take the plant the largest. When none does it is that in
	// which most of it has.
	Free paper.Box
	// Apart says that the plant, which has no room, would have it if the packets
	// were kept apart.
	Apart bool
}

// Lay places the pieces. The label goes to the lower right, the pencil line
// and the slips above it, the packets to the lower left, the strip to an upper
// corner (trade: label lower right about 5 mm in, determination slips just
// above it, other slips above or left, margins all round, "Sheet 1 of 2" in
// pencil directly above the label, packet on a free area: Royal Botanic Garden
// Edinburgh and NZ Plant Conservation Network, mounting pages). When the plant
// does not fit so, the packets go to the upper left; then one slip after the
// other goes from above the label to the left side, from its foot upwards, each
// time with the packets below them and at the upper left. The first of these
// arrangements that has a place for every piece and for the plant is taken;
// where there is none, the one in which most of the plant has room.
func Lay(in Input) Plan {
	p := in.lay()
	if !p.Fits() && slices.ContainsFunc(in.Pieces, isPacket) {
		without := in
		without.Pieces = slices.DeleteFunc(slices.Clone(in.Pieces), isPacket)
		w := without.lay()
		p.Apart = w.Fits() && len(w.Left) == 0
	}
	return p
}

// stacked are those that stand above the label, or where that has no room at
// the left side.
func stacked(k Kind) bool { return k == Transcript || k == TypeLabel || k == Slip }

func isPacket(p Piece) bool { return p.Kind == Packet }

// Fits reports whether the plant has room; one of unknown size counts as if.
func (p Plan) Fits() bool { return share(p.Free, p.Plant) == 1 }

// corner is one of the sheet's; pieces stand at the side of it, as near to it
// as those before them allow.
type corner struct{ left, top bool }

var (
	lowerRight = corner{}
	lowerLeft  = corner{left: true}
	upperLeft  = corner{left: true, top: true}
	upperRight = corner{top: true}
)

// arrangement is one way to place the pieces.
type arrangement struct {
	above   int    // so many slips at most stand above the label
	packets corner // where they go
}

// lay takes the first arrangement that is good, else the best.
func (in Input) lay() Plan {
	pieces := sorted(in.Pieces)
	slips := 0
	for _, p := range pieces {
		if stacked(p.Kind) {
			slips++
		}
	}
	var best Plan
	most := -1.0
	for above := slips; above >= 0; above-- {
		for _, c := range []corner{lowerLeft, upperLeft} {
			p := in.arranged(pieces, arrangement{above, c})
			n := share(p.Free, in.Plant)
			if len(p.Left) == 0 && n == 1 {
				return p
			}
			if most < 0 || len(p.Left) < len(best.Left) || len(p.Left) == len(best.Left) && n > most+tiny {
				best, most = p, n
			}
		}
	}
	return best
}

// sorted are the pieces in the order of their kinds.
func sorted(pieces []Piece) []Piece {
	all := slices.Clone(pieces)
	slices.SortStableFunc(all, func(a, b Piece) int { return cmp.Compare(a.Kind, b.Kind) })
	return all
}

// arranged places the pieces in one way.
func (in Input) arranged(pieces []Piece, a arrangement) Plan {
	p := Plan{Input: in}
	var aside []int
	strip := upperRight
	if in.StripLeft {
		strip = upperLeft
	}
	at := make([]*paper.Box, len(pieces))
	place := func(i int, corners ...corner) bool {
		for _, c := range corners {
			if b, ok := in.find(pieces[i], c, at); ok {
				at[i] = &b
				return true
			}
		}
		return false
	}
	each := func(do func(i int, k Kind)) {
		for i := range pieces {
			do(i, pieces[i].Kind)
		}
	}
	each(func(i int, k Kind) {
		if k == Strip {
			place(i, strip, corner{left: !strip.left, top: true})
		}
	})
	each(func(i int, k Kind) {
		switch {
		case k == Strip || k == Packet:
		case !stacked(k):
			place(i, lowerRight, lowerLeft)
		case a.above > 0 && place(i, lowerRight):
			a.above--
		default:
			aside = append(aside, i)
			a.above = 0 // what is above the label stays in the order of the slips
		}
	})
	each(func(i int, k Kind) {
		if k == Packet {
			place(i, a.packets, corner{left: true, top: !a.packets.top}, upperRight)
		}
	})
	for _, i := range aside {
		place(i, lowerLeft, lowerRight)
	}
	for i, b := range at {
		if b == nil {
			p.Left = append(p.Left, pieces[i])
			continue
		}
		p.Placed = append(p.Placed, Placed{pieces[i], *b, len(p.Placed) + 1})
	}
	p.Free = in.free(p.Placed)
	return p
}

// find is the place for a piece at the side of a corner that is the nearest to
// it, among what is placed already.
func (s Sheet) find(p Piece, c corner, placed []*paper.Box) (paper.Box, bool) {
	room := s.room()
	b := paper.Box{X: room.Right() - p.W, W: p.W, H: p.H}
	if c.left {
		b.X = room.X
	}
	tries := []float64{room.Bottom() - p.H}
	if c.top {
		tries[0] = room.Y
	}
	for _, o := range placed {
		switch {
		case o == nil:
		case c.top:
			tries = append(tries, o.Bottom()+s.Gap)
		default:
			tries = append(tries, o.Y-s.Gap-p.H)
		}
	}
	slices.Sort(tries)
	if !c.top {
		slices.Reverse(tries)
	}
	for _, y := range tries {
		b.Y = y
		if !within(b, room) {
			continue
		}
		if !slices.ContainsFunc(placed, func(o *paper.Box) bool { return o != nil && meets(b, grown(*o, s.Gap)) }) {
			return b, true
		}
	}
	return paper.Box{}, false
}
