package archive

import (
	"errors"
	"io"
)

// Rows are the rows of a table or of one entity of an archive, one at a time.
type Rows struct {
	Heads []string // headings, or the IRIs of terms

	entity *Entity // nil for a table
	id     int
	next   func() (*lines, error) // the next file; io.EOF after the last
	now    *lines
	whole  io.Closer
	cells  []string
	raw    []string
}

// Read gives the next row: a cell for each heading, "" where the line is
// short, and the line on which it begins. The cells are good until the next
// Read. io.EOF ends them.
func (r *Rows) Read() (cells []string, line int, err error) {
	for {
		if r.now == nil {
			if r.now, err = r.next(); err != nil {
				return nil, 0, err
			}
		}
		r.raw, line, err = r.now.read()
		if err == nil {
			return r.arrange(), line, nil
		}
		if !errors.Is(err, io.EOF) {
			return nil, line, err
		}
		r.now.Close()
		r.now = nil
	}
}

// ID is the identifier of the row last read, of an archive that has one.
func (r *Rows) ID() string {
	if r.id < 0 || r.id >= len(r.raw) {
		return ""
	}
	return r.raw[r.id]
}

// arrange puts the cells of a line in the order of Heads.
func (r *Rows) arrange() []string {
	if cap(r.cells) < len(r.Heads) {
		r.cells = make([]string, len(r.Heads))
	}
	r.cells = r.cells[:len(r.Heads)]
	if r.entity == nil {
		clear(r.cells[copy(r.cells, r.raw):])
		return r.cells
	}
	for i, f := range r.entity.Fields {
		r.cells[i] = ""
		if f.Index >= 0 && f.Index < len(r.raw) {
			r.cells[i] = r.raw[f.Index]
		}
		if r.cells[i] == "" {
			r.cells[i] = f.Default
		}
	}
	return r.cells
}

// Close frees what is open.
func (r *Rows) Close() error {
	var err error
	if r.now != nil {
		err = r.now.Close()
		r.now = nil
	}
	if r.whole != nil {
		err = errors.Join(err, r.whole.Close())
	}
	return err
}
