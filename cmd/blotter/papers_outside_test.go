package main

import (
	"cmp"
	"context"
	"encoding/xml"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"blotter/render/document"
	"blotter/render/label"
	"blotter/render/paper"
)

// measured is how far what poppler measures may lie from where it should, in mm.
const measured = 0.2

// wordAt is a word on a page, in millimetres; base is only for the order.
type wordAt struct {
	page              int
	text              string
	left, right, base float64
}

// wordsInPDF are the words of a PDF as poppler finds them, and the sizes of its pages.
func wordsInPDF(t *testing.T, file string) (words []wordAt, pages []paper.Size) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(outsideSays(t, "pdftotext", "-bbox", file, "-")))
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
			at[a.Name.Local] = v * paper.Point
		}
		switch e.Name.Local {
		case "page":
			pages = append(pages, paper.Size{W: at["width"], H: at["height"]})
		case "word":
			var text string
			if d.DecodeElement(&text, &e) == nil && !(at["yMax"]-at["yMin"] > 9 && strings.Contains("DRAFT", text)) {
				words = append(words, wordAt{len(pages), text, at["xMin"], at["xMax"], at["yMax"]})
			}
		}
	}
	return inOrder(words), pages
}

// inOrder sorts words so that those of two renderings pair off.
func inOrder(words []wordAt) []wordAt {
	slices.SortStableFunc(words, func(a, b wordAt) int {
		return cmp.Or(a.page-b.page, strings.Compare(a.text, b.text), cmp.Compare(math.Round(a.left), math.Round(b.left)), cmp.Compare(a.base, b.base))
	})
	return words
}

// wordsSet are the words of a paper as it was laid out. DRAFT, which lies
// across, is left out here and in wordsInPDF.
func wordsSet(p *paper.Paper) (words []wordAt) {
	for i, page := range p.Pages {
		for _, it := range page.Items {
			if line, ok := it.(paper.Text); ok && line.Turn == 0 {
				words = append(words, wordsOfLine(i+1, line)...)
			}
		}
	}
	return inOrder(words)
}

// wordsOfLine are those of one line; a word may go on in another style.
func wordsOfLine(page int, line paper.Text) (words []wordAt) {
	x, open := line.X, false
	for _, r := range line.Runs {
		for k, w := range strings.Split(r.Text, " ") {
			if k > 0 {
				x, open = x+paper.Width(paper.Run{Style: r.Style, Text: " "}), false
			}
			if w == "" {
				continue
			}
			if !open {
				words = append(words, wordAt{page: page, left: x, base: line.Y})
			}
			last := &words[len(words)-1]
			x += paper.Width(paper.Run{Style: r.Style, Text: w})
			last.text, last.right, open = last.text+w, x, true
		}
	}
	return words
}

// laidOut is the paper of a row as it is before it becomes a file, and the
// blocks that were put on it.
func (p *paperDesk) laidOut(t *testing.T, r paperRow) (*paper.Paper, *smallPapers) {
	t.Helper()
	ctx := context.Background()
	words, err := splitWords(strings.ReplaceAll(r.Typed+" --to "+r.Name+".pdf", "'", `"`))
	if err != nil {
		t.Fatal(err)
	}
	args, err := parse(printCommand(), words)
	if err != nil {
		t.Fatal(err)
	}
	c := &call{env: p.env(new(strings.Builder)), cmd: printCommand(), args: args.args, opts: args.opts}
	kind, rest, err := c.printKind()
	if err != nil {
		t.Fatal(err)
	}
	d, err := c.desk()
	if err != nil {
		t.Fatal(err)
	}
	run := &printing{desk: d, kind: kind, words: rest}
	switch {
	case kind.Blocks != nil && (kind.Whole == nil || !kind.Whole(c)):
		made, refused, err := kind.Blocks(ctx, d, rest)
		if err != nil || len(refused) > 0 {
			t.Fatalf("print %s: %v, %v", r.Typed, refused, err)
		}
		state, err := run.printedFrom(ctx, made.of())
		if err != nil {
			t.Fatal(err)
		}
		blocks, im, err := run.layout(made, state)
		if err != nil {
			t.Fatal(err)
		}
		sheet, _, err := paper.Impose(blocks, im)
		if err != nil {
			t.Fatal(err)
		}
		return sheet, made
	case kind.Pages != nil:
		sheet, err := kind.Pages(ctx, d, rest)
		if err != nil {
			t.Fatal(err)
		}
		return sheet, nil
	}
	return documentSheet(ctx, t, d, kind, rest), nil
}

// documentSheet is the paper of a kind that is a document.
func documentSheet(ctx context.Context, t *testing.T, d *desk, kind printKind, words []string) *paper.Paper {
	t.Helper()
	doc, err := kind.Make(ctx, d, words)
	if err != nil {
		t.Fatal(err)
	}
	state, revision, err := d.documentState(ctx)
	if err != nil {
		t.Fatal(err)
	}
	doc.Name = label.Name
	if doc.Sheet, err = d.paperSize(); err != nil {
		t.Fatal(err)
	}
	sheet, err := doc.Paper(document.Options{Size: doc.Sheet, Day: state.when, Revision: revision})
	if err != nil {
		t.Fatal(err)
	}
	return sheet
}

// TestPapersOutside measures every kind of paper with poppler: the pages and
// their sizes, every word where it was laid, none of them near the edge or out
// of its block, every typeface embedded, and no words but those laid out.
func TestPapersOutside(t *testing.T) {
	t.Parallel()
	outside(t, "pdftotext")
	desk, dir := newPaperDesk(t), t.TempDir()
	for _, r := range paperRows {
		file := desk.print(t, r, dir, ".pdf")
		sheet, made := desk.laidOut(t, r)
		found, pages := wordsInPDF(t, file)
		for _, e := range samePages(sheet, pages) {
			t.Errorf("%s: %s", r.Name, e)
		}
		for _, e := range sameWords(wordsSet(sheet), found, measured) {
			t.Errorf("%s: %s", r.Name, e)
		}
		for _, w := range found {
			if s := pages[w.page-1]; w.left < 3.5 || w.right > s.W-3.5 || w.base > s.H-3 {
				t.Errorf("%s: %q is nearer to the edge than a printer reaches", r.Name, w.text)
			}
		}
		if made != nil {
			blocksHoldTheirWords(t, r.Name, made)
		}
		embedded(t, r.Name, file)
	}
}

func samePages(p *paper.Paper, pages []paper.Size) (out []string) {
	if len(pages) != len(p.Pages) {
		return []string{fmt.Sprintf("%d pages, want %d", len(pages), len(p.Pages))}
	}
	for i, s := range pages {
		if want := p.Pages[i].Size; math.Abs(s.W-want.W) > 0.01 || math.Abs(s.H-want.H) > 0.01 {
			out = append(out, fmt.Sprintf("page %d is %v, want %v", i+1, s, want))
		}
	}
	return out
}

// sameWords compares two lists that are in order.
func sameWords(want, got []wordAt, tolerance float64) (out []string) {
	for i := range max(len(want), len(got)) {
		switch {
		case i >= len(want):
			return append(out, fmt.Sprintf("a word too much: %+v", got[i]))
		case i >= len(got):
			return append(out, fmt.Sprintf("a word is missing: %+v", want[i]))
		case want[i].text != got[i].text || want[i].page != got[i].page:
			return append(out, fmt.Sprintf("%+v, want %+v", got[i], want[i]))
		}
		// The right edge of spaced letters has their space behind it in the one
		// rendering and not in the other.
		if math.Abs(want[i].left-got[i].left) > tolerance || math.Abs(want[i].right-got[i].right) > tolerance+0.2 {
			out = append(out, fmt.Sprintf("%+v, want %+v", got[i], want[i]))
		}
	}
	return out
}

// blocksHoldTheirWords: what is drawn lies in the block, the words that are
// drawn are those of the parts, each part's own lie in its box, no two parts meet.
func blocksHoldTheirWords(t *testing.T, name string, made *smallPapers) {
	t.Helper()
	for _, b := range made.Blocks {
		var drawn, said []string
		for _, it := range b.Items {
			if box := it.Box(); box.X < -slack || box.Y < -slack || box.Right() > b.W+slack || box.Bottom() > b.H+slack {
				t.Errorf("%s: %+v is out of its block of %g x %g mm", name, it, b.W, b.H)
			}
			if line, ok := it.(paper.Text); ok {
				for _, w := range wordsOfLine(1, line) {
					drawn = append(drawn, w.text)
				}
			}
		}
		for i, p := range b.Parts {
			if p.Name != "barcode" {
				said = append(said, strings.Fields(p.Text)...)
			}
			for _, q := range b.Parts[:i] {
				if p.Box.X < q.Box.Right()-0.01 && q.Box.X < p.Box.Right()-0.01 && p.Box.Y < q.Box.Bottom()-0.01 && q.Box.Y < p.Box.Bottom()-0.01 {
					t.Errorf("%s: %q and %q meet", name, q.Text, p.Text)
				}
			}
		}
		slices.Sort(drawn)
		slices.Sort(said)
		if !slices.Equal(drawn, said) {
			t.Errorf("%s: drawn are %q, the parts have %q", name, drawn, said)
		}
	}
}

// slack is half of a line: those along which a packet is cut lie on its edge.
const slack = 0.1

var embeddedFont = regexp.MustCompile(`(?i)gentium.* Identity-H +yes `)

func embedded(t *testing.T, name, file string) {
	t.Helper()
	lines := strings.Split(strings.TrimSpace(outsideSays(t, "pdffonts", file)), "\n")
	if len(lines) < 3 {
		t.Errorf("%s: no fonts", name)
		return
	}
	for _, l := range lines[2:] {
		if !embeddedFont.MatchString(l) {
			t.Errorf("%s: a typeface that is not embedded: %s", name, l)
		}
	}
}

// TestBarcodesRead reads every barcode of the pages as they come from the
// printer, at 300 dots to the inch, with programs that are not ours.
func TestBarcodesRead(t *testing.T) {
	t.Parallel()
	outside(t, "pdftoppm")
	desk, dir := newPaperDesk(t), t.TempDir()
	for _, r := range paperRows {
		if (strings.HasPrefix(r.Name, "strips") || strings.HasPrefix(r.Name, "numbers")) && !r.Flows {
			desk.barcodesRead(t, r, dir)
		}
	}
	settings := filepath.Join(desk.dir, "blotter.yaml")
	text := readAll(t, settings)
	for _, kind := range []string{"qr", "code128", "datamatrix"} {
		if err := os.WriteFile(settings, append(slices.Clone(text), "  labels: {barcode: "+kind+"}\n"...), 0o644); err != nil {
			t.Fatal(err)
		}
		name := strings.TrimSuffix("labels-"+kind, "-datamatrix")
		desk.barcodesRead(t, paperRow{name, "labels 52,482,483 --trial", false}, dir)
	}
}

// barcodesRead reads the first page of a row: a hyphen in its name says that
// its kind is not Data Matrix.
func (p *paperDesk) barcodesRead(t *testing.T, r paperRow, dir string) {
	t.Helper()
	file := p.print(t, r, dir, ".pdf")
	_, made := p.laidOut(t, r)
	var want []string
	for _, b := range made.Blocks {
		for _, part := range b.Parts {
			if part.Name == "barcode" {
				want = append(want, part.Text)
			}
		}
	}
	page := filepath.Join(dir, r.Name)
	outsideSays(t, "pdftoppm", "-r", "300", "-gray", "-png", "-singlefile", file, page)
	said := ""
	if strings.Contains(r.Name, "-") {
		said = outsideSays(t, "zbarimg", "-q", "--raw", page+".png")
	} else {
		said = outsideSays(t, "dmtxread", "-n", "-N", strconv.Itoa(len(want)), page+".png")
	}
	got := strings.Fields(said)
	slices.Sort(got)
	if len(want) == 0 || !slices.Equal(got, want) {
		t.Errorf("%s: read %q, want %q", r.Name, got, want)
	}
	os.Remove(page + ".png")
}
