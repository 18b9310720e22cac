package document

import (
	"strings"
	"unicode/utf8"

	"blotter/render/page"
)

// Text is the document in lines of at most width letters, columns parted by
// two blanks. A cell of the last column is wrapped below itself; no cell is
// cut, so that a line of a wide table may be longer.
func (d *Document) Text(width int) []byte {
	var b strings.Builder
	if d.Title != "" {
		b.WriteString(page.Visible(d.Title) + "\n" + strings.Repeat("=", min(utf8.RuneCountInString(d.Title), width)) + "\n")
	}
	for _, x := range d.Blocks {
		if b.Len() > 0 {
			b.WriteByte('\n')
		}
		x.text(&b, width)
	}
	return []byte(b.String())
}

func (x *Block) text(b *strings.Builder, width int) {
	switch x.Kind {
	case Heading:
		b.WriteString(page.Visible(x.Text) + "\n" + strings.Repeat("-", min(utf8.RuneCountInString(x.Text), width)) + "\n")
	case Paragraph:
		wrap(b, "", x.Text, width)
	case Caution:
		wrap(b, "! ", "Caution: "+x.Text, width)
	case Lines:
		for _, l := range x.Lines {
			b.WriteString(page.Visible(l) + "\n")
		}
	case Items:
		for _, l := range x.Lines {
			wrap(b, "- ", l, width)
		}
	case Table:
		x.columns(b, width)
	case Fill:
		b.WriteString(strings.Join(x.fillWords(), "   ") + "\n")
	case Tick:
		x.ticks(b, width)
	case Page:
		b.WriteString("\f\n")
	}
}

// wrap writes words after a mark; further lines stand below the first word,
// those of a caution after the mark again.
func wrap(b *strings.Builder, mark, words string, width int) {
	next := strings.Repeat(" ", utf8.RuneCountInString(mark))
	if mark == "! " {
		next = mark
	}
	line, used := mark, utf8.RuneCountInString(mark)
	empty := true
	for _, w := range strings.Fields(page.Visible(words)) {
		n := utf8.RuneCountInString(w)
		if !empty && used+1+n > width {
			b.WriteString(line + "\n")
			line, used, empty = next, utf8.RuneCountInString(next), true
		}
		if !empty {
			line, used = line+" ", used+1
		}
		line, used, empty = line+w, used+n, false
	}
	b.WriteString(strings.TrimRight(line, " ") + "\n")
}

// ticks writes boxes with their words; no line ends between the two.
func (x *Block) ticks(b *strings.Builder, width int) {
	used := 0
	for _, w := range x.tickWords() {
		w = page.Visible(w)
		n := utf8.RuneCountInString(w)
		switch {
		case used > 0 && used+2+n > width:
			b.WriteByte('\n')
			used = 0
		case used > 0:
			b.WriteString("  ")
			used += 2
		}
		b.WriteString(w)
		used += n
	}
	b.WriteByte('\n')
}

// columns writes a table in columns.
func (x *Block) columns(b *strings.Builder, width int) {
	widths := make([]int, len(x.Heads))
	rows := append([][]string{x.Heads}, x.written("_______")...)
	for _, row := range rows {
		for i, cell := range row[:min(len(row), len(widths))] {
			widths[i] = max(widths[i], utf8.RuneCountInString(page.Visible(cell)))
		}
	}
	for _, row := range rows {
		var mark strings.Builder
		last := len(row) - 1
		for i, cell := range row[:max(last, 0)] {
			cell = page.Visible(cell)
			mark.WriteString(cell + strings.Repeat(" ", widths[min(i, len(widths)-1)]-utf8.RuneCountInString(cell)+2))
		}
		if last < 0 {
			continue
		}
		begins := mark.String()
		if utf8.RuneCountInString(begins)+20 > width {
			b.WriteString(strings.TrimRight(begins+page.Visible(row[last]), " ") + "\n")
			continue
		}
		wrap(b, begins, row[last], width)
	}
}
