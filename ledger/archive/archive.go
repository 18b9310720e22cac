package archive

import (
	"crypto/sha256"
	"encoding/hex"
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
	files   fs.FS
	close   io.Closer
	name    string // path
	within  string // folder of meta.xml below it; "." as a rule
	wide    map[*Entity]int
	columns map[*Entity][]string
}

// Open opens a folder or a zip file with a meta.xml, at its top or in its one
// folder. Close it after use. A zip file that reaches outside, or that would
// unpack to far more than it is, is an error; links that lead out of a folder
// are not followed.
func Open(name string) (*Archive, error) {
	a := &Archive{name: name, within: "."}
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
		root, err := os.OpenRoot(name)
		if err != nil {
			return err
		}
		a.files, a.close = root.FS(), root
		return nil
	}
	z, err := openZip(name)
	if err != nil {
		return fmt.Errorf("read %s: %w", filepath.Base(name), err)
	}
	a.files, a.close = z, z
	return nil
}

// ErrNoMeta is the error of what has no meta.xml.
var ErrNoMeta = errors.New("no meta.xml in it: not a Darwin Core archive")

// readMeta finds and reads meta.xml.
func (a *Archive) readMeta() error {
	f, err := a.files.Open("meta.xml")
	if errors.Is(err, fs.ErrNotExist) {
		deeper, _ := fs.Glob(a.files, "*/meta.xml")
		if len(deeper) != 1 {
			return a.noMeta()
		}
		a.within = path.Dir(deeper[0])
		if a.files, err = fs.Sub(a.files, a.within); err != nil {
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

// noMeta says what to do with what is no archive.
func (a *Archive) noMeta() error {
	if tables := a.tables(); len(tables) == 1 {
		return fmt.Errorf("%w. It holds one table, %s: take it out and read that", ErrNoMeta, tables[0])
	}
	return ErrNoMeta
}

// tables are the tables at the top.
func (a *Archive) tables() []string {
	var tables []string
	for _, pattern := range []string{"*.csv", "*.tsv", "*.txt"} {
		found, _ := fs.Glob(a.files, pattern)
		tables = append(tables, found...)
	}
	return tables
}

// Close frees the file.
func (a *Archive) Close() error {
	if a.close == nil {
		return nil
	}
	return a.close.Close()
}

// checkLocation says why a location of meta.xml is not read.
func checkLocation(name string) error {
	switch {
	case strings.Contains(name, "://"), strings.HasPrefix(name, "file:"):
		return fmt.Errorf("read meta.xml: location %s: a file elsewhere is not fetched; put it beside meta.xml and write its name", name)
	case name == "" || !fs.ValidPath(path.Clean(name)) || strings.ContainsAny(name, `\:`):
		return fmt.Errorf("read meta.xml: location %q: meta.xml may name only files in the archive", name)
	}
	return nil
}

// openFile opens a file that meta.xml names.
func (a *Archive) openFile(name string) (fs.File, error) {
	if err := checkLocation(name); err != nil {
		return nil, err
	}
	f, err := a.files.Open(path.Clean(name))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("read meta.xml: location %s: there is no such file in the archive", name)
	}
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", name, err)
	}
	if info, err := f.Stat(); err != nil || info.IsDir() {
		f.Close()
		return nil, fmt.Errorf("read meta.xml: location %s: no plain file", name)
	}
	return f, nil
}

// SHA256 is the checksum of the archive, hexadecimal: of the zip file, or of
// a folder's meta.xml and the files that it names, in that order, each behind
// its name and length.
func (a *Archive) SHA256() (string, error) {
	h := sha256.New()
	if info, err := os.Stat(a.name); err != nil {
		return "", err
	} else if !info.IsDir() {
		f, err := os.Open(a.name)
		if err != nil {
			return "", err
		}
		defer f.Close()
		_, err = io.Copy(h, f)
		return hex.EncodeToString(h.Sum(nil)), err
	}
	names := append([]string{"meta.xml"}, a.Core.Files...)
	for _, e := range a.Extensions {
		names = append(names, e.Files...)
	}
	for _, name := range names {
		f, err := a.openFile(name)
		if err != nil {
			return "", err
		}
		info, err := f.Stat()
		if err == nil {
			fmt.Fprintf(h, "%s %d\n", name, info.Size())
			_, err = io.Copy(h, f)
		}
		f.Close()
		if err != nil {
			return "", fmt.Errorf("read %s: %w", name, err)
		}
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

// Rows reads the rows of the core or of an extension of this archive, whose
// cells are those of its Fields, in order. It takes what is not quite as
// meta.xml says: Stars does not. Close them after use.
func (a *Archive) Rows(e *Entity) (*Rows, error) {
	for _, name := range e.Files {
		if err := checkLocation(name); err != nil {
			return nil, err
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
		l, _, err := a.openLines(e, name, false)
		return l, err
	}
	return r, nil
}
