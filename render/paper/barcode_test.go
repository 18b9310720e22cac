package paper

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strings"
	"testing"
)

// program is the path of an outside program that reads what was made.
func program(t testing.TB, name string) string {
	t.Helper()
	p, err := exec.LookPath(name)
	if err != nil && os.Getenv("CI") == "true" {
		t.Fatalf("%s is not here", name)
	}
	if err != nil {
		t.Skipf("%s is not here", name)
	}
	return p
}

// numbers are as museums write them, and others.
func numbers() []string {
	r := rand.New(rand.NewPCG(6, 2026))
	out := []string{"LK7-0000482", "1", "LK7-2026-11", "a b", "LK7 0000001.2", "urn:catalog:LK7:herb:0000482"}
	for len(out) < 18 {
		out = append(out, fmt.Sprintf("LK7-%07d", r.IntN(10_000_000)))
	}
	for len(out) < 25 {
		b := make([]byte, 1+r.IntN(20))
		for i := range b {
			b[i] = byte('!' + r.IntN('~'-'!'+1))
		}
		out = append(out, string(b))
	}
	return out
}

// TestBarcodesReadBack: every kind drawn at its own size, printed at 300 dots
// to the inch and read by another program.
func TestBarcodesReadBack(t *testing.T) {
	for _, kind := range BarcodeKinds {
		t.Run(string(kind), func(t *testing.T) {
			reader, args := "zbarimg", []string{"-q", "--raw"}
			if kind == DataMatrix {
				reader, args = "dmtxread", []string{"-N1", "-m", "5000"}
			}
			reader = program(t, reader)
			texts := numbers()
			if kind == QR {
				texts = append(texts, "Á.Löve № 12 ♂")
			}
			for i, file := range pictures(t, kind, texts) {
				out, err := exec.Command(reader, append(args, file)...).Output()
				if got := strings.TrimSuffix(string(out), "\n"); got != texts[i] || err != nil {
					t.Errorf("%q is read as %q (%v)", texts[i], got, err)
				}
			}
		})
	}
}

// pictures are the barcodes of the texts, each as a page of its own size.
func pictures(t *testing.T, kind BarcodeKind, texts []string) []string {
	t.Helper()
	p := &Paper{Title: "barcodes"}
	for _, text := range texts {
		b, err := Barcode(kind, text, BarcodeOptions{})
		if err != nil {
			t.Fatal(err)
		}
		page := Page{Size: Size{W: b.W + 2, H: b.H + 2}}
		page.Put(b, 1, 1)
		p.Pages = append(p.Pages, page)
	}
	file := writePDF(t, p)
	if out, err := exec.Command(program(t, "pdftoppm"), "-r", "300", "-gray", "-png", file, strings.TrimSuffix(file, ".pdf")).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	all, _ := filepath.Glob(filepath.Join(filepath.Dir(file), "*.png"))
	sort.Strings(all)
	if len(all) != len(texts) {
		t.Fatalf("%d pictures of %d barcodes", len(all), len(texts))
	}
	return all
}

// writePDF writes p to a file of the test.
func writePDF(t testing.TB, p *Paper) string {
	t.Helper()
	text, err := p.PDF()
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "paper.pdf")
	if err := os.WriteFile(file, text, 0o666); err != nil {
		t.Fatal(err)
	}
	return file
}

func TestBarcodeRefusals(t *testing.T) {
	for _, c := range []struct {
		kind BarcodeKind
		text string
		want string
	}{
		{DataMatrix, "", `datamatrix of "": no text`},
		{DataMatrix, "№ 12", `datamatrix of "№ 12": "№" (U+2116): not a letter of this kind of barcode`},
		{Code128, "Löve", `code128 of "Löve": "ö" (U+00F6): not a letter of this kind of barcode`},
		{QR, "a\nb", `qr of "a\nb": control character U+000A`},
		{QR, "a\xff", `qr of "a\xff": not UTF-8`},
		{Code128, strings.Repeat("x", 81), "content length"},
		{DataMatrix, strings.Repeat("x", 3000), "to much data"},
		{"dots", "1", `barcode "dots": no such kind`},
	} {
		if _, err := Barcode(c.kind, c.text, BarcodeOptions{}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s %.20q: %v, want %s", c.kind, c.text, err, c.want)
		}
	}
}

// TestBarcodeMeasures: symbol, quiet zone and words stand in the block and do
// not meet. The number is 8 codewords, which 14 x 14 modules of a Data Matrix
// hold, and 21 x 21 of a QR code (both from memory of the standards).
func TestBarcodeMeasures(t *testing.T) {
	for _, c := range []struct {
		kind  BarcodeKind
		o     BarcodeOptions
		wide  float64 // of symbol and quiet zone
		quiet float64
	}{
		{DataMatrix, BarcodeOptions{Module: 0.5}, 0.5 * (14 + 2), 0.5},
		{DataMatrix, BarcodeOptions{Module: 0.5, Beside: true, Words: []string{"Lauvkroken Museum", "LK7-0000482"}}, 0.5 * (14 + 2), 0.5},
		{QR, BarcodeOptions{Module: 0.4, Bare: true}, 0.4 * (21 + 8), 1.6},
		{QR, BarcodeOptions{Module: 0.1, Beside: true, Size: 20}, 0.1 * (21 + 8), 0.4},
		{Code128, BarcodeOptions{Module: 0.25, Height: 9}, 0, 2.5},
	} {
		b, err := Barcode(c.kind, "LK7-0000482", c.o)
		if err != nil {
			t.Fatal(err)
		}
		if got := b.Parts[0].Box.W; c.wide > 0 && math.Abs(got-c.wide) > epsilon {
			t.Errorf("%s: %v mm wide, want %v", c.kind, got, c.wide)
		}
		bars, zone := b.Items[0].Box(), b.Parts[0].Box
		if math.Abs(bars.X-zone.X-c.quiet) > epsilon || math.Abs(zone.Right()-bars.Right()-c.quiet) > epsilon {
			t.Errorf("%s: quiet zones %v and %v, want %v", c.kind, bars.X-zone.X, zone.Right()-bars.Right(), c.quiet)
		}
		for i, p := range b.Parts {
			if p.Box.X < -epsilon || p.Box.Y < -epsilon || p.Box.Right() > b.W+epsilon || p.Box.Bottom() > b.H+epsilon {
				t.Errorf("%s: %s is not in the block", c.kind, p.Name)
			}
			if i > 0 && meets(p.Box, b.Parts[0].Box) {
				t.Errorf("%s: the words meet the symbol", c.kind)
			}
		}
	}
}
