package workbook

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"iter"
	"path"
	"slices"
	"strings"
)

// Bounds of what is read. Those of rows and columns are the ones of the
// programs themselves (1,048,576 and 16,384: ISO/IEC 29500 names no bound;
// common practice, no source).
const (
	MaxRows    = 1 << 20
	MaxColumns = 1 << 14
	MaxCell    = 1 << 20 // bytes of one cell
	maxRow     = 16 << 20
	maxMembers = 10000
	maxShared  = 1 << 29 // bytes of all shared words together
	freeBytes  = 64 << 20
	maxRatio   = 250 // bytes out for each byte in, beyond freeBytes
)

// Book is an open workbook.
type Book struct {
	Kind   string // xlsx or ods
	Sheets []Sheet

	size  int64
	files map[string]*zip.File
	xlsx  *xlsx
}

// Sheet is one sheet of a workbook.
type Sheet struct {
	Name   string
	Hidden bool
	part   string // of an XLSX: the member that holds its rows
}

// Row is one row that holds words.
type Row struct {
	Line   int      // its number in the sheet, from 1
	Cells  []string // from column A; blank cells are "", those after the last words are left out
	Hidden bool     // by hand or by a filter
	Notes  []Note
}

// NoteKind says what a note is about.
type NoteKind string

// Kinds of notes.
const (
	Formula NoteKind = "formula" // the words are the stored result of a formula
	Fault   NoteKind = "error"   // the words are an error of the spreadsheet, such as #N/A
	Merged  NoteKind = "merged"  // the words stand in the first cell of a merged range, some rows above
	Date    NoteKind = "date"    // a day that the calendar does not have, or before the system's first
)

// Note is something to know about a cell.
type Note struct {
	Column int // from 0
	Kind   NoteKind
	Words  string // the cell and what there is to say: "B7: the result of the formula A7*2"
}

var errPassword = errors.New("is locked with a password, or an XLS of before 2007: open it, save it as XLSX without a password")

// Open reads the table of contents of a workbook of size bytes.
func Open(r io.ReaderAt, size int64) (*Book, error) {
	var head [8]byte
	if _, err := r.ReadAt(head[:], 0); err == nil && bytes.Equal(head[:], []byte{0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1}) {
		return nil, errPassword // a compound file
	}
	z, err := zip.NewReader(r, size)
	if err != nil && !errors.Is(err, zip.ErrInsecurePath) {
		return nil, fmt.Errorf("read workbook: %w", err)
	}
	if len(z.File) > maxMembers {
		return nil, fmt.Errorf("read workbook: %d parts, more than %d", len(z.File), maxMembers)
	}
	b := &Book{size: size, files: make(map[string]*zip.File, len(z.File))}
	for _, f := range z.File {
		name := strings.ReplaceAll(f.Name, `\`, "/")
		if path.IsAbs(name) || slices.Contains(strings.Split(name, "/"), "..") {
			return nil, fmt.Errorf("read workbook: its part %q lies outside the file", f.Name)
		}
		if _, twice := b.files[name]; twice {
			return nil, fmt.Errorf("read workbook: it has two parts named %q", name)
		}
		b.files[name] = f
	}
	switch {
	case b.files["content.xml"] != nil:
		b.Kind = "ods"
		err = b.openODS()
	case b.files["[Content_Types].xml"] != nil:
		b.Kind = "xlsx"
		err = b.openXLSX()
	default:
		return nil, errors.New("read workbook: a zip file, but neither XLSX nor ODS")
	}
	if err != nil {
		return nil, fmt.Errorf("read workbook: %w", err)
	}
	if len(b.Sheets) == 0 {
		return nil, errors.New("read workbook: it has no sheet")
	}
	return b, nil
}

// Find is the place of the sheet of that name, whatever its case; -1 for none.
// The empty name is the first sheet that is not hidden.
func (b *Book) Find(name string) int {
	if name == "" {
		return max(0, slices.IndexFunc(b.Sheets, func(s Sheet) bool { return !s.Hidden }))
	}
	if i := slices.IndexFunc(b.Sheets, func(s Sheet) bool { return s.Name == name }); i >= 0 {
		return i
	}
	return slices.IndexFunc(b.Sheets, func(s Sheet) bool { return strings.EqualFold(s.Name, name) })
}

// Rows are the rows of a sheet that hold words, from the first to the last. An
// error ends them.
func (b *Book) Rows(sheet int) iter.Seq2[Row, error] {
	return func(yield func(Row, error) bool) {
		rows := b.rowsXLSX
		if b.Kind == "ods" {
			rows = b.rowsODS
		}
		left := freeBytes + maxRatio*b.size // words that cells share or repeat may not grow beyond measure either
		err := rows(sheet, func(r Row, _ error) bool {
			for _, c := range r.Cells {
				left -= int64(len(c)) + 1
			}
			if left < 0 {
				yield(Row{}, fmt.Errorf("read sheet %q: row %d: its words are more than %d times the size of the file", b.Sheets[sheet].Name, r.Line, maxRatio))
				return false
			}
			return yield(r, nil)
		})
		if err != nil && !errors.Is(err, errStopped) {
			yield(Row{}, fmt.Errorf("read sheet %q: %w", b.Sheets[sheet].Name, err))
		}
	}
}

// errStopped ends a reading whose reader wants no more.
var errStopped = errors.New("stopped")

// part opens a member for reading as XML, within bounds.
func (b *Book) part(name string) (*xmlReader, io.Closer, error) {
	m, err := b.member(name)
	if err != nil {
		return nil, nil, err
	}
	return newXMLReader(name, m), m, nil
}

// member opens a member for reading, within the bounds of its size.
func (b *Book) member(name string) (io.ReadCloser, error) {
	f := b.files[name]
	if f == nil {
		return nil, fmt.Errorf("it has no part %q", name)
	}
	if f.Flags&1 != 0 {
		return nil, errPassword
	}
	in, err := f.Open()
	if err != nil {
		return nil, fmt.Errorf("part %s: %w", name, err)
	}
	return &bounded{in: in, name: name, left: freeBytes + maxRatio*int64(min(f.CompressedSize64, 1<<40))}, nil
}

// bounded is a member that may not grow beyond measure.
type bounded struct {
	in   io.ReadCloser
	name string
	left int64
}

func (m *bounded) Read(p []byte) (int, error) {
	n, err := m.in.Read(p)
	if m.left -= int64(n); m.left < 0 {
		return 0, fmt.Errorf("part %s: unpacks to more than %d times its size", m.name, maxRatio)
	}
	if err != nil && err != io.EOF {
		err = fmt.Errorf("part %s: %w", m.name, err)
	}
	return n, err
}

func (m *bounded) Close() error { return m.in.Close() }

// ColumnName is the name of a column by its place from 0: A, Z, AA.
func ColumnName(i int) string {
	var b []byte
	for i++; i > 0; i = (i - 1) / 26 {
		b = append(b, byte('A'+(i-1)%26))
	}
	slices.Reverse(b)
	return string(b)
}

// columnOf is the place from 0 of the column that a reference such as AB12
// begins with, and its row from 1; -1 for none.
func columnOf(ref []byte) (column, row int) {
	i := 0
	for ; i < len(ref) && i < 4; i++ {
		c := ref[i] &^ 0x20
		if c < 'A' || c > 'Z' {
			break
		}
		column = column*26 + int(c-'A') + 1
	}
	for _, c := range ref[i:] {
		if c < '0' || c > '9' || row > MaxRows {
			return -1, 0
		}
		row = row*10 + int(c-'0')
	}
	return column - 1, row
}

// cellName is the name of a cell, such as B7.
func cellName(column, line int) string { return fmt.Sprintf("%s%d", ColumnName(column), line) }
