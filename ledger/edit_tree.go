package ledger

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"
)

// tree is a file's words without their form: what an edit must change and
// what it must not.
type tree struct {
	kind  Kind // Text, Texts (any list) or Group
	text  string
	keys  []string // of a Group, beside items
	items []*tree
}

// treeOf is the tree of a node; nil for a value that is not there.
func treeOf(n *yaml.Node) (*tree, error) {
	if n == nil || isNull(n) {
		return nil, nil
	}
	if n.Kind == yaml.AliasNode || n.Anchor != "" || n.Style&yaml.TaggedStyle != 0 {
		return nil, errors.New("the file has YAML anchors or tags; blotter check shows them")
	}
	t := &tree{}
	switch n.Kind {
	case yaml.ScalarNode:
		t.kind, t.text = Text, n.Value
	case yaml.SequenceNode:
		t.kind = Texts
		for _, c := range n.Content {
			item, err := treeOf(c)
			if err != nil {
				return nil, err
			}
			t.items = append(t.items, item)
		}
	case yaml.MappingNode:
		t.kind = Group
		for i := 0; i+1 < len(n.Content); i += 2 {
			key := n.Content[i]
			if key.Kind != yaml.ScalarNode || t.child(key.Value) >= 0 {
				return nil, fmt.Errorf("line %d stands in the way; blotter check says why", key.Line)
			}
			item, err := treeOf(n.Content[i+1])
			if err != nil {
				return nil, err
			}
			t.put(key.Value, item)
		}
	}
	return t, nil
}

func (t *tree) child(key string) int { return slices.Index(t.keys, key) }

func (t *tree) put(key string, v *tree) {
	t.keys = append(t.keys, key)
	t.items = append(t.items, v)
}

// fill adds a field of an entry: words, or with a number behind the key the
// next word of a list.
func (t *tree) fill(key, words string) {
	v := &tree{kind: Text, text: words}
	base, n, _ := strings.Cut(key, ".")
	if numberPart(n) == 0 {
		t.put(key, v)
		return
	}
	if i := t.child(base); i >= 0 {
		t.items[i].items = append(t.items[i].items, v)
		return
	}
	t.put(base, &tree{kind: Texts, items: []*tree{v}})
}

// empty reports whether t has no words: nothing is lost without it.
func (t *tree) empty() bool {
	if t == nil {
		return true
	}
	if t.kind == Text {
		return false
	}
	for _, c := range t.items {
		if !c.empty() {
			return false
		}
	}
	return true
}

// equal compares words; the order of fields and fields without words do not count.
func (t *tree) equal(o *tree) bool {
	if t.empty() || o.empty() {
		return t.empty() && o.empty()
	}
	if t.kind != o.kind || t.text != o.text {
		return false
	}
	if t.kind == Group {
		return t.within(o) && o.within(t)
	}
	return slices.EqualFunc(t.items, o.items, (*tree).equal)
}

func (t *tree) within(o *tree) bool {
	for i, key := range t.keys {
		var other *tree
		if j := o.child(key); j >= 0 {
			other = o.items[j]
		}
		if !t.items[i].equal(other) {
			return false
		}
	}
	return true
}

// wrap makes the groups of a path around t.
func wrap(path []string, t *tree) *tree {
	for _, key := range slices.Backward(path) {
		if numberPart(key) > 0 {
			t = &tree{kind: Texts, items: []*tree{t}}
			continue
		}
		t = &tree{kind: Group, keys: []string{key}, items: []*tree{t}}
	}
	return t
}

// apply makes an op on the words.
func (t *tree) apply(op Op) error { return t.applyAt(op, strings.Split(op.path, ".")) }

func (t *tree) applyAt(op Op, path []string) error {
	if t.kind == Text {
		return errors.New("words stand where a group or a list should be")
	}
	i := numberPart(path[0]) - 1
	if t.kind == Group {
		i = t.child(path[0])
	}
	if t.kind != Group && (i < 0 || i >= len(t.items)) {
		return fmt.Errorf("there is no entry %s; the list has %d", path[0], len(t.items))
	}
	there := i >= 0 && t.items[i] != nil
	switch {
	case len(path) == 1:
		return t.finish(op, path[0], i)
	case there:
		return t.items[i].applyAt(op, path[1:])
	case op.verb == remove:
		return nil
	case numberPart(path[1]) > 0:
		return fmt.Errorf("there is no entry %s", path[1])
	}
	sub := &tree{kind: Group}
	if i < 0 {
		t.put(path[0], sub)
	} else {
		t.items[i] = sub
	}
	return sub.applyAt(op, path[1:])
}

// finish makes the op on the child i of t; i is -1 where a group has none.
func (t *tree) finish(op Op, key string, i int) error {
	switch op.verb {
	case remove:
		if i >= 0 {
			t.items = slices.Delete(t.items, i, i+1)
			if t.kind == Group {
				t.keys = slices.Delete(t.keys, i, i+1)
			}
		}
		return nil
	case insertEntry:
		if i < 0 {
			i = len(t.items)
			t.put(key, nil)
		}
		if t.items[i] == nil {
			t.items[i] = &tree{kind: Texts}
		}
		list := t.items[i]
		at := op.at - 1
		if op.at == 0 {
			at = len(list.items)
		}
		if list.kind != Texts || at < 0 || at > len(list.items) {
			return fmt.Errorf("the list has %d entries", len(list.items))
		}
		list.items = slices.Insert(list.items, at, op.value)
		return nil
	}
	switch {
	case i < 0:
		t.put(key, op.value)
	case t.items[i] != nil && t.items[i].kind != op.value.kind:
		return errors.New("something else stands there; blotter check says what")
	default:
		t.items[i] = op.value
	}
	return nil
}

// order puts the fields of an entry of the list at path into the order of the
// field table.
func (t *tree) order(kind FileKind, path string) {
	if t.kind != Group {
		return
	}
	o := &tree{kind: Group}
	for _, f := range FieldsOf(kind) {
		if i := t.child(f.Key()); i >= 0 && f.Path == path+"."+f.Key() {
			o.put(f.Key(), t.items[i])
		}
	}
	*t = *o
}

// appendBlock writes a group as lines at an indent.
func (t *tree) appendBlock(b []byte, indent, eol string) []byte {
	for i, key := range t.keys {
		b = append(append(b, indent...), quote(key, flowPlace)...)
		b = append(b, ':')
		b = t.items[i].appendValue(b, indent, eol)
	}
	return b
}

// appendValue writes what stands after a colon, to the end of its lines.
func (t *tree) appendValue(b []byte, indent, eol string) []byte {
	switch {
	case t.kind == Text && block(t.text):
		return appendBlock(append(b, ' '), t.text, indent+"  ", eol)
	case t.kind == Text:
		return append(append(append(b, ' '), quote(t.text, blockPlace)...), eol...)
	case t.kind == Group:
		return t.appendBlock(append(b, eol...), indent+"  ", eol)
	}
	b = append(b, eol...)
	for _, c := range t.items {
		b = c.appendItem(b, indent+"  ", " ", eol)
	}
	return b
}

// appendItem writes an entry of a list: its hyphen at indent, then gap.
func (t *tree) appendItem(b []byte, indent, gap, eol string) []byte {
	b = append(append(b, indent...), '-')
	inner := indent + " " + gap
	switch {
	case t == nil || t.kind == Group && len(t.keys) == 0:
		return append(append(b, " {}"...), eol...)
	case t.kind == Texts:
		return append(append(append(b, gap...), t.flow()...), eol...)
	case t.kind == Text && block(t.text):
		return appendBlock(append(b, gap...), t.text, inner, eol)
	case t.kind == Text:
		return append(append(append(b, gap...), quote(t.text, blockPlace)...), eol...)
	}
	return append(append(b, gap...), t.appendBlock(nil, inner, eol)[len(inner):]...)
}

// flow writes t for a place within brackets.
func (t *tree) flow() string {
	var parts []string
	if t == nil {
		return `""`
	}
	switch t.kind {
	case Text:
		return quote(t.text, flowPlace)
	case Group:
		for i, key := range t.keys {
			parts = append(parts, quote(key, flowPlace)+": "+t.items[i].flow())
		}
		return "{" + strings.Join(parts, ", ") + "}"
	}
	for _, c := range t.items {
		parts = append(parts, c.flow())
	}
	return "[" + strings.Join(parts, ", ") + "]"
}
