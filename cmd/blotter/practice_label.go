package main

import (
	"fmt"
	"html"
	"io/fs"
	"strings"

	"blotter/ledger"
	"blotter/render/paper"
)

// practiceLabel is one drawn label: its lines, what a typed record of it is
// expected to say, and why that matters.
type practiceLabel struct {
	number  ledger.Number
	lines   []string    // ^ heads, * holds a name, / is by hand; _ begins a slip; # cannot be read
	model   [][2]string // field and its words; | parts words that are as good, the best first
	lessons map[string]string
}

// practiceLabels reads the labels of examples/practice, three parts each,
// parted by --- lines.
func practiceLabels(files fs.FS) ([]practiceLabel, error) {
	names, err := fs.Glob(files, "*.txt")
	if err != nil {
		return nil, err
	}
	var all []practiceLabel
	for _, name := range names {
		text, err := fs.ReadFile(files, name)
		if err != nil {
			return nil, err
		}
		parts := strings.Split(strings.TrimSpace(string(text)), "\n---\n")
		if len(parts) != 3 {
			return nil, fmt.Errorf("%s: %d parts, not three", name, len(parts))
		}
		l := practiceLabel{number: ledger.Number(practicePrefix + strings.TrimSuffix(name, ".txt")), lines: strings.Split(parts[0], "\n"), lessons: map[string]string{}}
		for line := range strings.Lines(parts[1]) {
			field, words, ok := strings.Cut(strings.TrimSpace(line), " =")
			if !ok {
				return nil, fmt.Errorf("%s: %q is no FIELD = WORDS", name, line)
			}
			l.model = append(l.model, [2]string{field, words})
		}
		for line := range strings.Lines(parts[2]) {
			field, why, ok := strings.Cut(strings.TrimSpace(line), ": ")
			if !ok {
				return nil, fmt.Errorf("%s: %q is no FIELD: WHY", name, line)
			}
			l.lessons[field] = why
		}
		all = append(all, l)
	}
	return all, nil
}

// bare is a line of the label without its signs.
func bare(line string) string {
	line = strings.TrimPrefix(strings.TrimPrefix(line, "^"), "/")
	return strings.ReplaceAll(strings.ReplaceAll(line, "*", ""), "#", "~")
}

// text is the label for the screen.
func (l practiceLabel) text(indent string) string {
	var b strings.Builder
	scrawl := false
	for _, line := range l.lines {
		if line == "_" {
			b.WriteString(indent + "-- on a slip below --\n")
			continue
		}
		scrawl = scrawl || strings.Contains(line, "#")
		b.WriteString(indent + bare(line) + "\n")
	}
	if scrawl {
		b.WriteString(indent + "(where ~~~ stands the ink has run; nobody can read it)\n")
	}
	return b.String()
}

// Measures of a drawn label, in millimetres; ours, of no museum.
const (
	practiceWidth = 110.0
	practiceEdge  = 7.0
	practiceStep  = 6.2
)

// picture draws the label as SVG: printed words upright, those by hand
// slanting, with the number of the sheet in a frame below.
func (l practiceLabel) picture() []byte {
	p := &paper.Page{}
	y := practiceEdge + 4
	for _, line := range l.lines {
		switch {
		case line == "_":
			y += 1
			p.Items = append(p.Items, paper.Rule{X1: practiceEdge, Y1: y - 3, X2: practiceWidth - practiceEdge, Y2: y - 3, Width: 0.2, Dash: 1})
			y += 3
			continue
		case line[0] == '^':
			r := paper.Run{Style: paper.Style{Face: paper.Roman, Size: 11, Spread: 0.06}, Text: line[1:]}
			p.Items = append(p.Items, paper.Text{X: (practiceWidth - paper.Width(r)) / 2, Y: y, Runs: []paper.Run{r}},
				paper.Rule{X1: practiceEdge, Y1: y + 2.2, X2: practiceWidth - practiceEdge, Y2: y + 2.2, Width: 0.15})
			y += 2
		case line[0] == '*':
			p.Items = append(p.Items, paper.Text{X: practiceEdge, Y: y, Runs: nameRuns(line)})
		default:
			p.Items = append(p.Items, byHand(line[1:], y)...)
		}
		y += practiceStep
	}
	stamp := paper.Run{Style: paper.Style{Face: paper.Roman, Size: 8, Spread: 0.04}, Text: string(l.number)}
	w := paper.Width(stamp)
	x := practiceWidth - practiceEdge - w - 1.5
	p.Items = append(p.Items, paper.Text{X: x, Y: y + 0.5, Runs: []paper.Run{stamp}}, paper.Frame{B: paper.Box{X: x - 1.5, Y: y - 3, W: w + 3, H: 5}, Width: 0.15})
	p.Size = paper.Size{W: practiceWidth, H: y + practiceEdge - 1}
	p.Items = append(p.Items, paper.Frame{B: paper.Box{X: 1, Y: 1, W: p.Size.W - 2, H: p.Size.H - 2}, Width: 0.3})
	return p.SVG()
}

// nameRuns sets a name: *slanting* words and upright authors.
func nameRuns(line string) []paper.Run {
	var runs []paper.Run
	for i, words := range strings.Split(line, "*") {
		if words != "" {
			runs = append(runs, paper.Run{Style: paper.Style{Face: []paper.Face{paper.Roman, paper.Italic}[i%2], Size: 12}, Text: words})
		}
	}
	return runs
}

// byHand sets a line that is written by hand; what wide gaps part goes to the
// left and to the right, what cannot be read is a scrawl.
func byHand(line string, y float64) []paper.Item {
	run := func(s string) paper.Run {
		return paper.Run{Style: paper.Style{Face: paper.Italic, Size: 11}, Text: s}
	}
	if before, after, blot := strings.Cut(line, "########"); blot {
		r := run(before)
		x, w := practiceEdge+paper.Width(r), 15.0
		items := []paper.Item{paper.Text{X: practiceEdge, Y: y, Runs: []paper.Run{r}}, paper.Text{X: x + w, Y: y, Runs: []paper.Run{run(after)}}}
		for i := range 29 {
			at, up, down := x+float64(i)*0.5, float64(i*7%5)*0.45, float64(i*11%7)*0.3
			items = append(items, paper.Rule{X1: at, Y1: y - up, X2: at + 0.8, Y2: y - 2 + down, Width: 0.35})
		}
		return items
	}
	var parts []string
	for _, part := range strings.Split(line, "  ") {
		if part = strings.TrimSpace(part); part != "" {
			parts = append(parts, part)
		}
	}
	var items []paper.Item
	for i, part := range parts {
		r, x := run(part), practiceEdge
		if room := practiceWidth - 2*practiceEdge - paper.Width(r); i > 0 {
			x += room * float64(i) / float64(len(parts)-1)
		}
		items = append(items, paper.Text{X: x, Y: y, Runs: []paper.Run{r}})
	}
	return items
}

// practicePage shows all labels in a browser, one below the other.
func practicePage(all []practiceLabel) []byte {
	var b strings.Builder
	b.WriteString("<!doctype html>\n<html lang=\"en\">\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width\">\n<title>Ten labels to type</title>\n" +
		"<style>body{max-width:44rem;margin:2rem auto;padding:0 1rem;background:#FBFAF5;color:#161816;font:1rem/1.5 system-ui,sans-serif}figure{margin:0 0 2rem}img{width:100%;height:auto}</style>\n" +
		"<h1>Ten labels to type</h1>\n<p>Invented people, real plants and places. Type each with <code>blotter new</code>; nothing is at stake.</p>\n")
	for _, l := range all {
		fmt.Fprintf(&b, "<figure><img src=\"%s.svg\" alt=\"%s\"><figcaption>%s</figcaption></figure>\n", l.number, html.EscapeString(l.text("")), l.number)
	}
	b.WriteString("</html>\n")
	return []byte(b.String())
}
