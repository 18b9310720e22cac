package exchange

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"iter"
	"strings"

	"golang.org/x/text/transform"

	"blotter/ledger"
)

// Text is a table saved as text: cells parted by commas, semicolons, tabs or
// bars. It is read row by row, each time anew; what is held is one row.
type Text struct {
	Charset string    // in which it is read
	Sample  [5]string // words with letters beyond ASCII, when the encoding was guessed

	headed
	open  func() (io.ReadCloser, error)
	look  *look
	plain bool // quote marks are part of the text
}

// OpenText looks a table through once: how it is written, its headings and
// its checksum. open gives its bytes from the first; m is its mapping, or nil.
// An error says at which line it is no table, and what to do.
func OpenText(name string, open func() (io.ReadCloser, error), m *ledger.Mapping) (*Text, error) {
	if m == nil {
		m = &ledger.Mapping{}
	}
	t := &Text{headed: headed{name: name, head: lineOf(m.HeadLine)}, open: open}
	t.lines = t.read
	f, err := open()
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if t.look, err = lookAt(f, wantedComma(m)); err != nil {
		return nil, t.fault(err)
	}
	if t.look.long > 0 {
		return nil, t.fault(fmt.Errorf("line %d is longer than %d bytes: it is no table", t.look.long, maxRow))
	}
	if t.Charset, err = t.look.charset(m.Encoding.Text); err != nil {
		return nil, t.fault(err)
	}
	if t.Charset == "windows-1252" && !m.Encoding.Set() {
		t.Sample = t.look.sample
	}
	if t.plain, err = t.look.plain(m.Quotes.Text); err != nil {
		return nil, t.fault(err)
	}
	if err := t.readHeads(); err != nil {
		return nil, err
	}
	return t, nil
}

func wantedComma(m *ledger.Mapping) byte {
	switch {
	case len(m.Separator.Text) == 1:
		return m.Separator.Text[0]
	case m.Separator.Text == "tab":
		return '\t'
	}
	return 0
}

// plain settles whether quote marks enclose cells. A tab separated table has
// them as text as soon as one of them encloses nothing; another table must
// close what it opens, or its mapping says quotes: no.
func (l *look) plain(wanted string) (bool, error) {
	switch {
	case wanted == "no":
		return true, nil
	case !l.odd.is() && !l.open.is():
		return l.comma == '\t' && !l.quoted, nil
	case l.comma == '\t' && wanted == "":
		return true, nil
	}
	const remedy = "; close it, or, if quote marks are part of the text, write `quotes: \"no\"` into the mapping"
	if l.odd.is() {
		return false, fmt.Errorf("%s: a quote mark that neither opens nor closes a cell, or words after a closed one%s", l.odd, remedy)
	}
	return false, fmt.Errorf("%s: a quote mark opens a cell and is never closed, or not within %d bytes%s", l.open, maxRow, remedy)
}

// SHA256 is the checksum of the file, hexadecimal.
func (t *Text) SHA256() string { return t.look.sum }

// read gives all rows of the file with the line on which each begins.
func (t *Text) read() iter.Seq2[Row, error] {
	return func(yield func(Row, error) bool) {
		f, err := t.open()
		if err != nil {
			yield(Row{}, err)
			return
		}
		defer f.Close()
		r := decoded(t.look.narrow(f), t.Charset)
		if t.look.macEnd {
			r = transform.NewReader(r, returnsToLines{})
		}
		next := t.quotedRows(r)
		if t.plain {
			next = t.plainRows(r)
		}
		for {
			row, err := next()
			if errors.Is(err, io.EOF) {
				return
			}
			if t.look.sep && row.Line == 1 && err == nil {
				continue
			}
			for i, c := range row.Cells {
				if t.Charset == "mixed" {
					c = fromWindows(c)
				}
				row.Cells[i] = c
			}
			if !yield(row, err) || err != nil {
				return
			}
		}
	}
}

// quotedRows reads rows whose cells may stand in quote marks.
func (t *Text) quotedRows(f io.Reader) func() (Row, error) {
	bound := &bounded{from: f, left: maxRow}
	r := csv.NewReader(bound)
	r.Comma, r.FieldsPerRecord, r.LazyQuotes = rune(t.look.comma), -1, false
	last, before := 0, int64(0)
	long := func() error {
		return fmt.Errorf("the row after line %d is longer than %d bytes: it is no table, or lacks a quote mark", last, maxRow)
	}
	return func() (Row, error) {
		bound.left = maxRow
		cells, err := r.Read()
		if bound.full {
			return Row{Line: last + 1}, long()
		}
		var parse *csv.ParseError
		if errors.As(err, &parse) {
			return Row{Line: parse.StartLine}, fmt.Errorf("line %d, column %d: %w; if quote marks are part of the text, write `quotes: \"no\"` into the mapping", parse.Line, parse.Column, parse.Err)
		}
		if err != nil {
			return Row{}, err
		}
		size := r.InputOffset() - before
		if before += size; size > maxRow {
			return Row{Line: last + 1}, long()
		}
		line, _ := r.FieldPos(0)
		end, _ := r.FieldPos(len(cells) - 1)
		last = end + strings.Count(cells[len(cells)-1], "\n")
		return Row{Line: line, Cells: cells}, nil
	}
}

// plainRows reads lines that are parted at every separator.
func (t *Text) plainRows(f io.Reader) func() (Row, error) {
	b := bufio.NewReaderSize(f, headOf)
	line := 0
	var long []byte
	return func() (Row, error) {
		for {
			line++
			long = long[:0]
			var err error
			for {
				var part []byte
				part, err = b.ReadSlice('\n')
				long = append(long, part...)
				if len(long) > maxRow {
					return Row{Line: line}, fmt.Errorf("line %d is longer than %d bytes: it is no table", line, maxRow)
				}
				if !errors.Is(err, bufio.ErrBufferFull) {
					break
				}
			}
			if err != nil && (!errors.Is(err, io.EOF) || len(long) == 0) {
				return Row{Line: line}, err
			}
			text := string(bytes.TrimRight(long, "\r\n"))
			if text == "" {
				continue
			}
			return Row{Line: line, Cells: strings.Split(text, string(rune(t.look.comma)))}, nil
		}
	}
}

// bounded stops a reader that asks for too much before left is set anew.
type bounded struct {
	from io.Reader
	left int
	full bool
}

func (b *bounded) Read(p []byte) (int, error) {
	if b.left <= 0 {
		b.full = true
		return 0, errors.New("too long")
	}
	n, err := b.from.Read(p[:min(len(p), b.left)])
	b.left -= n
	return n, err
}

// returnsToLines turns CR into LF.
type returnsToLines struct{ transform.NopResetter }

func (returnsToLines) Transform(dst, src []byte, atEOF bool) (nDst, nSrc int, err error) {
	n := min(len(dst), len(src))
	for i, c := range src[:n] {
		if c == '\r' {
			c = '\n'
		}
		dst[i] = c
	}
	if n < len(src) {
		err = transform.ErrShortDst
	}
	return n, n, err
}
