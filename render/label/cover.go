package label

import (
	"fmt"
	"strconv"

	"blotter/render/paper"
)

// Folder is one folder of a cabinet, as its label says it.
type Folder struct {
	Genus   bool   // the cover of a genus, in which the folders of its species lie
	Series  string // "", types, or a word for what is kept apart
	Family  string // "" when nobody knows it
	Number  string // of the family in the museum's system
	Name    string // without authors; "" for what is not yet named
	Level   Level  // of the name
	Region  string // "" where regions are not parted
	Colour  string // of the region, as a word: what is printed is black
	Planted bool
	Types   bool
	Cabinet string
	Folder  int // in its genus, from 1; 0: of a genus cover
	Sheets  int // that lie in it now; 0: not said
}

// Level is what the name of a folder says.
type Level uint8

const (
	Species    Level = iota // or below
	GenusOnly               // sheets that are named to the genus
	FamilyOnly              // sheets that are named to the family
)

// Codes of refusals of folder labels.
const (
	CodeCoverTooLong = "cover-too-long"
	CodeCoverLetter  = "cover-letter-lacking"
)

// Measures of the folder label in millimetres and points (own design). The
// name is as large as its words let it be, so that it is read from a step away.
const (
	coverIn                = 2.5 // above and below the text
	coverHead              = 10.0
	coverHeadRow           = 4.4
	coverLast              = 9.0
	coverLastRow           = 3.8
	coverRegion            = 12.0
	coverRegionRow         = 5.2
	coverRule              = 0.6 // room between the rules and the words beside them
	coverGenusSize         = 34.0
	coverSpeciesSize       = 24.0
	coverLeast             = 11.0 // points of the name
	coverStep              = 1.0
	coverLeading           = 1.16 // of the name, in ems of its size
	coverUpright           = 0.75 // rank markers beside the epithets
	coverWide, coverNarrow = 5.0, 3.0
)

// Cover is the label of a folder, of w by h millimetres. Nothing is cut from
// it: where the name does not fit at 11 points it is refused.
func Cover(f Folder, museum string, w, h float64, lang *Language) (*paper.Block, *Refusal) {
	c := cover{f: f, museum: museum, w: w, h: h, in: coverWide, lang: lang}
	if w < 60 {
		c.in = coverNarrow
	}
	if r, lacks := paper.Lacks(paper.Run{Text: f.Name + f.Family + f.Number + f.Region + f.Colour + f.Cabinet + f.Series + museum}); lacks {
		return nil, c.refuse(CodeCoverLetter, "the typeface has no letter "+paper.LetterName(r))
	}
	top := f.size()
	for size := top; size >= coverLeast; size -= coverStep {
		if b := c.set(size); b != nil {
			return b, nil
		}
	}
	return nil, c.refuse(CodeCoverTooLong, fmt.Sprintf("the name has no room on a folder label of %.4g x %.4g mm", w, h))
}

func (f Folder) size() float64 {
	if f.Genus {
		return coverGenusSize
	}
	return coverSpeciesSize
}

type cover struct {
	f      Folder
	museum string
	w, h   float64
	in     float64
	lang   *Language
}

func (c *cover) refuse(code, why string) *Refusal {
	name := c.f.Name
	if name == "" {
		name = c.f.Family
	}
	return &Refusal{Code: code, Why: name + ": " + why, Try: "A larger label: habits.covers.width and habits.covers.height of blotter.yaml"}
}

// set sets the label with a name of size points; nil: it does not fit.
func (c *cover) set(size float64) *paper.Block {
	width := c.w - 2*c.in
	lines := paper.Set(NameWithin(c.name(), size, size*coverUpright, width), width)
	if c.f.Name == "" {
		lines = paper.Set([]paper.Run{{Style: paper.Style{Size: size * coverUpright}, Text: c.name()}}, width)
	}
	row := size * coverLeading * paper.Point
	below := c.below()
	region := paper.Set([]paper.Run{{Style: paper.Style{Size: coverRegion}, Text: below}}, width)
	head, ok := c.headLine(width)
	foot, fits := c.footLine(width)
	top, bottom := coverIn+coverHeadRow+coverRule, c.h-coverIn-coverLastRow-coverRule
	need := float64(len(lines))*row + float64(len(region))*coverRegionRow
	most := 2
	if c.h >= 55 {
		most = 3
	}
	if !ok || !fits || need > bottom-top-1 || len(lines) > most || paper.Overflow(lines, width) != "" || paper.Overflow(region, width) != "" {
		return nil
	}
	b := &paper.Block{W: c.w, H: c.h, Of: c.f.Name}
	d := drawing{b: b}
	c.line(d, head, coverIn, coverHeadRow)
	y := top + (bottom-top-need)/2
	for _, l := range lines {
		d.text("name", c.in, y+baseline(size, row), l.Runs)
		y += row
	}
	for _, l := range region {
		d.text("region", c.in, y+baseline(coverRegion, coverRegionRow), l.Runs)
		y += coverRegionRow
	}
	for _, at := range []float64{top - coverRule/2, bottom + coverRule/2} {
		b.Add(paper.Rule{X1: c.in, Y1: at, X2: c.w - c.in, Y2: at, Width: thin})
	}
	c.line(d, foot, bottom+coverRule, coverLastRow)
	return b
}

func (c *cover) line(d drawing, cells []cell, y, row float64) {
	for _, l := range cells {
		if len(l.runs) > 0 && l.runs[0].Text != "" {
			d.text(l.part, c.in+l.x, y+baseline(l.runs[0].Size, row), l.runs)
		}
	}
}

// pair is words at the left and at the right of a line; false when they meet.
func pair(left, right cell, width float64) ([]cell, bool) {
	wl, wr := paper.Width(left.runs...), paper.Width(right.runs...)
	right.x = width - wr
	gap := columnGap
	if wl == 0 || wr == 0 {
		gap = 0
	}
	return []cell{left, right}, wl+gap+wr <= width+tiny
}

// headLine is family and number at the left, the cabinet at the right.
func (c *cover) headLine(width float64) ([]cell, bool) {
	st := paper.Style{Size: coverHead}
	family := c.f.Family
	if family == "" && c.f.Name != "" {
		family = c.lang.FamilyUnknown
	}
	if family != "" && c.f.Number != "" {
		family += " " + c.f.Number
	}
	if s := c.f.Series; s != "" {
		if s == "types" {
			s = c.lang.TypesIn
		}
		family = s + c.lang.Colon() + " " + family
	}
	left := cell{part: "family", runs: []paper.Run{{Style: st, Text: family}}}
	right := cell{part: "cabinet"}
	if c.f.Cabinet != "" {
		right.runs = []paper.Run{{Style: st, Text: Fill(c.lang.Cabinet, c.f.Cabinet)}}
	}
	return pair(left, right, width)
}

// footLine is the museum at the left, folder and count at the right.
func (c *cover) footLine(width float64) ([]cell, bool) {
	st := paper.Style{Size: coverLast}
	words := ""
	if c.f.Folder > 0 {
		words = Fill(c.lang.Folder, strconv.Itoa(c.f.Folder))
	}
	switch {
	case c.f.Sheets == 1:
		words = joined(", ", words, c.lang.SheetsOne)
	case c.f.Sheets > 1:
		words = joined(", ", words, Fill(c.lang.SheetsMany, strconv.Itoa(c.f.Sheets)))
	}
	right := cell{part: "folder", runs: []paper.Run{{Style: st, Text: words}}}
	left := cell{part: "museum", runs: []paper.Run{{Style: st, Text: c.museum}}}
	cells, ok := pair(left, right, width)
	if !ok { // the museum knows its own name
		return pair(cell{}, right, width)
	}
	return cells, ok
}

// name is what stands largest.
func (c *cover) name() string {
	if c.f.Name == "" {
		return c.lang.NotYetNamed
	}
	return c.f.Name
}

// below is what parts the folder from others of the name, in words.
func (c *cover) below() string {
	region := c.f.Region
	if c.f.Planted {
		region = c.lang.CultivatedOnes
	}
	if c.f.Colour != "" && region != "" {
		region += " (" + c.f.Colour + ")"
	}
	level := ""
	switch {
	case c.f.Genus || c.f.Name == "":
	case c.f.Level == GenusOnly:
		level = c.lang.NotToSpecies
	case c.f.Level == FamilyOnly:
		level = c.lang.GenusUnknown
	}
	types := ""
	if c.f.Types {
		types = c.lang.TypesIn
	}
	return joined(", ", level, region, types)
}

func joined(sep string, words ...string) string {
	out := ""
	for _, w := range words {
		if w != "" && out != "" {
			out += sep
		}
		out += w
	}
	return out
}
