package document

import (
	"strings"

	"blotter/render/markdown"
)

// Markdown is the document in GitHub Flavored Markdown.
func (d *Document) Markdown() []byte {
	var b strings.Builder
	if d.Title != "" {
		b.WriteString("# " + markdown.Escape(d.Title) + "\n")
	}
	for _, x := range d.Blocks {
		if b.Len() > 0 {
			b.WriteByte('\n')
		}
		x.markdown(&b)
	}
	return []byte(b.String())
}

func (x *Block) markdown(b *strings.Builder) {
	switch x.Kind {
	case Heading:
		b.WriteString("## " + markdown.Escape(x.Text) + "\n")
	case Paragraph:
		b.WriteString(markdown.Escape(x.Text) + "\n")
	case Caution:
		b.WriteString("> **Caution:** " + markdown.Escape(x.Text) + "\n")
	case Lines:
		for i, l := range x.Lines {
			b.WriteString(markdown.Escape(l))
			if i < len(x.Lines)-1 {
				b.WriteString("\\")
			}
			b.WriteByte('\n')
		}
	case Items:
		for _, l := range x.Lines {
			b.WriteString("- " + markdown.Escape(l) + "\n")
		}
	case Table:
		markdownRow(b, x.Heads)
		b.WriteString("|" + strings.Repeat(" --- |", len(x.Heads)) + "\n")
		for _, row := range x.written("") {
			markdownRow(b, row)
		}
	case Chart:
		b.WriteString("![" + markdown.Escape(x.Text) + "](" + x.File + ")\n")
	case Fill:
		b.WriteString(markdown.Escape(strings.Join(x.fillWords(), ", ")) + "\n")
	case Tick:
		b.WriteString(markdown.Escape(x.Text) + "\n\n")
		for _, t := range x.Ticks {
			mark := "[ ]"
			if t.On {
				mark = "[x]"
			}
			b.WriteString("- " + mark + " " + markdown.Escape(t.Text) + "\n")
		}
	case Page:
		b.WriteString("---\n")
	}
}

func markdownRow(b *strings.Builder, cells []string) {
	b.WriteByte('|')
	for _, c := range cells {
		b.WriteString(" " + markdown.Escape(c) + " |")
	}
	b.WriteByte('\n')
}
