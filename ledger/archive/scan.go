package archive

import (
	"bytes"
	"errors"
	"io"
	"strings"
)

// signs part a text into rows and cells.
type signs struct {
	comma string // between cells
	quote string // around cells; "" for none
	ends  string // of lines; "\n" takes "\r\n" too, "\r" as well
	whole bool   // a quote mark counts only around a whole cell on one line
}

// scanner cuts a text into rows.
type scanner struct {
	signs
	from       io.Reader
	buf        []byte
	start, end int // what of buf is not read yet
	done       bool
	fault      error
	line       int  // of the next row, from 1
	blanks     bool // an empty line is a row without cells
	spans      []span
	text       string // of the row last read
	cells      []string
}

// span is a cell within a row; quoted ones have their quote marks off, doubled
// when quote marks inside are doubled.
type span struct {
	start, end int
	quoted     bool
	doubled    bool
}

// maxLine bounds one row, in bytes: a lost quote mark would otherwise swallow
// the rest of the file. A record is at most 1 MiB.
const maxLine = 4 << 20

// errLong and errOpen are faults of a row; the caller names its line.
var (
	errLong = errors.New("a row of more than 4 MiB; if it has an opening quote mark, it is not closed")
	errOpen = errors.New("a quote mark opens a cell and none closes it")
	errMany = errors.New("a row of more than 100,000 cells")
)

func newScanner(r io.Reader, s signs) *scanner {
	return &scanner{signs: s, from: r, buf: make([]byte, 64<<10), line: 1}
}

// next gives the cells of the next row that is not empty and its line; they
// are good until the next call. io.EOF ends the rows.
func (s *scanner) next() (cells []string, line int, err error) {
	for {
		data := s.buf[s.start:s.end]
		n, used, err := s.row(data)
		switch {
		case err != nil:
			return nil, s.line, err
		case used == 0 && s.done && s.fault != nil:
			return nil, s.line, s.fault
		case used == 0 && s.done:
			return nil, s.line, io.EOF
		case used == 0:
			if err := s.fill(); err != nil {
				return nil, s.line, err
			}
			continue
		}
		line = s.line
		s.start += used
		s.line += s.breaks(data[:used])
		if n == 0 && !s.blanks {
			continue
		}
		return s.take(data[:n], s.ends == "\n" && bytes.HasSuffix(data[:used], []byte("\r\n"))), line, nil
	}
}

// breaks counts the ends of lines.
func (s *scanner) breaks(data []byte) int { return bytes.Count(data, []byte(s.ends)) }

// fill reads more.
func (s *scanner) fill() error {
	if s.start > 0 {
		s.end = copy(s.buf, s.buf[s.start:s.end])
		s.start = 0
	}
	if s.end == len(s.buf) {
		if s.end >= maxLine {
			return errLong
		}
		s.buf = append(s.buf, make([]byte, len(s.buf))...)
	}
	n, err := io.ReadAtLeast(s.from, s.buf[s.end:], 1)
	s.end += n
	if err != nil {
		s.done = true
		if !errors.Is(err, io.EOF) {
			s.fault = err
		}
	}
	return nil
}

// row finds the spans of one row at the beginning of data: its length without
// its end and with it. used 0 asks for more data; at the end of the file it
// says that there is no more.
func (s *scanner) row(data []byte) (n, used int, err error) {
	s.spans = s.spans[:0]
	if len(data) == 0 {
		return 0, 0, nil
	}
	at := 0
	for {
		cell, next, over := s.cell(data, at)
		if over == more {
			if s.done && s.quote != "" && cell.quoted {
				return 0, 0, errOpen
			}
			return 0, 0, nil
		}
		s.spans = append(s.spans, cell)
		if len(s.spans) > maxCells {
			return 0, 0, errMany
		}
		if over == parted {
			at = next
			continue
		}
		if len(s.spans) == 1 && !cell.quoted && cell.start == cell.end {
			return 0, next, nil // an empty line
		}
		return next, next, nil
	}
}

// over is what comes after a cell.
type over int

const (
	more   over = iota // the data end before the cell does
	parted             // another cell
	ended              // the next row
)

// cell finds the cell that begins at at, and where the next one begins.
func (s *scanner) cell(data []byte, at int) (span, int, over) {
	if s.quote != "" && bytes.HasPrefix(data[at:], []byte(s.quote)) {
		if c, next, o, ok := s.quotedCell(data, at); ok {
			return c, next, o
		}
	}
	c := span{start: at}
	for i := at; ; i++ {
		step := s.find(data[i:])
		if step < 0 {
			break
		}
		i += step
		if next, o := s.after(data, i); o != more {
			c.end = i
			if o == ended {
				c.end = s.trim(data, at, i)
			}
			return c, next, o
		} else if next < 0 {
			return c, 0, more
		}
	}
	if !s.done {
		return c, 0, more
	}
	c.end = s.trim(data, at, len(data))
	return c, len(data), ended
}

// find is how far the next sign is that may end a cell; -1 for none.
func (s *scanner) find(data []byte) int {
	c, e := s.comma[0], s.ends[0]
	for i, b := range data {
		if b == c || b == e {
			return i
		}
	}
	return -1
}

// after says what stands at i: a sign between cells or the end of a line. A
// negative next with more says that the data end within a sign.
func (s *scanner) after(data []byte, i int) (next int, o over) {
	rest := data[i:]
	switch {
	case bytes.HasPrefix(rest, []byte(s.comma)):
		return i + len(s.comma), parted
	case bytes.HasPrefix(rest, []byte(s.ends)):
		next = i + len(s.ends)
		if s.ends == "\r" && next < len(data) && data[next] == '\n' {
			next++
		}
		return next, ended
	case !s.done && (strings.HasPrefix(s.comma, string(rest)) || strings.HasPrefix(s.ends, string(rest))):
		return -1, more
	}
	return 0, more
}

// trim leaves out the CR of a line that ends with CRLF where LF is declared.
func (s *scanner) trim(data []byte, start, end int) int {
	if s.ends == "\n" && end > start && data[end-1] == '\r' {
		return end - 1
	}
	return end
}

// quotedCell finds a cell between quote marks. A quote mark that no sign
// follows belongs to the cell. ok is false when the marks do not stand around
// the whole cell and that is asked for.
func (s *scanner) quotedCell(data []byte, at int) (c span, next int, o over, ok bool) {
	q := len(s.quote)
	c = span{start: at + q, quoted: true}
	limit := data
	if s.whole {
		if n := bytes.Index(data[at:], []byte(s.ends)); n >= 0 {
			limit = data[:at+n+len(s.ends)]
		} else if !s.done {
			return c, 0, more, true
		}
	}
	for i := at + q; ; {
		n := bytes.Index(limit[i:], []byte(s.quote))
		if n < 0 {
			return c, 0, more, !s.whole
		}
		i += n
		rest := limit[i+q:]
		if bytes.HasPrefix(rest, []byte(s.quote)) {
			c.doubled = true
			i += 2 * q
			continue
		}
		if next, o, found := s.close(data, i+q); found {
			c.end = i
			return c, next, o, true
		}
		if s.whole && len(rest) > 0 {
			return c, 0, more, false
		}
		i += q
		if i >= len(limit) {
			return c, 0, more, !s.whole
		}
	}
}

// close says what follows a closing quote mark: the end of the cell, or none.
func (s *scanner) close(data []byte, i int) (next int, o over, found bool) {
	if i == len(data) {
		if s.done {
			return i, ended, true
		}
		return 0, more, true
	}
	if s.ends == "\n" && data[i] == '\r' {
		if i+1 == len(data) {
			if s.done {
				return i + 1, ended, true
			}
			return 0, more, true
		}
		if data[i+1] == '\n' {
			return i + 2, ended, true
		}
	}
	next, o = s.after(data, i)
	return next, o, o != more || next < 0
}

// take makes strings of the spans. In a row that ends with CRLF lines within
// cells do so too; they get LF.
func (s *scanner) take(row []byte, crlf bool) []string {
	text := string(row)
	s.text = text
	s.cells = s.cells[:0]
	for _, c := range s.spans {
		words := text[c.start:c.end]
		if c.doubled {
			words = strings.ReplaceAll(words, s.quote+s.quote, s.quote)
		}
		if c.quoted && crlf && strings.Contains(words, "\r\n") {
			words = strings.ReplaceAll(words, "\r\n", "\n")
		}
		s.cells = append(s.cells, words)
	}
	return s.cells
}
