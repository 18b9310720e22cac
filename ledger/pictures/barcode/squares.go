package barcode

import (
	"image"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/datamatrix"
	multi "github.com/makiuchi-d/gozxing/multi/qrcode"
)

// squares looks for QR codes in the whole picture, and for Data Matrix where
// the picture is as restless as one.
func (s *search) squares() {
	hints := map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_TRY_HARDER: true}
	all, err := binary(s.gray, s.gray.Rect)
	if err != nil {
		return
	}
	safely(func() {
		found, err := multi.NewQRCodeMultiReader().DecodeMultiple(all, hints)
		if err != nil {
			return
		}
		for _, r := range found {
			s.found[Found{QR, r.GetText()}]++
		}
	})
	bits, err := all.GetBlackMatrix()
	if err != nil {
		return
	}
	for _, cell := range []int{6, 12, 24} { // pixels; a module of the code is a third of it to about as large
		for _, spot := range restless(bits, cell) {
			r := spot.Inset(-cell - 4).Intersect(s.gray.Rect)
			safely(func() {
				part, err := binary(s.gray, r)
				if err != nil {
					return
				}
				if found, err := datamatrix.NewDataMatrixReader().Decode(part, nil); err == nil {
					s.found[Found{DataMatrix, found.GetText()}]++
				}
			})
		}
	}
}

// Bounds of what is looked at as a Data Matrix.
const (
	minCells = 3 // a side
	maxCells = 48
	maxSpots = 400 // of one size, in a picture
)

// restless are the parts of a picture, of minCells to maxCells a side and not
// much longer than broad, in which every cell has both black and white, with
// quiet cells around them.
func restless(bits *gozxing.BitMatrix, cell int) []image.Rectangle {
	w, h := bits.GetWidth()/cell, bits.GetHeight()/cell
	busy := make([]bool, w*h)
	step := max(1, cell/6)
	for cy := range h {
		for cx := range w {
			black, all := 0, 0
			for y := cy * cell; y < (cy+1)*cell; y += step {
				for x := cx * cell; x < (cx+1)*cell; x += step {
					all++
					if bits.Get(x, y) {
						black++
					}
				}
			}
			busy[cy*w+cx] = black*8 >= all
		}
	}
	var out []image.Rectangle
	var stack []int
	for start := range busy {
		if !busy[start] {
			continue
		}
		busy[start] = false
		stack = append(stack[:0], start)
		box := image.Rectangle{}
		n := 0
		for len(stack) > 0 {
			at := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			n++
			x, y := at%w, at/w
			box = box.Union(image.Rect(x, y, x+1, y+1))
			for ny := max(0, y-1); ny <= min(h-1, y+1); ny++ {
				for nx := max(0, x-1); nx <= min(w-1, x+1); nx++ {
					if busy[ny*w+nx] {
						busy[ny*w+nx] = false
						stack = append(stack, ny*w+nx)
					}
				}
			}
		}
		bw, bh := box.Dx(), box.Dy()
		if bw < minCells || bh < minCells || bw > maxCells || bh > maxCells || bw > 5*bh || bh > 5*bw || 3*n < bw*bh {
			continue
		}
		if out = append(out, image.Rect(box.Min.X*cell, box.Min.Y*cell, box.Max.X*cell, box.Max.Y*cell)); len(out) == maxSpots {
			break
		}
	}
	return out
}
