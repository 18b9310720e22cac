package ledger

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"
	"gopkg.in/yaml.v3"
)

// corrected is the line of the node at hand with other words, ready to paste.
func (d *decoder) corrected(text string) string {
	if len(d.at) == 0 {
		return quote(text, blockPlace)
	}
	last := d.at[len(d.at)-1]
	return last.before() + quoted(text)
}

// before is what stands before the words of a step in the file.
func (s step) before() string {
	switch {
	case s.key != "":
		return s.key + ": "
	case s.flow:
		return ""
	}
	return "- "
}

// source is the offset of a node in the file.
func (d *decoder) source(line, col int) int {
	if d.lines == nil {
		d.lines = newLines(d.src)
	}
	return d.lines.offset(line, col)
}

// quoteLine is the hint for a value whose first sign is an order to YAML.
func (d *decoder) quoteLine(n *yaml.Node) string {
	i := d.source(n.Line, n.Column)
	end := i + lineLen(d.src[i:])
	return "If the sign belongs to the words, put them in quotes: " + d.corrected(strings.TrimSpace(string(d.src[i:end])))
}

// cut looks for words after a plain value that every reader of YAML drops as
// a comment. A comment stands two blanks from the value and has a blank after
// its #; anything closer is taken for words of the label. With a key, the
// value is empty and the comment follows the key's colon.
func (d *decoder) cut(key, n *yaml.Node) {
	if !d.hash {
		return
	}
	i := d.source(n.Line, n.Column)
	i += plainLen(d.src[i:], n.Value)
	rest := d.src[i:]
	rest = rest[:lineLen(rest)]
	words := bytes.TrimLeft(rest, " \t")
	switch blanks := len(rest) - len(words); {
	case len(words) == 0 && key == nil:
		d.cutBelow(n, i)
		return
	case blanks == 0 || len(words) == 0 || words[0] != '#' || comment(blanks, words):
		return
	}
	whole := strings.TrimRight(n.Value+string(rest), " \t")
	if key != nil {
		whole = strings.TrimSpace(string(rest))
	}
	d.addCut(n, whole)
}

func (d *decoder) addCut(n *yaml.Node, whole string) {
	d.add("value-cut", n.Line, n.Column, d.field(), "every reader of YAML drops the words from # on, without a word",
		"If they belong to the label: "+d.corrected(whole)+"   If they are a comment: two blanks before # and one after it")
}

// lineLen is the length of the line at the beginning of b without its end.
func lineLen(b []byte) int {
	for i, c := range b {
		if c == '\n' || c == '\r' {
			return i
		}
	}
	return len(b)
}

// cutBelow looks at the line after a plain value, which ends at offset i: a
// number sign that stands deeper than the field, with no blank after it, is
// taken for more words of the value.
func (d *decoder) cutBelow(n *yaml.Node, i int) {
	i += lineLen(d.src[i:])
	if words := bytes.TrimLeft(d.src[i:], " \r\n"); len(words) == 0 || words[0] != '#' {
		return
	}
	k, _ := slices.BinarySearch(d.lines.from, i)
	if k >= len(d.lines.from) {
		return
	}
	field, below := d.lines.text(n.Line), d.lines.text(k+1)
	words := strings.TrimLeft(below, " ")
	deeper := len(below)-len(words) > len(field)-len(strings.TrimLeft(field, " -"))
	if deeper && len(words) > 1 && words[0] == '#' && words[1] > ' ' && words[1] != '#' {
		d.addCut(n, n.Value+" "+strings.TrimRight(words, " "))
	}
}

// comment reports whether words that begin with # are meant as a comment.
func comment(blanks int, words []byte) bool {
	return blanks >= 2 && (len(words) == 1 || words[1] == ' ' || words[1] == '\t')
}

// plainLen is how many bytes of src a plain scalar with this value takes: the
// same characters, but that a blank or line feed in the value may be any run
// of blanks and line ends in the source.
func plainLen(src []byte, value string) int {
	i := 0
	for j := 0; j < len(value) && i < len(src); j++ {
		if value[j] == src[i] && value[j] != '\n' && (value[j] != ' ' || j+1 < len(value) && i+1 < len(src) && src[i+1] == value[j+1]) {
			i++
			continue
		}
		if value[j] != ' ' && value[j] != '\n' {
			return i
		}
		for i < len(src) && strings.IndexByte(" \t\r\n", src[i]) >= 0 {
			i++
		}
		for j+1 < len(value) && (value[j+1] == ' ' || value[j+1] == '\n') {
			j++
		}
	}
	return i
}

// wrongKind says that a node is not of the kind that its field has.
func (d *decoder) wrongKind(n *yaml.Node, want Kind) {
	is := map[yaml.Kind]string{yaml.ScalarNode: "words", yaml.SequenceNode: "a list", yaml.MappingNode: "a group of fields"}[n.Kind]
	field := d.field()
	what := "this field"
	if field == "" {
		what = "a file of the ledger"
	}
	hint := ""
	switch want {
	case Text:
		what += " takes words, not " + is
		hint = "If the sign belongs to the words, put them in quotes: " + d.corrected(d.flowSource(n))
		switch {
		case flow(n):
		case n.Kind == yaml.MappingNode && len(n.Content) == 2:
			hint = "If the colon belongs to the words, put them in quotes: " + d.corrected(d.flowSource(n))
		default:
			hint = "Write the words on the line of the field itself"
		}
	case Texts:
		what += " takes a list, not " + is
		hint = "Write a list: " + d.key() + ": [" + quote(n.Value, flowPlace) + "]"
		if n.Kind != yaml.ScalarNode {
			hint = "Write a list, each line of it beginning with a hyphen and a blank"
		}
	case Entries:
		what += " takes a list of entries, not " + is
		hint = "Begin each entry with a hyphen and a blank"
	default:
		what += " takes a group of fields, not " + is
		hint = "Write its fields below it, each on a line of its own: " + d.exampleChild()
	}
	d.add("field-kind", n.Line, n.Column, field, what, hint)
}

// key is the last key on the way to the node at hand.
func (d *decoder) key() string {
	for i := len(d.at) - 1; i >= 0; i-- {
		if d.at[i].key != "" {
			return d.at[i].key
		}
	}
	return ""
}

// exampleChild is a line that may stand in the group at hand.
func (d *decoder) exampleChild() string {
	prefix := withoutNumbers(d.field())
	for _, f := range FieldsOf(d.kind) {
		if f.Kind == Text && f.Example != "" && (prefix == "" || strings.HasPrefix(f.Path, prefix+".")) {
			return f.Key() + ": " + quote(f.Example, blockPlace)
		}
	}
	return "key: words"
}

// flowSource is the text of a list or group in brackets as written.
func (d *decoder) flowSource(n *yaml.Node) string {
	i := d.source(n.Line, n.Column)
	end := i + lineLen(d.src[i:])
	return strings.TrimSpace(string(d.src[i:end]))
}

func (d *decoder) oddKey(n *yaml.Node) {
	d.add("field-kind", n.Line, n.Column, d.field(), "the name of a field is plain words followed by a colon", "Look for a sign too many at the beginning of line "+fmt.Sprint(n.Line))
}

// unknown says that no field has this name, and names the nearest.
func (d *decoder) unknown(key *yaml.Node, p *plan) {
	group := d.field()
	d.at = append(d.at, step{key: key.Value})
	field := d.field()
	d.at = d.at[:len(d.at)-1]
	message := "no field has this name, so the words below it would be lost"
	near := ""
	best := utf8.RuneCountInString(key.Value)/2 + 1
	for i := range p.fields {
		if n := distance(key.Value, p.fields[i].key); n < best {
			best, near = n, p.fields[i].key
		}
	}
	home := d.elsewhere(key.Value)
	switch {
	case home != "" && best > 1:
		d.add("field-unknown", key.Line, key.Column, field, message+" here; "+home+" is one", "Move the line: "+nestedLine(home, group))
	case near != "":
		d.add("field-unknown", key.Line, key.Column, field, message+"; nearest: "+near, fmt.Sprintf("Change the word in line %d: %s", key.Line, near))
	default:
		d.add("field-unknown", key.Line, key.Column, field, message, "Words without a field of their own go into remarks; blotter help format lists the fields")
	}
}

// distance is the number of letters to change, small and capital being the same.
func distance(a, b string) int {
	if len(a) > 64 {
		return len(a)
	}
	return levenshtein.ComputeDistance(strings.ReplaceAll(strings.ToLower(a), "-", "_"), b)
}

// elsewhere is the path of a field of this name in another group; "" for none.
func (d *decoder) elsewhere(key string) string {
	for _, f := range FieldsOf(d.kind) {
		if f.Key() == key && strings.Count(f.Path, ".") <= 1 {
			return f.Path
		}
	}
	return ""
}

// nestedLine says where a field belongs.
func nestedLine(path, from string) string {
	i := strings.LastIndexByte(path, '.')
	switch {
	case i >= 0:
		return path[i+1:] + " stands under " + path[:i] + ":"
	case from != "":
		return path + " stands at the edge, under no other field"
	}
	return path
}

// unlisted says that a word is not among those of its field.
func (d *decoder) unlisted(n *yaml.Node, f *Field) {
	near, best := "", utf8.RuneCountInString(n.Value)/2+1
	for _, w := range f.Enum {
		if k := distance(n.Value, w); k < best {
			best, near = k, w
		}
	}
	hint := "Nearest: "
	if near == "" {
		near, hint = f.Example, "Write one of them, for example: "
	}
	hint += d.at[len(d.at)-1].before() + quote(near, blockPlace)
	if f.Open {
		d.add("word-unusual", n.Line, n.Column, d.field(), "not one of the usual words "+strings.Join(f.Enum, ", "), hint+"   If the sheet says otherwise, leave it so")
		return
	}
	d.add("value-unlisted", n.Line, n.Column, d.field(), "this field has one of the words "+strings.Join(f.Enum, ", "), hint)
}
