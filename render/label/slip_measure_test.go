package label

import (
	"bytes"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"blotter/render/paper"
)

// inkOf is a picture of a block, printed to PDF and drawn at inkDPI.
func inkOf(t *testing.T, b *paper.Block) image.Image {
	t.Helper()
	p := &paper.Paper{Title: "slip", Day: time.Unix(0, 0), Pages: []paper.Page{{Size: paper.Size{W: b.W, H: b.H}}}}
	p.Pages[0].Put(b, 0, 0)
	text, err := p.PDF()
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "slip.pdf")
	if err := os.WriteFile(file, text, 0o666); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(program(t, "pdftoppm"), "-r", strconv.Itoa(inkDPI), "-gray", "-png", file).Output()
	if err != nil {
		t.Fatal(err)
	}
	pic, err := png.Decode(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	return pic
}

const inkDPI = 600

// inkIn is the box of what is dark within a box, in millimetres.
func inkIn(pic image.Image, in paper.Box) paper.Box {
	px := func(mm float64) int { return int(math.Round(mm * inkDPI / 25.4)) }
	left, top, right, bottom := math.MaxInt, math.MaxInt, -1, -1
	for y := px(in.Y); y < px(in.Bottom()); y++ {
		for x := px(in.X); x < px(in.Right()); x++ {
			if r, _, _, _ := pic.At(x, y).RGBA(); r < 0x8000 {
				left, top, right, bottom = min(left, x), min(top, y), max(right, x+1), max(bottom, y+1)
			}
		}
	}
	mm := func(px int) float64 { return float64(px) * 25.4 / inkDPI }
	return paper.Box{X: mm(left), Y: mm(top), W: mm(right - left), H: mm(bottom - top)}
}

type measured struct {
	what      string
	got, want float64
}

func within(t *testing.T, all []measured) {
	t.Helper()
	for _, c := range all {
		if !(math.Abs(c.got-c.want) <= 0.2) {
			t.Errorf("%s: %.2f mm, want %.2f", c.what, c.got, c.want)
		}
	}
}

// TestSlipOnPaper measures the sketch's slip in a picture of its PDF against
// interface.md section 3, to 0.2 mm: 2.5 mm above and below, a grid of 4.8
// for two lines of the name, of 3.6 for two of the grounds, then the rule.
func TestSlipOnPaper(t *testing.T) {
	pic := inkOf(t, slipsOf(t, pumilus(input(t, slipSketch, "")), SlipOptions{})[0])
	name := inkIn(pic, paper.Box{X: 0, Y: 2.5, W: 7, H: 4.8}) // R, which stands on its line
	grounds := inkIn(pic, paper.Box{X: 0, Y: 12.1, W: 6.5, H: 3.6})
	foot := inkIn(pic, paper.Box{X: 0, Y: 20.1, W: 6.5, H: 4.4})
	rule := inkIn(pic, paper.Box{X: 0, Y: 19.3, W: 105, H: 0.8})
	all := inkIn(pic, paper.Box{X: 0, Y: 0, W: 105, H: 27})
	within(t, []measured{
		{"width of the paper", float64(pic.Bounds().Dx()) * 25.4 / inkDPI, 105},
		{"height of the paper", float64(pic.Bounds().Dy()) * 25.4 / inkDPI, 27},
		{"left of all", all.X, 5},
		{"right of all", all.Right(), 100},
		{"base line of the name", name.Bottom(), 2.5 + baseline(11.5, 4.8)},
		{"base line of the grounds, below two lines of the name", grounds.Bottom(), 2.5 + 2*4.8 + baseline(8.5, 3.6)},
		{"rule, below two lines of the grounds", (rule.Y + rule.Bottom()) / 2, 2.5 + 2*4.8 + 2*3.6 + 0.4},
		{"left of the rule", rule.X, 5},
		{"right of the rule", rule.Right(), 100},
		{"thickness of the rule", rule.H, 0.1},
		{"base line of the foot", foot.Bottom(), 27 - 2.5 - 4.2 + baseline(9.5, 4.2)},
	})
}

// TestTypeOnPaper measures the thick rules of a type label.
func TestTypeOnPaper(t *testing.T) {
	blocks, _ := Types(input(t, typeRecord+"  - {status: isotype, of: Poa annua L., by: A, date: 2018}\n", ""), SlipOptions{})
	pic := inkOf(t, blocks[0])
	above := inkIn(pic, paper.Box{X: 0, Y: 0, W: 105, H: 3.1})
	below := inkIn(pic, paper.Box{X: 0, Y: 23.9, W: 105, H: 3.1})
	within(t, []measured{
		{"top", above.Y, 2}, {"thickness above", above.H, 1}, {"left", above.X, 5}, {"right", above.Right(), 100},
		{"bottom", below.Bottom(), 25}, {"thickness below", below.H, 1}, {"left below", below.X, 5}, {"right below", below.Right(), 100},
	})
}
