package archive

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// Meta is what meta.xml says.
type Meta struct {
	Metadata   string // path or address of the description of the data set
	Core       Entity
	Extensions []Entity
}

// Entity is the core or an extension: its files and their columns.
type Entity struct {
	RowType  string   // IRI of the class of a row
	Files    []string // paths below the archive
	Encoding string   // as declared; empty is UTF-8
	Comma    string   // between cells
	Quote    string   // around cells; empty for none
	Ends     string   // of lines
	Skip     int      // lines of headings at the beginning of each file
	ID       int      // column of id (core) or coreid (extension); -1 for none
	Fields   []Field
}

// Field is one term and where its values stand.
type Field struct {
	Term       string // IRI
	Index      int    // column, from 0; -1 when every row has Default
	Default    string // of an empty cell, or of all rows
	Vocabulary string
	Delimiter  string // between several values in one cell
}

// Terms are the terms of the fields, in order.
func (e *Entity) Terms() []string {
	terms := make([]string, len(e.Fields))
	for i, f := range e.Fields {
		terms[i] = f.Term
	}
	return terms
}

// The form of meta.xml.
type xmlArchive struct {
	XMLName    xml.Name
	Metadata   string      `xml:"metadata,attr"`
	Core       []xmlEntity `xml:"core"`
	Extensions []xmlEntity `xml:"extension"`
}

type xmlEntity struct {
	RowType  string     `xml:"rowType,attr"`
	Encoding string     `xml:"encoding,attr"`
	Comma    *string    `xml:"fieldsTerminatedBy,attr"`
	Quote    *string    `xml:"fieldsEnclosedBy,attr"`
	Ends     *string    `xml:"linesTerminatedBy,attr"`
	Skip     string     `xml:"ignoreHeaderLines,attr"`
	Files    []string   `xml:"files>location"`
	ID       *xmlIndex  `xml:"id"`
	CoreID   *xmlIndex  `xml:"coreid"`
	Fields   []xmlField `xml:"field"`
}

type xmlIndex struct {
	Index string `xml:"index,attr"`
}

type xmlField struct {
	Index      string `xml:"index,attr"`
	Term       string `xml:"term,attr"`
	Default    string `xml:"default,attr"`
	Vocabulary string `xml:"vocabulary,attr"`
	Delimiter  string `xml:"delimitedBy,attr"`
}

// maxMeta bounds meta.xml, in bytes.
const maxMeta = 4 << 20

// ReadMeta reads meta.xml. An error says what it lacks.
func ReadMeta(r io.Reader) (Meta, error) {
	var x xmlArchive
	if err := xml.NewDecoder(io.LimitReader(r, maxMeta)).Decode(&x); err != nil {
		return Meta{}, fmt.Errorf("read meta.xml: %w", err)
	}
	if x.XMLName.Local != "archive" || len(x.Core) != 1 {
		return Meta{}, errors.New("read meta.xml: an archive with exactly one core is wanted")
	}
	core, err := x.Core[0].entity()
	if err != nil {
		return Meta{}, fmt.Errorf("read meta.xml: core: %w", err)
	}
	m := Meta{Metadata: x.Metadata, Core: core}
	for i, e := range x.Extensions {
		ext, err := e.entity()
		if err != nil {
			return Meta{}, fmt.Errorf("read meta.xml: extension %d: %w", i+1, err)
		}
		m.Extensions = append(m.Extensions, ext)
	}
	return m, nil
}

// entity takes the defaults of the text guide into account.
func (x *xmlEntity) entity() (Entity, error) {
	e := Entity{RowType: x.RowType, Encoding: strings.TrimSpace(x.Encoding), ID: -1,
		Comma: unescape(x.Comma, ","), Quote: unescape(x.Quote, `"`), Ends: unescape(x.Ends, "\n")}
	var err error
	if e.Skip, err = index(x.Skip, 0); err != nil {
		return e, fmt.Errorf("ignoreHeaderLines: %w", err)
	}
	id := x.ID
	if id == nil {
		id = x.CoreID
	}
	if id != nil {
		if e.ID, err = index(id.Index, -1); err != nil {
			return e, fmt.Errorf("id: %w", err)
		}
	}
	for _, f := range x.Files {
		e.Files = append(e.Files, strings.TrimSpace(f))
	}
	for _, f := range x.Fields {
		at, err := index(f.Index, -1)
		if err != nil {
			return e, fmt.Errorf("field %s: %w", f.Term, err)
		}
		e.Fields = append(e.Fields, Field{Term: strings.TrimSpace(f.Term), Index: at, Default: f.Default, Vocabulary: f.Vocabulary, Delimiter: f.Delimiter})
	}
	switch {
	case len(e.Files) == 0:
		return e, errors.New("names no file")
	case len(e.Comma) != 1 || e.Comma == "\n" || e.Comma == "\r" || e.Comma == `"`:
		return e, fmt.Errorf("fieldsTerminatedBy %q is not one plain sign", e.Comma)
	case e.Quote != "" && e.Quote != `"`:
		return e, fmt.Errorf("fieldsEnclosedBy %q is not read: only the double quote mark", e.Quote)
	case e.Ends != "\n" && e.Ends != "\r\n" && e.Ends != "\r":
		return e, fmt.Errorf("linesTerminatedBy %q is not read", e.Ends)
	}
	return e, nil
}

// index reads a number from 0 up; empty gives other.
func index(s string, other int) (int, error) {
	s = strings.TrimSpace(s)
	if s == "" {
		return other, nil
	}
	n, err := strconv.Atoi(s)
	if err != nil || n < 0 || n > 1e6 {
		return 0, fmt.Errorf("%q is no number from 0 up", s)
	}
	return n, nil
}

// unescape reads a sign as meta.xml writes it: \t, \n, \r, \\.
func unescape(s *string, other string) string {
	if s == nil {
		return other
	}
	return strings.NewReplacer(`\\`, `\`, `\t`, "\t", `\n`, "\n", `\r`, "\r").Replace(*s)
}
