package exchange

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"iter"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/workbook"
)

// Workbook is one sheet of an XLSX or ODS file as a table. It is read row by
// row, each time anew.
type Workbook struct {
	Sheet  string   // the one that is read
	Others []string // the other ones

	headed
	sum string
}

// OpenWorkbook opens the sheet that the mapping names, or the first; m may be
// nil. r holds the file, size bytes.
func OpenWorkbook(name string, r io.ReaderAt, size int64, m *ledger.Mapping) (*Workbook, error) {
	if m == nil {
		m = &ledger.Mapping{}
	}
	w := &Workbook{headed: headed{name: name, head: lineOf(m.HeadLine)}}
	h := sha256.New()
	if _, err := io.Copy(h, io.NewSectionReader(r, 0, size)); err != nil {
		return nil, w.fault(err)
	}
	w.sum = hex.EncodeToString(h.Sum(nil))
	book, err := workbook.Open(r, size)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	at := book.Find(m.Sheet.Text)
	for i, s := range book.Sheets {
		if i == at {
			w.Sheet = s.Name
		} else {
			w.Others = append(w.Others, s.Name)
		}
	}
	if at < 0 {
		return nil, w.fault(fmt.Errorf("mapping line %d: the workbook has no sheet %q; it has %s", m.Sheet.Line, m.Sheet.Text, strings.Join(w.Others, ", ")))
	}
	w.lines = func() iter.Seq2[Row, error] { return bookRows(book, at) }
	if err := w.readHeads(); err != nil {
		return nil, err
	}
	return w, nil
}

// SHA256 is the checksum of the file, hexadecimal.
func (w *Workbook) SHA256() string { return w.sum }

// bookNotes are what a rehearsal says of notes, by kind.
var bookNotes = map[workbook.NoteKind]string{
	workbook.Formula: "results of formulas, taken as the sheet shows them",
	workbook.Fault:   "errors of the spreadsheet in place of words",
	workbook.Merged:  "merged cells: each of their rows takes the words",
	workbook.Date:    "dates that the calendar does not have",
}

func bookRows(book *workbook.Book, sheet int) iter.Seq2[Row, error] {
	return func(yield func(Row, error) bool) {
		for r, err := range book.Rows(sheet) {
			row := Row{Line: r.Line, Cells: slices.Clone(r.Cells)}
			if r.Hidden {
				row.Notes = append(row.Notes, Note{Kind: "rows that the sheet hides are taken too"})
			}
			for _, n := range r.Notes {
				row.Notes = append(row.Notes, Note{bookNotes[n.Kind], n.Words})
			}
			if !yield(row, err) || err != nil {
				return
			}
		}
	}
}
