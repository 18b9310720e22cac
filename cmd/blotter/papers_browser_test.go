package main

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// TestPapersInBrowser prints the HTML of every kind with one Chromium. Papers
// that are cut apart and whole pages have the pages of the PDF, of its size
// and every word where it
// stands there. Lists and letters flow: they have the PDF's words, on paper of
// its size, and none hangs out of the margins. On the screen nothing is cut off.
func TestPapersInBrowser(t *testing.T) {
	t.Parallel()
	outside(t, "pdftotext")
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(outside(t, "chromium")), chromedp.NoSandbox, chromedp.DisableGPU)
	alloc, stop := chromedp.NewExecAllocator(context.Background(), opts...)
	t.Cleanup(stop)
	ctx, cancel := chromedp.NewContext(alloc)
	t.Cleanup(cancel)
	desk, dir := newPaperDesk(t), t.TempDir()
	for _, r := range paperRows {
		if r.Flows && !slices.Contains(flowing, r.Name) {
			continue
		}
		ours, html, theirs := desk.print(t, r, dir, ".pdf"), desk.print(t, r, dir, ".html"), filepath.Join(dir, r.Name+"-browser.pdf")
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(1200, 700), chromedp.Navigate("file://"+html)); err != nil {
			t.Fatalf("%s: %v", r.Name, err)
		}
		wide, err := chromedp.Run(ctx, chromedp.Evaluate[int](`document.documentElement.scrollWidth`))
		if err != nil || wide > 1200 {
			t.Errorf("%s is %d dots wide in a window of 1200: %v", r.Name, wide, err)
		}
		pdf, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize()))
		if err == nil {
			err = os.WriteFile(theirs, pdf, 0o644)
		}
		if err != nil {
			t.Fatalf("%s: %v", r.Name, err)
		}
		browserAgrees(t, r, ours, theirs)
	}
}

// flowing are the lists and forms that are printed here, with all that a
// document is made of; starting on every one would take half a minute.
var flowing = []string{"numbers-list", "packing", "notices", "moves", "salvage", "register", "form-parcel", "form-condition"}

// aDot is what a browser rounds to, a 96th of an inch, in mm.
const aDot = 0.27

func browserAgrees(t *testing.T, r paperRow, ours, theirs string) {
	t.Helper()
	want, wantPages := wordsInPDF(t, ours)
	got, pages := wordsInPDF(t, theirs)
	notItsName := func(w wordAt) bool { return strings.HasPrefix(w.text, r.Name+".") } // "labels.html," in the foot
	want, got = slices.DeleteFunc(want, notItsName), slices.DeleteFunc(got, notItsName)
	for i, s := range pages {
		if w := wantPages[min(i, len(wantPages)-1)]; math.Abs(s.W-w.W) > aDot || math.Abs(s.H-w.H) > aDot {
			t.Errorf("%s: page %d is %.2f x %.2f mm, want %.2f x %.2f", r.Name, i+1, s.W, s.H, w.W, w.H)
		}
	}
	if len(pages) != len(wantPages) {
		t.Errorf("%s: the browser prints %d pages, the PDF has %d", r.Name, len(pages), len(wantPages))
	}
	if !r.Flows {
		for _, e := range sameWords(want, got, measured) {
			t.Errorf("%s: %s", r.Name, e)
		}
		return
	}
	for _, w := range got {
		if s := pages[w.page-1]; w.left < 15-2*aDot || w.right > s.W-15+2*aDot {
			t.Errorf("%s: %+v hangs out of the margins of %g x %g mm", r.Name, w, s.W, s.H)
		}
	}
	a, b := flowWords(want), flowWords(got)
	for _, w := range a {
		if _, has := slices.BinarySearch(b, w); !has {
			t.Errorf("%s: the browser does not print %q", r.Name, w)
		}
	}
	for _, w := range b {
		if _, has := slices.BinarySearch(a, w); !has {
			t.Errorf("%s: the PDF does not have %q", r.Name, w)
		}
	}
}

var ofTheFoot = regexp.MustCompile(`^([0-9a-f]{7}|[0-9]+|of|revision|[•–☐☒]|and|edits|not|entered|caution:)$`)

// flowWords are the words of a list, each once, without those of its foot.
func flowWords(words []wordAt) []string {
	var out []string
	for _, w := range words {
		if s := strings.ToLower(w.text); !ofTheFoot.MatchString(s) {
			out = append(out, s)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
