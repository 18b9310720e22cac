package workbook

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

// rowReader reads the rows of one sheet.
type rowReader struct {
	x        *xmlReader
	book     *xlsx // of an XLSX
	row      Row
	bytes    int       // of the row's words
	col      int       // of the last cell
	line     int       // of the row
	lastLine int       // of an ODS: the last that a repeated row stands for
	down     []merge   // ranges over several rows, by their first row
	above    []overRow // those that reach into the row that is read
}

// merge is a merged range of cells, of which the first holds the words.
type merge struct{ column, first, last int }

// overRow is the words of a merged range, for the rows below its first.
type overRow struct {
	merge
	words string
}

func (b *Book) rowsXLSX(sheet int, yield func(Row, error) bool) error {
	part := b.Sheets[sheet].part
	down, err := b.merges(part)
	if err != nil {
		return err
	}
	x, c, err := b.part(part)
	if err != nil {
		return err
	}
	defer c.Close()
	r := &rowReader{x: x, book: b.xlsx, down: down}
	for {
		kind, err := x.next()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
		if kind != xmlStart || string(x.name) != "row" {
			continue
		}
		if err := r.readRow(); err != nil {
			return err
		}
		if len(r.row.Cells) > 0 && !yield(r.row, nil) {
			return errStopped
		}
	}
}

// readRow reads the row that has just begun.
func (r *rowReader) readRow() error {
	line := r.line + 1
	if number := r.x.attr("r"); number != nil {
		n, err := strconv.Atoi(string(number))
		if err != nil || n < line || n > MaxRows {
			return fmt.Errorf("row %.20q after row %d: rows must follow one another, up to %d", number, r.line, MaxRows)
		}
		line = n
	}
	if line > MaxRows {
		return fmt.Errorf("more than %d rows", MaxRows)
	}
	hidden := string(r.x.attr("hidden"))
	r.begin(line, hidden == "1" || hidden == "true")
	for {
		kind, err := r.x.next()
		if err != nil {
			return r.x.broken(err)
		}
		if kind == xmlEnd && string(r.x.name) == "row" {
			break
		}
		if kind == xmlStart && string(r.x.name) == "c" {
			if err := r.readCell(); err != nil {
				return err
			}
		}
	}
	r.end()
	if r.bytes > maxRow {
		return fmt.Errorf("row %d: more than %d bytes", line, maxRow)
	}
	return nil
}

// begin begins a row.
func (r *rowReader) begin(line int, hidden bool) {
	r.line, r.col, r.bytes = line, -1, 0
	r.row = Row{Line: line, Hidden: hidden, Cells: make([]string, 0, cap(r.row.Cells))}
}

// end fills in what merged cells say, and takes blank cells off the end.
func (r *rowReader) end() {
	r.fillMerged()
	n := len(r.row.Cells)
	for n > 0 && r.row.Cells[n-1] == "" {
		n--
	}
	r.row.Cells = r.row.Cells[:n]
}

// readCell reads the cell that has just begun into its column.
func (r *rowReader) readCell() error {
	x := r.x
	col := r.col + 1
	if ref := x.attr("r"); ref != nil {
		c, row := columnOf(ref)
		if c < 0 || row != r.line && row != 0 {
			return fmt.Errorf("row %d: it has a cell %.20q", r.line, ref)
		}
		col = c
	}
	if col >= MaxColumns {
		return fmt.Errorf("row %d: more than %d columns", r.line, MaxColumns)
	}
	r.col = col
	kind, style := string(x.attr("t")), -1
	if v := x.attr("s"); v != nil {
		style, _ = strconv.Atoi(string(v))
	}
	var formula, words string
	var isFormula bool
	for {
		k, err := x.next()
		if err != nil {
			return x.broken(err)
		}
		if k == xmlEnd && string(x.name) == "c" {
			break
		}
		if k != xmlStart {
			continue
		}
		switch string(x.name) {
		case "f":
			isFormula = true
			formula, err = x.textOf()
		case "v":
			words, err = r.value(kind, style)
		case "is":
			words, err = x.richText()
		default:
			err = x.skip()
		}
		if err != nil {
			return err
		}
	}
	if isFormula {
		r.note(Formula, "the stored result of the formula "+shorten(formula))
	}
	r.put(col, words)
	return nil
}

// value reads a <v> that has just begun.
func (r *rowReader) value(kind string, style int) (string, error) {
	text, err := r.x.textOf()
	if err != nil {
		return "", err
	}
	switch kind {
	case "s":
		n, err := strconv.Atoi(strings.TrimSpace(text))
		if err != nil || n < 0 || n >= len(r.book.shared) {
			return "", fmt.Errorf("cell %s: shared words number %.20q, of %d", cellName(r.col, r.line), text, len(r.book.shared))
		}
		return r.book.shared[n], nil
	case "b":
		if t := strings.TrimSpace(text); t == "1" || t == "true" {
			return "TRUE", nil
		}
		return "FALSE", nil
	case "e":
		r.note(Fault, "an error of the spreadsheet, "+text)
		return text, nil
	case "str", "inlineStr":
		return unescapeUnits(text), nil
	case "d":
		return strings.TrimSuffix(strings.TrimSuffix(text, "Z"), "T00:00:00"), nil
	}
	if text == "" {
		return "", nil
	}
	words, odd := r.book.number([]byte(text), style)
	if odd != "" {
		r.note(Date, odd)
	}
	return words, nil
}

func (r *rowReader) note(kind NoteKind, words string) { r.noteAt(r.col, kind, words) }

// noteAt notes something of a cell of the row; of a row with more than a
// thousand notes the rest are left out.
func (r *rowReader) noteAt(col int, kind NoteKind, words string) {
	if len(r.row.Notes) < 1000 {
		r.row.Notes = append(r.row.Notes, Note{col, kind, cellName(col, r.line) + ": " + words})
	}
}

// put sets the words of a column; columns in between are blank.
func (r *rowReader) put(col int, words string) {
	if words == "" {
		return
	}
	for len(r.row.Cells) <= col {
		r.row.Cells = append(r.row.Cells, "")
	}
	r.row.Cells[col] = words
	r.bytes += len(words)
}

// shorten is a formula for a note.
func shorten(s string) string {
	if r := []rune(s); len(r) > 60 {
		return string(r[:60]) + "..."
	}
	return s
}

// fillMerged gives the words of a range over several rows to each of them, as
// its reader sees them.
func (r *rowReader) fillMerged() {
	r.above = slices.DeleteFunc(r.above, func(o overRow) bool { return o.last < r.line })
	for _, o := range r.above {
		if len(r.row.Cells) <= o.column || r.row.Cells[o.column] == "" {
			r.put(o.column, o.words)
			r.noteAt(o.column, Merged, "one cell with "+cellName(o.column, o.first)+", which holds the words")
		}
	}
	for len(r.down) > 0 && r.down[0].first <= r.line {
		m := r.down[0]
		r.down = r.down[1:]
		if m.first == r.line && m.column < len(r.row.Cells) && r.row.Cells[m.column] != "" {
			r.above = append(r.above, overRow{m, r.row.Cells[m.column]})
		}
	}
}

// merges are the ranges of a sheet that go over several rows. They stand behind
// the rows, so the part is looked through for them first.
func (b *Book) merges(part string) ([]merge, error) {
	in, err := b.member(part)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	var out []merge
	buf := make([]byte, 0, 1<<16)
	for {
		n, err := in.Read(buf[len(buf):cap(buf)])
		buf = buf[:len(buf)+n]
		out = mergesIn(out, buf, &buf)
		if err == io.EOF {
			slices.SortStableFunc(out, func(a, b merge) int { return a.first - b.first })
			return out, nil
		}
		if err != nil {
			return nil, err
		}
		if len(out) > MaxRows {
			return nil, fmt.Errorf("part %s: more than %d merged ranges", part, MaxRows)
		}
	}
}

var mergeMark = []byte("mergeCell ")

// mergesIn takes the <mergeCell ref="B3:B5"/> of a stretch of XML, and leaves in
// rest what may be the beginning of the next.
func mergesIn(out []merge, b []byte, rest *[]byte) []merge {
	for {
		i := bytes.Index(b, mergeMark)
		if i < 0 {
			b = b[max(0, len(b)-200):]
			break
		}
		end := bytes.IndexByte(b[i:], '>')
		if end < 0 && len(b)-i < 1<<12 {
			b = b[max(0, i-100):] // with the "<" and prefix before
			break
		}
		if before := b[max(0, i-100):i]; end > 0 && bytes.IndexByte(before, '<') >= 0 && !bytes.ContainsAny(before[bytes.LastIndexByte(before, '<')+1:], " >=\"'") {
			if m, ok := mergeOf(b[i : i+end]); ok {
				out = append(out, m)
			}
		}
		b = b[i+len(mergeMark):]
	}
	*rest = append((*rest)[:0], b...)
	return out
}

// mergeOf reads the range of a merge that goes over several rows.
func mergeOf(tag []byte) (merge, bool) {
	_, ref, ok := bytes.Cut(tag, []byte("ref="))
	if !ok || len(ref) < 2 {
		return merge{}, false
	}
	ref, _, _ = bytes.Cut(ref[1:], ref[:1])
	from, to, _ := bytes.Cut(ref, []byte(":"))
	c, first := columnOf(from)
	_, last := columnOf(to)
	return merge{c, first, last}, c >= 0 && first > 0 && last > first && last <= MaxRows
}
