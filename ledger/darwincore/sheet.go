package darwincore

import (
	"time"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/public"
	"blotter/ledger/reading"
)

// Dataset is what all sheets of one export share.
type Dataset struct {
	Museum   *book.Museum   // as it may go out
	Revision string         // the id that may be cited: of a commit, whole; "": none may
	Date     time.Time      // of the revision that the export is made from
	Zone     *time.Location // the museum's; nil: UTC
	Partner  string         // for whom it is made, everything in it; "": everybody

	ids   idMaker
	pack  string // packageID
	words *wordCache
}

// Sheet is one specimen on its way out.
type Sheet struct {
	*Dataset
	Number   ledger.Number
	Record   *ledger.Record    // as it may go out
	Reading  *reading.Reading  // of Record
	Withheld *public.Withheld  // why something is not in Record; nil: all of it is
	Modified time.Time         // when the record was last changed; zero: not known
	Has      func(string) bool // whether the ledger has a file, such as a picture; nil: unknown

	current *identified // the current name, once asked for
}

// Space is the namespace of a term.
type Space string

// The namespaces of the terms that are exported.
const (
	DwC     Space = "http://rs.tdwg.org/dwc/terms/"
	DC      Space = "http://purl.org/dc/elements/1.1/"
	DCTerms Space = "http://purl.org/dc/terms/"
)

// Row is one row of a kind: the sheet, and which of its entries.
type Row struct {
	*Sheet
	At int // place in the list that the kind's rows come from, from 0
}

// Term is one column of a kind of row.
type Term struct {
	Name  string           // eventDate
	Space Space            // its namespace
	From  string           // where the value comes from, for TERMS.md
	Value func(Row) string // "": nothing to say
}

// IRI is the whole name of the term.
func (t *Term) IRI() string { return string(t.Space) + t.Name }

// Kind is one kind of row: the core of an archive or one of its extensions.
type Kind struct {
	Name  string // Identification
	Noun  string // for a row, in words: name given
	Type  string // IRI of the class of a row
	File  string // in the archive
	Terms []Term
	Says  string // what one row is, for TERMS.md
	// Rows is how many rows a sheet has, numbered from 0 for Row.At.
	Rows func(*Sheet) int
}

// Kinds are all kinds of row: the core first, then the extensions in the order
// in which they stand in an archive.
func Kinds() []*Kind {
	return []*Kind{&Occurrence, &Identification, &Multimedia, &ResourceRelationship, &MeasurementOrFact}
}

// Cells are the values of one row, in the order of Terms, appended to cells.
func (k *Kind) Cells(cells []string, r Row) []string {
	for i := range k.Terms {
		cells = append(cells, k.Terms[i].Value(r))
	}
	return cells
}
