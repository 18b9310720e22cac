// Package barcode finds the barcodes in a photograph: Code 128 and Code 39
// along or across it, QR codes and Data Matrix however they lie. It is the one
// importer of the library that decodes them.
package barcode

import (
	"cmp"
	"image"
	"slices"

	"github.com/makiuchi-d/gozxing"
)

// Kind is the kind of a barcode.
type Kind string

// The kinds that are looked for.
const (
	Code128    Kind = "Code 128"
	Code39     Kind = "Code 39"
	QR         Kind = "QR"
	DataMatrix Kind = "Data Matrix"
)

// Found is one barcode of a picture.
type Found struct {
	Kind Kind
	Text string
}

// Read finds the barcodes of a picture, each text of a kind once, in order of
// kind and text. It finds none where they are too small (about two pixels a
// bar), blurred or creased; it invents none that a careful person would not
// read, but a text may be of some other label in the picture.
func Read(img image.Image) []Found {
	s := &search{gray: grayOf(img), found: map[Found]int{}}
	if s.gray.Rect.Dx() < minSide || s.gray.Rect.Dy() < minSide {
		return nil
	}
	s.bars(s.gray)
	s.squares()
	if len(s.found) == 0 {
		s.bars(turned(s.gray))
	}
	var out []Found
	for f := range s.found {
		out = append(out, f)
	}
	slices.SortFunc(out, func(a, b Found) int { return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Text, b.Text)) })
	return out
}

// minSide is the least side in pixels of a picture that can hold a barcode.
const minSide = 16

// search is one run over a picture.
type search struct {
	gray  *image.Gray
	found map[Found]int
}

// binary is a part of a picture in black and white.
func binary(g *image.Gray, r image.Rectangle) (*gozxing.BinaryBitmap, error) {
	src, err := gozxing.NewPlanarYUVLuminanceSource(g.Pix, g.Stride, g.Rect.Dy(), r.Min.X, r.Min.Y, r.Dx(), r.Dy(), false)
	if err != nil {
		return nil, err
	}
	return gozxing.NewBinaryBitmap(gozxing.NewHybridBinarizer(src))
}

// safely runs a part of the decoder. A picture can be anything, and a decoder
// that runs out of its bounds has read nothing.
func safely(f func()) {
	defer func() { _ = recover() }()
	f()
}

// grayOf is the brightness of a picture, its corner at 0, 0.
func grayOf(img image.Image) *image.Gray {
	b := img.Bounds()
	w, h := b.Dx(), b.Dy()
	switch m := img.(type) {
	case *image.Gray:
		if b.Min == (image.Point{}) {
			return m
		}
	case *image.YCbCr:
		if b.Min == (image.Point{}) {
			return &image.Gray{Pix: m.Y, Stride: m.YStride, Rect: b}
		}
	}
	g := image.NewGray(image.Rect(0, 0, w, h))
	for y := range h {
		row := g.Pix[y*g.Stride : y*g.Stride+w]
		switch m := img.(type) {
		case *image.NRGBA:
			lightNRGBA(row, m.Pix[y*m.Stride:])
		case *image.RGBA:
			lightNRGBA(row, m.Pix[y*m.Stride:]) // as on black paper
		default:
			for x := range row {
				r, gr, bl, a := img.At(b.Min.X+x, b.Min.Y+y).RGBA()
				light := (19595*r + 38470*gr + 7471*bl + 1<<15) >> 16
				row[x] = uint8((light + 0xffff - a) >> 8) // as on white paper
			}
		}
	}
	return g
}

func lightNRGBA(row, pix []byte) {
	for x := range row {
		p := pix[4*x : 4*x+4 : 4*x+4]
		light := (19595*uint32(p[0]) + 38470*uint32(p[1]) + 7471*uint32(p[2])) >> 16
		row[x] = uint8(light)
	}
}

// turned is a picture with rows and columns exchanged.
func turned(g *image.Gray) *image.Gray {
	w, h := g.Rect.Dx(), g.Rect.Dy()
	t := image.NewGray(image.Rect(0, 0, h, w))
	const tile = 32
	for y0 := 0; y0 < h; y0 += tile {
		for x0 := 0; x0 < w; x0 += tile {
			for y := y0; y < min(y0+tile, h); y++ {
				for x := x0; x < min(x0+tile, w); x++ {
					t.Pix[x*t.Stride+y] = g.Pix[y*g.Stride+x]
				}
			}
		}
	}
	return t
}
