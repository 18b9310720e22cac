// Package document is a list, a letter or a form that the program makes for
// paper: a packing list, a reminder, a freezer sheet. It is data only; the same
// document is written as plain text, Markdown, HTML, pages at true size or, its
// table alone, as CSV.
package document

import (
	"slices"

	"blotter/render/page"
	"blotter/render/paper"
)

// Kind is what a block is.
type Kind uint8

const (
	Heading   Kind = iota // over what follows
	Paragraph             // a sentence or more, wrapped
	Lines                 // lines that stay as they are: an address, a place to sign
	Caution               // what can hurt, in a frame and under the word Caution
	Items                 // a list
	Table                 // rows under heads
	Page                  // what follows begins a new page: the next letter
	Chart                 // a drawing; its figures stand in a table beside it
	Fill                  // places to write on, side by side
	Tick                  // boxes to tick
)

// Block is one piece of a document. Which fields count depends on its kind.
type Block struct {
	Kind  Kind
	Text  string
	Lines []string // of Lines and Items
	Heads []string // of a Table
	Rows  [][]string
	Names []bool     // of a Table: the columns whose cells are names of plants
	Grid  *Grid      // of a Table that is written on; nil: all is printed
	SVG   []byte     // of a Chart
	File  string     // of a Chart: the name of its file, for forms that cannot hold it
	Bars  []page.Bar // of a Chart
	Fill  []Field
	Ticks []Box
}

// Document is what is made. Its Data is the one table that goes into a CSV.
type Document struct {
	Title  string
	Blocks []Block
	Data   *Block
	// Letters says that what follows a Page is a letter of its own, for someone
	// else: its pages are counted from 1.
	Letters bool
	Wide    bool // its pages lie on their side
	// Sheet is the paper that its HTML is printed on; zero: the browser's own.
	Sheet paper.Size
	// Name sets a name of a plant, its Latin and its upright words in these
	// sizes; nil: all upright.
	Name func(words string, latin, upright float64) []paper.Run
}

// Heading begins a part.
func (d *Document) Heading(text string) { d.add(Block{Kind: Heading, Text: text}) }

// Say adds a paragraph; an empty one is left out.
func (d *Document) Say(text string) {
	if text != "" {
		d.add(Block{Kind: Paragraph, Text: text})
	}
}

// Lines adds lines that are not wrapped into each other; empty ones are left out.
func (d *Document) Lines(lines ...string) { d.list(Lines, lines) }

// Items adds a list; empty entries are left out.
func (d *Document) Items(items ...string) { d.list(Items, items) }

func (d *Document) list(kind Kind, lines []string) {
	b := Block{Kind: kind}
	for _, l := range lines {
		if l != "" {
			b.Lines = append(b.Lines, l)
		}
	}
	if len(b.Lines) > 0 {
		d.add(b)
	}
}

// Caution adds what can hurt whoever reads it.
func (d *Document) Caution(text string) {
	if text != "" {
		d.add(Block{Kind: Caution, Text: text})
	}
}

// Table adds rows under heads; a table without rows is left out. The first
// table of a document is its Data unless that is set.
func (d *Document) Table(heads []string, rows [][]string) {
	if len(rows) == 0 {
		return
	}
	b := Block{Kind: Table, Heads: heads, Rows: rows}
	d.add(b)
	if d.Data == nil {
		d.Data = &b
	}
}

// Page begins a new page.
func (d *Document) Page() { d.add(Block{Kind: Page}) }

// Chart adds a drawing of what the table before it says. file is its name
// where the document's form cannot hold drawings.
func (d *Document) Chart(title, file string, svg []byte, bars []page.Bar) {
	d.add(Block{Kind: Chart, Text: title, File: file, SVG: svg, Bars: bars})
}

// Names says which columns of the last table have names of plants: they are
// set in italics where a form can.
func (d *Document) Names(heads ...string) {
	if len(d.Blocks) == 0 || d.Blocks[len(d.Blocks)-1].Kind != Table {
		return
	}
	b := &d.Blocks[len(d.Blocks)-1]
	b.Names = make([]bool, len(b.Heads))
	for i, h := range b.Heads {
		b.Names[i] = slices.Contains(heads, h)
	}
}

func (d *Document) add(b Block) { d.Blocks = append(d.Blocks, b) }
