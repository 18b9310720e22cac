// Package exchange brings tables into a ledger and takes it out again. It
// turns rows into records and says what it could not place; it writes no file
// of the ledger, asks nobody and prints nothing.
package exchange

import (
	"bytes"
	"io"
)

// Table is a small table held as a whole.
type Table struct {
	Name    string // file name without folders
	SHA256  string // of the bytes, hexadecimal
	Heads   []string
	Rows    []Row
	Charset string // as found
}

// Row is one row with the line it begins on.
type Row struct {
	Line  int
	Cells []string // as many as there are headings
	Short int      // how many of them the row lacks: they are taken for blank
	Extra []string // cells beyond the headings
	Notes []Note   // what is odd about its cells
}

// maxRow bounds one row, in bytes: a lost quote mark would otherwise swallow
// the rest. A record of a megabyte could not be entered.
const maxRow = 1 << 20

// ReadTable reads a whole table. Bytes that are not UTF-8 are read as
// Windows-1252 and Charset says so. Errors name the line.
func ReadTable(name string, content []byte) (*Table, error) {
	open := func() (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(content)), nil }
	x, err := OpenText(name, open, nil)
	if err != nil {
		return nil, err
	}
	t := &Table{Name: name, SHA256: x.SHA256(), Heads: x.heads, Charset: x.Charset}
	for row, err := range x.Rows() {
		if err != nil {
			return nil, err
		}
		t.Rows = append(t.Rows, row)
	}
	return t, nil
}

func (r Row) empty() bool {
	for _, c := range r.Cells {
		if c != "" {
			return false
		}
	}
	return len(r.Extra) == 0
}
