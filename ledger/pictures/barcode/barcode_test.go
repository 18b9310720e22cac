package barcode_test

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	boom "github.com/boombuler/barcode"
	"github.com/boombuler/barcode/code128"
	"github.com/boombuler/barcode/code39"
	"github.com/boombuler/barcode/datamatrix"
	"github.com/boombuler/barcode/qr"

	"blotter/ledger/pictures/barcode"
)

// made is a barcode with modules of so many pixels, white around it.
func made(t testing.TB, kind barcode.Kind, text string, module int) *image.Gray {
	t.Helper()
	var b boom.Barcode
	var err error
	switch kind {
	case barcode.Code128:
		b, err = code128.Encode(text)
	case barcode.Code39:
		b, err = code39.Encode(text, false, false)
	case barcode.QR:
		b, err = qr.Encode(text, qr.M, qr.Auto)
	case barcode.DataMatrix:
		b, err = datamatrix.Encode(text)
	}
	if err != nil {
		t.Fatal(err)
	}
	w, h := b.Bounds().Dx()*module, b.Bounds().Dy()*module
	if b.Bounds().Dy() == 1 {
		h = 50 * module / 2
	}
	if b, err = boom.Scale(b, w, h); err != nil {
		t.Fatal(err)
	}
	quiet := 8 * module
	m := image.NewGray(image.Rect(0, 0, w+2*quiet, h+2*quiet))
	draw.Draw(m, m.Rect, image.White, image.Point{}, draw.Src)
	draw.Draw(m, image.Rect(quiet, quiet, quiet+w, quiet+h), b, image.Point{}, draw.Src)
	return m
}

// sheet is a photograph of a pressed plant on paper, with stems, leaves, lines
// of writing, a shadow and the noise of a camera.
func sheet(w, h int) *image.Gray {
	m := image.NewGray(image.Rect(0, 0, w, h))
	r := rand.New(rand.NewPCG(4, 8))
	for y := range h {
		for x := range w {
			m.Pix[y*m.Stride+x] = uint8(215 - 60*x/w)
		}
	}
	blot := func(cx, cy, rx, ry float64, v uint8) {
		for y := max(0, int(cy-ry)); y < min(h, int(cy+ry)); y++ {
			for x := max(0, int(cx-rx)); x < min(w, int(cx+rx)); x++ {
				dx, dy := (float64(x)-cx)/rx, (float64(y)-cy)/ry
				if dx*dx+dy*dy < 1 {
					m.Pix[y*m.Stride+x] = v + uint8(r.IntN(20))
				}
			}
		}
	}
	for i := range 60 {
		blot(float64(w)/3+float64(r.IntN(w/3)), float64(r.IntN(h)), float64(5+i), float64(3+i/2), 60)
	}
	for line := range 8 { // writing
		for x := w / 2; x < w-40; x += 9 {
			blot(float64(x), float64(h-300+line*30+r.IntN(8)), 3, 6, 40)
		}
	}
	for i := range m.Pix {
		m.Pix[i] = uint8(min(255, max(0, int(m.Pix[i])+r.IntN(13)-6)))
	}
	return m
}

// glue puts a label on a sheet, turned by degrees, dimmed as paper is.
func glue(on *image.Gray, label *image.Gray, at image.Point, degrees float64) {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	w, h := float64(label.Rect.Dx()), float64(label.Rect.Dy())
	reach := int(math.Hypot(w, h)/2) + 1
	for y := at.Y - reach; y < at.Y+reach; y++ {
		for x := at.X - reach; x < at.X+reach; x++ {
			dx, dy := float64(x-at.X), float64(y-at.Y)
			u, v := dx*cos+dy*sin+w/2, -dx*sin+dy*cos+h/2
			if u < 0 || v < 0 || u >= w || v >= h || !(image.Point{x, y}).In(on.Rect) {
				continue
			}
			light := label.GrayAt(int(u), int(v)).Y
			on.SetGray(x, y, color.Gray{uint8(30 + int(light)*200/255)})
		}
	}
}

func jpegOf(t testing.TB, m image.Image) (image.Image, []byte) {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 80}); err != nil {
		t.Fatal(err)
	}
	out, err := jpeg.Decode(bytes.NewReader(b.Bytes()))
	if err != nil {
		t.Fatal(err)
	}
	return out, b.Bytes()
}

var kinds = []barcode.Kind{barcode.Code128, barcode.Code39, barcode.QR, barcode.DataMatrix}

// TestRead reads every kind, at several sizes and turns, off a photograph of a
// sheet, saved as a JPEG of middling quality.
func TestRead(t *testing.T) {
	for _, kind := range kinds {
		for _, c := range []struct {
			module  int
			degrees float64
		}{{3, 0}, {4, 90}, {5, 180}, {4, 2}, {6, -3}, {5, 270}} {
			t.Run(fmt.Sprintf("%s module %d turned %g", kind, c.module, c.degrees), func(t *testing.T) {
				m := sheet(1600, 1300)
				glue(m, made(t, kind, "LK7-0000482", c.module), image.Pt(780, 620), c.degrees)
				img, _ := jpegOf(t, m)
				got := barcode.Read(img)
				if want := []barcode.Found{{Kind: kind, Text: "LK7-0000482"}}; !slices.Equal(got, want) {
					t.Errorf("read %v", got)
				}
			})
		}
	}
}

// TestReadSeveral finds two numbers in one picture, side by side and one above
// the other.
func TestReadSeveral(t *testing.T) {
	for _, kind := range kinds {
		for _, at := range [][2]image.Point{{{500, 300}, {1300, 310}}, {{500, 300}, {500, 800}}} {
			m := sheet(1800, 1300)
			glue(m, made(t, kind, "LK7-0000482", 3), at[0], 0)
			glue(m, made(t, kind, "LK7-0000483", 3), at[1], 0)
			var texts []string
			for _, f := range barcode.Read(m) {
				texts = append(texts, f.Text)
			}
			if !slices.Equal(texts, []string{"LK7-0000482", "LK7-0000483"}) {
				t.Errorf("two of %s at %v: read %v", kind, at, texts)
			}
		}
	}
}

func TestReadNone(t *testing.T) {
	for _, m := range []image.Image{sheet(1600, 1300), image.NewGray(image.Rect(0, 0, 3, 900)), image.NewGray(image.Rect(0, 0, 0, 0))} {
		if got := barcode.Read(m); len(got) > 0 {
			t.Errorf("a picture without a barcode has %v", got)
		}
	}
}

// TestColoursAndCorners: every way in which Go holds a picture, and one whose
// corner is not at 0, 0.
func TestColoursAndCorners(t *testing.T) {
	m := sheet(900, 700)
	glue(m, made(t, barcode.QR, "LK7-0000482", 4), image.Pt(400, 350), 0)
	for _, into := range []draw.Image{image.NewRGBA(m.Rect), image.NewNRGBA(m.Rect), image.NewRGBA64(m.Rect), image.NewGray16(m.Rect)} {
		draw.Draw(into, m.Rect, m, image.Point{}, draw.Src)
		if len(barcode.Read(into)) != 1 {
			t.Errorf("%T: nothing read", into)
		}
	}
	if len(barcode.Read(m.SubImage(image.Rect(200, 150, 600, 550)))) != 1 {
		t.Error("a part of a picture: nothing read")
	}
}

// TestOthersReadTheSame holds the pictures of the test against two programs
// that read barcodes: what they read, we read.
func TestOthersReadTheSame(t *testing.T) {
	for _, p := range []struct {
		program string
		args    []string
		kinds   []barcode.Kind
	}{{"zbarimg", []string{"-q", "--raw"}, kinds[:3]}, {"dmtxread", []string{"-N1", "-m", "5000"}, kinds[3:]}} {
		t.Run(p.program, func(t *testing.T) {
			if _, err := exec.LookPath(p.program); err != nil {
				if os.Getenv("CI") == "true" {
					t.Fatal(err)
				}
				t.Skip(p.program + " is not installed")
			}
			for i, kind := range p.kinds {
				text := fmt.Sprintf("LK7-00004%02d", 82+i)
				m := made(t, kind, text, 4)
				var b bytes.Buffer
				if err := png.Encode(&b, m); err != nil {
					t.Fatal(err)
				}
				file := filepath.Join(t.TempDir(), "a.png")
				if err := os.WriteFile(file, b.Bytes(), 0o666); err != nil {
					t.Fatal(err)
				}
				out, err := exec.Command(p.program, append(p.args, file)...).Output()
				theirs := strings.TrimSpace(string(out))
				if err != nil || theirs != text {
					t.Fatalf("%s reads %q (%v), made was %q", p.program, theirs, err, text)
				}
				if ours := barcode.Read(m); len(ours) != 1 || ours[0].Text != theirs {
					t.Errorf("%s: we read %v, %s %q", kind, ours, p.program, theirs)
				}
			}
		})
	}
}

// FuzzRead: no picture stops the program, and what is read has a text.
func FuzzRead(f *testing.F) {
	m := made(f, barcode.DataMatrix, "LK7-1", 3)
	f.Add(m.Pix, m.Stride)
	m = made(f, barcode.QR, "LK7-1", 3)
	f.Add(m.Pix, m.Stride)
	f.Fuzz(func(t *testing.T, pix []byte, w int) {
		if w < 1 || w > 500 || len(pix) > 100_000 || len(pix) < w {
			return
		}
		barcode.Read(&image.Gray{Pix: pix, Stride: w, Rect: image.Rect(0, 0, w, len(pix)/w)})
	})
}

// BenchmarkRead reads a photograph of 24 million pixels.
func BenchmarkRead(b *testing.B) {
	for _, kind := range kinds {
		m := sheet(4000, 6000)
		glue(m, made(b, kind, "LK7-0000482", 4), image.Pt(3000, 5200), 0)
		b.Run(string(kind), func(b *testing.B) {
			for b.Loop() {
				if len(barcode.Read(m)) != 1 {
					b.Fatal("not read")
				}
			}
		})
	}
}
