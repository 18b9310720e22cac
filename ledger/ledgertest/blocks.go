package ledgertest

import "strings"

// Block is one fenced block of a Markdown page.
type Block struct {
	Kind string // first word after yaml: record, museum, part, bad...
	Arg  string // second word: a field or a code
	Body string
	Line int // of the fence
}

// Blocks lists the blocks of a page that are fenced as yaml with a kind.
func Blocks(page string) []Block {
	var out []Block
	var open *Block
	n := 0
	for line := range strings.Lines(page) {
		n++
		text := strings.TrimRight(line, "\r\n")
		switch {
		case open == nil && strings.HasPrefix(text, "```yaml "):
			open = &Block{Line: n}
			open.Kind, open.Arg, _ = strings.Cut(strings.TrimPrefix(text, "```yaml "), " ")
		case open != nil && text == "```":
			out = append(out, *open)
			open = nil
		case open != nil:
			open.Body += line
		}
	}
	return out
}
