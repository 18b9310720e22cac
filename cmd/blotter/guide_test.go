package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"blotter/ledger"
	"blotter/render/label"
	"blotter/render/paper"
)

// The guide of papers shows every kind of print as a picture. Its page is the
// table: the command above a picture makes it, in the demonstration ledger,
// and the sentence below says its true size.
const (
	guideFolder = "../../examples/paper"
	guidePage   = guideFolder + "/README.md"
	guideMakes  = "UPDATE_GOLDEN=1 go test ./cmd/blotter -run TestScripts/demo_same"
	guideMost   = 150_000 // bytes of a picture
)

var guidePicture = regexp.MustCompile(`(?m)((?:^    blotter .*\n)+)\n!\[([^\]]+)\]\(([a-z0-9-]+\.svg)\)\n\n(.+)\n`)

// cmdGuide holds the pictures of the guide to what the ledger of DIR prints
// now, or with UPDATE_GOLDEN=1 makes them anew: guide DIR
func cmdGuide(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: guide DIR")
	}
	update := os.Getenv("UPDATE_GOLDEN") != ""
	if update && os.Getenv("CI") != "" {
		ts.Fatalf("the guide of papers is not rewritten in CI")
	}
	text, err := os.ReadFile(guidePage)
	ts.Check(err)
	var stale []string
	page := guidePicture.ReplaceAllStringFunc(string(text), func(found string) string {
		m := guidePicture.FindStringSubmatch(found)
		lines := strings.Split(strings.TrimSpace(m[1]), "\n")
		for _, line := range lines[:len(lines)-1] {
			words, err := splitWords(strings.TrimSpace(line))
			ts.Check(err)
			ts.Check(ts.Exec(words[0], append(words[1:], "--ledger", args[0])...))
		}
		picture, says, err := guidePaper(ts.MkAbs(args[0]), strings.TrimSpace(lines[len(lines)-1]))
		if err != nil {
			ts.Fatalf("%s: %v", m[3], err)
		}
		file := filepath.Join(guideFolder, m[3])
		if have, err := os.ReadFile(file); err != nil || !bytes.Equal(have, picture) || says != m[4] {
			stale = append(stale, m[3])
		}
		if update {
			ts.Check(os.WriteFile(file, picture, 0o644))
		}
		return strings.TrimSuffix(found, m[4]+"\n") + says + "\n"
	})
	switch {
	case update:
		ts.Check(os.WriteFile(guidePage, []byte(page), 0o644))
	case len(stale) > 0:
		ts.Fatalf("%s: not as the demonstration prints them now: %s; look at them, then %s", guidePage, strings.Join(stale, " "), guideMakes)
	}
}

// guidePaper is the picture of what a command prints in the ledger of dir, and
// the sentence of its size.
func guidePaper(dir, line string) (picture []byte, says string, err error) {
	p, err := guidePrinting(dir, line)
	if err != nil {
		return nil, "", err
	}
	ctx := context.Background()
	if p.kind.Blocks != nil {
		cut, err := p.imposed(ctx)
		if err != nil || cut == nil {
			return nil, "", fmt.Errorf("%s: nothing is cut: %w", line, err)
		}
		if strings.Contains(line, "-sheet.") {
			picture, says = wholePages(cut.sheet)
		} else {
			picture, says = cutApart(cut)
		}
		return picture, says, nil
	}
	var sheet *paper.Paper
	if p.kind.Pages != nil {
		sheet, err = p.kind.Pages(ctx, p.desk, p.words)
	} else if doc, failed := p.kind.Make(ctx, p.desk, p.words); failed != nil {
		err = failed
	} else if doc.Sheet, err = p.paperSize(); err == nil {
		doc.Name = label.Name
		sheet, err = documentPaper(ctx, p.desk, doc)
	}
	if err != nil {
		return nil, "", err
	}
	picture, says = wholePages(sheet)
	return picture, says, nil
}

// guidePrinting is the run of print that a line asks for, a day after the last
// event of the demonstration.
func guidePrinting(dir, line string) (*printing, error) {
	words, err := splitWords(line)
	if err != nil {
		return nil, err
	}
	cmd, rest, err := choose(words[1:])
	if err != nil {
		return nil, err
	}
	if cmd.Name != "print" {
		return nil, fmt.Errorf("%s prints nothing", line)
	}
	typed, err := parse(cmd, rest)
	if err != nil {
		return nil, err
	}
	e := &env{In: strings.NewReader(""), Out: io.Discard, Err: io.Discard, Dir: dir, Width: 80, Environ: demoEnviron(os.Environ()),
		Now: func() time.Time { return time.Date(2026, 10, 31, 9, 0, 0, 0, time.UTC) }}
	c := &call{env: e, cmd: cmd, args: typed.args, opts: typed.opts}
	kind, after, err := c.printKind()
	if err != nil {
		return nil, err
	}
	if err := kind.fits(c); err != nil {
		return nil, err
	}
	form, err := c.printForm(kind)
	if err != nil || form.ending != ".pdf" {
		return nil, fmt.Errorf("%s: a picture is made of pages, --to FILE.pdf: %w", line, err)
	}
	if kind.Whole != nil && kind.Whole(c) {
		kind.Blocks = nil
	}
	d, err := c.desk()
	return &printing{desk: d, kind: kind, form: form, words: after}, err
}

// Of a picture, in millimetres.
const (
	guideMat  = 5.0   // around papers, and between them
	guideWide = 230.0 // what lies beside each other
)

// cutApart is the picture of papers after they are cut, beside and below each
// other on a grey ground.
func cutApart(cut *cutSheet) (picture []byte, says string) {
	var page paper.Page
	var at []paper.Box
	x, y, row := guideMat, guideMat, 0.0
	var sizes []string
	for _, b := range cut.blocks {
		if x > guideMat && x+b.W > guideWide {
			x, y, row = guideMat, y+row+guideMat, 0
		}
		page.Put(b, x, y)
		at = append(at, paper.Box{X: x, Y: y, W: b.W, H: b.H})
		x, row = x+b.W+guideMat, max(row, b.H)
		page.Size.W, page.Size.H = max(page.Size.W, x), max(page.Size.H, y+row+guideMat)
		if size := measures(b.W, b.H); !slices.Contains(sizes, size) {
			sizes = append(sizes, size)
		}
	}
	picture, scale := guideSVG(page, at)
	return picture, fmt.Sprintf("%s, shown at %s size.", strings.Join(sizes, " and "), scale)
}

// wholePages is the picture of the first page; of one that is mostly empty
// its upper part.
func wholePages(sheet *paper.Paper) (picture []byte, says string) {
	first := sheet.Pages[0]
	says = sizeWords(first.Size)
	if n := len(sheet.Pages); n > 1 {
		says = fmt.Sprintf("%d pages of %s, the first", n, says)
	}
	items, box := first.Items, paper.Box{X: guideMat, Y: guideMat, W: first.Size.W, H: first.Size.H}
	page := paper.Page{Size: paper.Size{W: box.W + 2*guideMat, H: box.H + 2*guideMat}}
	if upper, end := upperPart(first); end > 0 {
		items, box.H, page.Size.H = upper, end, end+guideMat
		says += ", its upper part"
	}
	page.Put(&paper.Block{Items: items}, guideMat, guideMat)
	picture, scale := guideSVG(page, []paper.Box{box})
	return picture, fmt.Sprintf("%s, shown at %s size.", says, scale)
}

// upperPart is what a page has above its foot, and where that may be cut off;
// 0: it fills the page.
func upperPart(p paper.Page) (items []paper.Item, end float64) {
	for _, it := range p.Items {
		if b := it.Box(); b.Bottom() < 0.9*p.Size.H {
			items, end = append(items, it), max(end, b.Bottom())
		}
	}
	if end += 10; end > 0.7*p.Size.H {
		return nil, 0
	}
	return items, end
}

var guideRevision = regexp.MustCompile(`revision [0-9a-f]{7}\b`)

// guideSVG draws papers of these boxes. High ones are made smaller; the
// revision is always the same, so that a picture changes when its paper does.
func guideSVG(page paper.Page, papers []paper.Box) (picture []byte, scale string) {
	for i, it := range page.Items {
		if t, ok := it.(paper.Text); ok {
			t.Runs = slices.Clone(t.Runs)
			for k := range t.Runs {
				t.Runs[k].Text = guideRevision.ReplaceAllString(t.Runs[k].Text, "revision 3f2a91c")
			}
			page.Items[i] = t
		}
	}
	part, scale := 1.0, "true"
	switch {
	case page.Size.H > 320:
		part, scale = 1.0/3, "a third of its"
	case page.Size.H > 160:
		part, scale = 0.5, "half its"
	}
	w, h := page.Size.W, page.Size.H
	ground := fmt.Sprintf("<rect width=\"%s\" height=\"%s\" fill=\"#e4e4e2\"/>\n", millimetres(w), millimetres(h))
	for _, b := range papers {
		ground += fmt.Sprintf("<rect x=\"%s\" y=\"%s\" width=\"%s\" height=\"%s\" fill=\"#fff\"/>\n", millimetres(b.X), millimetres(b.Y), millimetres(b.W), millimetres(b.H))
	}
	svg := string(page.SVG())
	before, after, ok := strings.Cut(svg, "<rect ")
	_, after, closed := strings.Cut(after, "/>\n")
	_, box, sized := strings.Cut(before, " viewBox")
	if !ok || !closed || !sized {
		panic("a picture without a ground")
	}
	head := fmt.Sprintf("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%smm\" height=\"%smm\" viewBox", millimetres(w*part), millimetres(h*part))
	return []byte(head + box + ground + after), scale
}

// TestGuide: each kind of print and each form has its picture, no picture is
// large or of no use, and the settings that the guide names are there.
func TestGuide(t *testing.T) {
	text, err := os.ReadFile(guidePage)
	if err != nil {
		t.Fatal(err)
	}
	shown, files := map[string]bool{}, map[string]bool{}
	for _, m := range guidePicture.FindAllStringSubmatch(string(text), -1) {
		lines := strings.Split(strings.TrimSpace(m[1]), "\n")
		words := strings.Fields(lines[len(lines)-1])
		shown[words[2]] = true
		if words[2] == "forms" {
			shown["forms "+words[3]] = true
		}
		files[m[3]] = true
		info, err := os.Stat(filepath.Join(guideFolder, m[3]))
		switch {
		case err != nil:
			t.Errorf("%s is not made yet: %s", m[3], guideMakes)
		case info.Size() > guideMost:
			t.Errorf("%s has %d bytes, more than %d", m[3], info.Size(), guideMost)
		}
	}
	for _, k := range printKinds() {
		if !shown[k.Name] {
			t.Errorf("print %s has no picture in %s", k.Name, guidePage)
		}
	}
	for _, f := range paperForms() {
		if !shown["forms "+f.Name] && !shown[f.Name] {
			t.Errorf("print forms %s has no picture in %s", f.Name, guidePage)
		}
	}
	if n := strings.Count(string(text), ".svg)"); n != len(files) {
		t.Errorf("%d pictures are named in %s, %d of them with a command above and their size below", n, guidePage, len(files))
	}
	made, err := filepath.Glob(guideFolder + "/*.svg")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range made {
		if !files[filepath.Base(file)] {
			t.Errorf("%s is shown nowhere", file)
		}
	}
	guideSettings(t, string(text))
}

// guideSettings looks for the settings that the guide names.
func guideSettings(t *testing.T, text string) {
	t.Helper()
	known := map[string]bool{}
	for _, f := range ledger.FieldsOf(ledger.MuseumKind) {
		known[f.Path] = true
	}
	named := regexp.MustCompile("`(habits\\.[a-z_.]+)`").FindAllStringSubmatch(text, -1)
	if len(named) < 10 {
		t.Errorf("the guide names %d settings", len(named))
	}
	for _, m := range named {
		if !known[m[1]] {
			t.Errorf("the guide names the setting %s, which is none", m[1])
		}
	}
}
