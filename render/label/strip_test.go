package label

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"blotter/ledger"
	"blotter/render/paper"
)

// strips of the standard size, one of each kind.
func strip(kind paper.BarcodeKind) Strip {
	return Strip{Kind: kind, W: 52.5, H: 12, Module: 0.508, Museum: "Lauvkroken Museum"}
}

// TestStripsReadBack: a page of strips as it is printed, at 300 dots to the
// inch, is read by another program: every number, no other.
func TestStripsReadBack(t *testing.T) {
	for _, kind := range paper.BarcodeKinds {
		t.Run(string(kind), func(t *testing.T) {
			var blocks []*paper.Block
			for i := range 24 {
				n := fmt.Sprintf("LK7-%07d", 482+i*7919)
				b, no := strip(kind).Of(ledger.Number(n))
				if no != nil {
					t.Fatal(no)
				}
				blocks = append(blocks, b)
			}
			sheet, used, err := paper.Impose(blocks, paper.Imposition{Size: paper.Sizes[0], Place: paper.Box{W: 52.5, H: 12}})
			if err != nil || used.Places != 96 || used.Pages != 1 {
				t.Fatalf("%+v %v", used, err)
			}
			for i, n := range readCodes(t, kind, sheet, len(blocks)) {
				if n != blocks[i].Of {
					t.Errorf("%s is read as %q", blocks[i].Of, n)
				}
			}
		})
	}
}

// readCodes are the barcodes of the first n places, each held before another
// program by itself, as before a scanner.
func readCodes(t *testing.T, kind paper.BarcodeKind, p *paper.Paper, n int) []string {
	t.Helper()
	reader, args := program(t, "zbarimg"), []string{"-q", "--raw"}
	if kind == paper.DataMatrix {
		reader, args = program(t, "dmtxread"), []string{"-N1", "-m", "5000"}
	}
	p.Day = time.Unix(0, 0)
	text, err := p.PDF()
	if err != nil {
		t.Fatal(err)
	}
	stem := filepath.Join(t.TempDir(), "page")
	if err := os.WriteFile(stem+".pdf", text, 0o666); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(program(t, "pdftoppm"), "-r", "300", "-gray", "-png", "-singlefile", stem+".pdf", stem).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	file, err := os.ReadFile(stem + ".png")
	if err != nil {
		t.Fatal(err)
	}
	page, err := png.Decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for i := range n {
		dots := func(mm float64) int { return int(mm * 300 / 25.4) }
		one := page.(interface {
			SubImage(image.Rectangle) image.Image
		}).SubImage(image.Rect(0, dots(float64(i)*12), dots(52.5), dots(float64(i+1)*12)))
		var b bytes.Buffer
		if err := png.Encode(&b, one); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(stem+"-one.png", b.Bytes(), 0o666); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(reader, append(args, stem+"-one.png")...).Output()
		if err != nil {
			t.Logf("%s: %v", reader, err)
		}
		got = append(got, strings.TrimSpace(string(out)))
	}
	return got
}

// TestStripMeasures: modules are whole dots of 300 to the inch, the ink keeps
// 5 mm from the sides, the quiet zone is free of words.
func TestStripMeasures(t *testing.T) {
	for _, c := range []struct {
		kind   paper.BarcodeKind
		w, h   float64
		module float64 // in dots
	}{
		{paper.DataMatrix, 52.5, 12, 6},
		{paper.DataMatrix, 45, 8, 5},
		{paper.QR, 52.5, 12, 4},
		{paper.Code128, 52.5, 12, 3},
		{paper.Code128, 80, 15, 5},
	} {
		s := strip(c.kind)
		s.W, s.H = c.w, c.h
		b, no := s.Of("LK7-0000482")
		if no != nil {
			t.Error(no)
			continue
		}
		code, number, museum := partNamed(b, "barcode"), partNamed(b, "number"), partNamed(b, "museum")
		if number.Text != "LK7-0000482" || museum.Text != "Lauvkroken Museum" {
			t.Errorf("%s: words %q, %q", c.kind, number.Text, museum.Text)
		}
		least := 1e9
		for _, it := range b.Items {
			a, ok := it.(paper.Area)
			if !ok {
				continue
			}
			if ink := a.Box(); ink.X < 5-0.01 || ink.Right() > c.w-5+0.01 || ink.Y < 0.9 || ink.Bottom() > c.h-0.9 {
				t.Errorf("%s: ink at %+v", c.kind, ink)
			}
			for _, x := range a.Boxes {
				least = min(least, x.W)
			}
		}
		if dots := least / stripDot; abs(dots-c.module) > 0.01 {
			t.Errorf("%s on %g x %g mm: modules of %.2f dots, want %g", c.kind, c.w, c.h, dots, c.module)
		}
		for _, p := range []paper.Part{number, museum} {
			if p.Box.X < code.Box.Right()-0.01 && c.kind != paper.Code128 || c.kind == paper.Code128 && p.Box.Bottom() > c.h {
				t.Errorf("%s: %s stands in the quiet zone: %+v of %+v", c.kind, p.Name, p.Box, code.Box)
			}
		}
	}
}

func abs(v float64) float64 { return max(v, -v) }

// TestStripRefusals say how large a strip would have to be.
func TestStripRefusals(t *testing.T) {
	small := strip(paper.Code128)
	small.W = 40
	if _, no := small.Of("LK7-0000482"); no == nil || no.Code != CodeStripSmall || !strings.Contains(no.Why, "needs ") {
		t.Errorf("%+v", no)
	} else {
		var w, h float64
		fmt.Sscanf(no.Why[strings.Index(no.Why, "needs ")+6:], "%f x %f", &w, &h)
		small.W, small.H = w, h
		if _, again := small.Of("LK7-0000482"); again != nil {
			t.Errorf("%s, and yet: %s", no.Why, again.Why)
		}
	}
	if _, no := strip(paper.DataMatrix).Of("LK7-ø"); no == nil || no.Code != CodeStripNumber {
		t.Errorf("%+v", no)
	}
}

// scan reads the two measures that words begin with.
func scan(words string, w, h *float64) bool {
	n, err := fmt.Sscanf(words, "%f x %f", w, h)
	return n == 2 && err == nil
}
