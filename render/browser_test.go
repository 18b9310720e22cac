package render

import (
	"bytes"
	"context"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// browserPages are one page of each kind that a site has.
var browserPages = []string{
	"index", "specimens/000/04/LK7-0000482", "specimens/000/04/LK7-0000465", "specimens/000/00/LK7-0000012",
	"names/ranunculus-acris", "names/ranunculus", "families/ranunculaceae", "people/signe-rask",
	"places/norway/vestland/voss", "years/2025", "changes/2026-11", "changes/index",
	"families/index", "names/index", "people/index", "places/index", "years/index",
	"about/about", "about/how-to-read", "about/data", "search", "404",
}

// program is the path of an outside program. Without it the test is skipped,
// on CI it is broken.
func program(t *testing.T, name string) string {
	t.Helper()
	p, err := exec.LookPath(name)
	switch {
	case err == nil:
	case os.Getenv("CI") == "true":
		t.Fatalf("%s is not here", name)
	default:
		t.Skipf("%s is not here", name)
	}
	return p
}

// axeSource is axe-core, whose file BLOTTER_AXE names (.ci/run gets it); ""
// without it.
func axeSource(t *testing.T) string {
	t.Helper()
	file := os.Getenv("BLOTTER_AXE")
	if file == "" {
		if os.Getenv("CI") == "true" {
			t.Fatal("BLOTTER_AXE names no axe.min.js")
		}
		t.Log("BLOTTER_AXE names no axe.min.js: the pages are not looked through with axe-core")
		return ""
	}
	return readFile(t, file)
}

// startBrowser is a browser with one page open.
func startBrowser(t *testing.T) context.Context {
	t.Helper()
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(program(t, "chromium")), chromedp.NoSandbox, chromedp.DisableGPU)
	alloc, stop := chromedp.NewExecAllocator(context.Background(), opts...)
	t.Cleanup(stop)
	ctx, cancel := chromedp.NewContext(alloc)
	t.Cleanup(cancel)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	return ctx
}

// visit opens a page of the site in a window of some width.
func visit(t *testing.T, ctx context.Context, site, file string, wide int64) {
	t.Helper()
	u := url.URL{Scheme: "file", Path: filepath.ToSlash(site) + "/"}
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(wide, 700), chromedp.Navigate(u.String()+file)); err != nil {
		t.Fatalf("%s: %v", file, err)
	}
}

func ask[T any](t *testing.T, ctx context.Context, js string, opts ...chromedp.EvaluateOption) T {
	t.Helper()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](js, opts...))
	if err != nil {
		t.Fatalf("%.60s: %v", js, err)
	}
	return v
}

// TestInBrowser opens one page of each kind from a folder: nothing scrolls
// sideways at 320 px (WCAG 2.2, 1.4.10, the width that 400 % zoom leaves of
// 1280), no message of error or warning, print works, axe-core finds nothing.
func TestInBrowser(t *testing.T) {
	ctx := startBrowser(t)
	axe := axeSource(t)
	dir := t.TempDir()
	buildInto(t, dir, goldenInput(t), nil)
	messages := listen(t, ctx)
	for _, p := range browserPages {
		if _, err := os.Stat(filepath.Join(dir, filepath.FromSlash(p)+".html")); err != nil {
			t.Fatal(err)
		}
		visit(t, ctx, dir, p+".html", 320)
		if w := ask[int](t, ctx, `document.documentElement.scrollWidth`); w > 320 {
			t.Errorf("%s is %d px wide in a window of 320: %s", p, w, ask[string](t, ctx, tooWide))
		}
		pages := pagesPrinted(t, ctx)
		if p == "specimens/000/04/LK7-0000482" && pages > 2 {
			t.Errorf("a sheet with four opinions is printed on %d pages", pages)
		}
		if axe == "" {
			continue
		}
		visit(t, ctx, dir, p+".html", 1280)
		ask[bool](t, ctx, axe+";true")
		for _, v := range ask[[]string](t, ctx, runAxe, chromedp.EvalAwaitPromise) {
			t.Errorf("%s: axe-core: %s", p, v)
		}
	}
	if axe != "" {
		ask[bool](t, ctx, `document.querySelector("main").append(new Image()), true`)
		if len(ask[[]string](t, ctx, runAxe, chromedp.EvalAwaitPromise)) == 0 {
			t.Error("axe-core does not see a picture without words")
		}
	}
	for _, m := range messages() {
		t.Errorf("the browser says: %s", m)
	}
}

// tooWide names the elements that stand out of the window.
const tooWide = `[...document.querySelectorAll("body *")].filter(e => e.getBoundingClientRect().right > 321).map(e => e.tagName + "." + e.className).slice(0, 5).join(", ")`

const runAxe = `axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"], preload: false})
	.then(r => r.violations.map(v => v.id + ": " + v.help + ": " + v.nodes.slice(0, 3).map(n => n.html.slice(0, 160)).join(" ; ")))`

// listen gathers what pages write to the console as errors and warnings.
func listen(t *testing.T, ctx context.Context) func() []string {
	t.Helper()
	var mu sync.Mutex
	var out []string
	stream := chromedp.Console(ctx)
	go func() {
		for m, err := range stream {
			if err != nil {
				return
			}
			if m.IsException() || m.Type == "error" || m.Type == "warning" {
				mu.Lock()
				out = append(out, m.String()+" "+m.URL)
				mu.Unlock()
			}
		}
	}()
	return func() []string {
		ask[bool](t, ctx, `console.info("last"), true`)
		time.Sleep(100 * time.Millisecond) // messages come beside the answers
		mu.Lock()
		defer mu.Unlock()
		return out
	}
}

var pdfPages = regexp.MustCompile(`(?m)^Pages:\s+(\d+)$`)

// pagesPrinted prints the page on A4 and counts the leaves with pdfinfo.
func pagesPrinted(t *testing.T, ctx context.Context) int {
	t.Helper()
	pdf, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4), chromedp.PDFPreferCSSPageSize()))
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(program(t, "pdfinfo"), "-")
	cmd.Stdin = bytes.NewReader(pdf)
	said, err := cmd.Output()
	m := pdfPages.FindSubmatch(said)
	if err != nil || m == nil {
		t.Fatalf("pdfinfo reads nothing in a print of %d bytes: %v", len(pdf), err)
	}
	return atoi(string(m[1]))
}

// TestSearchInBrowser looks for sheets by name, by collector and year, by
// number, and for something that is not there, in a site opened from a folder.
func TestSearchInBrowser(t *testing.T) {
	ctx := startBrowser(t)
	dir := t.TempDir()
	buildInto(t, dir, goldenInput(t), nil)
	messages := listen(t, ctx)
	find := func(q string) string {
		visit(t, ctx, dir, "search.html?q="+url.QueryEscape(q), 800)
		for range 50 {
			if s := ask[string](t, ctx, `location.pathname + "\n" + (document.getElementById("found")?.innerText ?? "") + "\n" + (document.getElementById("hits")?.innerText ?? "")`); !strings.HasSuffix(strings.TrimSpace(s), "search.html") {
				return s
			}
			time.Sleep(20 * time.Millisecond)
		}
		return "nothing comes"
	}
	for _, c := range []struct {
		name, q string
		want    []string
		not     string
	}{
		{"a name, any case", "RANUNCULUS repens", []string{"LK7-0000483", "Ranunculus repens"}, "LK7-0000012"},
		{"a former name", "was:repens", []string{"LK7-0000482"}, "LK7-0000483"},
		{"a collector without the accent, and a year", "collector:hernas year:1911", []string{"LK7-0000016"}, "LK7-0000015"},
		{"a number", "LK7-0000482", []string{"/specimens/000/04/LK7-0000482.html"}, ""},
		{"a number without zeros", "482", []string{"/specimens/000/04/LK7-0000482.html"}, ""},
		{"a name with a slip", "ranunculsu", []string{"Ranunculus"}, "LK7-"},
	} {
		got := find(c.q)
		for _, w := range c.want {
			if !strings.Contains(got, w) {
				t.Errorf("%s: %q does not show %s: %q", c.name, c.q, w, got)
			}
		}
		if c.not != "" && strings.Contains(got, c.not) {
			t.Errorf("%s: %q shows %s", c.name, c.q, c.not)
		}
	}
	for _, m := range messages() {
		t.Errorf("the browser says: %s", m)
	}
}
