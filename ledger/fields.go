package ledger

import (
	"strings"
	"sync"
)

// Kind is the shape of a field's value.
type Kind uint8

const (
	Text    Kind = iota // words: one YAML scalar
	Texts               // a list of words
	Group               // a mapping of further fields
	Entries             // a list of such mappings
	Pairs               // a mapping of free keys to words
)

func (k Kind) String() string {
	return [...]string{"words", "list of words", "group", "list of entries", "pairs"}[k]
}

// Need is how much a field is wanted.
type Need uint8

const (
	Optional    Need = iota
	Recommended      // wanted where the label or the sheet has it
	WhenFull         // required when entry is full; its words for none will do
	Required         // a file, or an entry of its list, without it is an error
)

func (n Need) String() string {
	return [...]string{"optional", "recommended", "when full", "required"}[n]
}

// Field is one row of the field table, which alone drives decoding, the
// schema, the tables of FORMAT.md, editing and the help of `new`.
type Field struct {
	Path       string   // dotted, without list numbers: determinations.by
	Kind       Kind     //
	Need       Need     // Required and Recommended count within the entry that holds the field
	Unit       string   // what a bare figure means or must be followed by; "" for none
	DwC        string   // Darwin Core term its reading is exported under; "" for none
	Example    string   // words that may stand there; "" for groups and entries
	Meaning    string   // one sentence for people
	Enum       []string // the words allowed (or, with Open, the usual ones); nil: any words
	Open       bool     // other words than Enum may stand: a warning, not an error
	Shape      string   // regular expression the whole value matches; "" for any
	ShapeWords string   // Shape in plain words
	AppendOnly bool     // entries once shared are neither altered nor removed
	Withheld   bool     // a place, or leads to one: never repeated in messages
}

// Key is the last part of the field's path: its name in the file.
func (f Field) Key() string { return f.Path[strings.LastIndexByte(f.Path, '.')+1:] }

// FileKind is one kind of file of a ledger that has a field table.
type FileKind uint8

const (
	RecordKind FileKind = iota
	MuseumKind
	PeopleKind
	NamesKind
	PlacesKind
	PublicKind
	WorkFileKind
	MappingKind // a mapping for import; it lies outside the ledger
)

func (k FileKind) String() string {
	return [...]string{"record", "museum", "people", "names", "places", "public", "work", "mapping"}[k]
}

// KindOf is the kind of the file at path, which is relative to the ledger's
// root; false for a file that has no field table.
func KindOf(path string) (FileKind, bool) {
	switch {
	case path == MuseumFile:
		return MuseumKind, true
	case path == PeopleFile:
		return PeopleKind, true
	case path == PlacesFile:
		return PlacesKind, true
	case path == PublicFile:
		return PublicKind, true
	case strings.HasPrefix(path, NamesDir+"/") && strings.HasSuffix(path, ".yaml"):
		return NamesKind, true
	}
	if _, ok := WorkNumberOfPath(path); ok {
		return WorkFileKind, true
	}
	_, ok := NumberOfPath(path)
	return RecordKind, ok
}

// Fields is the field table of a record, in the order of the canonical form.
func Fields() []Field { return FieldsOf(RecordKind) }

// FieldsOf is the field table of one kind of file. The caller may not change it.
func FieldsOf(k FileKind) []Field {
	switch k {
	case MuseumKind:
		return museumFields
	case PeopleKind:
		return peopleFields
	case NamesKind:
		return namesFields
	case PlacesKind:
		return placesFields
	case PublicKind:
		return publicFields
	case WorkFileKind:
		return workFields
	case MappingKind:
		return mappingFields
	}
	return recordFields
}

var fieldIndex = sync.OnceValue(func() (m [MappingKind + 1]map[string]int) {
	for k := range m {
		m[k] = map[string]int{}
		for i, f := range FieldsOf(FileKind(k)) {
			m[k][f.Path] = i
		}
	}
	return m
})

// FieldAt finds the row of a dotted path; numbers of entries in it are passed
// over, so determinations.2.by finds determinations.by.
func FieldAt(k FileKind, path string) (Field, bool) {
	i, ok := fieldIndex()[k][withoutNumbers(path)]
	if !ok {
		return Field{}, false
	}
	return FieldsOf(k)[i], true
}

// withoutNumbers drops the parts of a dotted path that are only digits.
func withoutNumbers(path string) string {
	if !strings.ContainsAny(path, "0123456789") {
		return path
	}
	parts := strings.Split(path, ".")
	kept := parts[:0]
	for _, p := range parts {
		if strings.Trim(p, "0123456789") != "" {
			kept = append(kept, p)
		}
	}
	return strings.Join(kept, ".")
}
