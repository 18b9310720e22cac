package ledger

import (
	"bytes"
	"errors"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"
)

// splicer finds the bytes that an op must change.
type splicer struct {
	kind  FileKind
	src   []byte
	lines *lines
	root  *yaml.Node
	eol   string
	cuts  []cutting
}

// cutting replaces src[from:to].
type cutting struct {
	from, to int
	with     string
}

// spot is one node on the way of a path, with what holds it.
type spot struct {
	node   *yaml.Node
	parent *yaml.Node // nil for the root
	index  int        // of node in parent.Content
}

func newSplicer(kind FileKind, src []byte, root *yaml.Node) *splicer {
	eol := "\n"
	if i := bytes.IndexAny(src, "\r\n"); i >= 0 && src[i] == '\r' {
		eol = "\r"
		if i+1 < len(src) && src[i+1] == '\n' {
			eol = "\r\n"
		}
	}
	return &splicer{kind: kind, src: src, lines: newLines(src), root: root, eol: eol}
}

// key is the key of a spot in a group; nil in a list.
func (p spot) key() *yaml.Node {
	if p.parent != nil && p.parent.Kind == yaml.MappingNode {
		return p.parent.Content[p.index-1]
	}
	return nil
}

func flow(n *yaml.Node) bool { return n != nil && n.Style&yaml.FlowStyle != 0 }

// inFlow reports whether a spot stands within brackets.
func inFlow(way []spot) bool {
	return slices.ContainsFunc(way[:len(way)-1], func(p spot) bool { return flow(p.node) })
}

var errShape = errors.New("the file is written in a way that this command does not know how to change")

// do makes one op.
func (s *splicer) do(op Op) ([]byte, error) {
	parts := strings.Split(op.path, ".")
	if s.root == nil {
		return s.first(op, parts)
	}
	way, rest := s.locate(parts)
	last := way[len(way)-1]
	var err error
	switch op.verb {
	case remove:
		if len(rest) > 0 {
			return s.src, nil
		}
		err = s.remove(way)
	case insertEntry:
		if len(rest) > 0 {
			err = s.insertPair(way, rest, &tree{kind: Texts, items: []*tree{op.value}})
		} else {
			err = s.insertItem(way, op.at, op.value)
		}
	case setList:
		err = s.setList(way, rest, op.value)
	default:
		switch {
		case len(rest) > 0:
			err = s.insertPair(way, rest, op.value)
		case last.node.Kind != yaml.ScalarNode:
			err = errShape
		default:
			s.replace(way, op.value.text)
		}
	}
	if err != nil {
		return nil, err
	}
	return s.done(), nil
}

// first makes an op in a file that holds nothing but comments.
func (s *splicer) first(op Op, parts []string) ([]byte, error) {
	t := op.value
	switch op.verb {
	case remove:
		return s.src, nil
	case insertEntry:
		t = &tree{kind: Texts, items: []*tree{t}}
	}
	s.insertLines(len(s.src), wrap(parts, t).appendBlock(nil, "", s.eol))
	return s.done(), nil
}

// done makes the cuttings, which do not overlap.
func (s *splicer) done() []byte {
	slices.SortStableFunc(s.cuts, func(a, b cutting) int { return a.from - b.from })
	out := make([]byte, 0, len(s.src)+64)
	at := 0
	for _, c := range s.cuts {
		out = append(append(out, s.src[at:max(c.from, at)]...), c.with...)
		at = max(c.to, at)
	}
	return append(out, s.src[at:]...)
}

func (s *splicer) cut(from, to int, with string) {
	s.cuts = append(s.cuts, cutting{from, to, with})
}

// insertLines puts whole lines at the offset of a line's beginning. A file
// without a newline at its end keeps that form.
func (s *splicer) insertLines(at int, text []byte) {
	if at == len(s.src) && at > 0 && s.src[at-1] != '\n' && s.src[at-1] != '\r' {
		text = append([]byte(s.eol), bytes.TrimSuffix(text, []byte(s.eol))...)
	}
	s.cut(at, at, string(text))
}

// locate follows a path as far as the file has it.
func (s *splicer) locate(parts []string) (way []spot, rest []string) {
	way = []spot{{node: s.root}}
	for k, part := range parts {
		n := way[len(way)-1].node
		i := -1
		switch n.Kind {
		case yaml.MappingNode:
			for j := 0; j+1 < len(n.Content); j += 2 {
				if n.Content[j].Value == part {
					i = j + 1
				}
			}
		case yaml.SequenceNode:
			if j := numberPart(part); j > 0 && j <= len(n.Content) {
				i = j - 1
			}
		}
		if i < 0 {
			return way, parts[k:]
		}
		way = append(way, spot{n.Content[i], n, i})
	}
	return way, nil
}

func (s *splicer) start(n *yaml.Node) int { return s.lines.offset(n.Line, n.Column) }

// lineStart is the offset of the first byte of the line that holds i.
func (s *splicer) lineStart(i int) int {
	k, found := slices.BinarySearch(s.lines.from, i)
	if !found {
		k--
	}
	return s.lines.from[k]
}

// lineEnd is the offset after the end of the line that holds i.
func (s *splicer) lineEnd(i int) int {
	k, found := slices.BinarySearch(s.lines.from, i)
	if found {
		k++
	}
	if k >= len(s.lines.from) {
		return len(s.src)
	}
	return s.lines.from[k]
}

// end is the offset after the last byte of a node that is no block scalar and
// holds none at its end; see endLine for those.
func (s *splicer) end(n *yaml.Node) int {
	i := s.start(n)
	switch {
	case n.Kind == yaml.ScalarNode && n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0:
		return i + quoteEnd(string(s.src[i:]))
	case n.Kind == yaml.ScalarNode:
		return i + plainLen(s.src[i:], n.Value)
	case flow(n):
		i++
		if len(n.Content) > 0 {
			i = s.end(n.Content[len(n.Content)-1])
		}
		return s.skip(i) + 1
	case len(n.Content) > 0:
		return s.end(n.Content[len(n.Content)-1])
	}
	return i
}

// skip passes blanks, line ends, commas and comments within brackets.
func (s *splicer) skip(i int) int {
	for i < len(s.src) {
		switch c := s.src[i]; {
		case c == '#' && strings.IndexByte(" \t\r\n", s.src[i-1]) >= 0:
			i = s.lineEnd(i)
		case strings.IndexByte(" \t\r\n,", c) >= 0:
			i++
		default:
			return i
		}
	}
	return len(s.src) - 1
}

func isBlock(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0
}

// endLine is the offset after the last line of a node. Col is the column of
// its key or hyphen, from 0.
func (s *splicer) endLine(n *yaml.Node, col int) int {
	switch {
	case isBlock(n):
		return s.endBlock(n, col)
	case flow(n) || len(n.Content) == 0:
		return s.lineEnd(s.end(n))
	case n.Kind == yaml.MappingNode:
		return s.endLine(n.Content[len(n.Content)-1], n.Content[len(n.Content)-2].Column-1)
	}
	return s.endLine(n.Content[len(n.Content)-1], n.Column-1)
}

// endBlock is the offset after the last line of a block scalar; the blank
// lines after it are its own only with the sign +.
func (s *splicer) endBlock(n *yaml.Node, col int) int {
	i := s.start(n)
	head := s.src[i:s.lineEnd(i)]
	if k := bytes.IndexAny(head, " \t\r\n"); k >= 0 {
		head = head[:k]
	}
	indent := 0
	if k := bytes.IndexAny(head, "123456789"); k >= 0 {
		indent = col + int(head[k]-'0')
	}
	end := s.lineEnd(i)
	for at := end; at < len(s.src); {
		next := s.lineEnd(at)
		line := bytes.TrimRight(s.src[at:next], "\r\n")
		blanks := len(line) - len(bytes.TrimLeft(line, " "))
		if blanks == len(line) {
			if bytes.IndexByte(head, '+') >= 0 {
				end = next
			}
			at = next
			continue
		}
		if indent == 0 {
			indent = max(blanks, col+1)
		}
		if blanks < indent {
			break
		}
		at, end = next, next
	}
	return end
}

// commented reports whether a comment stands among the lines of a list of
// words, from its first to its last: between its words, not in them.
func (s *splicer) commented(n *yaml.Node, from, to int) bool {
	for _, word := range n.Content {
		if from <= s.start(word) && bytes.IndexByte(s.src[from:s.start(word)], '#') >= 0 || word.Kind != yaml.ScalarNode {
			return true
		}
		if from = s.end(word); isBlock(word) {
			if head := s.lineEnd(s.start(word)); bytes.IndexByte(s.src[s.start(word):head], '#') >= 0 {
				return true
			}
			from = s.endBlock(word, n.Column-1)
		}
	}
	return from < to && bytes.IndexByte(s.src[from:to], '#') >= 0
}

// afterComments passes the comment lines at offset i that stand deeper than
// col: they belong to what stands before them.
func (s *splicer) afterComments(i, col int) int {
	for i < len(s.src) {
		next := s.lineEnd(i)
		line := bytes.TrimLeft(s.src[i:next], " ")
		if len(line) == 0 || line[0] != '#' || next-i-len(line) <= col {
			break
		}
		i = next
	}
	return i
}
