package ledger

import (
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"sync"

	"gopkg.in/yaml.v3"
)

// maxDepth is how deep lists and groups may be nested; the deepest field of
// the format stands at four.
const maxDepth = 8

// refused reports whether a node has something that the format does without:
// an alias, an anchor, a tag.
func (d *decoder) refused(n *yaml.Node) bool {
	switch {
	case n.Kind == yaml.AliasNode:
		d.add("yaml-anchor", n.Line, n.Column, d.field(), "a value that begins with * stands for a value elsewhere in the file, and the words are lost", d.quoteLine(n))
	case n.Anchor != "":
		d.add("yaml-anchor", n.Line, n.Column, d.field(), "the word after & is a mark for the YAML reader and is lost", d.quoteLine(n))
	case n.Style&yaml.TaggedStyle != 0:
		d.add("yaml-tag", n.Line, n.Column, d.field(), "the word after ! is an order to the YAML reader and is lost", d.quoteLine(n))
	default:
		return false
	}
	return true
}

func (d *decoder) tooDeepAt(line, col int) bool {
	if !d.deep {
		d.deep = true
		d.add("yaml-deep", line, col, d.field(), fmt.Sprintf("lists and groups stand in each other more than %d deep", maxDepth), "No field needs that; look for a bracket too many")
	}
	return true
}

// group reads a mapping into the struct v.
func (d *decoder) group(n *yaml.Node, p *plan, v reflect.Value) {
	if d.refused(n) {
		return
	}
	if n.Kind != yaml.MappingNode {
		d.wrongKind(n, Group)
		return
	}
	if p.line >= 0 {
		v.Field(p.line).SetInt(int64(n.Line))
	}
	var seen [64]int32
	for i := 0; i+1 < len(n.Content) && !d.full(); i += 2 {
		key, val := n.Content[i], n.Content[i+1]
		if key.Kind != yaml.ScalarNode || key.Anchor != "" || key.Style&yaml.TaggedStyle != 0 {
			d.oddKey(key)
			continue
		}
		at, ok := p.byKey[key.Value]
		if !ok {
			d.unknown(key, p)
			d.nested(val, len(d.at)+1)
			continue
		}
		d.at = append(d.at, step{key: key.Value})
		f := &p.fields[at]
		if seen[at] != 0 {
			d.add("field-twice", key.Line, key.Column, d.field(), fmt.Sprintf("this field stands in line %d already; of the two one would be lost", seen[at]),
				fmt.Sprintf("Keep one of the lines %d and %d", seen[at], key.Line))
		} else {
			seen[at] = int32(key.Line)
			d.value(key, val, f, v.Field(f.index))
		}
		d.at = d.at[:len(d.at)-1]
	}
	d.missing(n, p, v)
}

// value reads the value of one field.
func (d *decoder) value(key, n *yaml.Node, f *planField, v reflect.Value) {
	if isNull(n) {
		d.cut(key, n)
		if f.Kind == Text {
			*v.Addr().Interface().(*Leaf) = Leaf{Line: int32(n.Line), Col: int32(n.Column)}
		}
		return
	}
	switch f.Kind {
	case Text:
		d.leaf(n, f.Field, v.Addr().Interface().(*Leaf))
	case Group:
		d.group(n, f.sub, v)
	case Texts:
		d.texts(n, f, v.Addr().Interface().(*[]Leaf))
	case Entries:
		d.entries(n, f, v)
	case Pairs:
		d.pairs(n, f, v.Addr().Interface().(*[]Pair))
	}
}

func isNull(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && n.Value == "" && n.Style == 0 && n.Anchor == ""
}

func (d *decoder) leaf(n *yaml.Node, f *Field, to *Leaf) {
	if d.refused(n) {
		return
	}
	if n.Kind != yaml.ScalarNode {
		d.wrongKind(n, Text)
		return
	}
	*to = Leaf{Text: n.Value, Line: int32(n.Line), Col: int32(n.Column)}
	d.words(n)
	if n.Value != "" {
		d.allowed(n, f)
	}
}

// words holds the laws of every scalar: nothing cut, nothing bent, nothing hidden.
func (d *decoder) words(n *yaml.Node) {
	if n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) == 0 {
		if as := implicit(n.Value); as != "" && !wholeNumber(n.Value) {
			d.add("value-unquoted", n.Line, n.Column, d.field(), "some readers of YAML take this for "+as+", not for words", "Put it in quotes: "+d.corrected(n.Value)+"   (blotter tidy does it for all)")
		}
		d.cut(nil, n)
		return
	}
	if n.Style&yaml.DoubleQuotedStyle != 0 {
		d.escapes(n)
	}
	if n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0 {
		if bare := strings.Trim(n.Value, " "); bare != n.Value && bare != "" && !strings.Contains(n.Value, "\n") {
			d.add("text-blanks", n.Line, n.Column, d.field(), "blanks stand between the quotes and the words; they make another value of the same words", "Write: "+quote(bare, blockPlace))
		}
	}
}

// escapes looks for characters that came in by an escape such as \u202E, past
// the pass over the bytes.
func (d *decoder) escapes(n *yaml.Node) {
	for _, r := range n.Value {
		switch {
		case r >= ' ' && r < 0x7f || r == '\n' || r == '\t':
		case r < ' ' || r < 0xa0 && r != 0x85:
			d.add("text-control", n.Line, n.Column, d.field(), fmt.Sprintf("the value holds a control character (U+%04X)", r), "Take it out")
		case separator(r):
			d.add("text-separator", n.Line, n.Column, d.field(), fmt.Sprintf("the value holds the invisible character U+%04X, which only some programs take for the end of a line", r), "Put a blank in its place")
		case turning(r):
			d.add("text-direction", n.Line, n.Column, d.field(), fmt.Sprintf("the value holds the invisible character U+%04X, which turns the direction of the text", r), "Take it out")
		}
	}
}

var shapes sync.Map // shape -> *regexp.Regexp

// allowed holds the closed lists, the usual words and the shape of a field.
func (d *decoder) allowed(n *yaml.Node, f *Field) {
	if f.Enum != nil && !slices.Contains(f.Enum, n.Value) {
		d.unlisted(n, f)
	}
	switch {
	case f.Path == "specimen":
		if !Number(n.Value).Valid() {
			d.add("number-shape", n.Line, n.Column, d.field(), "a number has letters, digits, dot, hyphen and underline, begins with a letter or digit and is no device name of Windows", "Write the number as the barcode has it, for example: specimen: LK7-0000482")
		}
	case f.Shape != "":
		re, ok := shapes.Load(f.Shape)
		if !ok {
			re, _ = shapes.LoadOrStore(f.Shape, regexp.MustCompile(f.Shape))
		}
		if !re.(*regexp.Regexp).MatchString(n.Value) {
			d.add("value-shape", n.Line, n.Column, d.field(), "this field has "+f.ShapeWords, "For example: "+f.Key()+": "+quote(f.Example, blockPlace))
		}
	}
}

func (d *decoder) texts(n *yaml.Node, f *planField, to *[]Leaf) {
	if d.refused(n) {
		return
	}
	if n.Kind != yaml.SequenceNode {
		d.wrongKind(n, Texts)
		return
	}
	*to = make([]Leaf, len(n.Content))
	for i, item := range n.Content {
		if d.full() {
			return
		}
		d.at = append(d.at, step{entry: i + 1, flow: flow(n)})
		if isNull(item) {
			d.cut(nil, item)
			d.empty(item)
		} else {
			d.leaf(item, f.Field, &(*to)[i])
		}
		d.at = d.at[:len(d.at)-1]
	}
}

func (d *decoder) empty(n *yaml.Node) {
	d.add("field-kind", n.Line, n.Column, d.field(), "this entry of the list is empty", fmt.Sprintf("Write its words, or take line %d out", n.Line))
}

func (d *decoder) entries(n *yaml.Node, f *planField, v reflect.Value) {
	if d.refused(n) {
		return
	}
	if n.Kind != yaml.SequenceNode {
		d.wrongKind(n, Entries)
		return
	}
	v.Set(reflect.MakeSlice(v.Type(), len(n.Content), len(n.Content)))
	for i, item := range n.Content {
		if d.full() {
			return
		}
		d.at = append(d.at, step{entry: i + 1, flow: flow(n)})
		if isNull(item) {
			d.empty(item)
		} else {
			d.group(item, f.sub, v.Index(i))
		}
		d.at = d.at[:len(d.at)-1]
	}
}

func (d *decoder) pairs(n *yaml.Node, f *planField, to *[]Pair) {
	if d.refused(n) {
		return
	}
	if n.Kind != yaml.MappingNode {
		d.wrongKind(n, Pairs)
		return
	}
	seen := map[string]int{}
	for i := 0; i+1 < len(n.Content) && !d.full(); i += 2 {
		key, val := n.Content[i], n.Content[i+1]
		if key.Kind != yaml.ScalarNode || key.Anchor != "" || key.Style&yaml.TaggedStyle != 0 || isNull(key) {
			d.oddKey(key)
			continue
		}
		d.at = append(d.at, step{key: key.Value})
		if line := seen[key.Value]; line != 0 {
			d.add("field-twice", key.Line, key.Column, d.field(), fmt.Sprintf("this column stands in line %d already; of the two one would be lost", line), fmt.Sprintf("Keep one of the lines %d and %d", line, key.Line))
		} else {
			seen[key.Value] = key.Line
			d.words(key)
			p := Pair{Key: strings.Clone(key.Value)}
			if isNull(val) {
				d.cut(key, val)
				p.Value = Leaf{Line: int32(val.Line), Col: int32(val.Column)}
			} else {
				d.leaf(val, f.Field, &p.Value)
			}
			*to = append(*to, p)
		}
		d.at = d.at[:len(d.at)-1]
	}
}

// nested holds the law of depth in what is not read otherwise.
func (d *decoder) nested(n *yaml.Node, depth int) {
	if depth > maxDepth {
		d.tooDeepAt(n.Line, n.Column)
		return
	}
	for _, c := range n.Content {
		d.nested(c, depth+1)
	}
}

// missing looks for required fields. A field without words is missing.
func (d *decoder) missing(n *yaml.Node, p *plan, v reflect.Value) {
	full := len(d.at) == 0 && d.kind == RecordKind && v.Addr().Interface().(*Record).Entry.Text == string(Full)
	for i := range p.fields {
		f := &p.fields[i]
		if f.Need != Required && !(full && f.Need == WhenFull) || hasWords(f, v.Field(f.index)) {
			continue
		}
		line, col := n.Line, n.Column
		if l, ok := v.Field(f.index).Addr().Interface().(*Leaf); ok && l.Line > 0 {
			line, col = int(l.Line), int(l.Col)
		}
		d.at = append(d.at, step{key: f.key})
		msg := "this field is required and is not there"
		if f.Need == WhenFull {
			msg = "a full record has this field; its word for none will do"
		}
		d.add("field-missing", line, col, d.field(), d.field()+": "+msg, missingHint(f))
		d.at = d.at[:len(d.at)-1]
	}
}

func missingHint(f *planField) string {
	switch {
	case f.Path == "entry":
		return "Write the line: entry: draft"
	case f.Path == "place":
		return "Write at least one line of it, for example: place: {country: unknown}   Not all typed yet? entry: draft"
	case f.Path == "date":
		return "Write what the label has, or if it has none: date: s.d.   Not typed yet? entry: draft"
	case f.Path == "collector":
		return "Write what the label has, or if it has none: collector: unknown   Not typed yet? entry: draft"
	case f.key == "by":
		return "Write the line: by: NAME   or if no name stands there: by: unsigned"
	case f.key == "date":
		return "Write the line: date: DATE   or if no date stands there: date: s.d."
	case f.Example != "":
		return "Write the line, for example: " + f.key + ": " + quote(f.Example, blockPlace)
	}
	return "Write the field " + f.key
}

// hasWords reports whether a field, or any field in it, has words.
func hasWords(f *planField, v reflect.Value) bool {
	switch f.Kind {
	case Text:
		return v.Addr().Interface().(*Leaf).Text != ""
	case Group:
		for i := range f.sub.fields {
			if g := &f.sub.fields[i]; hasWords(g, v.Field(g.index)) {
				return true
			}
		}
		return false
	}
	return v.Len() > 0
}
