package mount

import (
	"encoding/xml"
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"blotter/render/label"
	"blotter/render/paper"
)

var a4, a3, letter = paper.Sizes[0], paper.Sizes[2], paper.Sizes[1]

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

// failer is a test or a property.
type failer interface {
	Helper()
	Fatal(...any)
}

func pagesOf(t failer, p Plan, size paper.Size, h Head) []paper.Page {
	t.Helper()
	pages, err := p.Guide(size, h)
	if err != nil {
		t.Fatal(err)
	}
	return pages
}

func writePDF(t *testing.T, pages []paper.Page) string {
	t.Helper()
	text, err := (&paper.Paper{Title: "mount", Day: time.Unix(0, 0), Pages: pages}).PDF()
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "mount.pdf")
	if err := os.WriteFile(file, text, 0o666); err != nil {
		t.Fatal(err)
	}
	return file
}

// found is a word of a PDF as poppler finds it, in millimetres.
type found struct {
	page       int
	text       string
	left, base float64
}

func wordsOf(t *testing.T, file string) (all []found) {
	t.Helper()
	out, err := exec.Command(program(t, "pdftotext"), "-bbox", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	d := xml.NewDecoder(strings.NewReader(string(out)))
	d.Strict = false
	page := 0
	for {
		tok, err := d.Token()
		if err != nil {
			return all
		}
		e, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		at := map[string]float64{}
		for _, a := range e.Attr {
			v, _ := strconv.ParseFloat(a.Value, 64)
			at[a.Name.Local] = v * paper.Point
		}
		switch e.Name.Local {
		case "page":
			page++
		case "word":
			var text string
			if d.DecodeElement(&text, &e) == nil {
				all = append(all, found{page, text, at["xMin"], at["yMax"]})
			}
		}
	}
}

const dpi = 300

// picture is a page of a PDF, from y millimetres below its upper edge.
func picture(t *testing.T, file string, page int, y float64) image.Image {
	t.Helper()
	n := strconv.Itoa(page)
	pic, err := exec.Command(program(t, "pdftoppm"), "-r", strconv.Itoa(dpi), "-gray", "-png", "-f", n, "-l", n, "-x", "0", "-y", strconv.Itoa(int(y*dpi/25.4)), "-W", "10000", "-H", "10000", file).Output()
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(strings.NewReader(string(pic)))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// strokes are where the dark of a picture lies, along a line down through x or,
// when that is 0, across through y, in millimetres: the middle of each stroke.
func strokes(img image.Image, x, y float64) (out []float64) {
	px := func(v float64) int { return int(v * dpi / 25.4) }
	length, from := img.Bounds().Dy(), -1
	if x == 0 {
		length = img.Bounds().Dx()
	}
	for i := range length {
		at := img.At(px(x), i)
		if x == 0 {
			at = img.At(i, px(y))
		}
		r, _, _, _ := at.RGBA()
		switch {
		case r < 0x9000 && from < 0:
			from = i
		case r >= 0x9000 && from >= 0:
			out, from = append(out, float64(from+i)/2*25.4/dpi), -1
		}
	}
	return out
}

func near(t *testing.T, what string, got []float64, want ...float64) {
	t.Helper()
	for _, w := range want {
		if !slices.ContainsFunc(got, func(g float64) bool { return math.Abs(g-w) <= 0.2 }) {
			t.Errorf("%s: nothing within 0.2 mm of %.2f: %.2f", what, w, got)
		}
	}
}

// TestTemplateOnPaper measures the template of 292 x 419 mm in its PDF: edges
// of label, pencil line, slip, packet, strip; its page; the line of 50 mm.
func TestTemplateOnPaper(t *testing.T) {
	p := Lay(Input{Sheet: standard, Pieces: usual(1)})
	file := writePDF(t, pagesOf(t, p, paper.Size{W: 292, H: 419}, Head{Language: "en"}))
	out, err := exec.Command(program(t, "pdfinfo"), file).Output()
	if want := fmt.Sprintf("Page size:       %.2f x %.2f pts", 292/paper.Point, 419/paper.Point); err != nil || !strings.Contains(string(out), want) || !strings.Contains(string(out), "Pages:           1") {
		t.Errorf("want one page, %s: %s", want, out)
	}
	img := picture(t, file, 1, 0)
	near(t, "down through the label's column", strokes(img, 284, 0), 5.18, 16.82, 308.18, 334.82, 346.18, 413.82)
	near(t, "down through the packet", strokes(img, 140, 0), 324.18, 413.82)
	near(t, "across label and packet", strokes(img, 0, 380), 5.18, 144.82, 182.18, 286.82)
	near(t, "across the strip", strokes(img, 0, 15.5), 234.68, 286.82)
	ends := strokes(img, 0, 407.4)
	near(t, "the line of 50 mm", ends, 191.6, 241.4)
	for _, w := range wordsOf(t, file) {
		if w.text == "Label" && (math.Abs(w.left-191.5) > 3 || w.base < 346 || w.base > 360) {
			t.Errorf("the word in the label: %+v", w)
		}
	}
}

// TestTilesOnPaper measures the crosses of four pages of A4 by their letters:
// each stands on two pages, and the distance tells that these share 10 mm.
func TestTilesOnPaper(t *testing.T) {
	p := Lay(Input{Sheet: standard, Pieces: usual(1)})
	tiles, err := tileSheet(standard, a4, boxes(p))
	if err != nil {
		t.Fatal(err)
	}
	file := writePDF(t, pagesOf(t, p, a4, Head{Language: "en", Number: "LK7-0000482"}))
	at := map[string][]found{}
	for _, w := range wordsOf(t, file) {
		if len(w.text) == 1 && w.text >= "A" && w.text <= "Z" {
			at[w.text] = append(at[w.text], w)
		}
	}
	if len(tiles.tiles) != 4 || len(at) != 8 {
		t.Fatalf("%d tiles, %d letters", len(tiles.tiles), len(at))
	}
	for l, all := range at {
		if len(all) != 4 || all[0].page != all[1].page || all[2].page != all[3].page || all[0].page == all[2].page {
			t.Errorf("%s: %+v; want two on each of two pages", l, all)
			continue
		}
		a, b := tiles.tiles[all[0].page-1], tiles.tiles[all[2].page-1]
		for i := range 2 {
			one, two := all[i], all[i+2]
			x := (one.left - a.at.X + a.shows.X) - (two.left - b.at.X + b.shows.X)
			y := (one.base - a.at.Y + a.shows.Y) - (two.base - b.at.Y + b.shows.Y)
			if math.Abs(x) > 0.2 || math.Abs(y) > 0.2 {
				t.Errorf("%s lies %.2f, %.2f mm from itself on the next page", l, x, y)
			}
		}
	}
	for i := range tiles.tiles {
		foot := strokes(picture(t, file, i+1, a4.H-20), 0, 20-edge-5.7)
		near(t, "the line of 50 mm", foot, 5.1, 54.9)
	}
}

// TestEveryWord: every language has every word, and the typeface every letter.
func TestEveryWord(t *testing.T) {
	for _, code := range label.LanguageCodes {
		l := words[code]
		if l == nil {
			t.Errorf("%s has no words", code)
			continue
		}
		v := reflect.ValueOf(*l)
		for i := range v.NumField() {
			word, english := v.Field(i).String(), reflect.ValueOf(*words["en"]).Field(i).String()
			if word == "" {
				t.Errorf("%s: no %s", code, v.Type().Field(i).Name)
			}
			for _, mark := range []string{"{1}", "{2}", "{3}"} {
				if strings.Contains(word, mark) != strings.Contains(english, mark) {
					t.Errorf("%s: %s: %q and %q", code, v.Type().Field(i).Name, word, english)
				}
			}
			if marks := strings.Count(word, ":") + strings.Count(word, ";"); code == "fr" && marks != strings.Count(word, "\u00a0:")+strings.Count(word, "\u00a0;") {
				t.Errorf("%q: in French a no-break space stands before a colon and a semicolon (common practice, from memory)", word)
			}
			if r, lacks := paper.Lacks(styled(9, word)...); lacks {
				t.Errorf("%s: %q: the typeface has no %q", code, word, r)
			}
		}
	}
}

func TestLacking(t *testing.T) {
	p := Lay(Input{Sheet: standard, Pieces: usual(0)})
	if _, err := p.Guide(a4, Head{Language: "en", Number: "馬-1"}); err == nil || !strings.Contains(err.Error(), "the typeface has no letter") {
		t.Error(err)
	}
}
