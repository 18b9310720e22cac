package archive

import (
	"archive/zip"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// Archive is an open Darwin Core archive.
type Archive struct {
	Meta
	files fs.FS
	close io.Closer
}

// Is reports whether a path is an archive by its look: a folder, or a file
// that begins as zip files do.
func Is(name string) bool {
	info, err := os.Stat(name)
	if err != nil {
		return false
	}
	if info.IsDir() {
		return true
	}
	f, err := os.Open(name)
	if err != nil {
		return false
	}
	defer f.Close()
	var head [4]byte
	_, err = io.ReadFull(f, head[:])
	return err == nil && string(head[:]) == "PK\x03\x04"
}

// Open opens a folder or a zip file with a meta.xml, at its top or in its one
// folder. Close it after use.
func Open(name string) (*Archive, error) {
	a := &Archive{}
	if err := a.open(name); err != nil {
		return nil, err
	}
	if err := a.readMeta(); err != nil {
		a.Close()
		return nil, fmt.Errorf("read %s: %w", filepath.Base(name), err)
	}
	return a, nil
}

// open opens a folder or a zip file.
func (a *Archive) open(name string) error {
	info, err := os.Stat(name)
	if err != nil {
		return err
	}
	if info.IsDir() {
		a.files = os.DirFS(name)
		return nil
	}
	z, err := zip.OpenReader(name)
	if err != nil {
		return fmt.Errorf("read %s: %w", filepath.Base(name), err)
	}
	a.files, a.close = z, z
	return nil
}

// errNoMeta is the error of what has no meta.xml.
var errNoMeta = errors.New("no meta.xml in it: not a Darwin Core archive")

// readMeta finds and reads meta.xml.
func (a *Archive) readMeta() error {
	f, err := a.files.Open("meta.xml")
	if errors.Is(err, fs.ErrNotExist) {
		deeper, _ := fs.Glob(a.files, "*/meta.xml")
		if len(deeper) != 1 {
			return errNoMeta
		}
		if a.files, err = fs.Sub(a.files, path.Dir(deeper[0])); err != nil {
			return err
		}
		f, err = a.files.Open("meta.xml")
	}
	if err != nil {
		return err
	}
	defer f.Close()
	a.Meta, err = ReadMeta(f)
	return err
}

// Close frees the file.
func (a *Archive) Close() error {
	if a.close == nil {
		return nil
	}
	return a.close.Close()
}

// Rows reads the rows of the core or of an extension of this archive, whose
// cells are those of its Fields, in order. Close them after use.
func (a *Archive) Rows(e *Entity) (*Rows, error) {
	for _, name := range e.Files {
		if !fs.ValidPath(name) {
			return nil, fmt.Errorf("read %s: meta.xml may name only files in the archive", name)
		}
	}
	r := &Rows{Heads: e.Terms(), entity: e, id: e.ID}
	names := slices.Clone(e.Files)
	r.next = func() (*lines, error) {
		if len(names) == 0 {
			return nil, io.EOF
		}
		name := names[0]
		names = names[1:]
		f, err := a.files.Open(name)
		if err != nil {
			return nil, err
		}
		l, err := newLines(name, f, format{comma: e.Comma[0], quoted: e.Quote != "", returns: e.Ends == "\r", charset: e.Encoding})
		for range e.Skip {
			if err == nil {
				_, _, err = l.read()
			}
		}
		if errors.Is(err, io.EOF) { // nothing but headings
			err = nil
		}
		return l, err
	}
	return r, nil
}

// OpenRows opens what name holds for reading row by row: the core of an
// archive, a table, or the one table in a folder or zip file without meta.xml,
// which the text guide allows when its headings are terms.
func OpenRows(name string) (*Rows, error) {
	if !Is(name) {
		return openTable(name)
	}
	a, err := Open(name)
	if errors.Is(err, errNoMeta) {
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
	var tables []string
	for _, pattern := range []string{"*.csv", "*.tsv", "*.txt"} {
		found, _ := fs.Glob(a.files, pattern)
		tables = append(tables, found...)
	}
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
