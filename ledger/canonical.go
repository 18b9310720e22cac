package ledger

import (
	"bytes"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// readCanonical reads the plain block form in which this program writes, and
// most people do: a field a line, lists behind hyphens or in brackets, words
// plain, quoted without escapes, or as a literal block. It gives the nodes
// that the YAML library gives, at a small part of its cost, and nil for
// whatever it does not know for certain: anchors, folded words, empty fields,
// anything odd. Findings about form therefore always come from the library. A
// fuzz test holds the two equal, but for the comments, which no node keeps here.
func readCanonical(src []byte) *yaml.Node {
	r := canonical{src: src}
	if len(src) == 0 || src[len(src)-1] != '\n' || !plainBytes(src) {
		return nil
	}
	r.next()
	root := r.block(0, 0)
	if root == nil || r.text != nil {
		return nil
	}
	return root
}

// plainBytes reports whether src holds nothing that a YAML reader takes for
// the end of a line but LF, and no control characters.
func plainBytes(src []byte) bool {
	for i := 0; i < len(src); i++ {
		switch c := src[i]; {
		case c >= ' ' && c < 0x7f || c == '\n':
		case c < 0x80, c == 0xef: // controls; byte order mark and other rarities
			return false
		case c == 0xc2 && i+1 < len(src) && src[i+1] < 0xa0: // C1, NEL among them
			return false
		case c == 0xe2 && i+2 < len(src) && src[i+1] == 0x80 && src[i+2] >= 0xa8 && src[i+2] <= 0xa9:
			return false
		}
	}
	return utf8.Valid(src)
}

// canonical is a reader at one line.
type canonical struct {
	src    []byte
	at     int    // of the next line
	line   int    // number of the line at hand, from 1
	indent int    // blanks before its text
	text   []byte // without blanks before it and its end; nil: no more lines
	nodes  []yaml.Node
}

// next goes on to the next line that is not empty and no comment.
func (r *canonical) next() {
	for r.step(); r.text != nil && (len(r.text) == 0 || r.text[0] == '#'); r.step() {
	}
}

// step goes on to the next line, whatever it is.
func (r *canonical) step() {
	if r.at >= len(r.src) {
		r.text, r.indent = nil, -1
		return
	}
	end := r.at + bytes.IndexByte(r.src[r.at:], '\n')
	line := r.src[r.at:end]
	r.indent = 0
	for r.indent < len(line) && line[r.indent] == ' ' {
		r.indent++
	}
	r.text = line[r.indent:]
	r.at = end + 1
	r.line++
}

// node is a new node at the line at hand.
func (r *canonical) node(kind yaml.Kind, style yaml.Style, column int) *yaml.Node {
	if len(r.nodes) == 0 {
		r.nodes = make([]yaml.Node, 48)
	}
	n := &r.nodes[0]
	r.nodes = r.nodes[1:]
	n.Kind, n.Style, n.Line, n.Column = kind, style, r.line, column
	return n
}

func (r *canonical) scalar(words []byte, style yaml.Style, column int) *yaml.Node {
	n := r.node(yaml.ScalarNode, style, column)
	n.Value = string(words)
	return n
}

// block reads the list or group that begins in the line at hand, at this
// indent; nil when it is not certain.
func (r *canonical) block(indent, depth int) *yaml.Node {
	if depth > 6 || r.indent != indent || len(r.text) == 0 {
		return nil
	}
	if r.text[0] == '-' {
		return r.sequence(indent, depth)
	}
	return r.mapping(indent, depth)
}

// sequence reads a list of entries behind hyphens.
func (r *canonical) sequence(indent, depth int) *yaml.Node {
	list := r.node(yaml.SequenceNode, 0, indent+1)
	for r.text != nil && r.indent == indent && len(r.text) > 2 && r.text[0] == '-' {
		if r.text[1] != ' ' || r.text[2] == ' ' || r.text[2] == '-' {
			return nil
		}
		r.indent, r.text = indent+2, r.text[2:]
		var entry *yaml.Node
		if keyEnd(r.text) > 0 {
			entry = r.mapping(indent+2, depth+1)
		} else {
			entry = r.value(indent, indent+3, r.text, depth)
		}
		if entry == nil {
			return nil
		}
		list.Content = append(list.Content, entry)
	}
	if r.text != nil && r.indent > indent || r.text != nil && r.indent == indent && r.text[0] == '-' {
		return nil
	}
	return list
}

// mapping reads a group: one field a line.
func (r *canonical) mapping(indent, depth int) *yaml.Node {
	group := r.node(yaml.MappingNode, 0, indent+1)
	group.Content = make([]*yaml.Node, 0, 8)
	for r.text != nil && r.indent == indent {
		end := keyEnd(r.text)
		if end == 0 {
			return nil
		}
		key := r.scalar(r.text[:end], 0, indent+1)
		var val *yaml.Node
		if rest := r.text[end+1:]; len(rest) == 0 {
			val = r.below(indent, depth)
		} else {
			val = r.value(indent, indent+end+3, rest[1:], depth)
		}
		if val == nil {
			return nil
		}
		group.Content = append(group.Content, key, val)
	}
	if r.text != nil && r.indent > indent {
		return nil
	}
	return group
}

// below reads what a field without words in its line holds: a group or list
// on the lines below it.
func (r *canonical) below(indent, depth int) *yaml.Node {
	r.next()
	if len(r.text) == 0 {
		return nil
	}
	if r.indent > indent || r.indent == indent && r.text[0] == '-' {
		return r.block(r.indent, depth+1)
	}
	return nil
}

// keyEnd is the length of the key that a line begins with: a word, or several
// as in the headings of a table, before a colon that a blank or the line's end
// follows; 0 when it begins with none.
func keyEnd(text []byte) int {
	for i, c := range text {
		switch {
		case c >= 'a' && c <= 'z' || c == '_' || c >= 'A' && c <= 'Z':
		case i > 0 && (c >= '0' && c <= '9' || c == ' ' || c == '.' || c == '-' || c == '/' || c == '(' || c == ')'):
		case c == ':' && i > 0 && i < 64 && text[i-1] != ' ' && (i+1 == len(text) || text[i+1] == ' ' && i+2 < len(text)):
			return i
		default:
			return 0
		}
	}
	return 0
}

// value reads what stands in one line after a key or hyphen, then goes on to
// the line after it. indent is that of the field or list it belongs to.
func (r *canonical) value(indent, column int, text []byte, depth int) *yaml.Node {
	var n *yaml.Node
	switch text[0] {
	case '|':
		return r.literal(indent, column, text)
	case '[', '{':
		n = r.flow(column, withoutComment(text))
	case '"', '\'':
		text = withoutComment(text)
		if len(text) < 2 || text[len(text)-1] != text[0] || !quotable(text[1:len(text)-1], text[0]) {
			return nil
		}
		n = r.scalar(text[1:len(text)-1], quoteStyle(text[0]), column)
	default:
		if text = withoutComment(text); !oneLine(text) {
			return nil
		}
		n = r.scalar(text, 0, column)
	}
	r.next()
	if n == nil || r.text != nil && (len(r.text) == 0 || r.indent > indent) {
		return nil // an empty line, or words that go on below
	}
	return n
}

// withoutComment is a value without the comment behind it. A value in whose
// quotation marks such a sign may stand keeps it, and is then not known.
func withoutComment(text []byte) []byte {
	i := bytes.Index(text, commentSign)
	if i < 0 || bytes.ContainsAny(text[i:], "\"'") {
		return text
	}
	return bytes.TrimRight(text[:i], " ")
}

func quoteStyle(mark byte) yaml.Style {
	if mark == '"' {
		return yaml.DoubleQuotedStyle
	}
	return yaml.SingleQuotedStyle
}

// quotable reports whether words within quotation marks are what they look
// like: no mark and no escape among them.
func quotable(words []byte, mark byte) bool {
	return bytes.IndexByte(words, mark) < 0 && bytes.IndexByte(words, '\\') < 0
}

// oneLine reports whether text is a plain scalar that ends with its line.
func oneLine(text []byte) bool {
	if len(text) == 0 {
		return false
	}
	switch c := text[0]; {
	case c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z', c >= '0' && c <= '9', c >= 0x80, c == '(', c == '+', c == '.', c == '/':
	default:
		return false
	}
	last := text[len(text)-1]
	return last != ' ' && last != ':' && bytes.IndexByte(text, '#') < 0 && !bytes.Contains(text, colonBlank) &&
		!bytes.HasPrefix(text, dots)
}

var (
	colonBlank  = []byte(": ")
	commentSign = []byte(" #")
	dots        = []byte("...")
)

// flow reads a list in brackets or a group in braces that holds only words.
func (r *canonical) flow(column int, text []byte) *yaml.Node {
	kind, closing := yaml.SequenceNode, byte(']')
	if text[0] == '{' {
		kind, closing = yaml.MappingNode, '}'
	}
	if len(text) < 2 || text[len(text)-1] != closing {
		return nil
	}
	n := r.node(kind, yaml.FlowStyle, column)
	body := text[1 : len(text)-1]
	at := column + 1
	for len(body) > 0 {
		if kind == yaml.MappingNode {
			end := keyEnd(body)
			if end == 0 || end+2 > len(body) {
				return nil
			}
			n.Content = append(n.Content, r.scalar(body[:end], 0, at))
			at += end + 2
			body = body[end+2:]
		}
		item := flowItem(body)
		word := r.flowWord(item, at)
		if word == nil {
			return nil
		}
		n.Content = append(n.Content, word)
		at += utf8.RuneCount(item) + 2
		if body = body[len(item):]; len(body) > 0 {
			if len(body) < 3 || body[0] != ',' || body[1] != ' ' {
				return nil
			}
			body = body[2:]
		}
	}
	return n
}

// flowItem is the first item of what stands in brackets: to the mark that ends
// it, or to a comma.
func flowItem(body []byte) []byte {
	if len(body) > 0 && (body[0] == '"' || body[0] == '\'') {
		if i := bytes.IndexByte(body[1:], body[0]); i >= 0 {
			return body[:i+2]
		}
		return nil
	}
	if i := bytes.IndexByte(body, ','); i >= 0 {
		return body[:i]
	}
	return body
}

// flowWord is one item of a list in brackets.
func (r *canonical) flowWord(item []byte, column int) *yaml.Node {
	if len(item) == 0 {
		return nil
	}
	if c := item[0]; c == '"' || c == '\'' {
		if len(item) < 2 || item[len(item)-1] != c || !quotable(item[1:len(item)-1], c) {
			return nil
		}
		return r.scalar(item[1:len(item)-1], quoteStyle(c), column)
	}
	if !oneLine(item) || bytes.ContainsAny(item, "[]{}:?\"'") {
		return nil
	}
	return r.scalar(item, 0, column)
}

// literal reads a literal block, with its last line end kept or stripped.
func (r *canonical) literal(indent, column int, text []byte) *yaml.Node {
	strip := len(text) == 2 && text[1] == '-'
	if len(text) != 1 && !strip {
		return nil
	}
	n := r.node(yaml.ScalarNode, yaml.LiteralStyle, column)
	r.step()
	inner := r.indent
	if r.text == nil || inner <= indent || len(r.text) == 0 {
		return nil
	}
	var words []byte
	empty := 0 // lines since the last with words
	for ; r.text != nil && (r.indent >= inner || len(r.text) == 0); r.step() {
		if len(r.text) == 0 {
			if empty++; r.indent > 0 {
				return nil
			}
			continue
		}
		for ; empty > 0; empty-- {
			words = append(words, '\n')
		}
		words = append(append(words, r.src[r.at-1-len(r.text)-(r.indent-inner):r.at-1]...), '\n')
	}
	if len(r.text) > 0 && r.text[0] == '#' {
		r.next()
	}
	if empty > 0 || r.text != nil && r.indent > indent {
		return nil
	}
	if strip {
		words = words[:len(words)-1]
	}
	n.Value = string(words)
	return n
}
