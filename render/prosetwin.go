package render

import (
	"bytes"
	"strings"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/util"

	"blotter/render/markdown"
)

// proseWriter writes a tamed page of the museum's as Markdown again: what
// goldmark understood, and no more.
type proseWriter struct {
	src []byte
	b   bytes.Buffer
}

// blocks writes the blocks of a node, each line with indent before it.
func (w *proseWriter) blocks(n ast.Node, indent string) {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		if c.PreviousSibling() != nil {
			w.b.WriteString(strings.TrimRight(indent, " ") + "\n")
			if c.Kind() == ast.KindList && c.PreviousSibling().Kind() == ast.KindList {
				w.b.WriteString(indent + "\n")
			}
			w.b.WriteString(indent)
		}
		w.block(c, indent)
	}
}

func (w *proseWriter) block(n ast.Node, indent string) {
	switch n := n.(type) {
	case *ast.Heading:
		w.b.WriteString(strings.Repeat("#", n.Level) + " ")
		w.inline(n)
		w.b.WriteByte('\n')
	case *ast.List:
		for c := n.FirstChild(); c != nil; c = c.NextSibling() {
			if c.PreviousSibling() != nil {
				w.b.WriteString(indent)
			}
			mark := "- "
			if n.IsOrdered() {
				mark = "1. "
			}
			w.b.WriteString(mark)
			w.blocks(c, indent+strings.Repeat(" ", len(mark)))
		}
	case *ast.Blockquote:
		w.b.WriteString("> ")
		w.blocks(n, indent+"> ")
	case *ast.FencedCodeBlock, *ast.CodeBlock:
		w.code(n, indent)
	case *ast.ThematicBreak:
		w.b.WriteString("---\n")
	case *east.Table:
		w.table(n, indent)
	default:
		w.inline(n)
		w.b.WriteByte('\n')
	}
}

// code writes a block of code; its fence is longer than any in it.
func (w *proseWriter) code(n ast.Node, indent string) {
	text := string(n.Lines().Value(w.src))
	fence := "```"
	for strings.Contains(text, fence) {
		fence += "`"
	}
	w.b.WriteString(fence + "\n")
	for line := range strings.Lines(text) {
		w.b.WriteString(indent + strings.TrimRight(line, "\n") + "\n")
	}
	w.b.WriteString(indent + fence + "\n")
}

func (w *proseWriter) table(t *east.Table, indent string) {
	for row := t.FirstChild(); row != nil; row = row.NextSibling() {
		if row.PreviousSibling() != nil {
			w.b.WriteString(indent)
		}
		n := 0
		for c := row.FirstChild(); c != nil; c = c.NextSibling() {
			w.b.WriteString("| ")
			w.inline(c)
			w.b.WriteByte(' ')
			n++
		}
		w.b.WriteString("|\n")
		if row.PreviousSibling() == nil {
			w.b.WriteString(indent + strings.Repeat("| --- ", n) + "|\n")
		}
	}
}

// inline writes the words of a block.
func (w *proseWriter) inline(n ast.Node) {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Text:
			w.text(string(util.UnescapePunctuations(util.ResolveEntityNames(util.ResolveNumericReferences(c.Segment.Value(w.src))))))
			if c.HardLineBreak() {
				w.b.WriteString("\\\n")
			} else if c.SoftLineBreak() {
				w.b.WriteByte(' ')
			}
		case *ast.String:
			w.text(string(c.Value))
		case *ast.Emphasis:
			mark := strings.Repeat("*", c.Level)
			w.b.WriteString(mark)
			w.inline(c)
			w.b.WriteString(mark)
		case *ast.CodeSpan:
			w.b.WriteString("`` ")
			w.b.Write(bytes.ReplaceAll(plainText(c, w.src), []byte("``"), []byte("` `")))
			w.b.WriteString(" ``")
		case *ast.Link:
			w.b.WriteByte('[')
			w.inline(c)
			w.b.WriteString("](" + safeDestination(c.Destination) + ")")
		case *ast.Image:
			w.b.WriteString("![")
			w.text(string(plainText(c, w.src)))
			w.b.WriteString("](" + safeDestination(c.Destination) + ")")
		case *ast.AutoLink:
			w.b.WriteByte('[')
			w.text(string(c.Label(w.src)))
			w.b.WriteString("](" + safeDestination(c.URL(w.src)) + ")")
		default:
			w.inline(c)
		}
	}
}

// text writes words, escaped; blanks at their ends stay.
func (w *proseWriter) text(s string) {
	lead, trail := strings.HasPrefix(s, " "), strings.HasSuffix(s, " ") && strings.TrimSpace(s) != ""
	if lead {
		w.b.WriteByte(' ')
	}
	w.b.WriteString(markdown.Escape(s))
	if trail {
		w.b.WriteByte(' ')
	}
}

// safeDestination is an address without what could end it.
func safeDestination(d []byte) string {
	return strings.NewReplacer("(", "%28", ")", "%29", " ", "%20", "<", "%3C", ">", "%3E", "\\", "%5C").Replace(string(d))
}
