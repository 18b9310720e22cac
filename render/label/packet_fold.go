package label

import (
	"fmt"
	"math"

	"blotter/render/paper"
)

// Measures of the packet that is folded of one sheet, in millimetres (own
// design; the geometry is that of any sheet folded in three).
const (
	packetSide   = 15.0 // least width of what is folded in at either side
	packetShort  = 5.0  // how much the pocket is lower than the front
	packetPocket = 0.6  // least height of the pocket, of the front
	foldDash     = 2.0
	foldWidth    = 0.15
	foldNumber   = 11.0 // points
)

// Fold is where the folds of a packet lie on its sheet, in millimetres.
type Fold struct {
	W, H        float64   // of the sheet
	Cut         float64   // the sheet is cut here, from its upper edge; 0: nothing is cut off
	Pocket      paper.Box // folded over the back, open above
	Back        paper.Box // lies on the mounting sheet
	Front       paper.Box // closes over all; its label can be read on the sheet
	Left, Right float64   // where the sides are folded in
}

// NewFold lays a packet of width by height on a sheet of w by h: pocket, back
// and front below each other, the sides beside them. A sheet that is too small
// is an error, which names the largest packet that it makes.
func NewFold(w, h, width, height float64) (Fold, error) {
	most := math.Floor(h / (2 + packetPocket))
	if wide := w - 2*packetSide; width > wide+tiny || height > most+tiny {
		return Fold{}, fmt.Errorf("a packet of %.4g x %.4g mm cannot be folded of this paper; the largest is %.4g x %.4g mm", width, height, math.Floor(wide), most)
	}
	pocket := min(height-packetShort, h-2*height)
	top := h - 2*height - pocket
	f := Fold{W: w, H: h, Cut: top, Left: (w - width) / 2, Right: (w + width) / 2}
	f.Pocket = paper.Box{X: f.Left, Y: top, W: width, H: pocket}
	f.Back = paper.Box{X: f.Left, Y: top + pocket, W: width, H: height}
	f.Front = paper.Box{X: f.Left, Y: top + pocket + height, W: width, H: height}
	if f.Cut < 0.5 {
		f.Cut = 0
	}
	return f, nil
}

// PacketSheet is a sheet with the folds of a packet, the label in the middle
// of its front. words say how it is folded; they are hidden when it is done.
func PacketSheet(f Fold, label *paper.Block, words []string) (*paper.Block, error) {
	if label.W > f.Front.W+tiny || label.H > f.Front.H+tiny {
		return nil, fmt.Errorf("a label of %.4g x %.4g mm does not fit the front of a packet, %.4g x %.4g mm", label.W, label.H, f.Front.W, f.Front.H)
	}
	b := &paper.Block{W: f.W, H: f.H, Of: label.Of}
	const edge = 5.0 // few printers reach closer
	fold := func(x1, y1, x2, y2 float64) {
		b.Add(paper.Rule{X1: x1, Y1: y1, X2: x2, Y2: y2, Width: foldWidth, Dash: foldDash})
	}
	fold(edge, f.Back.Y, f.W-edge, f.Back.Y)
	fold(edge, f.Front.Y, f.W-edge, f.Front.Y)
	upper, lower := max(f.Cut, edge), f.H-1
	fold(f.Left, upper, f.Left, lower)
	fold(f.Right, upper, f.Right, lower)
	b.Add(paper.Rule{X1: edge, Y1: f.H, X2: f.W - edge, Y2: f.H, Width: foldWidth})
	if f.Cut > 0 {
		b.Add(paper.Rule{X1: edge, Y1: f.Cut, X2: f.W - edge, Y2: f.Cut, Width: foldWidth})
	}
	st := paper.Style{Size: foldNumber}
	mark := func(x, y float64, n string) {
		line := paper.Text{X: x - paper.Width(paper.Run{Style: st, Text: n})/2, Y: y, Runs: []paper.Run{{Style: st, Text: n}}}
		b.Add(line)
		b.Parts = append(b.Parts, paper.Part{Name: "fold", Box: line.Box(), Text: n})
	}
	aside := f.Left / 2
	mark(max(aside, edge+1), f.Back.Y-1.5, "1")
	mark(f.Left-3, f.Pocket.Y+f.Pocket.H/2, "2")
	mark(f.Right+3, f.Pocket.Y+f.Pocket.H/2, "2")
	mark(max(aside, edge+1), f.Front.Y-1.5, "3")
	y := f.Pocket.Y + 8
	for _, w := range words {
		for _, l := range paper.Set([]paper.Run{{Style: paper.Style{Size: 9}, Text: w}}, f.Pocket.W-16) {
			line := paper.Text{X: f.Pocket.X + 8, Y: y, Runs: l.Runs}
			b.Add(line)
			b.Parts = append(b.Parts, paper.Part{Name: "how", Box: line.Box(), Text: paper.TextOf([]paper.Line{l})})
			y += 4.4
		}
	}
	b.Put(label, f.Front.X+(f.Front.W-label.W)/2, f.Front.Y+(f.Front.H-label.H)/2)
	return b, nil
}
