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

	"pgregory.net/rapid"

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

func boxes(p Plan) (all []paper.Box) {
	for _, o := range p.Placed {
		all = append(all, o.Box)
	}
	return all
}

// TestTilesReassemble: for any sheet and paper the pages cover the sheet, two
// neighbours share 10 mm exactly, every line comes together from its pieces,
// every word stands whole on one page, and nothing is drawn within 5 mm of the
// paper's edge.
func TestTilesReassemble(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anInput(t)
		size := paper.Size{W: float64(rapid.IntRange(80, 450).Draw(t, "paper width")), H: float64(rapid.IntRange(90, 500).Draw(t, "paper height"))}
		p := Lay(in)
		tiles, err := tileSheet(in.Sheet, size, boxes(p))
		if err != nil {
			return
		}
		if !tiles.whole {
			cover(t, in.Sheet, tiles)
			marked(t, tiles, boxes(p))
		}
		g := &guide{Plan: p, Head: Head{Language: "en", Number: "LK7-0000482", From: "14 July 2026, revision 3f2a91c"}, words: words["en"], tiles: tiles}
		g.outline()
		g.field()
		for _, o := range p.Placed {
			g.piece(o)
		}
		pages := pagesOf(t, p, size, g.Head)
		if again := pagesOf(t, p, size, g.Head); !reflect.DeepEqual(pages, again) {
			t.Error("the same again is not the same")
		}
		for _, r := range g.rules {
			together(t, tiles, r)
		}
		for _, w := range g.texts {
			on := 0
			for _, one := range tiles.tiles {
				if within(ink(w), one.core) {
					on++
				}
			}
			if on != 1 {
				t.Errorf("%q at %v stands on %d pages", w.Runs[0].Text, ink(w), on)
			}
		}
		for i, a := range g.texts {
			for _, b := range g.texts[:i] {
				if meets(ink(a), ink(b)) {
					t.Errorf("%q meets %q", a.Runs[0].Text, b.Runs[0].Text)
				}
			}
			for _, r := range g.rules {
				if meets(ink(a), r.Box()) {
					t.Errorf("%q at %v meets a line %v", a.Runs[0].Text, ink(a), r.Box())
				}
			}
		}
		for i, page := range pages {
			for _, it := range page.Items {
				b := it.Box()
				if words, ok := it.(paper.Text); ok {
					b = ink(words)
				}
				if !tiles.whole && !within(b, grown(paper.Box{W: page.Size.W, H: page.Size.H}, 0.4-edge)) {
					t.Errorf("page %d: %v is too near to the edge of %v", i+1, b, page.Size)
				}
			}
		}
	})
}

// cover: the tiles of a row lie from one edge to the other, 10 mm shared.
func cover(t *rapid.T, s Sheet, tiles *tiling) {
	at := map[[2]int]tile{}
	for _, one := range tiles.tiles {
		at[[2]int{one.col, one.row}] = one
		if !within(one.at, paper.Box{X: edge, Y: edge, W: tiles.page.W - 2*edge, H: tiles.page.H - 2*edge - footHeight}) {
			t.Errorf("%v is larger than a page shows", one.at)
		}
		if one.at.W != one.shows.W || one.at.H != one.shows.H {
			t.Errorf("not at true size: %v %v", one.at, one.shows)
		}
	}
	for _, one := range tiles.tiles {
		right, hasRight := at[[2]int{one.col + 1, one.row}]
		below, hasBelow := at[[2]int{one.col, one.row + 1}]
		if hasRight && math.Abs(one.shows.Right()-right.shows.X-overlap) > tiny || !hasRight && math.Abs(one.shows.Right()-s.W) > tiny {
			t.Errorf("to the right of %v: %v", one.shows, right.shows)
		}
		if hasBelow && math.Abs(one.shows.Bottom()-below.shows.Y-overlap) > tiny || !hasBelow && math.Abs(one.shows.Bottom()-s.H) > tiny {
			t.Errorf("below %v: %v", one.shows, below.shows)
		}
		if one.col == 0 && one.shows.X != 0 || one.row == 0 && one.shows.Y != 0 {
			t.Errorf("does not begin at the sheet's edge: %v", one.shows)
		}
	}
}

// marked: whatever lines there are, every two neighbours share a cross, and no
// two crosses meet.
func marked(t *rapid.T, tiles *tiling, lines []paper.Box) {
	marks := tiles.crosses(lines)
	for i, a := range marks {
		on := 0
		for _, one := range tiles.tiles {
			if within(a.box(), one.shows) {
				on++
			}
		}
		if on != 2 {
			t.Errorf("cross %s is on %d pages", a.Letter, on)
		}
		for _, b := range marks[:i] {
			if meets(a.box(), b.box()) {
				t.Errorf("crosses %s and %s meet", a.Letter, b.Letter)
			}
		}
	}
	for i, one := range tiles.tiles {
		for _, other := range tiles.tiles[:i] {
			beside := one.row == other.row && one.col == other.col+1 || one.col == other.col && one.row == other.row+1
			shared := common(one.shows, other.shows)
			if beside && !slices.ContainsFunc(marks, func(c cross) bool { return within(c.box(), shared) }) {
				t.Errorf("%v and %v share no cross", one.shows, other.shows)
			}
		}
	}
}

// together: the pieces of a line on all pages make it up.
func together(t *rapid.T, tiles *tiling, r paper.Rule) {
	type span struct{ from, to float64 }
	var all []span
	across := r.Y1 == r.Y2
	for _, one := range tiles.tiles {
		c, ok := clipped(r, one.shows)
		switch {
		case ok && across:
			all = append(all, span{c.X1, c.X2})
		case ok:
			all = append(all, span{c.Y1, c.Y2})
		}
	}
	slices.SortFunc(all, func(a, b span) int { return int(math.Copysign(1, a.from-b.from)) })
	from, to := r.Y1, r.Y2
	if across {
		from, to = r.X1, r.X2
	}
	for _, s := range all {
		if s.from > from+0.2 { // half the width of a line may be cut off at the edge of the sheet
			break
		}
		from = max(from, s.to)
	}
	if from < to-0.2 {
		t.Errorf("of %+v the pages show %v", r, all)
	}
}

// TestJoins: as few pages as can be, joins away from the pieces.
func TestJoins(t *testing.T) {
	p := Lay(Input{Sheet: standard, Pieces: usual(1)})
	for _, c := range []struct {
		size   paper.Size
		pages  int
		whole  bool
		reason string
	}{
		{a4, 4, false, "two beside and two below each other"},
		{letter, 4, false, "the same"},
		{a3, 1, true, "A3 is larger by 5 x 1 mm"},
		{paper.Size{W: 419, H: 292}, 1, true, "the paper turned"},
		{paper.Sizes[3], 8, false, "A5 turned: two beside and four below each other; upright it would be nine"},
	} {
		tiles, err := tileSheet(standard, c.size, boxes(p))
		if err != nil || len(tiles.tiles) != c.pages || tiles.whole != c.whole {
			t.Errorf("%v (%s): %v, %+v", c.size, c.reason, err, tiles)
			continue
		}
		for _, x := range tiles.cols {
			if n := cut(boxes(p), paper.Box{X: x - 5, W: 10, H: 419}); n > 0 && c.pages == 4 {
				t.Errorf("%v: the join at %g cuts %d pieces", c.size, x, n)
			}
		}
	}
	if _, err := tileSheet(standard, paper.Size{W: 60, H: 60}, nil); err == nil {
		t.Error("paper of 60 x 60 mm shows too little")
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
