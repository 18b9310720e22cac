package exchange

import (
	"slices"
	"strconv"

	"blotter/ledger"
)

// Made is one record made from one row of a table, one occurrence of an
// archive, one picture: whatever an import brings. Every kind of input gives a
// stream of them, in the order of the input and the same each time it is
// asked, since an import is rehearsed first and entered after.
type Made struct {
	File   string // the file it came from, without folders
	SHA256 string // of that file, hexadecimal
	Line   int    // of its row in the file; 0: the file has none
	Key    string // what the row is known by in a later version of the file; ""
	List   string // what the versions of a file have in common; "": the file's name

	// Record has the words of the row. Where specimen is empty it gets the
	// ledger's next free number. nil: no record can be made.
	Record *ledger.Record
	Why    string // why no record can be made
	Notes  []Note // what is odd about the row and stops nothing
}

// Note is something odd about a row that stops nothing. A rehearsal counts
// notes by Kind and shows the Words of the first.
type Note struct {
	Kind  string // a sentence that is the same for all of the kind
	Words string // what this one is about, or ""
}

// Refused is a row from which no record could be made.
type Refused struct {
	Line int
	Why  string
}

// The names under import: that say where a record comes from.
const (
	ImportFile   = "file"
	ImportSHA256 = "sha256"
	ImportLine   = "line"
	ImportKey    = "key"
	ImportList   = "list"
)

// Provenance reports whether a name under import: says where a record comes
// from; a column of that name without a field is kept as "file (column)".
func Provenance(name string) bool { return slices.Contains(provenance, name) }

var provenance = []string{ImportFile, ImportSHA256, ImportLine, ImportKey, ImportList}

// rank is the place of a name under import:, where provenance comes first.
func rank(name string) int {
	if i := slices.Index(provenance, name); i >= 0 {
		return i
	}
	return len(provenance)
}

// Stamp writes where the record comes from before the other words under
// import:. A record that brings file and sha256 of its own, as one from a table
// that Blotter wrote, keeps them.
func (m *Made) Stamp() {
	has := func(name string) bool {
		return slices.ContainsFunc(m.Record.Import, func(p ledger.Pair) bool { return p.Key == name })
	}
	if has(ImportFile) && has(ImportSHA256) {
		slices.SortStableFunc(m.Record.Import, func(a, b ledger.Pair) int { return rank(a.Key) - rank(b.Key) })
		return
	}
	var stamp []ledger.Pair
	put := func(name, words string) {
		if words != "" {
			stamp = append(stamp, ledger.Pair{Key: name, Value: leaf(words)})
		}
	}
	put(ImportFile, m.File)
	put(ImportSHA256, m.SHA256)
	if m.Line > 0 {
		put(ImportLine, strconv.Itoa(m.Line))
	}
	put(ImportKey, m.Key)
	if m.List != m.File {
		put(ImportList, m.List)
	}
	for i, p := range m.Record.Import {
		if Provenance(p.Key) {
			m.Record.Import[i].Key = p.Key + " (column)"
		}
	}
	m.Record.Import = append(stamp, m.Record.Import...)
}
