package archive

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"golang.org/x/text/encoding/htmlindex"
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
	Comma    string   // between cells, one sign or more
	Quote    string   // around cells; empty for none
	Ends     string   // of lines
	Dates    string   // form of dates, for example DD/MM/YYYY; empty is the standard's YYYY-MM-DD
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

// LocalName is the last part of a term's IRI: locality.
func LocalName(term string) string {
	return term[strings.LastIndexAny(term, "/#")+1:]
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
	Dates    string     `xml:"dateFormat,attr"`
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

// ReadMeta reads meta.xml. An error says what it lacks. Entities that the
// document declares itself are not read: a DOCTYPE is an error.
func ReadMeta(r io.Reader) (Meta, error) {
	var x xmlArchive
	if err := decodeXML(r, &x); err != nil {
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

// decodeXML decodes one bounded document; its faults name their line.
func decodeXML(r io.Reader, into any) error {
	bounded := &io.LimitedReader{R: r, N: maxMeta}
	plain, asIs, err := text(bounded, "")
	if err != nil {
		return err
	}
	d := xml.NewDecoder(plain)
	d.CharsetReader = func(charset string, in io.Reader) (io.Reader, error) {
		if !asIs { // its byte order mark has said it already
			return in, nil
		}
		enc, err := htmlindex.Get(charset)
		if err != nil {
			return nil, fmt.Errorf("encoding %s is not known", charset)
		}
		return enc.NewDecoder().Reader(in), nil
	}
	err = xml.NewTokenDecoder(plainTokens{d}).Decode(into)
	switch line, _ := d.InputPos(); {
	case err == nil:
		return nil
	case bounded.N <= 0:
		return fmt.Errorf("more than %d bytes", maxMeta)
	case errors.Is(err, io.EOF):
		return errors.New("no XML document in it")
	default:
		var syntax *xml.SyntaxError
		if errors.As(err, &syntax) {
			return err // names its line
		}
		return fmt.Errorf("line %d: %w", line, err)
	}
}

// plainTokens are the tokens of a document without a DOCTYPE.
type plainTokens struct{ *xml.Decoder }

func (p plainTokens) Token() (xml.Token, error) {
	t, err := p.Decoder.Token()
	if _, ok := t.(xml.Directive); ok {
		return nil, errors.New("a DOCTYPE with entities of its own is not read; take it out")
	}
	return t, err
}

// entity takes the defaults of the text guide into account.
func (x *xmlEntity) entity() (Entity, error) {
	e := Entity{RowType: strings.TrimSpace(x.RowType), Encoding: strings.TrimSpace(x.Encoding), Dates: strings.TrimSpace(x.Dates), ID: -1,
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
	return e, e.check()
}

// check says what cannot be read as declared.
func (e *Entity) check() error {
	switch {
	case len(e.Files) == 0:
		return errors.New("names no file")
	case e.Comma == "":
		return errors.New("fieldsTerminatedBy is empty: nothing parts the cells")
	case e.Ends == "":
		return errors.New("linesTerminatedBy is empty: nothing parts the rows")
	case strings.ContainsAny(e.Comma, "\r\n"):
		return fmt.Errorf("fieldsTerminatedBy %q has the end of a line in it", e.Comma)
	case e.Quote != "" && strings.ContainsAny(e.Quote, "\r\n"):
		return fmt.Errorf("fieldsEnclosedBy %q has the end of a line in it", e.Quote)
	case e.Quote == e.Comma, e.Ends == e.Comma, e.Ends == e.Quote:
		return fmt.Errorf("fieldsTerminatedBy %q, fieldsEnclosedBy %q and linesTerminatedBy %q are not three different signs", e.Comma, e.Quote, e.Ends)
	}
	return nil
}

// index reads a number from 0 up; empty gives other.
func index(s string, other int) (int, error) {
	s = strings.TrimSpace(s)
	if s == "" {
		return other, nil
	}
	n, err := strconv.Atoi(s)
	if err != nil || n < 0 || n > maxCells {
		return 0, fmt.Errorf("%q is no number from 0 up to %d", s, maxCells)
	}
	return n, nil
}

// maxCells bounds the cells of a row.
const maxCells = 100_000

// unescape reads signs as meta.xml writes them: \t, \n, \r, \\.
func unescape(s *string, other string) string {
	if s == nil {
		return other
	}
	return strings.NewReplacer(`\\`, `\`, `\t`, "\t", `\n`, "\n", `\r`, "\r").Replace(*s)
}
