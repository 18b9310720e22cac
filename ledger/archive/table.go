package archive

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
)

// OpenRows opens what name holds for reading row by row: the core of an
// archive, a table, or the one table in a folder or zip file without meta.xml,
// which the text guide allows when its headings are terms.
func OpenRows(name string) (*Rows, error) {
	if !Is(name) {
		return openTable(name)
	}
	a, err := Open(name)
	if errors.Is(err, ErrNoMeta) {
		return openOnlyTable(name, err)
	}
	if err != nil {
		return nil, err
	}
	r, err := a.Rows(&a.Core)
	if err != nil {
		a.Close()
		return nil, err
	}
	r.whole = a
	return r, nil
}

// openOnlyTable opens the one table in a folder or zip file; no is the error
// when there is not exactly one.
func openOnlyTable(name string, no error) (*Rows, error) {
	a := &Archive{}
	if err := a.open(name); err != nil {
		return nil, err
	}
	tables := a.tables()
	if len(tables) != 1 {
		a.Close()
		return nil, no
	}
	f, err := a.files.Open(tables[0])
	if err != nil {
		a.Close()
		return nil, err
	}
	r, err := tableRows(tables[0], f)
	if err != nil {
		a.Close()
		return nil, err
	}
	r.whole = a
	return r, nil
}

// OpenText reads a table from an open stream, as what is piped in.
func OpenText(name string, f io.ReadCloser) (*Rows, error) { return tableRows(name, f) }

// openTable opens a table with headings in its first line.
func openTable(name string) (*Rows, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	return tableRows(filepath.Base(name), f)
}

func tableRows(name string, f io.ReadCloser) (*Rows, error) {
	l, err := newLines(name, f, format{guess: true})
	if err != nil {
		f.Close()
		return nil, err
	}
	heads, _, err := l.read()
	if err != nil {
		l.Close()
		if errors.Is(err, io.EOF) {
			return nil, fmt.Errorf("read %s: no headings in line 1", name)
		}
		return nil, err
	}
	r := &Rows{id: -1, now: l, next: func() (*lines, error) { return nil, io.EOF }}
	for _, h := range heads {
		r.Heads = append(r.Heads, strings.TrimSpace(h))
	}
	return r, nil
}
