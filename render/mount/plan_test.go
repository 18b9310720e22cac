package mount

import (
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
	"blotter/render/paper"
)

// usual are the pieces of a sheet with so many slips, in the sizes of our
// papers.
func usual(slips int) []Piece {
	all := []Piece{{Kind: Label, W: 105, H: 68}, {Kind: Pencil, W: 105, H: 7, Says: "LK7-0000482"}, {Kind: Packet, W: 140, H: 90}, {Kind: Strip, W: 52.5, H: 12}}
	for range slips {
		all = append(all, Piece{Kind: Slip, W: 105, H: 27})
	}
	return all
}

// standard is the sheet of 292 x 419 mm (Florida Museum herbarium, cost of
// services).
var standard = Sheet{W: 292, H: 419, Margin: 5, Gap: 2}

func boxOf(p Plan, k Kind, nth int) paper.Box {
	for _, one := range p.Placed {
		if one.Kind == k {
			if nth == 0 {
				return one.Box
			}
			nth--
		}
	}
	return paper.Box{}
}

// TestWhereItGoes: the label 5 mm from the right and the lower edge, slips just
// above it, the packet lower left, the strip upper right (Royal Botanic Garden
// Edinburgh and NZ Plant Conservation Network, mounting pages; Florida Museum
// herbarium, barcodes).
func TestWhereItGoes(t *testing.T) {
	p := Lay(Input{Sheet: standard, Pieces: usual(2)})
	for _, c := range []struct {
		what      string
		got, want paper.Box
	}{
		{"label", boxOf(p, Label, 0), paper.Box{X: 182, Y: 346, W: 105, H: 68}},
		{"pencil line", boxOf(p, Pencil, 0), paper.Box{X: 182, Y: 337, W: 105, H: 7}},
		{"first slip", boxOf(p, Slip, 0), paper.Box{X: 182, Y: 308, W: 105, H: 27}},
		{"second slip", boxOf(p, Slip, 1), paper.Box{X: 182, Y: 279, W: 105, H: 27}},
		{"packet", boxOf(p, Packet, 0), paper.Box{X: 5, Y: 324, W: 140, H: 90}},
		{"strip", boxOf(p, Strip, 0), paper.Box{X: 234.5, Y: 5, W: 52.5, H: 12}},
		{"free field", p.Free, paper.Box{X: 5, Y: 19, W: 282, H: 258}},
	} {
		if c.got != c.want {
			t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
		}
	}
	if !p.Fits() || len(p.Warnings("en")) > 0 {
		t.Errorf("warned: %v", p.Warnings("en"))
	}
}

// TestArrangements: what moves when the plant has no room.
func TestArrangements(t *testing.T) {
	lay := func(slips int, w, h float64) Plan {
		return Lay(Input{Sheet: standard, Pieces: usual(slips), Plant: paper.Size{W: w, H: h}})
	}
	if p := lay(0, 170, 317); boxOf(p, Packet, 0).Y != 324 || !p.Fits() {
		t.Errorf("a plant beside the label's column, above the packet: %v", p.Placed)
	}
	if p := lay(0, 175, 300); boxOf(p, Packet, 0).Y != 324 || p.Free != (paper.Box{X: 5, Y: 19, W: 282, H: 303}) {
		t.Errorf("of the fields that take the plant the largest: %v", p.Free)
	}
	if p := lay(0, 100, 400); p.Fits() || p.Free != (paper.Box{X: 147, Y: 5, W: 85.5, H: 330}) {
		t.Errorf("too high for any: the field in which most of it has room: %v", p.Free)
	}
	narrow := Input{Sheet: Sheet{W: 210, H: 297, Margin: 5, Gap: 2}, Pieces: usual(0), Plant: paper.Size{W: 200, H: 105}}
	if p := Lay(narrow); boxOf(p, Packet, 0) != (paper.Box{X: 5, Y: 5, W: 140, H: 90}) || !p.Fits() {
		t.Errorf("a packet that has no place beside the label goes to the upper left: %v %v", p.Placed, p.Free)
	}
	p := lay(6, 282, 215) // above the label six slips leave 142 mm
	if boxOf(p, Slip, 0).X != 182 || boxOf(p, Slip, 5).X != 5 || !p.Fits() {
		t.Errorf("slips at the left side: %v %v", p.Placed, p.Free)
	}
	p = lay(1, 282, 320)
	if want := "label + slip + packet + barcode leave 282 x 287 mm; the plant needs 282 x 320 mm: a second sheet"; p.Fits() || p.Warnings("en")[0] != want {
		t.Errorf("%q, want %q", p.Warnings("en"), want)
	}
	p = lay(0, 282, 310)
	if want := "label + packet + barcode leave 282 x 303 mm; the plant needs 282 x 310 mm: a second sheet, or the packet kept apart"; p.Fits() || p.Warnings("en")[0] != want {
		t.Errorf("%q, want %q", p.Warnings("en"), want)
	}
	small := Lay(Input{Sheet: Sheet{W: 150, H: 160, Margin: 5, Gap: 2}, Pieces: usual(1)})
	if want := "no place for: packet: a second sheet"; len(small.Left) != 1 || small.Warnings("en")[0] != want {
		t.Errorf("%q, want %q", small.Warnings("en"), want)
	}
	full := Lay(Input{Sheet: Sheet{W: 115, H: 78, Margin: 5, Gap: 2}, Pieces: []Piece{{Kind: Label, W: 105, H: 68}}})
	if want := "label leave no room: a second sheet"; len(full.Warnings("en")) != 1 || full.Warnings("en")[0] != want {
		t.Errorf("%q, want %q", full.Warnings("en"), want)
	}
}

// anInput draws sheets, pieces and plants, in half millimetres, small enough
// for the search of every rectangle.
func anInput(t *rapid.T) Input {
	half := func(name string, from, to int) float64 {
		return float64(rapid.IntRange(from*2, to*2).Draw(t, name)) / 2
	}
	in := Input{Sheet: Sheet{W: half("width", 60, 400), H: half("height", 60, 500), Margin: half("margin", 0, 15), Gap: half("gap", 0, 6)}}
	in.StripLeft = rapid.Bool().Draw(t, "strip left")
	for range rapid.IntRange(0, 9).Draw(t, "pieces") {
		in.Pieces = append(in.Pieces, Piece{Kind: Kind(rapid.IntRange(0, int(Strip)).Draw(t, "kind")), W: half("w", 5, 150), H: half("h", 3, 120)})
	}
	if rapid.Bool().Draw(t, "plant known") {
		in.Plant = paper.Size{W: half("plant width", 5, 400), H: half("plant height", 5, 500)}
	}
	return in
}

// TestNothingMeets: for any sheet, pieces and plant no two boxes come nearer
// than the gap, all lie within the margins, no piece is lost, and no empty
// rectangle would have been better than the free field.
func TestNothingMeets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anInput(t)
		p := Lay(in)
		room := in.room()
		if len(p.Placed)+len(p.Left) != len(in.Pieces) {
			t.Fatalf("%d placed, %d left of %d", len(p.Placed), len(p.Left), len(in.Pieces))
		}
		for i, a := range p.Placed {
			if a.No != i+1 || a.Box.W != a.Piece.W || a.Box.H != a.Piece.H {
				t.Errorf("%+v", a)
			}
			if !within(a.Box, room) {
				t.Errorf("%v outside of %v", a.Box, room)
			}
			for _, b := range p.Placed[:i] {
				if meets(grown(a.Box, in.Gap), b.Box) {
					t.Errorf("%v meets %v", a.Box, b.Box)
				}
			}
		}
		if p.Free.W > 0 && !within(p.Free, room) {
			t.Errorf("free field %v outside of %v", p.Free, room)
		}
		best := bruteForce(p)
		s, want := share(p.Free, in.Plant), share(best, in.Plant)
		if math.Abs(s-want) > 1e-3 || math.Abs(p.Free.W*p.Free.H-best.W*best.H) > 1e-3 {
			t.Errorf("free field %v (share %g), but %v (share %g) is empty", p.Free, s, best, want)
		}
		for _, a := range p.Placed {
			if p.Free.W > 0 && meets(grown(a.Box, in.Gap), p.Free) {
				t.Errorf("free field %v meets %v", p.Free, a.Box)
			}
		}
		if again := Lay(in); !reflect.DeepEqual(p, again) {
			t.Errorf("the same again is not the same: %+v, %+v", p, again)
		}
		if fits := p.Fits() && len(p.Left) == 0; fits != (len(p.Warnings("en")) == 0) {
			t.Errorf("fits: %v, but warned: %q", fits, p.Warnings("en"))
		}
	})
}

// bruteForce is the best empty rectangle, of all that have their sides on sides
// of pieces or of the room: no empty one that cannot grow has others.
func bruteForce(p Plan) paper.Box {
	room := p.room()
	xs, ys := []float64{room.X, room.Right()}, []float64{room.Y, room.Bottom()}
	for _, o := range p.Placed {
		b := grown(o.Box, p.Gap)
		xs, ys = append(xs, b.X, b.Right()), append(ys, b.Y, b.Bottom())
	}
	var best paper.Box
	for _, left := range xs {
		for _, right := range xs {
			for _, top := range ys {
				for _, bottom := range ys {
					r := paper.Box{X: left, Y: top, W: right - left, H: bottom - top}
					if r.W <= tiny || r.H <= tiny || !within(r, room) || !empty(p, r) {
						continue
					}
					s, was := share(r, p.Plant), share(best, p.Plant)
					if s > was+tiny || s > was-tiny && r.W*r.H > best.W*best.H {
						best = r
					}
				}
			}
		}
	}
	return best
}

func empty(p Plan, r paper.Box) bool {
	for _, o := range p.Placed {
		if meets(grown(o.Box, p.Gap), r) {
			return false
		}
	}
	return true
}

// TestFirstArrangement: a plant is never said to have no room when one of the
// arrangements has it.
func TestFirstArrangement(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anInput(t)
		p := Lay(in)
		if p.Fits() && len(p.Left) == 0 {
			return
		}
		slips := 0
		for _, one := range in.Pieces {
			if stacked(one.Kind) {
				slips++
			}
		}
		for above := slips; above >= 0; above-- {
			for _, c := range []corner{lowerLeft, upperLeft} {
				if q := in.arranged(sorted(in.Pieces), arrangement{above, c}); q.Fits() && len(q.Left) == 0 {
					t.Fatalf("%d above, packets %v: all has room in %v", above, c, q.Free)
				}
			}
		}
	})
}
