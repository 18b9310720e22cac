package paper

import (
	"bytes"
	"encoding/xml"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"sort"
	"strconv"
	"strings"
	"testing"
	"time"
)

// tolerance is how far what is measured may lie from where it should, in mm.
const tolerance = 0.2

func output(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(program(t, name), args...).Output()
	if err != nil {
		t.Fatalf("%s %v: %v", name, args, err)
	}
	return string(out)
}

// foundWord is a word of a PDF as poppler finds it, in millimetres.
type foundWord struct {
	page              int
	text              string
	left, right, base float64 // base: the foot of its box
}

// foundWords are the words of a PDF in the order of page, place and text; and
// the sizes of its pages.
func foundWords(t *testing.T, file string) (words []foundWord, pages []Size) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(output(t, "pdftotext", "-bbox", file, "-")))
	d.Strict = false
	for {
		tok, err := d.Token()
		if err != nil {
			break
		}
		e, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		at := map[string]float64{}
		for _, a := range e.Attr {
			v, _ := strconv.ParseFloat(a.Value, 64)
			at[a.Name.Local] = v * Point
		}
		switch e.Name.Local {
		case "page":
			pages = append(pages, Size{W: at["width"], H: at["height"]})
		case "word":
			var text string
			if d.DecodeElement(&text, &e) == nil {
				words = append(words, foundWord{len(pages), text, at["xMin"], at["xMax"], at["yMax"]})
			}
		}
	}
	sort.SliceStable(words, func(i, j int) bool {
		a, b := words[i], words[j]
		if a.page != b.page || a.text != b.text {
			return a.page < b.page || a.page == b.page && a.text < b.text
		}
		return math.Round(a.left)*1000+a.base < math.Round(b.left)*1000+b.base
	})
	return words, pages
}

// setWords are the words of p, with where their first letter should stand.
func setWords(p *Paper) (words []foundWord) {
	for i, page := range p.Pages {
		for _, it := range page.Items {
			t, ok := it.(Text)
			if !ok {
				continue
			}
			x := t.X
			for _, r := range t.Runs {
				for k, w := range strings.Split(r.Text, " ") {
					if k > 0 {
						x += Width(Run{Style: r.Style, Text: " "})
					}
					if w != "" {
						words = append(words, foundWord{page: i + 1, text: w, left: x, right: x + Width(Run{Style: r.Style, Text: w})})
					}
					x += Width(Run{Style: r.Style, Text: w})
				}
			}
		}
	}
	return words
}

// TestPDFOnPaper measures a PDF by poppler: size of the pages, the words and
// where each begins and ends, the fonts.
func TestPDFOnPaper(t *testing.T) {
	p := sample(false)
	file := writePDF(t, p)
	found, pages := foundWords(t, file)
	for i, page := range p.Pages {
		if math.Abs(pages[i].W-page.Size.W) > 0.01 || math.Abs(pages[i].H-page.Size.H) > 0.01 {
			t.Errorf("page %d is %v, want %v", i+1, pages[i], page.Size)
		}
	}
	want := setWords(p)
	sortWords := func(w []foundWord) {
		sort.SliceStable(w, func(i, j int) bool {
			a, b := w[i], w[j]
			return a.page < b.page || a.page == b.page && (a.text < b.text || a.text == b.text && a.left < b.left-1)
		})
	}
	sortWords(found)
	sortWords(want)
	if len(found) != len(want) {
		t.Fatalf("%d words, want %d: %v", len(found), len(want), found)
	}
	for i, w := range want {
		f := found[i]
		if f.text != w.text || math.Abs(f.left-w.left) > tolerance || math.Abs(f.right-w.right) > tolerance+0.2 { // the right one with the spread
			t.Errorf("%+v, want %+v", f, w)
		}
	}
	fonts := output(t, "pdffonts", file)
	lines := strings.Split(strings.TrimSpace(fonts), "\n")[2:]
	if len(lines) != 2 {
		t.Errorf("fonts:\n%s", fonts)
	}
	for _, l := range lines {
		if !regexp.MustCompile(`\s(yes|no) yes yes\s`).MatchString(l) && !regexp.MustCompile(`Identity-H\s+yes`).MatchString(l) {
			t.Errorf("not embedded: %s", l)
		}
	}
}

// TestInkOnPaper finds rules, frames and cut marks in a picture of the PDF.
func TestInkOnPaper(t *testing.T) {
	p := sample(false)
	file := writePDF(t, p)
	const dpi = 300
	pic, err := png.Decode(strings.NewReader(output(t, "pdftoppm", "-r", "300", "-gray", "-png", "-f", "1", "-l", "1", file)))
	if err != nil {
		t.Fatal(err)
	}
	mm := func(px int) float64 { return float64(px) * 25.4 / dpi }
	px := func(mm float64) int { return int(mm * dpi / 25.4) }
	n := 0
	for _, it := range p.Pages[0].Items {
		r, ok := it.(Rule)
		if f, frame := it.(Frame); frame {
			r, ok = Rule{X1: f.B.X, Y1: f.B.Y, X2: f.B.Right(), Y2: f.B.Y, Width: f.Width}, true
		}
		if !ok || r.Y1 != r.Y2 || r.Dash > 0 || r.X2-r.X1 < 10 {
			continue
		}
		n++
		ink, found := inkOf(pic, image.Rect(px(r.X1-2), px(r.Y1-0.6), px(r.X2+2), px(r.Y1+0.6)), px((r.X1+r.X2)/2))
		got := Box{mm(ink.Min.X), mm(ink.Min.Y), mm(ink.Dx()), mm(ink.Dy())}
		if mid := got.Y + got.H/2; !found || math.Abs(mid-r.Y1) > tolerance || math.Abs(got.X-r.X1) > tolerance || math.Abs(got.Right()-r.X2) > tolerance || math.Abs(got.H-r.Width) > 0.13 {
			t.Errorf("%+v is found at %+v", r, got)
		}
	}
	if n < 7 {
		t.Errorf("only %d rules", n)
	}
	edgeFree(t, pic, px(4))
}

// inkOf is the dark line through the column x of an area: its rows there, and
// how far the middle one of them reaches to both sides.
func inkOf(pic image.Image, area image.Rectangle, x int) (image.Rectangle, bool) {
	dark := func(x, y int) bool { r, _, _, _ := pic.At(x, y).RGBA(); return r < 0x9000 }
	top, bottom := -1, -1
	for y := area.Min.Y; y < area.Max.Y; y++ {
		if dark(x, y) {
			if top < 0 {
				top = y
			}
			bottom = y + 1
		}
	}
	if top < 0 {
		return image.Rectangle{}, false
	}
	left, right, mid := x, x, (top+bottom)/2
	for left > area.Min.X && dark(left-1, mid) {
		left--
	}
	for right < area.Max.X && dark(right, mid) {
		right++
	}
	return image.Rect(left, top, right, bottom), true
}

// edgeFree finds ink nearer to the edge of the paper than n dots.
func edgeFree(t *testing.T, pic image.Image, n int) {
	b := pic.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			if x >= b.Min.X+n && x < b.Max.X-n && y >= b.Min.Y+n && y < b.Max.Y-n {
				x = b.Max.X - n
			}
			if r, _, _, _ := pic.At(x, y).RGBA(); r < 0x9000 {
				t.Fatalf("ink at %d, %d, %d dots from the edge", x, y, n)
			}
		}
	}
}

// TestSameBytes: neither the zone nor the language of the machine is in a file.
func TestSameBytes(t *testing.T) {
	a, err := sample(true).PDF()
	if err != nil {
		t.Fatal(err)
	}
	t.Setenv("TZ", "Pacific/Auckland")
	t.Setenv("LANG", "nb_NO.UTF-8")
	t.Setenv("LC_ALL", "nb_NO.UTF-8")
	local := time.Local
	time.Local = time.FixedZone("far", 13*3600)
	defer func() { time.Local = local }()
	p := sample(true)
	p.Day = p.Day.Local()
	b, err := p.PDF()
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(a, b) {
		t.Error("another zone gave other bytes")
	}
	if !bytes.Equal(sample(true).HTML(), p.HTML()) {
		t.Error("another zone gave other bytes of HTML")
	}
}

// TestPrintedByBrowser prints the HTML with Chromium: as many pages as the PDF,
// of its size (Chromium rounds to a dot of the screen, 0.26 mm), and every word
// where it stands in the PDF, so that nothing overflows or is cut off.
func TestPrintedByBrowser(t *testing.T) {
	browser := program(t, "chromium")
	p := sample(false)
	dir := t.TempDir()
	page, file := filepath.Join(dir, "paper.html"), filepath.Join(dir, "browser.pdf")
	if err := os.WriteFile(page, p.HTML(), 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(browser, "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer", "--user-data-dir="+filepath.Join(dir, "profile"), "--print-to-pdf="+file, "file://"+page)
	var said bytes.Buffer
	cmd.Stderr = &said
	if err := cmd.Run(); err != nil {
		t.Fatalf("print with the browser: %v\n%s", err, said.String())
	}
	want, wantPages := foundWords(t, writePDF(t, p))
	got, pages := foundWords(t, file)
	if len(pages) != len(wantPages) || len(got) != len(want) {
		t.Fatalf("%d pages with %d words, want %d with %d", len(pages), len(got), len(wantPages), len(want))
	}
	for i, s := range pages {
		if math.Abs(s.W-wantPages[i].W) > 0.27 || math.Abs(s.H-wantPages[i].H) > 0.27 {
			t.Errorf("page %d is %v, want %v", i+1, s, wantPages[i])
		}
	}
	for i, w := range want {
		g := got[i]
		if g.page != w.page || g.text != w.text || math.Abs(g.left-w.left) > tolerance || math.Abs(g.right-w.right) > tolerance {
			t.Errorf("%+v, in the PDF %+v", g, w)
		}
	}
}
