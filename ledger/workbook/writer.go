package workbook

import (
	"archive/zip"
	"bufio"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"
)

// MaxText is the length of a cell, in UTF-16 units, beyond which spreadsheet
// programs cut it or call the file damaged (common practice, no source).
const MaxText = 32767

// Writer writes a workbook of one sheet, row by row, each cell as text: nothing
// in it is ever taken for a number, a date or a formula. The same rows give the
// same bytes.
type Writer struct {
	zip  *zip.Writer
	out  *bufio.Writer
	line int
}

// oldest is the time of every member: the first that a zip can hold.
var oldest = time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)

// NewWriter begins a workbook whose one sheet has that name: at most 31
// characters, none of : \ / ? * [ ].
func NewWriter(w io.Writer, sheet string) (*Writer, error) {
	if sheet == "" || utf8.RuneCountInString(sheet) > 31 || strings.ContainsAny(sheet, `:\/?*[]`) {
		return nil, fmt.Errorf("name sheet %q: from 1 to 31 characters, none of : \\ / ? * [ ]", sheet)
	}
	x := &Writer{zip: zip.NewWriter(w)}
	parts := [][2]string{
		{"[Content_Types].xml", contentTypes},
		{"_rels/.rels", topRelations},
		{"xl/workbook.xml", fmt.Sprintf(workbookPart, string(escape(nil, sheet)))},
		{"xl/_rels/workbook.xml.rels", workbookRelations},
		{"xl/styles.xml", stylesPart},
	}
	for _, p := range parts {
		m, err := x.member(p[0])
		if err == nil {
			_, err = io.WriteString(m, p[1])
		}
		if err != nil {
			return nil, err
		}
	}
	m, err := x.member("xl/worksheets/sheet1.xml")
	if err != nil {
		return nil, err
	}
	x.out = bufio.NewWriterSize(m, 1<<16)
	_, err = x.out.WriteString(sheetHead)
	return x, err
}

func (x *Writer) member(name string) (io.Writer, error) {
	return x.zip.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate, Modified: oldest})
}

// Write writes a row. The first is that of the headings: it stays in sight and
// is set in bold. Blank cells take no room.
func (x *Writer) Write(cells []string) error {
	if x.line++; x.line > MaxRows {
		return fmt.Errorf("a sheet holds %d rows at most", MaxRows)
	}
	if len(cells) > MaxColumns {
		return fmt.Errorf("row %d: a sheet has %d columns at most, not %d", x.line, MaxColumns, len(cells))
	}
	b := x.out.AvailableBuffer()
	b = append(b, `<row r="`...)
	b = strconv.AppendInt(b, int64(x.line), 10)
	b = append(b, `">`...)
	style := `" s="1" t="inlineStr"><is><t xml:space="preserve">`
	if x.line == 1 {
		style = `" s="2" t="inlineStr"><is><t xml:space="preserve">`
	}
	for i, c := range cells {
		if c == "" {
			continue
		}
		if len(c) > MaxText && units(c) > MaxText {
			return fmt.Errorf("cell %s: %d characters, more than the %d that a spreadsheet's cell can hold", cellName(i, x.line), units(c), MaxText)
		}
		b = append(b, `<c r="`...)
		b = append(b, ColumnName(i)...)
		b = strconv.AppendInt(b, int64(x.line), 10)
		b = append(b, style...)
		b = escape(b, c)
		b = append(b, `</t></is></c>`...)
	}
	b = append(b, "</row>\n"...)
	_, err := x.out.Write(b)
	return err
}

// Close ends the workbook; it does not close what it writes to.
func (x *Writer) Close() error {
	_, err := x.out.WriteString(sheetFoot)
	return errors.Join(err, x.out.Flush(), x.zip.Close())
}

// units counts the UTF-16 units of a text.
func units(s string) int {
	n := 0
	for _, r := range s {
		n++
		if r > 0xFFFF {
			n++
		}
	}
	return n
}

// escape appends words as XML, with what XML cannot hold, and what would be
// taken for an escape, as _xHHHH_. A carriage return is such: XML readers turn it
// into a line feed.
func escape(b []byte, s string) []byte {
	for i, r := range s {
		switch {
		case r == '&':
			b = append(b, "&amp;"...)
		case r == '<':
			b = append(b, "&lt;"...)
		case r == '>':
			b = append(b, "&gt;"...)
		case r == '"':
			b = append(b, "&quot;"...)
		case r < ' ' && r != '\t' && r != '\n', r == 0xFFFE || r == 0xFFFF:
			b = fmt.Appendf(b, "_x%04X_", r)
		case r == '_':
			if _, ok := unitOf(s[i:]); ok && strings.HasPrefix(s[i:], "_x") {
				b = append(b, "_x005F"...)
			}
			b = append(b, '_')
		default:
			b = utf8.AppendRune(b, r)
		}
	}
	return b
}

const (
	xmlHead      = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"
	contentTypes = xmlHead + `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">` +
		`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
		`<Default Extension="xml" ContentType="application/xml"/>` +
		`<Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>` +
		`<Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>` +
		`<Override PartName="/xl/styles.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"/>` +
		`</Types>` + "\n"
	relationsHead = xmlHead + `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">`
	documentKind  = `http://schemas.openxmlformats.org/officeDocument/2006/relationships/`
	topRelations  = relationsHead +
		`<Relationship Id="rId1" Type="` + documentKind + `officeDocument" Target="xl/workbook.xml"/></Relationships>` + "\n"
	workbookRelations = relationsHead +
		`<Relationship Id="rId1" Type="` + documentKind + `worksheet" Target="worksheets/sheet1.xml"/>` +
		`<Relationship Id="rId2" Type="` + documentKind + `styles" Target="styles.xml"/></Relationships>` + "\n"
	mainSpace    = `xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"`
	workbookPart = xmlHead + `<workbook ` + mainSpace + ` xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships">` +
		`<sheets><sheet name="%s" sheetId="1" r:id="rId1"/></sheets></workbook>` + "\n"
	// The styles of cells: 0 as it comes, 1 text (format 49), 2 text in bold.
	stylesPart = xmlHead + `<styleSheet ` + mainSpace + `>` +
		`<fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="11"/><name val="Calibri"/></font></fonts>` +
		`<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>` +
		`<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>` +
		`<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>` +
		`<cellXfs count="3"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>` +
		`<xf numFmtId="49" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/>` +
		`<xf numFmtId="49" fontId="1" fillId="0" borderId="0" xfId="0" applyNumberFormat="1" applyFont="1"/></cellXfs>` +
		`<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>` + "\n"
	sheetHead = xmlHead + `<worksheet ` + mainSpace + `><sheetViews><sheetView workbookViewId="0">` +
		`<pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews>` +
		`<sheetFormatPr defaultColWidth="18" defaultRowHeight="15"/><sheetData>` + "\n"
	sheetFoot = `</sheetData></worksheet>` + "\n"
)
