package label

import (
	"bytes"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
	"time"

	"blotter/render/paper"
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

// sketchPDF is a file with the label of the sketch as its only page.
func sketchPDF(t *testing.T) string {
	b := one(t, input(t, sketch, "")).Blocks[0]
	p := &paper.Paper{Title: "label", Day: time.Unix(0, 0), Pages: []paper.Page{{Size: paper.Size{W: b.W, H: b.H}}}}
	p.Pages[0].Put(b, 0, 0)
	text, err := p.PDF()
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "label.pdf")
	if err := os.WriteFile(file, text, 0o666); err != nil {
		t.Fatal(err)
	}
	return file
}

var boxOfWord = regexp.MustCompile(`xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)<`)

// TestWordsOnPaper measures the words of the sketch's label in the PDF against
// interface.md section 3, to 0.2 mm.
func TestWordsOnPaper(t *testing.T) {
	out, err := exec.Command(program(t, "pdftotext"), "-bbox", sketchPDF(t), "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	type word struct{ left, top, right, bottom float64 }
	at := map[string]word{}
	for _, m := range boxOfWord.FindAllStringSubmatch(string(out), -1) {
		var v [4]float64
		for i := range v {
			v[i], _ = strconv.ParseFloat(m[i+1], 64)
			v[i] *= paper.Point
		}
		if _, seen := at[m[5]]; seen {
			m[5] += " again"
		}
		at[m[5]] = word{v[0], v[1], v[2], v[3]}
	}
	page := regexp.MustCompile(`<page width="([\d.]+)" height="([\d.]+)"`).FindSubmatch(out)
	if page == nil {
		t.Fatal("no page")
	}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"width of the page", float(page[1]) * paper.Point, 105},
		{"height of the page", float(page[2]) * paper.Point, 68},
		{"left of the heading", at["LAUVKROKEN"].left, 5},
		{"right of the family", at["Ranunculaceae"].right, 100},
		{"left of the name", at["Ranunculus"].left, 5},
		{"left of det.", at["det."].left, 10},
		{"left of the place", at["Norway:"].left, 5},
		{"grid of the text", at["1.2"].top - at["Norway:"].top, 4},
		{"from place to position", at["60°42′12″N"].top - at["1.2"].top, 4},
		{"from position to habitat", at["Hay"].top - at["60°42′12″N"].top, 5}, // 4 and 1 above habitat
		{"from habitat to the plant", at["Perennial"].top - at["Hay"].top, 4},
		{"left of the collector", at["Signe again"].left, 5},
		{"right of the date", at["14.vii.2025 again"].right, 100},
		{"date and collector on one line", at["14.vii.2025 again"].top, at["Signe again"].top},
		{"left of with", at["with again"].left, 5},
		{"right of the number", at["LK7-0000482"].right, 100},
	} {
		if math.Abs(c.got-c.want) > 0.2 {
			t.Errorf("%s: %.2f mm, want %.2f", c.what, c.got, c.want)
		}
	}
}

func float(b []byte) float64 {
	v, _ := strconv.ParseFloat(string(b), 64)
	return v
}

// TestRulesOnPaper finds the two rules of the sketch's label and the frame of
// its caution in a picture of the PDF: 4.6 mm below the top of the text, 9.4
// above its foot, over the whole width.
func TestRulesOnPaper(t *testing.T) {
	const dpi = 600
	out, err := exec.Command(program(t, "pdftoppm"), "-r", strconv.Itoa(dpi), "-gray", "-png", sketchPDF(t)).Output()
	if err != nil {
		t.Fatal(err)
	}
	pic, err := png.Decode(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	mm := func(px int) float64 { return float64(px) * 25.4 / dpi }
	var rules [][4]float64 // left, top, right, bottom of what is dark over more than 90 mm
	for y := pic.Bounds().Min.Y; y < pic.Bounds().Max.Y; y++ {
		first, last, n := -1, -1, 0
		for x := range pic.Bounds().Max.X {
			if r, _, _, _ := pic.At(x, y).RGBA(); r < 0x8000 {
				if first < 0 {
					first = x
				}
				last, n = x, n+1
			}
		}
		if mm(n) < 90 {
			continue
		}
		if k := len(rules) - 1; k >= 0 && mm(y)-rules[k][3] < 0.1 {
			rules[k][3] = mm(y + 1)
			continue
		}
		rules = append(rules, [4]float64{mm(first), mm(y), mm(last + 1), mm(y + 1)})
	}
	if len(rules) != 2 {
		t.Fatalf("rules: %v", rules)
	}
	for i, middle := range []float64{4 + 4.6, 68 - 4 - 9.4} {
		r := rules[i]
		if math.Abs(r[0]-5) > 0.2 || math.Abs(r[2]-100) > 0.2 || math.Abs((r[1]+r[3])/2-middle) > 0.2 || math.Abs(r[3]-r[1]-0.2) > 0.1 {
			t.Errorf("rule %v, want from 5 to 100 mm at %.1f, 0.2 thick", r, middle)
		}
	}
}
