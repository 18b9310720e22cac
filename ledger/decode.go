package ledger

import (
	"bytes"
	"fmt"
	"path"
	"reflect"
	"strings"

	"gopkg.in/yaml.v3"
)

// DecodeVersion is raised whenever Decode or one of its kin gives another
// record or other findings for the same bytes, or MarshalBinary another form:
// what a cache kept from before is then made anew.
const DecodeVersion = 8

// Decode reads one record. The record is never nil: what cannot be read is
// left out of it and stands among the findings, each with its line and column.
// The path, relative to the ledger, must agree with the number; an empty path
// is not compared. Decode keeps no part of src.
func Decode(path string, src []byte) (*Record, []Finding) {
	r := &Record{Path: path}
	d := decodeInto(RecordKind, path, src, reflect.ValueOf(r).Elem())
	d.numberLaws(r)
	return r, d.findings(bytes.Contains(src, []byte("sensitive:")))
}

// DecodeMuseum reads blotter.yaml as Decode reads a record.
func DecodeMuseum(path string, src []byte) (*Museum, []Finding) {
	m := &Museum{}
	d := decodeInto(MuseumKind, path, src, reflect.ValueOf(m).Elem())
	if f := m.Format; f.Set() && f.Text != FormatVersion {
		d.add("format-version", int(f.Line), int(f.Col), "format", "this ledger has format version "+f.Text+"; this program knows version "+FormatVersion,
			"Use a program that knows version "+f.Text+", or if it is a slip: format: \""+FormatVersion+"\"")
	}
	return m, d.findings(false)
}

// DecodePeople reads people.yaml as Decode reads a record.
func DecodePeople(path string, src []byte) (*People, []Finding) {
	p := &People{}
	d := decodeInto(PeopleKind, path, src, reflect.ValueOf(p).Elem())
	return p, d.findings(false)
}

// DecodeNames reads one file of names/ as Decode reads a record.
func DecodeNames(p string, src []byte) (*FamilyNames, []Finding) {
	n := &FamilyNames{Path: p}
	d := decodeInto(NamesKind, p, src, reflect.ValueOf(n).Elem())
	if base := strings.TrimSuffix(path.Base(p), ".yaml"); p != "" && n.Family.Set() && n.Family.Text != base {
		d.add("family-file", int(n.Family.Line), int(n.Family.Col), "family", "the file is named "+ShownPath(base+".yaml")+", and the family in it is another one", "If the file's name is right: family: "+quote(base, blockPlace)+"   If not, name the file "+n.Family.Text+".yaml")
	}
	return n, d.findings(false)
}

// DecodePlaces reads places.yaml as Decode reads a record.
func DecodePlaces(path string, src []byte) (*Places, []Finding) {
	p := &Places{}
	d := decodeInto(PlacesKind, path, src, reflect.ValueOf(p).Elem())
	return p, d.findings(true)
}

// DecodePublic reads public.yaml as Decode reads a record. It is about withheld
// places, so no hint repeats its words.
func DecodePublic(path string, src []byte) (*Public, []Finding) {
	p := &Public{}
	d := decodeInto(PublicKind, path, src, reflect.ValueOf(p).Elem())
	return p, d.findings(true)
}

// DecodeMapping reads a mapping for import as Decode reads a record.
func DecodeMapping(path string, src []byte) (*Mapping, []Finding) {
	m := &Mapping{}
	d := decodeInto(MappingKind, path, src, reflect.ValueOf(m).Elem())
	return m, d.findings(false)
}

// CheckFile gives the structural findings of any file of the ledger that has
// a field table; none for other files.
func CheckFile(path string, src []byte) []Finding {
	if _, ok := KindOf(path); !ok {
		return nil
	}
	_, fs := DecodeDocument(path, src)
	return fs
}

// decoder collects the findings of one file.
type decoder struct {
	kind    FileKind
	path    string
	src     []byte
	lines   *lines // made when first needed
	hash    bool   // see scan
	found   []Finding
	at      []step // the way from the root to the node at hand
	deep    bool   // said already that the nesting is too deep
	badUTF8 int
	tabLine int // of the first tab that may indent; 0 for none
	tabCol  int
}

// step is one key or, with key "", one entry of a list (from 1).
type step struct {
	key   string
	entry int
	flow  bool // the list is in brackets
}

func decodeInto(kind FileKind, path string, src []byte, v reflect.Value) *decoder {
	d := &decoder{kind: kind, path: path, src: src}
	if len(src) > MaxFile {
		d.add("file-large", 1, 1, "", fmt.Sprintf("the file has more than %d bytes, the most that a file of the ledger may have", MaxFile), "Pictures and long texts belong into files of their own")
		return d
	}
	s := scanBytes(d, src)
	d.hash = s.hash
	if len(s.left) > 0 {
		d.undecided(s.left)
	}
	if s.fatal || tooDeep(src) && d.tooDeepAt(1, 1) {
		return d
	}
	root, err := read(src)
	switch {
	case err != nil:
		d.explain(err)
		return d
	case root == nil:
		d.add("file-empty", 1, 1, "", "there is nothing in the file", "Take the file away, or write a record: "+firstLines(kind))
		return d
	}
	d.group(root, plans()[kind], v)
	return d
}

func firstLines(k FileKind) string {
	switch k {
	case MuseumKind:
		return `format: "1"`
	case RecordKind:
		return "specimen: LK7-0000482"
	}
	return FieldsOf(k)[0].Path + ":"
}

// read gives the nodes of a file: nil when there is nothing in it.
func read(src []byte) (*yaml.Node, error) {
	if root := readCanonical(src); root != nil {
		return root, nil
	}
	return parse(src)
}

// parse reads YAML into nodes; nil for a file without content. The YAML
// library's panics on hostile input become errors.
func parse(src []byte) (root *yaml.Node, err error) {
	defer func() {
		if p := recover(); p != nil {
			root, err = nil, fmt.Errorf("yaml: %v", p)
		}
	}()
	var doc yaml.Node
	if err := yaml.Unmarshal(src, &doc); err != nil {
		return nil, err
	}
	if len(doc.Content) == 0 || doc.Content[0].Kind == yaml.ScalarNode && doc.Content[0].Value == "" && doc.Content[0].Style == 0 {
		return nil, nil
	}
	return doc.Content[0], nil
}

// maxFindings is how many findings of one file are listed.
const maxFindings = 100

// full reports whether a file has so many faults that no more are listed.
func (d *decoder) full() bool { return len(d.found) > maxFindings }

// add puts a finding down. Line and col count from 1.
func (d *decoder) add(code string, line, col int, field, message, hint string) {
	if d.full() {
		return
	}
	if len(d.found) == maxFindings {
		code, field = "file-faults", ""
		message, hint = fmt.Sprintf("there are more faults in this file than the %d listed", maxFindings), "Mend the first ones and check again"
	}
	d.found = append(d.found, Finding{Path: d.path, Line: line, Col: col, Severity: severityOf(code), Code: code, Field: field, Message: message, Hint: hint})
}

// field is the dotted path of the node at hand, entries counted from 1.
func (d *decoder) field() string {
	var b strings.Builder
	for i, s := range d.at {
		if i > 0 {
			b.WriteByte('.')
		}
		if s.key == "" {
			fmt.Fprint(&b, s.entry)
		} else {
			b.WriteString(s.key)
		}
	}
	return b.String()
}

// findings are the findings in order. If the file says that a place is
// withheld, no hint repeats the words of a field that could give it away:
// messages travel.
func (d *decoder) findings(sensitive bool) []Finding {
	if sensitive {
		for i, f := range d.found {
			row, ok := FieldAt(d.kind, f.Field)
			if f.Hint != "" && (!ok || row.Withheld) {
				d.found[i].Hint = "Mend the line in the file; its words are not repeated here because the place is withheld"
			}
		}
	}
	SortFindings(d.found)
	return d.found
}

// numberLaws compares a record's number with its file and folder.
func (d *decoder) numberLaws(r *Record) {
	n, ok := NumberOfPath(d.path)
	if !ok || !r.Specimen.Set() {
		return
	}
	l := r.Specimen
	if Number(l.Text) != n {
		d.add("number-file", int(l.Line), int(l.Col), "specimen", "the file is named "+ShownPath(string(n)+".yaml")+", and the number in it is another one",
			"If the file's name is right: specimen: "+quote(string(n), blockPlace)+"   If the number is right, the file is "+Number(l.Text).Path())
		return
	}
	if want := n.Path(); n.Valid() && want != d.path {
		d.add("number-folder", int(l.Line), int(l.Col), "specimen", "the file lies in "+path.Dir(d.path)+", the folder of its number is "+path.Dir(want),
			"blotter tidy moves it")
	}
}
