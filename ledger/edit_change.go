package ledger

import (
	"bytes"
	"strings"

	"gopkg.in/yaml.v3"
)

// holderCol is the column, from 0, of the key or hyphen that a spot hangs on.
func holderCol(p spot) int {
	switch {
	case p.key() != nil:
		return p.key().Column - 1
	case p.parent != nil:
		return p.parent.Column - 1
	}
	return -1
}

// replace puts other words in the place of a scalar. Quotes stay quotes.
func (s *splicer) replace(way []spot, text string) {
	p := way[len(way)-1]
	n, from := p.node, s.start(p.node)
	inside := inFlow(way)
	if isNull(n) {
		s.fill(from, " "+inline(text, inside))
		return
	}
	if isBlock(n) {
		s.replaceBlock(p, text)
		return
	}
	to := s.end(n)
	rest := bytes.TrimSpace(s.src[to:s.lineEnd(to)])
	switch {
	case block(text) && !inside && len(rest) == 0 && s.lineEnd(to) < len(s.src):
		indent := strings.Repeat(" ", holderCol(p)+2)
		s.cut(from, s.lineEnd(to), string(appendBlock(nil, text, indent, s.eol)))
	case n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0:
		s.cut(from, to, quoted(text))
	default:
		s.cut(from, to, inline(text, inside))
	}
}

// replaceBlock puts other words in the place of a block scalar: its sign and
// its lines go, a comment beside the sign stays.
func (s *splicer) replaceBlock(p spot, text string) {
	from := s.start(p.node)
	sign := from
	for sign < len(s.src) && strings.IndexByte(" \t\r\n", s.src[sign]) < 0 {
		sign++
	}
	body, to := s.lineEnd(from), s.endLine(p.node, holderCol(p))
	ended := s.src[to-1] == '\n' || s.src[to-1] == '\r'
	if !block(text) {
		if !ended && body < to {
			body -= len(s.eol)
		}
		s.cut(from, sign, quote(text, blockPlace))
		s.cut(body, to, "")
		return
	}
	head, lines, _ := strings.Cut(string(appendBlock(nil, text, s.blockIndent(p, to), s.eol)), s.eol)
	if !ended {
		lines = strings.TrimSuffix(lines, s.eol)
	}
	s.cut(from, sign, head)
	s.cut(body, to, lines)
}

func inline(text string, inFlow bool) string { return quote(text, yamlPlace(inFlow)) }

// blockIndent is the indent of the lines of a block scalar that ends at to.
func (s *splicer) blockIndent(p spot, to int) string {
	line := s.src[s.lineEnd(s.start(p.node)):to]
	line = bytes.TrimLeft(line, "\r\n")
	if n := len(line) - len(bytes.TrimLeft(line, " ")); n > holderCol(p) {
		return string(line[:n])
	}
	return strings.Repeat(" ", holderCol(p)+2)
}

// fill puts text behind a colon or hyphen that nothing but a comment follows;
// the comment keeps its distance.
func (s *splicer) fill(at int, text string) {
	if rest := s.src[at:]; len(rest) > 1 && rest[0] == ' ' && rest[1] == '#' {
		text += " "
	}
	s.cut(at, at, text)
}

// insertPair puts the field rest[0] into the group at the end of the way,
// with the groups that rest names around t.
func (s *splicer) insertPair(way []spot, rest []string, t *tree) error {
	if numberPart(rest[0]) > 0 {
		return errShape
	}
	pair := wrap(rest, t)
	p := way[len(way)-1]
	n := p.node
	switch {
	case isNull(n) && inFlow(way):
		s.fill(s.start(n), " "+pair.flow())
	case isNull(n) && p.key() != nil:
		s.below(p, pair)
	case n.Kind != yaml.MappingNode:
		return errShape
	case len(n.Content) == 0 && !inFlow(way) && p.key() != nil && s.oneLine(n):
		s.empty(p)
		s.below(p, pair)
	case flow(n):
		s.insertFlow(n, s.place(way, rest[0]), strings.TrimSuffix(pair.flow()[1:], "}"))
	default:
		s.insertBlock(n, s.place(way, rest[0]), pair)
	}
	return nil
}

// below writes t on the lines after the key of a spot that has no value.
func (s *splicer) below(p spot, t *tree) {
	at := s.lineEnd(s.start(p.node))
	indent := strings.Repeat(" ", p.key().Column+1)
	text := t.appendBlock(nil, indent, s.eol)
	if t.kind == Texts {
		text = nil
		for _, c := range t.items {
			text = c.appendItem(text, indent, " ", s.eol)
		}
	}
	s.insertLines(at, text)
}

func (s *splicer) oneLine(n *yaml.Node) bool {
	i := s.start(n)
	return s.end(n) <= s.lineEnd(i)
}

// empty takes the empty brackets of a spot away; a comment after them stays,
// two blanks from the colon.
func (s *splicer) empty(p spot) {
	from, to := s.start(p.node), s.end(p.node)
	for s.src[from-1] == ' ' {
		from--
	}
	with := ""
	for to < len(s.src) && s.src[to] == ' ' {
		to++
	}
	if to < len(s.src) && s.src[to] == '#' {
		with = "  "
	}
	s.cut(from, to, with)
}

// place is where, among the pairs of the group at the end of the way, a field
// goes: the index of the pair before it, or -1 for the beginning.
func (s *splicer) place(way []spot, key string) int {
	n := way[len(way)-1].node
	rank := map[string]int{}
	path := s.pathOf(way)
	for i, f := range FieldsOf(s.kind) {
		if k := f.Key(); f.Path == path+k {
			rank[k] = i + 1
		}
	}
	mine, before := rank[key], len(n.Content)/2-1
	if mine == 0 {
		return before
	}
	best := 0
	before = -1
	for i := 0; i+1 < len(n.Content); i += 2 {
		if r := rank[n.Content[i].Value]; r != 0 && r < mine && r > best {
			best, before = r, i/2
		}
	}
	return before
}

// pathOf is the dotted path of the group at the end of a way, without numbers,
// with a dot at its end unless it is the root.
func (s *splicer) pathOf(way []spot) string {
	var b strings.Builder
	for _, p := range way {
		if k := p.key(); k != nil {
			b.WriteString(k.Value + ".")
		}
	}
	return b.String()
}

// insertBlock puts a pair after pair number before of a group in lines.
func (s *splicer) insertBlock(n *yaml.Node, before int, pair *tree) {
	col := n.Content[0].Column - 1
	indent := strings.Repeat(" ", col)
	if before >= 0 {
		at := s.endLine(n.Content[2*before+1], col)
		s.insertLines(s.afterComments(at, col), pair.appendBlock(nil, indent, s.eol))
		return
	}
	text := string(pair.appendBlock(nil, indent, s.eol))
	at := s.start(n.Content[0])
	// The first key may stand behind a hyphen: the new one takes its place.
	s.cut(at, at, text[col:]+indent)
}

// insertFlow puts text after item number before within brackets.
func (s *splicer) insertFlow(n *yaml.Node, before int, text string) {
	step := 1
	if n.Kind == yaml.MappingNode {
		step = 2
	}
	if len(n.Content) == 0 {
		s.cut(s.start(n)+1, s.start(n)+1, text)
		return
	}
	if before < 0 {
		at := s.start(n.Content[0])
		s.cut(at, at, text+", ")
		return
	}
	at := s.end(n.Content[step*before+step-1])
	s.cut(at, at, ", "+text)
}

// insertItem puts an entry into the list at the end of the way.
func (s *splicer) insertItem(way []spot, at int, t *tree) error {
	p := way[len(way)-1]
	n := p.node
	list := &tree{kind: Texts, items: []*tree{t}}
	switch {
	case isNull(n) && inFlow(way):
		s.fill(s.start(n), " "+list.flow())
	case isNull(n) && p.key() != nil:
		s.below(p, list)
	case n.Kind != yaml.SequenceNode:
		return errShape
	case len(n.Content) == 0 && t.kind == Group && !inFlow(way) && p.key() != nil && s.oneLine(n):
		s.empty(p)
		s.below(p, list)
	default:
		before := at - 2
		if at == 0 {
			before = len(n.Content) - 1
		}
		if flow(n) {
			s.insertFlow(n, before, t.flow())
			return nil
		}
		return s.insertEntry(n, before, t)
	}
	return nil
}

// insertEntry puts an entry after entry number before of a list in lines.
func (s *splicer) insertEntry(n *yaml.Node, before int, t *tree) error {
	col := n.Column - 1
	indent, gap := strings.Repeat(" ", col), " "
	if item := n.Content[max(before, 0)]; item.Kind == yaml.MappingNode && !flow(item) {
		from := s.lineStart(s.start(item)) + col
		if width := item.Column - 1 - col; width > 1 && s.src[from] == '-' && len(bytes.TrimSpace(s.src[from+1:from+width])) == 0 {
			gap = strings.Repeat(" ", width-1)
		}
	}
	text := t.appendItem(nil, indent, gap, s.eol)
	if before >= 0 {
		s.insertLines(s.afterComments(s.endLine(n.Content[before], col), col), text)
		return nil
	}
	at := s.lines.offset(n.Line, 1)
	if len(bytes.TrimSpace(s.src[at:at+col])) > 0 {
		return errShape
	}
	s.insertLines(at, text)
	return nil
}

// setList gives a list of words other entries, in the same place.
func (s *splicer) setList(way []spot, rest []string, t *tree) error {
	p := way[len(way)-1]
	n := p.node
	switch {
	case len(rest) > 0:
		return s.insertPair(way, rest, t)
	case isNull(n) && inFlow(way):
		s.fill(s.start(n), " "+t.flow())
	case isNull(n):
		s.below(p, t)
	case n.Kind != yaml.SequenceNode || p.key() == nil:
		return errShape
	case flow(n):
		s.cut(s.start(n), s.end(n), t.flow())
	default:
		var text []byte
		for _, c := range t.items {
			text = c.appendItem(text, strings.Repeat(" ", n.Column-1), " ", s.eol)
		}
		from, to := s.lines.offset(n.Line, 1), s.endLine(n, n.Column-1)
		if s.commented(n, from, to) {
			return errShape
		}
		if to == len(s.src) && s.src[to-1] != '\n' && s.src[to-1] != '\r' {
			text = bytes.TrimSuffix(text, []byte(s.eol))
		}
		s.cut(from, to, string(text))
	}
	return nil
}

// remove takes the field or entry at the end of the way out. A group or list
// that would be left without anything goes with it.
func (s *splicer) remove(way []spot) error {
	p := way[len(way)-1]
	if p.parent == nil {
		return errShape
	}
	step := 1
	if p.key() != nil {
		step = 2
	}
	if flow(p.parent) {
		s.removeFlow(p, step)
		return nil
	}
	if len(p.parent.Content) == step {
		if len(way) == 2 {
			return errShape
		}
		return s.remove(way[:len(way)-1])
	}
	if step == 1 {
		col := p.parent.Column - 1
		from := s.dash(p.parent, p.index)
		if from < 0 {
			return errShape
		}
		s.cut(s.lineStart(from), s.endLine(p.node, col), "")
		return nil
	}
	key := s.start(p.key())
	line := s.lineStart(key)
	end := s.endLine(p.node, p.key().Column-1)
	if len(bytes.TrimSpace(s.src[line:key])) == 0 {
		s.cut(line, end, "")
		return nil
	}
	// The key stands behind its hyphen: the next one takes its place.
	if p.index+1 >= len(p.parent.Content) {
		return errShape
	}
	next := s.start(p.parent.Content[p.index+1])
	if bytes.IndexByte(s.src[end:next], '#') >= 0 {
		return errShape
	}
	s.cut(key, next, "")
	return nil
}

// dash is the offset of the hyphen of an entry of a list in lines.
func (s *splicer) dash(list *yaml.Node, index int) int {
	for line := list.Content[index].Line; line >= list.Line; line-- {
		at := s.lines.offset(line, 1)
		if i := at + list.Column - 1; i < s.lineEnd(at) && s.src[i] == '-' && len(bytes.TrimSpace(s.src[at:i])) == 0 {
			return i
		}
	}
	return -1
}

// removeFlow takes a pair or an item out of brackets.
func (s *splicer) removeFlow(p spot, step int) {
	c := p.parent.Content
	first := p.index - step + 1
	switch {
	case first > 0:
		s.cut(s.end(c[first-1]), s.end(p.node), "")
	case p.index+1 < len(c):
		s.cut(s.start(c[0]), s.start(c[p.index+1]), "")
	default:
		s.cut(s.start(c[0]), s.end(p.node), "")
	}
}
