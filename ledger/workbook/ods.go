package workbook

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

// The parts of content.xml of an ODS that matter (OpenDocument 1.3, part 3):
// document-content > body > spreadsheet > table > rows, in groups or not.
const odsTableDepth = 4

// openODS reads the names of the sheets.
func (b *Book) openODS() error {
	if m := b.files["META-INF/manifest.xml"]; m != nil {
		x, c, err := b.part("META-INF/manifest.xml")
		if err != nil {
			return err
		}
		defer c.Close()
		for {
			kind, err := x.next()
			if err == io.EOF {
				break
			}
			if err != nil {
				return err
			}
			if kind == xmlStart && string(x.name) == "encryption-data" {
				return errPassword
			}
		}
	}
	hidden := map[string]bool{}
	style := ""
	return b.odsTables(func(x *xmlReader) error {
		switch string(x.name) {
		case "style":
			style = string(x.attr("name"))
		case "table-properties":
			hidden[style] = string(x.attr("display")) == "false"
		}
		return nil
	}, func(x *xmlReader) error {
		name, err := x.attrText("name")
		if err != nil {
			return err
		}
		b.Sheets = append(b.Sheets, Sheet{Name: name, Hidden: hidden[string(x.attr("style-name"))]})
		return x.skip()
	})
}

// odsTables calls table at the beginning of each table of the spreadsheet,
// which reads to its end, and before at every other element.
func (b *Book) odsTables(before, table func(*xmlReader) error) error {
	x, c, err := b.part("content.xml")
	if err != nil {
		return err
	}
	defer c.Close()
	depth, sheet := 0, false
	for {
		kind, err := x.next()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
		switch kind {
		case xmlEnd:
			depth--
		case xmlStart:
			depth++
			switch {
			case depth == odsTableDepth && sheet && string(x.name) == "table":
				err = table(x)
				depth--
			case depth < odsTableDepth:
				sheet = string(x.name) == "spreadsheet"
				err = before(x)
			case depth == odsTableDepth && sheet: // forms, validations, tracked changes: tables of other kinds lie in them
				err = x.skip()
				depth--
			default:
				err = before(x)
			}
			if err != nil {
				return err
			}
		}
	}
}

func (b *Book) rowsODS(sheet int, yield func(Row, error) bool) error {
	at := -1
	err := b.odsTables(func(*xmlReader) error { return nil }, func(x *xmlReader) error {
		if at++; at != sheet {
			return x.skip()
		}
		r := &rowReader{x: x}
		if err := r.odsTable(yield); err != nil {
			return err
		}
		return errStopped // the others are not wanted
	})
	if errors.Is(err, errStopped) {
		return nil
	}
	return err
}

// odsTable reads the rows of the table that has just begun.
func (r *rowReader) odsTable(yield func(Row, error) bool) error {
	for depth := 1; depth > 0; {
		kind, err := r.x.next()
		if err != nil {
			return r.x.broken(err)
		}
		if kind == xmlEnd {
			depth--
		}
		if kind != xmlStart {
			continue
		}
		switch string(r.x.name) {
		case "table-row":
			repeated, err := r.odsRow()
			if err != nil {
				return err
			}
			for i := 0; i < repeated && len(r.row.Cells) > 0; i++ {
				row := r.row
				row.Line += i
				if i > 0 {
					row.Cells = slices.Clone(row.Cells)
				}
				if !yield(row, nil) {
					return errStopped
				}
			}
		case "table-header-rows", "table-rows", "table-row-group":
			depth++
		default:
			if err := r.x.skip(); err != nil {
				return err
			}
		}
	}
	return nil
}

// times is the attribute that says how often a row or cell stands; 1 for none.
func (r *rowReader) times(name string) (int, error) {
	v := r.x.attr(name)
	if v == nil {
		return 1, nil
	}
	n, err := strconv.Atoi(string(v))
	if err != nil || n < 1 || n > 2*MaxRows {
		return 0, fmt.Errorf("after row %d: %s is %.20q", r.line, name, v)
	}
	return n, nil
}

// odsRow reads the row that has just begun, which stands as often as it says.
func (r *rowReader) odsRow() (repeated int, err error) {
	repeated, err = r.times("number-rows-repeated")
	if err != nil {
		return 0, err
	}
	seen := string(r.x.attr("visibility"))
	r.begin(r.lastLine+1, seen == "collapse" || seen == "filter")
	r.lastLine = r.line + repeated - 1
	for {
		kind, err := r.x.next()
		if err != nil {
			return 0, r.x.broken(err)
		}
		if kind == xmlEnd { // of the row: cells read to their own end
			break
		}
		if kind != xmlStart {
			continue
		}
		switch string(r.x.name) {
		case "table-cell":
			err = r.odsCell(false)
		case "covered-table-cell":
			err = r.odsCell(true)
		default:
			err = r.x.skip()
		}
		if err != nil {
			return 0, err
		}
	}
	r.end()
	if r.bytes > maxRow {
		return 0, fmt.Errorf("row %d: more than %d bytes", r.line, maxRow)
	}
	if len(r.row.Cells) > 0 && r.lastLine > MaxRows {
		return 0, fmt.Errorf("more than %d rows", MaxRows)
	}
	return repeated, nil
}

// odsCell reads the cell that has just begun. Words covered by a merged cell
// are told, since nobody sees them.
func (r *rowReader) odsCell(covered bool) error {
	x := r.x
	repeated, err := r.times("number-columns-repeated")
	if err != nil {
		return err
	}
	spanned, err := r.times("number-rows-spanned")
	if err != nil {
		return err
	}
	kind := string(x.attr("value-type"))
	value := ""
	for _, name := range []string{"value", "date-value", "boolean-value", "string-value"} {
		if x.attr(name) != nil {
			if value, err = x.attrText(name); err != nil {
				return err
			}
		}
	}
	formula, err := x.attrText("formula")
	if err != nil {
		return err
	}
	words, err := x.odsText()
	if err != nil {
		return err
	}
	words = odsWords(kind, value, words)
	first := r.col + 1
	r.col += repeated
	if words == "" {
		return nil
	}
	if r.col >= MaxColumns {
		return fmt.Errorf("row %d: more than %d columns", r.line, MaxColumns)
	}
	for c := first; c <= r.col; c++ {
		if covered {
			r.noteAt(c, Merged, fmt.Sprintf("%q lies beneath a merged cell and is not seen", shorten(words)))
			continue
		}
		if formula != "" {
			r.noteAt(c, Formula, "the stored result of the formula "+shorten(formula))
		}
		if strings.HasPrefix(words, "#") && formula != "" || strings.HasPrefix(words, "Err:") {
			r.noteAt(c, Fault, "an error of the spreadsheet, "+words)
		}
		r.put(c, words)
		if spanned > 1 {
			r.down = append(r.down, merge{c, r.line, r.line + spanned - 1})
		}
	}
	return nil
}

// odsWords are the words of a cell: what is shown, where it tells the value
// without loss, otherwise the value.
func odsWords(kind, value, shown string) string {
	switch kind {
	case "float", "percentage", "currency":
		return odsNumber(kind, value, shown)
	case "date":
		date := strings.TrimSuffix(value, "T00:00:00")
		if len(shown) == 4 && strings.HasPrefix(date, shown+"-") { // shown as its year alone
			return shown
		}
		return date
	case "boolean":
		return strings.ToUpper(value)
	case "string":
		if shown == "" {
			return value
		}
	}
	return shown
}

// odsNumber is what is shown of a number when it has the number's own figures,
// zeros around them and words beside them; otherwise the number itself.
func odsNumber(kind, value, shown string) string {
	v, err := strconv.ParseFloat(value, 64)
	if err != nil {
		return shown
	}
	if kind == "percentage" {
		v *= 100
	}
	i := strings.IndexAny(shown, "0123456789")
	j := strings.LastIndexAny(shown, "0123456789")
	if i >= 0 {
		if i > 0 && shown[i-1] == '-' {
			i--
		}
		if got, err := strconv.ParseFloat(shown[i:j+1], 64); err == nil && figures(got) == figures(v) {
			return shown
		}
	}
	out := figures(v)
	if kind == "percentage" {
		out += "%"
	}
	return out
}

// odsText reads the paragraphs of the cell that has just begun, to its end:
// white space as OpenDocument counts it, without comments and drawings.
func (x *xmlReader) odsText() (string, error) {
	var b strings.Builder
	paragraphs, inside, space := 0, 0, false
	for depth := 1; depth > 0; {
		kind, err := x.next()
		if err != nil {
			return "", x.broken(err)
		}
		switch kind {
		case xmlText:
			if inside > 0 {
				space = collapse(&b, x.text, space)
			}
		case xmlEnd:
			if depth--; depth < inside {
				inside = 0
			}
		case xmlStart:
			depth++
			switch name := string(x.name); {
			case name == "p" || name == "h":
				if paragraphs++; paragraphs > 1 {
					b.WriteByte('\n')
				}
				inside, space = depth, true
			case inside > 0 && name == "s":
				n, _ := strconv.Atoi(string(x.attr("c")))
				b.WriteString(strings.Repeat(" ", min(max(n, 1), 1000)))
				space = false
			case inside > 0 && name == "tab":
				b.WriteByte('\t')
			case inside > 0 && name == "line-break":
				b.WriteByte('\n')
			case inside > 0 && (name == "span" || name == "a" || strings.HasPrefix(name, "ruby")):
			default: // annotation, note, frame
				err = x.skip()
				depth--
			}
			if err != nil {
				return "", err
			}
		}
		if b.Len() > MaxCell {
			return "", x.errorf("has a cell of more than %d bytes", MaxCell)
		}
	}
	return strings.TrimRight(b.String(), "\n"), nil
}

// collapse writes text with each run of white space as one blank; space says
// whether a blank or nothing stands before it.
func collapse(b *strings.Builder, text []byte, space bool) bool {
	for _, c := range text {
		if c == ' ' || c == '\t' || c == '\n' || c == '\r' {
			if !space {
				b.WriteByte(' ')
			}
			space = true
			continue
		}
		b.WriteByte(c)
		space = false
	}
	return space
}
