package barcode

import (
	"image"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/oned"
)

// barLines is how many lines are read across a picture: at least every
// twentieth millimetre of a sheet of 40 cm.
const barLines = 800

// sureLines is on how many lines a bar code must read the same: one line
// across leaves and stems can be anything.
const sureLines = 2

// maxOnLine bounds how many bar codes are read on one line.
const maxOnLine = 8

// bars looks for codes of bars that stand upright.
func (s *search) bars(g *image.Gray) {
	l := lineReader{found: map[Found]int{}}
	l.readers = append(l.readers, barReader{Code128, oned.NewCode128Reader().(oned.RowDecoder)}, barReader{Code39, oned.NewCode39Reader().(oned.RowDecoder)})
	w, h := g.Rect.Dx(), g.Rect.Dy()
	step := max(1, h/barLines)
	bits := gozxing.NewBitArray(w)
	for y := step / 2; y < h; y += step {
		row := g.Pix[y*g.Stride : y*g.Stride+w]
		if !threshold(row, bits) {
			continue
		}
		l.line(bits)
	}
	for f, n := range l.found {
		if n >= sureLines {
			s.found[f] += n
		}
	}
}

type barReader struct {
	kind Kind
	oned.RowDecoder
}

type lineReader struct {
	readers []barReader
	found   map[Found]int
}

// line reads one line in both directions.
func (l *lineReader) line(bits *gozxing.BitArray) {
	for range 2 {
		for _, r := range l.readers {
			safely(func() { l.read(r, bits) })
		}
		bits.Reverse()
	}
}

// read takes the codes of one kind off a line from left to right; each hides
// what stands left of its end from the next look.
func (l *lineReader) read(r barReader, bits *gozxing.BitArray) {
	for range maxOnLine {
		res, err := r.DecodeRow(0, bits, nil)
		if err != nil {
			return
		}
		l.found[Found{r.kind, res.GetText()}]++
		end := 0
		for _, p := range res.GetResultPoints() {
			end = max(end, int(p.GetX()))
		}
		rest := gozxing.NewBitArray(bits.GetSize())
		for x := end + 1; x < bits.GetSize(); x++ {
			if bits.Get(x) {
				rest.Set(x)
			}
		}
		bits = rest
	}
}

// window is over how many pixels the light of a line is compared.
const window = 96

// threshold makes a line black and white, each pixel against the darkest and
// the lightest around it, so that a shadow across a label does no harm. It is
// false for a line without contrast.
func threshold(row []byte, bits *gozxing.BitArray) bool {
	bits.Clear()
	const block = window / 4
	n := (len(row) + block - 1) / block
	lo, hi := make([]byte, n), make([]byte, n)
	for i := range n {
		lo[i], hi[i] = 255, 0
		for _, v := range row[i*block : min((i+1)*block, len(row))] {
			lo[i], hi[i] = min(lo[i], v), max(hi[i], v)
		}
	}
	changes, last := 0, false
	for i := range n {
		a, b := byte(255), byte(0)
		for j := max(0, i-2); j <= min(n-1, i+2); j++ {
			a, b = min(a, lo[j]), max(b, hi[j])
		}
		if b-a < minContrast {
			last = false
			continue
		}
		limit := byte((int(a) + int(b)) / 2)
		for x := i * block; x < min((i+1)*block, len(row)); x++ {
			black := row[x] < limit
			if black {
				bits.Set(x)
			}
			if black != last {
				changes++
			}
			last = black
		}
	}
	return changes >= minChanges
}

const (
	minContrast = 48 // of 255, between ink and paper
	minChanges  = 40 // from black to white and back on a line: the shortest code has more
)
