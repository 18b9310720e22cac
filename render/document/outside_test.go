package document

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"blotter/render/paper"
)

// program is the path of an outside program. Without it the test is skipped,
// on CI it is broken.
func program(t *testing.T, names ...string) string {
	t.Helper()
	for _, name := range names {
		if p, err := exec.LookPath(name); err == nil {
			return p
		}
	}
	if os.Getenv("CI") == "true" {
		t.Fatalf("%v is not here", names)
	}
	t.Skipf("%v is not here", names)
	return ""
}

func output(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(name, args...).Output()
	if err != nil {
		t.Fatalf("%s %v: %v", name, args, err)
	}
	return string(out)
}

// hard is a document with all kinds of blocks, long words and hostile ones.
func hard() *Document {
	d := longTable(90)
	d.Heading("Hostile <b>words</b> & \u202eturned")
	d.Say(strings.Repeat("x", 300) + " " + strings.Repeat("word ", 200))
	d.Caution("One sheet was treated with mercury; " + strings.Repeat("gloves, ", 30) + "your own rules come first.")
	d.Table([]string{"number", "where", "note"}, [][]string{{"1,234", strings.Repeat("locality", 30), "a"}, {"56", "b", "https://example.org/" + strings.Repeat("path/", 40)}})
	d.Fill(Field{Label: "Packed by", Wide: 3}, Field{Label: "Date", Value: "3 November 2026"})
	d.Tick("Grade", Boxes([]string{"1 good", "2 fair, stable", "3 poor"}, "2 fair, stable")...)
	d.Grid([]string{"trap", "insect", "done"}, [][]string{{"T1", "", EmptyBox}}, Grid{Blank: 3, ToFoot: true, Wide: []float64{1, 3, 1}})
	return d
}

var (
	pagesLine = regexp.MustCompile(`(?m)^Pages: +([0-9]+)$`)
	sizeLine  = regexp.MustCompile(`(?m)^Page size: +([0-9.]+) x ([0-9.]+) pts`)
	wordBox   = regexp.MustCompile(`<word xMin="([0-9.-]+)" yMin="([0-9.-]+)" xMax="([0-9.-]+)" yMax="([0-9.-]+)">`)
)

// measured are the pages and the size of a PDF, and the first word of it that
// stands outside of margin millimetres.
func measured(t *testing.T, file string, margin float64) (pages int, w, h float64, outside string) {
	t.Helper()
	info := output(t, program(t, "pdfinfo"), file)
	pages, _ = strconv.Atoi(pagesLine.FindStringSubmatch(info)[1])
	m := sizeLine.FindStringSubmatch(info)
	w, _ = strconv.ParseFloat(m[1], 64)
	h, _ = strconv.ParseFloat(m[2], 64)
	w, h = w*paper.Point, h*paper.Point
	for _, line := range strings.Split(output(t, program(t, "pdftotext"), "-bbox", file, "-"), "\n") {
		b := wordBox.FindStringSubmatch(line)
		if b == nil {
			continue
		}
		left, _ := strconv.ParseFloat(b[1], 64)
		right, _ := strconv.ParseFloat(b[3], 64)
		if left*paper.Point < margin-0.2 || right*paper.Point > w-margin+0.2 {
			outside = line
		}
	}
	return pages, w, h, outside
}

// TestPDFMeasured measures the PDF with poppler: size, letters embedded, words
// of the document and none outside the margins.
func TestPDFMeasured(t *testing.T) {
	for _, size := range []paper.Size{{Name: "A4", W: 210, H: 297}, {Name: "Letter", W: 215.9, H: 279.4}, {W: 150, H: 200}} {
		d := hard()
		p, err := d.Paper(Options{Size: size, Day: time.Date(2026, 11, 3, 0, 0, 0, 0, time.UTC), Revision: "revision 8c1d0fe"})
		if err != nil {
			t.Fatal(err)
		}
		b, err := p.PDF()
		if err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(t.TempDir(), "list.pdf")
		if err := os.WriteFile(file, b, 0o644); err != nil {
			t.Fatal(err)
		}
		pages, w, h, outside := measured(t, file, min(20, size.W*0.095))
		if pages != len(p.Pages) || abs(w-size.W) > 0.2 || abs(h-size.H) > 0.2 {
			t.Errorf("%v: %d pages of %.1f x %.1f mm, want %d", size, pages, w, h, len(p.Pages))
		}
		if outside != "" {
			t.Errorf("%v: outside the margins: %s", size, outside)
		}
		words := strings.Join(strings.Fields(output(t, program(t, "pdftotext"), "-layout", file, "-")), " ")
		for _, want := range []string{"Move list", "LK7-000Aa", "your own rules come first.", "2 fair, stable", "1,234", "[U+202E]turned", fmt.Sprintf("1 of %d", pages), "revision 8c1d0fe"} {
			if !strings.Contains(words, want) {
				t.Errorf("%v: %q is not among the words of the PDF", size, want)
			}
		}
		for _, line := range strings.Split(strings.TrimSpace(output(t, program(t, "pdffonts"), file)), "\n")[2:] {
			if !strings.Contains(line, "GentiumPlus") && !strings.Contains(line, "gentium") || !strings.Contains(line, " yes ") {
				t.Errorf("%v: a typeface that is not embedded: %s", size, line)
			}
		}
	}
}

func abs(v float64) float64 { return max(v, -v) }

// TestPrintedByBrowser prints the HTML with Chromium: the paper is the one that
// was asked for, no word hangs out of the margins, heads stand on every page of
// a long table.
func TestPrintedByBrowser(t *testing.T) {
	browser := program(t, "chromium", "chromium-browser", "google-chrome")
	program(t, "pdfinfo")
	d := hard()
	d.Sheet = paper.Size{W: 210, H: 297}
	dir := t.TempDir()
	page, file := filepath.Join(dir, "list.html"), filepath.Join(dir, "list.pdf")
	if err := os.WriteFile(page, d.HTML(), 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(browser, "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer", "--user-data-dir="+filepath.Join(dir, "profile"), "--print-to-pdf="+file, "file://"+page)
	var said bytes.Buffer
	cmd.Stderr = &said
	if err := cmd.Run(); err != nil {
		t.Fatalf("print with the browser: %v\n%s", err, said.String())
	}
	pages, w, h, outside := measured(t, file, 15)
	if abs(w-210) > 0.4 || abs(h-297) > 0.4 {
		t.Errorf("the browser prints %.1f x %.1f mm", w, h)
	}
	if outside != "" {
		t.Errorf("outside the margins: %s", outside)
	}
	heads := strings.Count(output(t, program(t, "pdftotext"), "-layout", file, "-"), "folder")
	if pages < 4 || heads < 2 {
		t.Errorf("%d pages, the heads stand on %d of them", pages, heads)
	}
}
