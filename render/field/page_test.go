package field

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"blotter/render/paper"
)

// sheet is a form of many numbers.
func sheet(lang string, many int) Sheet {
	s := Sheet{Museum: "Lauvkroken Museum", Collector: "Signe Rask", OneIn: 20, Language: LanguageOf(lang)}
	for i := range many {
		s.Numbers = append(s.Numbers, strconv.Itoa(1311+i))
	}
	return s
}

// sizes are papers on which the form must have room, with how many gatherings
// on a page: at least two on A4 and Letter but where the words are too long.
var sizes = []struct {
	size paper.Size
	each int
}{
	{paper.Size{Name: "A4", W: 210, H: 297}, 2},
	{paper.Size{Name: "A5", W: 148, H: 210}, 1},
	{paper.Size{Name: "Letter", W: 215.9, H: 279.4}, 1},
	{paper.Size{Name: "Legal", W: 215.9, H: 355.6}, 2},
	{paper.Size{Name: "A3", W: 297, H: 420}, 3},
}

// onPage draws the form as Pages does, with the parts that pages do not keep.
func onPage(t *testing.T, s Sheet, size paper.Size) *paper.Block {
	t.Helper()
	width := size.W - marginLeft - marginRight
	f := s.form(width)
	high := f.height(linePitch) + 25
	return f.draw(&s, s.Numbers[0], f.fill(high))
}

// TestForm: every question stands in one place, no two meet, no word is drawn
// over another, and there is room to write in every line.
func TestForm(t *testing.T) {
	for _, lang := range []string{"en", "nb"} {
		for _, c := range sizes {
			s := sheet(lang, 1)
			b := onPage(t, s, c.size)
			asked := map[string]int{}
			for i, p := range b.Parts {
				if p.Text != "" {
					asked[p.Name]++
				}
				if p.Box.X < -0.01 || p.Box.Right() > b.W+0.01 || p.Box.Y < -0.01 || p.Box.Bottom() > b.H+0.01 {
					t.Errorf("%s %s: %s stands outside: %+v", lang, c.size.Name, p.Name, p.Box)
				}
				for _, o := range b.Parts[i+1:] {
					if meet(p.Box, o.Box) {
						t.Errorf("%s %s: %s and %s meet: %+v %+v", lang, c.size.Name, p.Name, o.Name, p.Box, o.Box)
					}
				}
			}
			for _, q := range questions {
				if want := map[bool]int{true: 0, false: 1}[q.Once]; asked[q.Key] != want {
					t.Errorf("%s %s: %s is asked %d times, want %d", lang, c.size.Name, q.Key, asked[q.Key], want)
				}
			}
			noLettersMeet(t, lang+" "+c.size.Name, b.Items)
			roomToWrite(t, lang+" "+c.size.Name, b.Items)
		}
	}
}

func meet(a, b paper.Box) bool {
	const e = 0.01
	return a.X < b.Right()-e && b.X < a.Right()-e && a.Y < b.Bottom()-e && b.Y < a.Bottom()-e
}

func noLettersMeet(t *testing.T, what string, items []paper.Item) {
	t.Helper()
	var texts []paper.Text
	for _, it := range items {
		if x, ok := it.(paper.Text); ok {
			texts = append(texts, x)
		}
	}
	for i, a := range texts {
		for _, b := range texts[i+1:] {
			if math.Abs(a.Y-b.Y) < 2 && a.X < b.Box().Right()-0.01 && b.X < a.Box().Right()-0.01 {
				t.Errorf("%s: %q and %q are printed over each other", what, a.Runs[0].Text, b.Runs[0].Text)
			}
		}
	}
}

// roomToWrite: nothing is ruled less than 7 mm above a line to write on.
func roomToWrite(t *testing.T, what string, items []paper.Item) {
	t.Helper()
	var rules []paper.Rule
	for _, it := range items {
		switch it := it.(type) {
		case paper.Rule:
			rules = append(rules, it)
		case paper.Frame:
			if it.B.W > 20 { // the frame, not a tick
				rules = append(rules, paper.Rule{X1: it.B.X, Y1: it.B.Y, X2: it.B.Right(), Y2: it.B.Y, Width: frameLine})
			}
		}
	}
	for _, r := range rules {
		if r.Width != hairline {
			continue
		}
		if r.X2-r.X1 < 6 {
			t.Errorf("%s: a line of %.1f mm is too short to write on", what, r.X2-r.X1)
		}
		for _, o := range rules {
			if o.Y1 < r.Y1-0.01 && o.X1 < r.X2 && r.X1 < o.X2 && r.Y1-o.Y1 < 7 {
				t.Errorf("%s: %.2f mm to write in between %.1f and %.1f", what, r.Y1-o.Y1, o.Y1, r.Y1)
			}
		}
	}
}

// TestPages: so many on a page, every number once and in order, nothing
// outside the margins.
func TestPages(t *testing.T) {
	for _, lang := range []string{"en", "nb"} {
		for _, c := range sizes {
			s := sheet(lang, 7)
			p, err := s.Pages(c.size, 0)
			if err != nil {
				t.Fatalf("%s %s: %v", lang, c.size.Name, err)
			}
			if most := (7 + c.each - 1) / c.each; len(p.Pages) > most {
				t.Errorf("%s %s: %d pages for 7 gatherings, want at most %d", lang, c.size.Name, len(p.Pages), most)
			}
			var numbers []string
			for _, page := range p.Pages {
				if page.Size != c.size {
					t.Errorf("page of %+v, want %+v", page.Size, c.size)
				}
				for _, it := range page.Items {
					b := it.Box()
					if b.X < marginLeft-0.2 || b.Right() > c.size.W-marginRight+0.2 || b.Y < 5 || b.Bottom() > c.size.H-5 {
						t.Errorf("%s %s: %+v lies in the margin", lang, c.size.Name, it)
					}
					if x, ok := it.(paper.Text); ok && x.Runs[0].Size == numberSize {
						numbers = append(numbers, x.Runs[0].Text)
					}
				}
				noLettersMeet(t, lang+" "+c.size.Name, page.Items)
				roomToWrite(t, lang+" "+c.size.Name, page.Items)
			}
			if !slices.Equal(numbers, s.Numbers) {
				t.Errorf("%s %s: numbers %v", lang, c.size.Name, numbers)
			}
		}
	}
}

// TestHardSheets: long names and numbers, and no number at all.
func TestHardSheets(t *testing.T) {
	s := sheet("en", 0)
	s.Collector = "Signe Margrethe Rask-Bannister of Upper Mølster in Raundalen"
	s.Levels = []string{"land", "landsdel", "herred/kommune"}
	s.Numbers = []string{"JAD/2008/010/003", "", "SR-0001207a"}
	for _, c := range sizes {
		p, err := s.Pages(c.size, 0)
		if err != nil {
			t.Fatalf("%s: %v", c.size.Name, err)
		}
		for _, page := range p.Pages {
			noLettersMeet(t, c.size.Name, page.Items)
			roomToWrite(t, c.size.Name, page.Items)
		}
	}
	one, err := s.Pages(sizes[0].size, 1)
	if err != nil || len(one.Pages) != 3 {
		t.Errorf("one a page: %d pages, %v", len(one.Pages), err)
	}
	for _, c := range []struct {
		size paper.Size
		want string
	}{{paper.Size{W: 105, H: 297}, "too narrow"}, {paper.Size{Name: "card", W: 210, H: 100}, "paper of card is too low"}} {
		if _, err := s.Pages(c.size, 0); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: %v, want %q", c.size, err, c.want)
		}
	}
	s.Collector = "Signe \U0001F33F"
	if _, err := s.Pages(sizes[0].size, 0); err == nil || !strings.Contains(err.Error(), "U+1F33F") {
		t.Errorf("a letter that the typeface lacks: %v", err)
	}
}

// TestTag: what a tag asks stands apart and within the tag.
func TestTag(t *testing.T) {
	s := sheet("nb", 0)
	for _, who := range []string{"Signe Rask", "", "Signe Margrethe Rask-Bannister of Upper Mølster in Raundalen"} {
		for _, no := range []string{"1311", "", "JAD/2008/010/003/00012345"} {
			s.Collector = who
			b, err := s.Tag(no)
			if err != nil {
				t.Fatal(err)
			}
			for i, p := range b.Parts {
				if p.Box.X < 5-0.01 || p.Box.Right() > TagWidth-5+0.01 || p.Box.Y < 1.5 || p.Box.Bottom() > TagHeight-2 {
					t.Errorf("%q %q: %s in the margin: %+v", who, no, p.Name, p.Box)
				}
				for _, o := range b.Parts[i+1:] {
					if meet(p.Box, o.Box) {
						t.Errorf("%q %q: %s and %s meet", who, no, p.Name, o.Name)
					}
				}
			}
			noLettersMeet(t, "tag "+who+" "+no, b.Items)
			for _, it := range b.Items {
				if box := it.Box(); box.X < 5-0.2 || box.Right() > TagWidth-5+0.2 {
					t.Errorf("%q %q: %+v in the margin", who, no, it)
				}
			}
		}
	}
}

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

var wordOnPaper = regexp.MustCompile(`<page width="([\d.]+)" height="([\d.]+)"|xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)<`)

// TestOnPaper measures the PDF: size of the page, where words stand, and that
// each number is there once, in order. A line of words is set alike, so the
// tops of two differ as their base lines do.
func TestOnPaper(t *testing.T) {
	pdftotext := program(t, "pdftotext")
	for _, c := range sizes[:3] {
		s := sheet("en", 4)
		p, err := s.Pages(c.size, 1)
		if err != nil {
			t.Fatal(err)
		}
		p.Day = time.Unix(0, 0)
		src, err := p.PDF()
		if err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(t.TempDir(), "field.pdf")
		if err := os.WriteFile(file, src, 0o666); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(pdftotext, "-bbox", file, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		var numbers []string
		left, top := map[string]float64{}, map[string]float64{}
		same := func(what string, got, want float64) {
			t.Helper()
			if math.Abs(got-want) > 0.2 {
				t.Errorf("%s: %s: %.2f mm, want %.2f", c.size.Name, what, got, want)
			}
		}
		for _, m := range wordOnPaper.FindAllStringSubmatch(string(out), -1) {
			at := func(i int) float64 { v, _ := strconv.ParseFloat(m[i], 64); return v * paper.Point }
			if m[1] != "" {
				same("page's width", at(1), c.size.W)
				same("page's height", at(2), c.size.H)
				continue
			}
			if slices.Contains(s.Numbers, m[7]) {
				numbers = append(numbers, m[7])
			}
			if _, seen := left[m[7]]; !seen {
				left[m[7]], top[m[7]] = at(3), at(4)
			}
		}
		if !slices.Equal(numbers, s.Numbers) {
			t.Errorf("%s: numbers on paper %v", c.size.Name, numbers)
		}
		same("left of the museum", left["LAUVKROKEN"], marginLeft)
		same("left of the number", left["1311"], marginLeft)
		same("left of locality", left["locality"], marginLeft)
		same("left of what is in the frame", left["colours"], marginLeft+frameSide)
		if d := top["locality"] - top["country"]; d < linePitch-0.2 || d > mostPitch+0.2 {
			t.Errorf("%s: %.2f mm from country to locality", c.size.Name, d)
		}
	}
}

func ExampleSheet_Text() {
	s := Sheet{Collector: "Signe Rask", Numbers: []string{"1311"}, Language: LanguageOf("nb")}
	for line := range strings.Lines(string(s.Text())) {
		if strings.HasPrefix(line, "samler") || strings.HasPrefix(line, "nummer") || strings.HasPrefix(line, "duft") {
			fmt.Print(line)
		}
	}
	// Output:
	// samler: Signe Rask
	// nummer: 1311
	// duft:
}
