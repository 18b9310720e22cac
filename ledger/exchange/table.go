// Package exchange brings tables into a ledger and takes it out again. It
// turns rows into records and says what it could not place; it writes no file
// of the ledger, asks nobody and prints nothing.
package exchange

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"iter"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
)

// Table is a spreadsheet saved as text.
type Table struct {
	Name    string // file name without folders
	SHA256  string // of the bytes, hexadecimal
	Heads   []string
	Rows    []Row
	Charset string // utf-8 or windows-1252, as found
}

// Row is one row with the line it begins on; the headings stand on line 1.
type Row struct {
	Line  int
	Cells []string // as many as there are headings
	Extra []string // cells beyond the headings
}

// Format is how a table is written.
type Format struct {
	Comma  rune // ',' ';' or tab
	Quoted bool // cells may be enclosed in quote marks
}

// maxRow bounds one record of a quoted file, in bytes: a lost quote mark would
// otherwise swallow the rest.
const maxRow = 1 << 20

// FormatOf guesses the format from the file's ending and first line: a tab
// there makes it tab separated and unquoted, a semicolon more frequent than
// the comma makes it semicolon separated.
func FormatOf(name string, content []byte) Format {
	first, _, _ := bytes.Cut(content, []byte("\n"))
	tabs, commas, semis := bytes.Count(first, []byte("\t")), bytes.Count(first, []byte(",")), bytes.Count(first, []byte(";"))
	switch {
	case strings.HasSuffix(strings.ToLower(name), ".tsv"), tabs > commas && tabs > semis:
		return Format{Comma: '\t'}
	case semis > commas:
		return Format{Comma: ';', Quoted: true}
	}
	return Format{Comma: ',', Quoted: true}
}

// ReadTable reads a table. Bytes that are not UTF-8 are read as Windows-1252
// and Charset says so. Errors name the line.
func ReadTable(name string, content []byte, f Format) (*Table, error) {
	t := &Table{Name: name, SHA256: sum(content), Charset: "utf-8"}
	content = bytes.TrimPrefix(content, []byte("\ufeff"))
	if !utf8.Valid(content) {
		decoded, err := charmap.Windows1252.NewDecoder().Bytes(content)
		if err != nil {
			return nil, fmt.Errorf("read %s: neither UTF-8 nor Windows-1252: %w", name, err)
		}
		content, t.Charset = decoded, "windows-1252"
	}
	if bytes.IndexByte(content, 0) >= 0 {
		return nil, fmt.Errorf("read %s: holds a zero byte; it is not a table saved as text", name)
	}
	var err error
	if f.Quoted {
		err = t.readQuoted(content, f.Comma)
	} else {
		t.readPlain(string(content), string(f.Comma))
	}
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", name, err)
	}
	if len(t.Heads) == 0 {
		return nil, fmt.Errorf("read %s: no headings in line 1", name)
	}
	if twice := firstTwice(t.Heads); twice != "" {
		return nil, fmt.Errorf("read %s: two columns have the heading %q; give one of them another", name, twice)
	}
	return t, nil
}

func (t *Table) readPlain(content, comma string) {
	line := 0
	for text := range strings.Lines(content) {
		line++
		text = strings.TrimRight(text, "\r\n")
		if text == "" {
			continue
		}
		t.add(line, strings.Split(text, comma))
	}
}

func (t *Table) readQuoted(content []byte, comma rune) error {
	r := csv.NewReader(bytes.NewReader(content))
	r.Comma, r.FieldsPerRecord, r.LazyQuotes = comma, -1, false
	before := int64(0)
	for {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return fmt.Errorf("%w; if quote marks are part of the text, write `quotes: \"no\"` into the mapping", err)
		}
		line, _ := r.FieldPos(0)
		if r.InputOffset()-before > maxRow {
			return fmt.Errorf("line %d: a row of more than a million bytes: a quote mark is not closed", line)
		}
		before = r.InputOffset()
		t.add(line, cells)
	}
}

// add takes the first row as headings and every other as data.
func (t *Table) add(line int, cells []string) {
	for i := range cells {
		cells[i] = strings.TrimSpace(cells[i])
	}
	if t.Heads == nil {
		t.Heads = cells
		for i, h := range cells {
			if h == "" {
				t.Heads[i] = fmt.Sprintf("column %d", i+1)
			}
		}
		return
	}
	row := Row{Line: line, Cells: make([]string, len(t.Heads))}
	copy(row.Cells, cells)
	if len(cells) > len(t.Heads) {
		row.Extra = cells[len(t.Heads):]
	}
	if !row.empty() {
		t.Rows = append(t.Rows, row)
	}
}

func (r Row) empty() bool {
	for _, c := range r.Cells {
		if c != "" {
			return false
		}
	}
	return len(r.Extra) == 0
}

// Column is the place of a heading; -1 when there is none of that name.
func (t *Table) Column(head string) int {
	for i, h := range t.Heads {
		if h == head {
			return i
		}
	}
	return -1
}

func firstTwice(list []string) string {
	seen := map[string]bool{}
	for _, s := range list {
		if seen[s] {
			return s
		}
		seen[s] = true
	}
	return ""
}

// Source gives the table as one to import.
func (t *Table) Source() Source { return held{t} }

type held struct{ t *Table }

func (h held) Name() string    { return h.t.Name }
func (h held) SHA256() string  { return h.t.SHA256 }
func (h held) Heads() []string { return h.t.Heads }

func (h held) Rows() iter.Seq2[Row, error] {
	return func(yield func(Row, error) bool) {
		for _, r := range h.t.Rows {
			if !yield(r, nil) {
				return
			}
		}
	}
}
