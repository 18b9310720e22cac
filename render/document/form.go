package document

import (
	"slices"
	"strings"
	"unicode/utf8"

	"blotter/render/page"
)

// Field is a place to write on: a label, a rule, what stands behind it.
type Field struct {
	Label string
	Value string  // already known: it stands on the rule
	Wide  float64 // share of the line beside the other fields; 0: 1
	After string  // "sheets"
}

// Box is a box to tick.
type Box struct {
	Text string
	On   bool // ticked already
}

// Grid is the part of a table that is written on by hand.
type Grid struct {
	Blank  int       // empty rows below the others
	ToFoot bool      // on paper further rows as far as the page goes
	Height float64   // of an empty row in millimetres; 0: 8
	Wide   []float64 // shares of the columns; nil: by what stands in them
}

// Fill adds places to write on in one line.
func (d *Document) Fill(fields ...Field) { d.add(Block{Kind: Fill, Fill: fields}) }

// Blank adds places to write on in one line, alike, with nothing on them yet.
func (d *Document) Blank(labels ...string) {
	var fields []Field
	for _, l := range labels {
		fields = append(fields, Field{Label: l})
	}
	d.Fill(fields...)
}

// Tick adds boxes behind a label.
func (d *Document) Tick(label string, boxes ...Box) {
	d.add(Block{Kind: Tick, Text: label, Ticks: boxes})
}

// Boxes are the words as boxes, those of on ticked.
func Boxes(words []string, on ...string) []Box {
	out := make([]Box, len(words))
	for i, w := range words {
		out[i].Text = w
		for _, o := range on {
			out[i].On = out[i].On || o == w
		}
	}
	return out
}

// Grid adds a table with room to write in. A cell that is EmptyBox or
// TickedBox is a box.
func (d *Document) Grid(heads []string, rows [][]string, g Grid) {
	b := Block{Kind: Table, Heads: heads, Rows: rows, Grid: &g}
	d.add(b)
	if d.Data == nil {
		d.Data = &b
	}
}

// Cells that are boxes to tick.
const (
	EmptyBox  = "[ ]"
	TickedBox = "[x]"
)

// lineRoom is how many letters a line of fields has in text, and leastBlank how
// long a rule is at least.
const (
	lineRoom   = 78
	leastBlank = 6
)

// words is a field in text: its value, or a rule of n letters.
func (f Field) words(n int) string {
	rule := page.Visible(f.Value)
	if rule == "" {
		rule = strings.Repeat("_", n)
	}
	return strings.Join(slices.DeleteFunc([]string{page.Visible(f.Label), rule, page.Visible(f.After)}, func(w string) bool { return w == "" }), " ")
}

func (f Field) share() float64 {
	if f.Wide > 0 {
		return f.Wide
	}
	return 1
}

// fillWords are the fields of a line in text; the rules share the room that
// the words leave.
func (x *Block) fillWords() []string {
	room, shares := float64(lineRoom-3*(len(x.Fill)-1)), 0.0
	for _, f := range x.Fill {
		room -= float64(utf8.RuneCountInString(f.words(0)))
		if f.Value == "" {
			shares += f.share()
		}
	}
	var all []string
	for _, f := range x.Fill {
		n := leastBlank
		if f.Value == "" {
			n = max(n, int(room*f.share()/shares)-1)
		}
		all = append(all, f.words(n))
	}
	return all
}

// tickWords are the label and the boxes in text.
func (x *Block) tickWords() []string {
	var all []string
	if x.Text != "" {
		all = append(all, x.Text)
	}
	for _, t := range x.Ticks {
		mark := EmptyBox
		if t.On {
			mark = TickedBox
		}
		all = append(all, mark+" "+t.Text)
	}
	return all
}

// written are the rows of a table with the empty ones as rules.
func (x *Block) written(rule string) [][]string {
	rows := x.Rows
	if x.Grid == nil {
		return rows
	}
	empty := make([]string, len(x.Heads))
	for i := range empty {
		empty[i] = rule
	}
	for range max(x.Grid.Blank, 0) {
		rows = append(rows[:len(rows):len(rows)], empty)
	}
	return rows
}
