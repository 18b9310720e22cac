package ledger

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"
)

// Op is one change to a file, made by Set, SetList, Append, Insert or Remove.
type Op struct {
	verb  verb
	path  string
	at    int // for insert: the place from 1; 0: at the end
	value *tree
}

type verb uint8

const (
	setWords verb = iota
	setList
	insertEntry
	remove
)

// Set gives a field other words, or words where it had none; groups that are
// missing are made. The path is dotted, entries count from 1:
// place.elevation, determinations.1.by, read.date.is, with.2. Words "" remove
// the field.
func Set(path, value string) Op {
	if value == "" {
		return Remove(path)
	}
	return Op{verb: setWords, path: path, value: &tree{kind: Text, text: value}}
}

// SetList gives a list of words other entries; none remove the field.
func SetList(path string, values ...string) Op {
	if len(values) == 0 {
		return Remove(path)
	}
	t := &tree{kind: Texts}
	for _, v := range values {
		t.items = append(t.items, &tree{kind: Text, text: v})
	}
	return Op{verb: setList, path: path, value: t}
}

// Append adds an entry at the end of a list, which is made if it is missing.
// Fields without words are left out, the rest are put in the order of the
// field table; a list of words within the entry is a KV a word, as Flatten
// gives them: sheets.1, sheets.2. An entry of a list of words is one KV
// without a key.
func Append(path string, entry ...KV) Op { return Insert(path, 0, entry...) }

// Insert is Append at a place: the new entry is then the at-th, from 1.
func Insert(path string, at int, entry ...KV) Op {
	t := &tree{kind: Group}
	for _, kv := range entry {
		switch {
		case kv.Key == "" && len(entry) == 1:
			t = &tree{kind: Text, text: kv.Value}
		case kv.Value != "":
			t.fill(kv.Key, kv.Value)
		}
	}
	return Op{verb: insertEntry, path: path, at: at, value: t}
}

// Remove takes a field, an entry or a whole group out. What is not there
// needs no removing.
func Remove(path string) Op { return Op{verb: remove, path: path} }

// RefusedEdit says that a file was left as it is, and what to type instead.
type RefusedEdit struct {
	Path  string // of the field
	Why   string
	Lines string // YAML to type by hand; "" when there is none
}

func (e *RefusedEdit) Error() string { return "edit " + e.Path + ": " + e.Why }

// Edit changes a record by replacing the lines it must; comments, order,
// quoting, folding and line ends elsewhere stay byte for byte. The result of
// each Op is decoded and compared: it is the intended change and nothing
// else, or Edit returns a *RefusedEdit and no bytes.
func Edit(src []byte, ops ...Op) ([]byte, error) { return EditFile(RecordKind, src, ops...) }

// EditFile is Edit for any kind of file.
func EditFile(kind FileKind, src []byte, ops ...Op) ([]byte, error) {
	var root *yaml.Node // of src, once it is read
	for _, op := range ops {
		if err := op.fits(kind); err != nil {
			return nil, err
		}
		var err error
		if src, root, err = editOne(kind, src, root, op); err != nil {
			return nil, err
		}
	}
	return slices.Clone(src), nil
}

func (op Op) refuse(why string) *RefusedEdit {
	return &RefusedEdit{Path: op.path, Why: why, Lines: op.lines()}
}

// lines is what a person would type for the op.
func (op Op) lines() string {
	if op.value.empty() {
		return ""
	}
	t := op.value
	parts := strings.Split(op.path, ".")
	if op.verb == insertEntry {
		t = &tree{kind: Texts, items: []*tree{t}}
	}
	return string(wrap(parts, t).appendBlock(nil, "", "\n"))
}

// fits holds the field table against an op.
func (op Op) fits(kind FileKind) error {
	row, ok := FieldAt(kind, op.path)
	numbered := numberPart(op.path[strings.LastIndexByte(op.path, '.')+1:]) > 0
	if !ok {
		if i := strings.IndexByte(op.path, '.'); kind == RecordKind && i == len("import") && op.path[:i] == "import" {
			row, ok = Field{Kind: Text}, true
		}
	}
	switch {
	case !ok:
		return &RefusedEdit{Path: op.path, Why: "no field has this name"}
	case op.verb == setWords && row.Kind != Text && !(row.Kind == Texts && numbered):
		return op.refuse("this field takes a " + row.Kind.String() + ", not words")
	case op.verb == setList && row.Kind != Texts:
		return op.refuse("this field takes " + row.Kind.String() + ", not a list of words")
	case op.verb == insertEntry && (numbered || row.Kind != Entries && row.Kind != Texts):
		return op.refuse("this field is no list")
	}
	if op.verb != insertEntry {
		return nil
	}
	if (row.Kind == Texts) != (op.value.kind == Text) || op.value.empty() {
		return op.refuse("the entry does not have the fields of this list")
	}
	for _, key := range op.value.keys {
		if _, ok := FieldAt(kind, row.Path+"."+key); !ok {
			return op.refuse("an entry has no field " + key)
		}
	}
	return nil
}

// numberPart is the value of a part of a path that is only digits, else 0.
func numberPart(s string) int {
	n, err := strconv.Atoi(s)
	if err != nil || n < 1 {
		return 0
	}
	return n
}

// editOne makes one op and proves it. root is what src was read as, nil when it
// was not yet; that of the result comes back.
func editOne(kind FileKind, src []byte, root *yaml.Node, op Op) ([]byte, *yaml.Node, error) {
	if len(src) > MaxFile {
		return nil, nil, op.refuse("the file is too large")
	}
	if root == nil {
		var err error
		if root, err = read(src); err != nil {
			return nil, nil, op.refuse("the file cannot be read; blotter check says why")
		}
	}
	want, err := treeOf(root)
	if err != nil {
		return nil, nil, op.refuse(err.Error())
	}
	if want == nil {
		want = &tree{kind: Group}
	}
	if op.verb == insertEntry {
		op.value.order(kind, withoutNumbers(op.path))
	}
	if err := want.apply(op); err != nil {
		return nil, nil, op.refuse(err.Error())
	}
	s := newSplicer(kind, src, root)
	out, err := s.do(op)
	if err != nil {
		return nil, nil, op.refuse(err.Error())
	}
	after, err := read(out)
	if err == nil {
		var got *tree
		if got, err = treeOf(after); err == nil && !got.equal(want) {
			err = fmt.Errorf("other words would change")
		}
	}
	if err != nil {
		return nil, nil, op.refuse("the file is written in a way that this command does not know how to change")
	}
	return out, after, nil
}
